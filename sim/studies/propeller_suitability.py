"""Whether the propeller of a powerplant suits its engine at an airspeed, and which diameter and pitch would."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.flight.validity import MOST_TIP_MACH
from sim.model.plausibility import limits
from sim.propulsion.blade_element_match import matched
from sim.propulsion.propeller_choice import Shaft, full_power_speed_m_s, suiting
from sim.studies.propeller_answer import Suitability
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from sim.atmosphere import Air
    from sim.model.plausibility.propeller import Clearance
    from sim.model.powerplant import Powerplant
    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.propeller_choice import SuitingPropeller
    from sim.studies.propeller_answer import Verdict

NEAR = 0.03
"""Of full speed, within which a propeller suits the engine (common practice, no source)."""
STEP_M = 2.0 * INCH_M
"""Between the diameters that are suggested, which are its multiples."""
SPAN = 0.12
"""Of the present diameter, by which those that are suggested differ from it."""
WIDEST, NEAREST = 0.6, 6
"""Where none does: of the present diameter, by which the nearest differ at most, and how many of them."""
FREE = 3.0
"""Times full speed, up to which a free engine is followed."""


def suitability(
    powerplant: Powerplant, blade: Blade, *, speed_m_s: float, around: Air, clearance: Clearance | None
) -> Suitability:
    """Return whether a propeller suits its engine at an airspeed.

    Parameters
    ----------
    powerplant : Powerplant
        Engine, gear and diameter.
    blade : Blade
        Of its propeller.
    speed_m_s : float
        Airspeed along the shaft, at least 0. [m/s]
    around : Air
        Around the propeller.
    clearance : Clearance or None
        Of its propeller above the ground.
    """
    diameter_m = powerplant.propeller.diameter_m
    shaft = Shaft(powerplant.engine_law, powerplant.full_speed_rad_s, powerplant.gear_ratio, around)
    free = matched(
        powerplant.engine_law,
        blade,
        (speed_m_s,),
        diameter_m=diameter_m,
        most_rad_s=FREE * powerplant.full_speed_rad_s,
        air=around,
        gear_ratio=powerplant.gear_ratio,
    )
    (share,) = (free.spin_rad_s / powerplant.propeller_speed_rad_s(powerplant.full_speed_rad_s)).tolist()
    return Suitability(
        design_speed_m_s=speed_m_s,
        verdict=_verdict(share),
        rpm_share=share,
        static_rpm_share=shaft.static_share(blade, diameter_m),
        full_power_speed_m_s=full_power_speed_m_s(shaft, blade, diameter_m),
        tip_mach=math.hypot(shaft.tip_mach(diameter_m), speed_m_s / around.sound_m_s),
        ground_clearance_m=clearance.ground_clearance_m if clearance else None,
        least_clearance_m=clearance.usual.least if clearance else None,
        suggestions=tuple(_suggested(powerplant, shaft, blade, speed_m_s=speed_m_s, clearance=clearance)),
    )


def _verdict(share: float) -> Verdict:
    return "over-propped" if share < 1.0 - NEAR else "under-propped" if share > 1.0 + NEAR else "suits"


def _suggested(
    powerplant: Powerplant, shaft: Shaft, blade: Blade, *, speed_m_s: float, clearance: Clearance | None
) -> list[SuitingPropeller]:
    """Return propellers within the limits near the present diameter; the nearest where none is near."""

    def within(span: float) -> list[SuitingPropeller]:
        own_m = powerplant.propeller.diameter_m
        steps = range(math.ceil((1.0 - span) * own_m / STEP_M), math.floor((1.0 + span) * own_m / STEP_M) + 1)
        found = suiting(shaft, blade, (step * STEP_M for step in steps), speed_m_s)
        return [_scaled(one, powerplant.thrust_share) for one in found if _usable(one, own_m, clearance)]

    if near := within(SPAN):
        return near
    nearest = sorted(within(WIDEST), key=lambda one: abs(one.suited_diameter_m - powerplant.propeller.diameter_m))
    return sorted(nearest[:NEAREST], key=lambda one: one.suited_diameter_m)


def _usable(one: SuitingPropeller, own_m: float, clearance: Clearance | None) -> bool:
    lower_m = 0.5 * (one.suited_diameter_m - own_m)
    return (
        (clearance is None or clearance.usual.holds(clearance.ground_clearance_m - lower_m))
        and one.tip_mach <= MOST_TIP_MACH
        and limits.PITCH_SHARE.holds(one.suited_pitch_m / one.suited_diameter_m)
    )


def _scaled(one: SuitingPropeller, share: float) -> SuitingPropeller:
    """Return thrust and efficiency scaled as those of the present propeller."""
    return replace(
        one,
        thrust_n=share * one.thrust_n,
        efficiency=share * one.efficiency,
        static_thrust_n=share * one.static_thrust_n,
    )
