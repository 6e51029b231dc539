"""Main wheels: two of one axle, and ahead of the centre of gravity by enough not to nose over and no more."""

from __future__ import annotations

from math import atan2, copysign
from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import unusual
from sim.model.plausibility.supports import main_wheels, stance
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark


def wheel_angle(examined: Examined) -> Iterator[Remark]:
    """Yield main wheels of a tail-wheel type that stand at an unusual angle ahead of the loaded centre of gravity.

    The angle at the wheels' contact, from the vertical back to the centre of gravity, seen from the side, tail down.
    """
    model, stands = examined.model, stance(examined)
    if stands is None or not stands.tail_wheel or not any(item.waterline_m for item in examined.scenario.item):
        return
    for name in model.powerplants:
        if not model.has_list(name):
            continue
        whole = model.mass_state(name).whole()
        aft_m, up_m = stands.behind_and_above_m(whole.cg_station_m, whole.cg_waterline_m, stands.pitch_rad)
        yield from unusual(
            limits.WHEEL_ANGLE,
            atan2(aft_m, up_m),
            key=f"weighing.support.{stands.wheel}.station",
            what=told("the angle back to the loaded centre of gravity with {name}, tail down,", name=name),
            cure="Move the main wheels, or check stations and waterlines.",
        )


def track(examined: Examined) -> Iterator[Remark]:
    """Yield main wheels, one a side, that stand unusually near together or far apart."""
    table = examined.scenario.weighing
    wheels = main_wheels(table.support) if table else {}
    if len(wheels) != 2:
        return
    places = {row.buttline_m: name for name, row in wheels.items()}
    yield from unusual(
        limits.TRACK_SHARE,
        (max(places) - min(places)) / examined.model.wing.span_m,
        key=f"weighing.support.{places[max(places)]}.buttline",
        what="the track of the main wheels over the span",
        cure="Check the buttlines of both and their units.",
    )


def wheels_of_an_axle(examined: Examined) -> Iterator[Remark]:
    """Yield main wheels, one a side, that were written at unlike stations or waterlines.

    The scales hardly tell: half of what one of two wheels is off is within the errors of most item lists.
    """
    table = examined.scenario.weighing
    wheels = main_wheels(table.support) if table else {}
    if sorted(copysign(1.0, row.buttline_m) for row in wheels.values()) != [-1.0, 1.0]:
        return
    (one, first), (other, second) = wheels.items()
    for place in ("station", "waterline"):
        yield from unusual(
            limits.WHEELS_APART,
            getattr(second, f"{place}_m") - getattr(first, f"{place}_m"),
            key=f"weighing.support.{other}.{place}",
            what=told("the {place} of {other} less that of {one}", place=place, other=other, one=one),
            cure="Measure both wheels again from the datum: one that is off moves the CG by half as much.",
        )
