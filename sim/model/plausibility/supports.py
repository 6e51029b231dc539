"""How an airplane stands on its wheels, from the supports of a weighing."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.model.plausibility.remark import Examined

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
    tail_wheel : bool
        Whether the third support stands behind them.
    pitch_rad : float
        Attitude on all wheels, nose up positive. [rad]
    """

    wheel: str
    station_m: float
    waterline_m: float
    tail_wheel: bool
    pitch_rad: float


def stance(examined: Examined) -> Stance | None:
    """Return how the airplane stands; None where its supports are not two main wheels and a third on the centre line.

    Parameters
    ----------
    examined : Examined
        Its scenario may lack a weighing.
    """
    table = examined.scenario.weighing
    supports = table.support if table else {}
    wheels = {name: row for name, row in supports.items() if abs(row.buttline_m) > APART_M}
    others = [row for name, row in supports.items() if name not in wheels]
    if len(wheels) < 2 or len(others) != 1:
        return None
    third = others[0]
    wheel = min(wheels, key=lambda name: wheels[name].waterline_m)
    station_m, waterline_m = wheels[wheel].station_m, wheels[wheel].waterline_m
    aft_m = third.station_m - station_m
    if aft_m == 0.0:
        return None
    # on all wheels the line from wheel to third support lies level
    up_m = third.waterline_m - waterline_m
    pitch_rad = atan2(up_m, aft_m) if aft_m > 0.0 else atan2(-up_m, -aft_m)
    return Stance(wheel, station_m, waterline_m, aft_m > 0.0, pitch_rad)
