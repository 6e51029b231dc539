"""Propellers by blade elements: coefficients against advance ratio, and each powerplant's propeller on its engine."""

from __future__ import annotations

import math
from contextlib import suppress
from typing import TYPE_CHECKING

from sim.atmosphere import air
from sim.errors import Fault, InputError, WhirlgateError, whole_faults
from sim.model.propeller_blade import measured_blade
from sim.propulsion.blade_geometry import pitched_blade
from sim.propulsion.blade_section import MOST_MACH
from sim.propulsion.engine_propeller import drag_power_w
from sim.propulsion.propeller_curve import figure_of_merit, propeller_points
from sim.studies.propeller_answer import MatchedPropeller, PropellerAnswer, PropellersAnswer
from sim.studies.propeller_points import closer, curve, matched_points, usual_speeds_m_s
from sim.studies.propeller_suitability import suitability
from sim.studies.speeds import speeds
from sim.units.convert import rpm

if TYPE_CHECKING:
    import os
    from collections.abc import Iterator, Mapping, Sequence

    from sim.atmosphere import Air
    from sim.model.model import Model
    from sim.model.powerplant import Powerplant
    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.propeller_curve import PropellerPoint
    from sim.studies.propeller_answer import Suitability

ADVANCE = tuple(round(0.1 * step, 1) for step in range(13))
"""Advance ratios where none are asked for."""
BLADES = 2
"""Number of blades where it is not given."""
MOST_TURN_DEG = 60.0
GEOMETRY = ("diameter_m", "pitch_m", "chord_m")
DESCRIBING = ("blade", *GEOMETRY, "blades")
"""Parameters that describe a propeller without a scenario."""
ON_ENGINES = ("speeds_m_s", "design_speed_m_s", "altitude_m")
"""Parameters that ask about the engines of a scenario."""
_WAYS = "give `blade`, or `diameter_m` with `pitch_m` and `chord_m`"


def propeller(
    model: Model | None,
    *,
    blade: str | os.PathLike[str] | None = None,
    diameter_m: float | None = None,
    pitch_m: float | None = None,
    chord_m: float | None = None,
    blades: float | None = None,
    turn_deg: float = 0.0,
    advance: Sequence[float] = ADVANCE,
    speeds_m_s: Sequence[float] = (),
    design_speed_m_s: float | None = None,
    altitude_m: float | None = None,
) -> PropellerAnswer | PropellersAnswer:
    """Return the coefficients of a propeller, or with an airplane each powerplant's propeller on its engine.

    Parameters
    ----------
    model : Model
        The airplane; None for a propeller that the other parameters describe.
    blade : str, path or None
        CSV file with radius over tip radius, chord over diameter and angle [°] of the blade.
    diameter_m, pitch_m, chord_m : float or None
        Or diameter, geometric pitch and largest chord of a blade of constant pitch. [m]
    blades : int or None
        Number of blades; None for 2.
    turn_deg : float
        Angle by which every blade is turned as a whole, coarser positive. [°]
    advance : sequence of float
        Advance ratios V/nD, each at least 0.
    speeds_m_s : sequence of float
        With an airplane: airspeeds; empty for steps of 5 m/s up to that of no slip. [m/s]
    design_speed_m_s : float or None
        With an airplane: airspeed at which a propeller is to absorb full power at full speed, at least 0; None for the
        top speed with each powerplant, or the speed of the scenario where there is none. [m/s]
    altitude_m : float or None
        With an airplane: altitude; None for that of the scenario. [m]

    Raises
    ------
    InputError
        With every fault of the parameters, or of the file, at once.

    Notes
    -----
    `speeds` and flights take the same blades at the tip Mach number of cruise, through the closed form of
    `sim.propulsion.propeller_fit`. Where a scenario gives the best efficiency of a propeller, its thrust is scaled here
    as there.

    Examples
    --------
    >>> found = propeller(None, diameter_m=1.88, pitch_m=1.27, chord_m=0.127, advance=(0.0, 0.5))
    >>> [round(point.ct, 3) for point in found.points]
    [0.096, 0.054]
    """
    given: dict[str, object] = dict(zip(DESCRIBING, (blade, diameter_m, pitch_m, chord_m, blades), strict=True))
    given |= zip(ON_ENGINES, (speeds_m_s or None, design_speed_m_s, altitude_m), strict=True)
    faults = [*propeller_faults(given, alone=model is None), *_limits(turn_deg, advance, speeds_m_s)]
    faults += _design_faults(design_speed_m_s)
    if faults:
        raise InputError(faults)
    if model is None:
        count = int(BLADES if blades is None else blades)
        own = measured_blade(blade, count) if blade is not None else _pitched(count, diameter_m, pitch_m, chord_m)
        return _coefficients(own.turned(math.radians(turn_deg)), turn_deg, advance)
    height_m = model.altitude_m if altitude_m is None else altitude_m
    around = air(height_m)
    turned = {name: one.propeller.blade.turned(math.radians(turn_deg)) for name, one in model.powerplants.items()}
    design = _design_speeds_m_s(model, design_speed_m_s, height_m)
    each = {
        name: _matched(
            one,
            turned[name],
            advance=advance,
            speeds_m_s=speeds_m_s,
            around=around,
            suits=suitability(
                one,
                turned[name],
                speed_m_s=design[name],
                around=around,
                clearance=model.propeller_clearance(name),
            ),
        )
        for name, one in model.powerplants.items()
    }
    remarks = model.remark_texts("propeller")
    kinds = model.engine_kinds
    return PropellersAnswer(model.title, height_m, turn_deg, remarks=remarks, powerplants=each, engine_kinds=kinds)


def propeller_faults(given: Mapping[str, object], *, alone: bool) -> Iterator[Fault]:
    """Yield what is wrong with the parameters that describe a propeller, taken together.

    Parameters
    ----------
    given : mapping
        The parameters of `DESCRIBING` and `ON_ENGINES` by name; None for one that is not given.
    alone : bool
        Whether no scenario is named.
    """
    present = [name for name in DESCRIBING if given.get(name) is not None]
    blades = given.get("blades")
    yield from whole_faults({"blades": blades if isinstance(blades, float | int) else None})
    if not alone:
        for name in present:
            yield Fault(name, "cannot be used with a scenario, whose propellers are its own; set its keys instead")
    elif "blade" in present:
        for name in (name for name in GEOMETRY if name in present):
            yield Fault(name, f"cannot be used with `blade`; {_WAYS}")
    else:
        for name in (name for name in GEOMETRY if name not in present):
            yield Fault(name, f"is missing; {_WAYS}")
    if alone:
        for name in (name for name in ON_ENGINES if given.get(name) is not None):
            yield Fault(name, "needs the engine of a scenario; leave it out, or name a scenario and no blade")


def _limits(turn_deg: float, advance: Sequence[float], speeds_m_s: Sequence[float]) -> Iterator[Fault]:
    if not abs(turn_deg) <= MOST_TURN_DEG:
        yield Fault("turn_deg", f'must be {-MOST_TURN_DEG:g} to {MOST_TURN_DEG:g}, got "{turn_deg:g}"')
    for name, row in (("advance", advance), ("speeds_m_s", speeds_m_s)):
        for number in row:
            if not 0.0 <= number < math.inf:
                yield Fault(name, f'must be at least 0, got "{number:g}"')
    if not advance:
        yield Fault("advance", "is missing; give at least one advance ratio")


def _design_faults(design_speed_m_s: float | None) -> Iterator[Fault]:
    if design_speed_m_s is not None and not 0.0 <= design_speed_m_s < math.inf:
        yield Fault("design_speed_m_s", f'must be at least 0, got "{design_speed_m_s:g}"')


def _design_speeds_m_s(model: Model, asked_m_s: float | None, altitude_m: float) -> dict[str, float]:
    """Return the airspeed asked for, or the top speed, for each powerplant; the scenario's where it cannot be had."""
    top: dict[str, float] = {}
    if asked_m_s is None:
        with suppress(WhirlgateError):  # too weak for level flight, or a scenario without what flight needs
            top = {name: found.top_m_s for name, found in speeds(model, altitude_m=altitude_m).powerplants.items()}
    return {name: top.get(name, model.speed_m_s if asked_m_s is None else asked_m_s) for name in model.powerplants}


def _pitched(blades: int, diameter_m: float | None, pitch_m: float | None, chord_m: float | None) -> Blade:
    size = diameter_m or math.nan
    return pitched_blade(blades, (pitch_m or 0.0) / size, (chord_m or 0.0) / size)


def _coefficients(blade: Blade, turn_deg: float, advance: Sequence[float]) -> PropellerAnswer:
    points, (static,) = propeller_points(blade, advance), propeller_points(blade, (0.0,))
    best = max((point for point in points if point.efficiency), key=lambda point: point.efficiency or 0.0, default=None)
    return PropellerAnswer(
        blades=blade.blades,
        turn_deg=turn_deg,
        figure_of_merit=figure_of_merit(static.ct, static.cp),
        best_efficiency=best.efficiency if best else None,
        best_advance_ratio=best.advance_ratio if best else None,
        points=points,
        curve=propeller_points(blade, closer(advance)),
    )


def _matched(
    powerplant: Powerplant,
    blade: Blade,
    *,
    advance: Sequence[float],
    speeds_m_s: Sequence[float],
    around: Air,
    suits: Suitability,
) -> MatchedPropeller:
    """Return the propeller of a powerplant at rest and at each airspeed."""
    speeds = tuple(speeds_m_s) or usual_speeds_m_s(powerplant)
    (static, *points), at_rest = matched_points(powerplant, blade, (0.0, *speeds), around)
    driving = [point.tip_mach for point in (static, *points) if point.power_w > 0.0]
    full = powerplant.full_speed_rad_s

    def coefficients_at(ratios: Sequence[float]) -> tuple[PropellerPoint, ...]:
        share = powerplant.thrust_share
        return propeller_points(blade, ratios, tip_mach=static.tip_mach, thrust_share=share)

    return MatchedPropeller(
        blades=blade.blades,
        diameter_m=powerplant.propeller.diameter_m,
        pitch_m=powerplant.propeller.pitch_m,
        static_thrust_n=static.thrust_n,
        static_rpm=static.rpm,
        figure_of_merit=figure_of_merit(*at_rest),
        thrust_share=powerplant.thrust_share,
        full_rpm=rpm(powerplant.propeller_speed_rad_s(full)),
        closed_power_w=drag_power_w(powerplant.engine_law, full, around.density_kg_m3),
        remarks=tuple(_remarks(max(driving))),
        points=tuple(points),
        coefficients=coefficients_at(advance),
        suitability=suits,
        curve=curve(powerplant, blade, speeds, around),
        coefficient_curve=coefficients_at(closer(advance)),
    )


def _remarks(tip_mach: float) -> Iterator[str]:
    if tip_mach > MOST_MACH:
        yield (
            f"the tips reach Mach {tip_mach:.2f}: beyond {MOST_MACH:g} the drag rise is not counted, so that real "
            f"thrust is lower and power higher"
        )
