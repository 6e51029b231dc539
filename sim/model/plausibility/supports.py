"""How an airplane stands on its wheels, from the supports of a weighing."""

from __future__ import annotations

from dataclasses import dataclass
from math import asin, atan2, cos, hypot, sin
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.model.plausibility.remark import Examined
    from sim.scenario.weighing import SupportTable

APART_M = 0.1
"""Supports nearer to the plane of symmetry than this are no main wheels. [m]"""


@dataclass(frozen=True, slots=True)
class Stance:
    """Main wheels and the third support.

    Attributes
    ----------
    wheel : str
        Name of one of the main wheels.
    station_m, waterline_m : float
        Contact of the main wheels, airplane level, the lower of them. [m]
    radius_m : float
        Of the main wheels: they touch under their axle at every attitude. [m]
    tail_wheel : bool
        Whether the third support stands behind them.
    pitch_rad : float
        Attitude on all wheels, nose up positive. [rad]
    third_station_m : float
        Of the tail wheel, skid or nose wheel. [m]
    track_m : float
        From the leftmost to the rightmost main wheel. [m]
    """

    wheel: str
    station_m: float
    waterline_m: float
    radius_m: float
    tail_wheel: bool
    pitch_rad: float
    third_station_m: float
    track_m: float

    def behind_and_above_m(self, station_m: float, waterline_m: float, pitch_rad: float) -> tuple[float, float]:
        """Return how far a point of the airplane lies behind and above the contact of the main wheels [m]."""
        aft_m, up_m = station_m - self.station_m, waterline_m - self.waterline_m - self.radius_m
        level_m, high_m = cos(pitch_rad), sin(pitch_rad)
        return aft_m * level_m + up_m * high_m, up_m * level_m - aft_m * high_m + self.radius_m


def main_wheels(supports: Mapping[str, SupportTable]) -> dict[str, SupportTable]:
    """Return the supports to either side of the plane of symmetry, by their names."""
    return {name: row for name, row in supports.items() if abs(row.buttline_m) > APART_M}


def stance(examined: Examined) -> Stance | None:
    """Return how the airplane stands; None where its supports are not two main wheels and a third on the centre line.

    Parameters
    ----------
    examined : Examined
        Its scenario may lack a weighing.
    """
    table = examined.scenario.weighing
    supports = table.support if table else {}
    wheels = main_wheels(supports)
    others = [row for name, row in supports.items() if name not in wheels]
    if len(wheels) < 2 or len(others) != 1:
        return None
    third = others[0]
    wheel = min(wheels, key=lambda name: wheels[name].waterline_m)
    main = wheels[wheel]
    radius_m, aft_m = main.radius_m or 0.0, third.station_m - main.station_m
    if aft_m == 0.0:
        return None
    # on all wheels the common tangent of wheel and third support lies level
    larger_m = radius_m - (third.radius_m or 0.0)
    up_m = third.waterline_m - main.waterline_m - larger_m
    apart_m = hypot(aft_m, up_m)
    if abs(larger_m) > apart_m:
        return None
    slope_rad = asin(larger_m / apart_m)
    pitch_rad = atan2(up_m, aft_m) + slope_rad if aft_m > 0.0 else -atan2(up_m, -aft_m) - slope_rad
    sides = [wheels[name].buttline_m for name in wheels]
    return Stance(
        wheel,
        main.station_m,
        main.waterline_m,
        radius_m,
        tail_wheel=aft_m > 0.0,
        pitch_rad=pitch_rad,
        third_station_m=third.station_m,
        track_m=max(sides) - min(sides),
    )
