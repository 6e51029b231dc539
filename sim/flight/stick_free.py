"""Stability with the stick free, and the stick force for a load factor: the elevator floats where its hinge lets it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, NamedTuple

from sim.aerodynamics.derivative import by_source
from sim.aerodynamics.hinge_moments import ANGLE_ERROR, DEFLECTION_ERROR, HORN_ERROR
from sim.aerodynamics.lattice_airplane import TAIL_PRESSURE
from sim.flight.stability_margins import (
    BANDED,
    maneuver_margin,
    relative_density,
    standard_deviation,
    static_margin,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.hinge_moments import HingeLaw
    from sim.flight.control_system import ControlSystem
    from sim.flight.motion import Airplane
    from sim.numerics.number import Number

HINGE_ERRORS = {
    "plain_angle_per_rad": ANGLE_ERROR,
    "plain_deflection_per_rad": DEFLECTION_ERROR,
    "horn_per_rad": HORN_ERROR,
}
"""Standard deviations over themselves of the elevator's hinge moments, independent of each other."""


class HingeSlopes(NamedTuple):
    """Hinge moment of the elevator over dynamic pressure, for a unit each. [m³/rad].

    Of the airplane's angle of attack, of its pitch rate q c/2V, and of elevator.
    """

    alpha_m3: Number
    pitch_rate_m3: Number
    elevator_m3: Number


@dataclass(frozen=True, slots=True)
class StickFree:
    """Points of the centre of gravity with the stick free; errors are one standard deviation, distances aft positive.

    Attributes
    ----------
    neutral_point_free_m, neutral_point_free_error_m : float or None
        From the present centre of gravity; None where the free elevator does not centre, being overbalanced. [m]
    maneuver_point_free_m, maneuver_point_free_error_m : float or None
        Likewise. [m]
    """

    neutral_point_free_m: float | None
    neutral_point_free_error_m: float | None
    maneuver_point_free_m: float | None
    maneuver_point_free_error_m: float | None


def hinge_slopes(airplane: Airplane, law: HingeLaw) -> HingeSlopes:
    """Return what the elevator's hinge moment hangs on, power off.

    Parameters
    ----------
    airplane : Airplane
        With the lift of its tailplane, `sim.aerodynamics.slipstream.Slipstream`.
    law : HingeLaw
        Of its elevator.
    """
    slip = airplane.slipstream
    rate_m2 = slip.tail_rate_m2 * slip.tail_arm_m * 2.0 / airplane.polar.chord_m
    return HingeSlopes(
        law.by_lift_m * slip.tail_angle_m2,
        law.by_lift_m * rate_m2,
        law.by_lift_m * slip.elevator_m2 + law.by_deflection_m3 * TAIL_PRESSURE,
    )


def with_free_elevator(airplane: Airplane, law: HingeLaw) -> Airplane:
    """Return the airplane whose elevator floats without inertia or friction: its derivatives have that in them.

    Parameters
    ----------
    airplane : Airplane
        Of `hinge_slopes`; its slipstream stays that of a fixed elevator.
    law : HingeLaw
        Of an elevator that centres itself.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, section 2.6; USAF Test Pilot School, Flying Qualities, volume II,
    1990 (AD-A319977), chapter 6, free elevator factor.
    """
    slopes, d = hinge_slopes(airplane, law), airplane.derivatives
    alpha, rate = (-slope / slopes.elevator_m3 for slope in (slopes.alpha_m3, slopes.pitch_rate_m3))
    free = replace(
        d,
        lift_alpha=d.lift_alpha + d.lift_elevator * alpha,
        lift_q=d.lift_q + d.lift_elevator * rate,
        pitch_alpha=d.pitch_alpha + d.pitch_elevator * alpha,
        pitch_q=d.pitch_q + d.pitch_elevator * rate,
    )
    return replace(airplane, derivatives=free)


def stick_free(
    airplane: Airplane, derivatives: Mapping[str, Derivative], law: HingeLaw, density_kg_m3: float
) -> StickFree:
    """Return neutral point and manoeuvre point with the stick free, and their errors.

    Parameters
    ----------
    airplane : Airplane
        About its present centre of gravity.
    derivatives : Mapping of str to Derivative
        With their bands.
    law : HingeLaw
        Of its elevator.
    density_kg_m3 : float
        [kg/m³]

    Notes
    -----
    As `sim.flight.stability_margins`, linear and power off. Without the weight of the elevator, which at one speed
    shifts no point, but in a pull-up makes the stick heavier: `stick_force_per_g_n` has it. Errors are those of the
    derivatives and of the slopes of the hinge moment.
    """

    def neutral(plane: Airplane, hinge: HingeLaw) -> float:
        return plane.polar.chord_m * static_margin(with_free_elevator(plane, hinge))

    def maneuver(plane: Airplane, hinge: HingeLaw) -> float:
        return plane.polar.chord_m * maneuver_margin(with_free_elevator(plane, hinge), density_kg_m3)

    if not hinge_slopes(airplane, law).elevator_m3 < 0.0:
        return StickFree(None, None, None, None)
    found: list[float] = []
    for point in (neutral, maneuver):
        found += [point(airplane, law), _error(point, airplane, derivatives, law)]
    return StickFree(*found)


def _error(
    point: Callable[[Airplane, HingeLaw], float],
    airplane: Airplane,
    derivatives: Mapping[str, Derivative],
    law: HingeLaw,
) -> float:
    by_airplane = standard_deviation(lambda plane: point(plane, law), airplane, by_source(derivatives, BANDED))
    by_hinge = (
        0.5 * (point(airplane, _erring(law, name, error)) - point(airplane, _erring(law, name, -error)))
        for name, error in HINGE_ERRORS.items()
    )
    return math.hypot(by_airplane, *by_hinge)


def _erring(law: HingeLaw, name: str, error: float) -> HingeLaw:
    return replace(law, **{name: getattr(law, name) * (1.0 + error)})


def stick_force_per_g_n(airplane: Airplane, system: ControlSystem, density_kg_m3: float) -> Number:
    """Return the pull at the grip for one more unit of load factor at a steady speed, power off [N].

    Parameters
    ----------
    airplane : Airplane
        Or many as one, and `system` with as many.
    system : ControlSystem
        Between surfaces and pilot.
    density_kg_m3 : float
        Air density. [kg/m³]

    Notes
    -----
    Lift and moment of a pull-up, CLα α + CLq q̂ + CLδ δ = n CW and Cmα α + Cmq q̂ + Cmδ δ + Cm0 = 0, with
    q̂ = (n − 1) CW/2μ, give what angle of attack and elevator change with n, and these the hinge moment; the weight of
    the elevator adds its moment at rest. All of it is the same at every speed, for CW goes with the inverse of the
    dynamic pressure.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, sections 3.1 and 3.3 (from memory).
    """
    d, slopes = airplane.derivatives, hinge_slopes(airplane, system.elevator)
    load = airplane.body.mass_kg * airplane.gravity_m_s2 / airplane.polar.area_m2
    rate = load / (2.0 * relative_density(airplane, density_kg_m3))
    lift, pitch = load - d.lift_q * rate, -d.pitch_q * rate
    whole = d.lift_alpha * d.pitch_elevator - d.lift_elevator * d.pitch_alpha
    alpha = (lift * d.pitch_elevator - d.lift_elevator * pitch) / whole
    elevator = (d.lift_alpha * pitch - d.pitch_alpha * lift) / whole
    hinge = slopes.alpha_m3 * alpha + slopes.pitch_rate_m3 * rate + slopes.elevator_m3 * elevator
    return system.elevator_gearing_per_m * (hinge + system.elevator_weight_n_m)
