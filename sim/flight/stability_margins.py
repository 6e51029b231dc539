"""Limits of the centre of gravity that follow from physics: neutral point, manoeuvre point, foremost trimmed."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from sim.aerodynamics.derivative import by_source
from sim.atmosphere import density_ratio
from sim.errors import refuse
from sim.flight.forward_limits import FullUpElevator, limit_in_glide, limit_in_level_flight

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

    from sim.aerodynamics.derivative import Derivative
    from sim.flight.control_travel import Travel
    from sim.flight.forward_limits import TrimmedLimit
    from sim.flight.motion import Airplane

BANDED = ("lift_alpha", "lift_q", "lift_elevator", "pitch_0", "pitch_alpha", "pitch_q", "pitch_elevator")
"""Derivatives that the limits depend on."""
FARTHEST_AHEAD_CHORDS = 1.0
"""A foremost centre of gravity more than this ahead of the present one limits nothing."""


@dataclass(frozen=True, slots=True)
class StabilityMargins:
    """Margins of longitudinal stability and the limits of the centre of gravity that follow from them, stick fixed.

    Every error is one standard deviation. Distances are from the present centre of gravity, aft positive.

    Attributes
    ----------
    chord_m : float
        Chord that the margins are shares of: that of the derivatives. [m]
    static_margin, static_margin_error : float
        −Cmα/CLα, a share of the chord, positive where the airplane is statically stable.
    neutral_point_m, neutral_point_error_m : float
        [m]
    maneuver_margin, maneuver_margin_error : float
        Share of the chord, positive where more load factor takes more up elevator.
    maneuver_point_m, maneuver_point_error_m : float
        [m]
    relative_density : float
        μ, mass over that of the air in ½ S c.
    forward_limit_by_elevator_m, forward_limit_by_elevator_error_m : float or None
        Foremost centre of gravity at which full up elevator holds the stall's angle of attack in a glide without
        thrust; None where it lies more than a chord ahead. [m]
    flare_m_s : float
        Airspeed of that glide. [m/s]
    forward_limit_by_trim_m, forward_limit_by_trim_error_m : float or None
        Foremost centre of gravity at which full up elevator trims the slowest level flight; None likewise, and where
        full power sustains no level flight. [m]
    slowest_level_m_s : float or None
        Airspeed of that level flight. [m/s]
    slowest_level_by : str
        What keeps it from being slower: ``lift`` or ``power``.
    """

    chord_m: float
    static_margin: float
    static_margin_error: float
    neutral_point_m: float
    neutral_point_error_m: float
    maneuver_margin: float
    maneuver_margin_error: float
    maneuver_point_m: float
    maneuver_point_error_m: float
    relative_density: float
    forward_limit_by_elevator_m: float | None
    forward_limit_by_elevator_error_m: float | None
    flare_m_s: float
    forward_limit_by_trim_m: float | None
    forward_limit_by_trim_error_m: float | None
    slowest_level_m_s: float | None
    slowest_level_by: str


def stability_margins(
    airplane: Airplane,
    derivatives: Mapping[str, Derivative],
    travel: Travel,
    *,
    altitude_m: float,
    full_thrust_n: Callable[[float], float],
) -> StabilityMargins:
    """Return the margins of an airplane and the limits of its centre of gravity, with the errors of both.

    Parameters
    ----------
    airplane : Airplane
        About its present centre of gravity, with aerodynamics.
    derivatives : Mapping of str to Derivative
        Its derivatives with their bands.
    travel : Travel
        Of the controls.
    altitude_m : float
        [m]
    full_thrust_n : callable
        Airspeed along the shaft [m/s] -> greatest thrust [N], as from `sim.propulsion.thrust.thrust_n`.

    Raises
    ------
    InputError
        When the lift does not grow with the angle of attack.

    Notes
    -----
    Linear lift and moment; no slipstream, no ground effect, shaft at constant speed and thrust line through the centre
    of gravity for neutral and manoeuvre point. The errors come from the bands alone, taken as independent and small,
    and are 0 where every derivative is given. In an estimate each part of CLα errs with its part of Cmα: counted
    so, the error of the static margin is 1 to 2 % of itself less for a biplane and a triplane tried.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, sections 2.3, 3.1 and 3.7; Perkins & Hage, Airplane Performance,
    Stability and Control, 1949, chapters 5 and 6 (numbers of both from memory).
    """
    if not airplane.derivatives.lift_alpha > 0.0:
        slope = airplane.derivatives.lift_alpha
        refuse("derivatives.lift_alpha", f'must be above 0 for a neutral point, got "{slope:g}"')
    chord, density = airplane.polar.chord_m, airplane.sea_level_density_kg_m3 * float(density_ratio(altitude_m))

    def error(value: Callable[[Airplane], float]) -> float:
        return standard_deviation(value, airplane, by_source(derivatives, BANDED))

    def glide(plane: Airplane) -> TrimmedLimit:
        return limit_in_glide(FullUpElevator(plane, travel.elevator_up_rad, density))

    def level(plane: Airplane) -> TrimmedLimit:
        return limit_in_level_flight(FullUpElevator(plane, travel.elevator_up_rad, density), full_thrust_n)

    margin, margin_error = static_margin(airplane), error(static_margin)
    manoeuvre = maneuver_margin(airplane, density)
    manoeuvre_error = error(lambda plane: maneuver_margin(plane, density))
    by_elevator = _limiting(glide(airplane).limit_m, error(lambda plane: glide(plane).limit_m), chord)
    slowest = level(airplane)
    by_trim = _limiting(slowest.limit_m, error(lambda plane: level(plane).limit_m), chord)
    return StabilityMargins(
        chord_m=chord,
        static_margin=margin,
        static_margin_error=margin_error,
        neutral_point_m=chord * margin,
        neutral_point_error_m=chord * margin_error,
        maneuver_margin=manoeuvre,
        maneuver_margin_error=manoeuvre_error,
        maneuver_point_m=chord * manoeuvre,
        maneuver_point_error_m=chord * manoeuvre_error,
        relative_density=relative_density(airplane, density),
        forward_limit_by_elevator_m=by_elevator[0],
        forward_limit_by_elevator_error_m=by_elevator[1],
        flare_m_s=glide(airplane).limit_speed_m_s,
        forward_limit_by_trim_m=by_trim[0],
        forward_limit_by_trim_error_m=by_trim[1],
        slowest_level_m_s=None if math.isnan(slowest.limit_speed_m_s) else slowest.limit_speed_m_s,
        slowest_level_by=slowest.set_by,
    )


def static_margin(airplane: Airplane) -> float:
    """Return −Cmα/CLα: the neutral point aft of the centre of gravity, a share of the chord.

    Notes
    -----
    The normal force is taken as the lift: with CD beside CLα the margin is 1 to 3 % of itself less in cruise.

    Examples
    --------
    >>> from sim.aerodynamics.forces import Derivatives
    >>> from sim.flight.motion import Airplane, Body
    >>> plane = Airplane(Body(600.0, 700.0, 1000.0, 1500.0), derivatives=Derivatives(lift_alpha=4.0, pitch_alpha=-0.5))
    >>> static_margin(plane)
    0.125
    """
    return -airplane.derivatives.pitch_alpha / airplane.derivatives.lift_alpha


def relative_density(airplane: Airplane, density_kg_m3: float) -> float:
    """Return μ = 2 m/(ρ S c).

    Parameters
    ----------
    airplane : Airplane
        With a wing.
    density_kg_m3 : float
        Air density, above 0. [kg/m³]
    """
    polar = airplane.polar
    return 2.0 * airplane.body.mass_kg / (density_kg_m3 * polar.area_m2 * polar.chord_m)


def maneuver_margin(airplane: Airplane, density_kg_m3: float) -> float:
    """Return Kn (1 − CLq/2μ) − Cmq/2μ: the manoeuvre point aft of the centre of gravity, a share of the chord.

    Parameters
    ----------
    airplane : Airplane
        About its present centre of gravity.
    density_kg_m3 : float
        Air density, above 0. [kg/m³]

    Notes
    -----
    In a steady pull-up with load factor n, q c/2V = (n − 1) CW/2μ. Lift and moment without a change of elevator ask for
    Cmα (1 − CLq/2μ) + CLα Cmq/2μ = 0. Cmq and CLq change with the centre of gravity as well, yet with
    `sim.flight.cg_shift` the squares cancel, so that the centre of gravity at which this holds is exactly the one
    returned: Etkin & Reid's −Cmq/(2μ − CLq) behind the neutral point, with their derivatives about the manoeuvre point.

    References
    ----------
    USAF Test Pilot School, Flying Qualities, volume II, 1990 (AD-A319977), chapter 6: the manoeuvre point is where the
    elevator does not change with the load factor. Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, section 3.1, elevator
    angle per g (from memory).
    """
    d, twice = airplane.derivatives, 2.0 * relative_density(airplane, density_kg_m3)
    return static_margin(airplane) * (1.0 - d.lift_q / twice) - d.pitch_q / twice


def standard_deviation(
    value: Callable[[Airplane], float], airplane: Airplane, errors: Iterable[Mapping[str, float]]
) -> float:
    """Return the standard deviation of a function of an airplane's derivatives.

    Parameters
    ----------
    value : callable
        Airplane -> number.
    airplane : Airplane
        About which the derivatives vary.
    errors : iterable of Mapping of str to float
        Changes of derivatives by name that go together, one standard deviation each; independent of each other.

    Notes
    -----
    Root of the squares of half the change from minus to plus one deviation.
    """

    def changed(error: Mapping[str, float], sense: float) -> float:
        derivatives = airplane.derivatives
        values = {name: getattr(derivatives, name) + sense * by for name, by in error.items()}
        return value(replace(airplane, derivatives=replace(derivatives, **values)))

    return math.hypot(*(0.5 * (changed(error, 1.0) - changed(error, -1.0)) for error in errors))


def _limiting(limit_m: float, error_m: float, chord_m: float) -> tuple[float | None, float | None]:
    """Return a limit and its error, neither where there is none or it is too far ahead to limit anything.

    A limit without an error is one of a flight that is no longer there a standard deviation away.
    """
    if not limit_m >= -FARTHEST_AHEAD_CHORDS * chord_m:
        return None, None
    return limit_m, None if math.isnan(error_m) else error_m
