"""A powerplant's propeller on its engine at many airspeeds: those asked for, and those of a smooth line."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from sim.propulsion.blade_element_match import matched
from sim.propulsion.propeller_curve import efficiency
from sim.studies.propeller_answer import MatchedPoint
from sim.units.convert import rpm

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.atmosphere import Air
    from sim.model.powerplant import Powerplant
    from sim.propulsion.blade_geometry import Blade

CURVE_POINTS = 61
"""Of a line in a figure, at least."""
SPEED_STEP_M_S = 5.0
"""Between the airspeeds where none are asked for: from rest to the airspeed of no slip at full engine speed."""


def closer(asked: Sequence[float]) -> tuple[float, ...]:
    """Return the numbers asked for in order, with evenly spaced ones in between."""
    least, most = min(asked), max(asked)
    return tuple(
        sorted({*asked, *(least + (most - least) * step / (CURVE_POINTS - 1) for step in range(CURVE_POINTS))})
    )


def curve(powerplant: Powerplant, blade: Blade, asked_m_s: Sequence[float], around: Air) -> tuple[MatchedPoint, ...]:
    """Return a line of points through the airspeeds asked for, close together where the engine reaches full speed."""
    even = matched_points(powerplant, blade, closer(asked_m_s), around)[0]
    most = max(point.rpm for point in even)
    corners = [
        closer((one.speed_m_s, other.speed_m_s))[1:-1]
        for one, other in pairwise(even)
        if (one.rpm < most) != (other.rpm < most)
    ]
    near = (
        matched_points(powerplant, blade, [speed for each in corners for speed in each], around)[0] if corners else ()
    )
    return tuple(sorted({*even, *near}, key=lambda point: point.speed_m_s))


def matched_points(
    powerplant: Powerplant, blade: Blade, speeds_m_s: Sequence[float], around: Air
) -> tuple[tuple[MatchedPoint, ...], tuple[float, float]]:
    """Return the propeller of a powerplant at each airspeed, and its CT and CP at the first."""
    found = matched(
        powerplant.engine_law,
        blade,
        speeds_m_s,
        diameter_m=powerplant.propeller.diameter_m,
        most_rad_s=powerplant.full_speed_rad_s,
        air=around,
        gear_ratio=powerplant.gear_ratio,
    )
    share = powerplant.thrust_share
    columns = (found.speed_m_s, rpm(found.spin_rad_s), share * found.thrust_n, found.power_w, found.tip_mach)
    ct, cp = (share * found.loads.ct).tolist(), found.loads.cp.tolist()
    ratios = found.loads.advance_ratio.tolist()
    rows = zip(*(column.tolist() for column in columns), map(efficiency, ratios, ct, cp), strict=True)
    return tuple(MatchedPoint(*row) for row in rows), (ct[0], cp[0])


def usual_speeds_m_s(powerplant: Powerplant) -> tuple[float, ...]:
    """Return the airspeeds of a table where none are asked for [m/s]."""
    turns_per_s = powerplant.propeller_speed_rad_s(powerplant.full_speed_rad_s) / math.tau
    steps = math.floor(powerplant.propeller.pitch_m * turns_per_s / SPEED_STEP_M_S)
    return tuple(SPEED_STEP_M_S * step for step in range(steps + 1))
