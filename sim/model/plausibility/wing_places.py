"""Wing items within the chord of their planes, and struts within the span."""

from __future__ import annotations

from math import tan
from typing import TYPE_CHECKING

from sim.airframe.layout import placed
from sim.model.plausibility import limits
from sim.model.plausibility.remark import Usual, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.layout import PlacedPlane
    from sim.model.plausibility.remark import Examined, Remark

WINGS = ("wing", "wings")
"""Groups of wing items."""


def struts(examined: Examined) -> Iterator[Remark]:
    """Yield interplane struts beyond the tips of the planes that they join."""
    layout, planes = examined.scenario.layout, examined.model.wing.planes
    if layout is None or len(planes) < 2:
        return
    semi_m = 0.5 * min(plane.span_m for plane in planes)
    yield from unusual(
        Usual(0.0, semi_m, limits.PRACTICE, "buttline_m", "the shortest plane"),
        layout.strut_buttline_m,
        key="layout.strut_buttline",
        what="the buttline of the interplane struts",
        cure="Check it, and wing.span.",
    )


def wing_items(examined: Examined) -> Iterator[Remark]:
    """Yield items of the wing that stand outside the chord of the plane that they name, or of all planes."""
    layout = examined.scenario.layout
    if layout is None:
        return
    planes = placed(examined.model.wing, layout.leading_edge_m, layout.leading_edge_waterline_m)
    for item in examined.scenario.item:
        if item.group.lower() in WINGS:
            named = [one for one in planes if one.plane.name in item.name.lower().split()]
            yield from unusual(
                _chordwise(
                    named or planes,
                    told("the {plane} plane", plane=named[0].plane.name) if len(named) == 1 else "the planes",
                ),
                item.station_m,
                key=f"item.{item.name}.station",
                what="the station",
                cure="Check the station and its unit, and layout.leading_edge.",
            )


def _chordwise(planes: Sequence[PlacedPlane], whose: str) -> Usual:
    """Return the stations from the foremost leading to the aftmost trailing edge, root to tip."""
    ends_m = [
        one.leading_edge_station_m + at * one.plane.chord_m + out_m * tan(one.plane.sweep_rad)
        for one in planes
        for at in (0.0, 1.0)
        for out_m in (0.0, 0.5 * one.plane.span_m)
    ]
    return Usual(min(ends_m), max(ends_m), limits.PRACTICE, "station_m", whose)
