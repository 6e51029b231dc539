"""Drag and greatest lift that a scenario states, held against what its parts and its section come to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import Usual, unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark
    from sim.numerics.uncertain import Uncertain

CURE = "Check it, or leave the key out to fly with what is built up."


def stated_against_built_up(examined: Examined) -> Iterator[Remark]:
    """Yield a CD0 far from that of the parts, where there are parts, and a CLmax far from that of the section."""
    drag, lift = examined.scenario.drag, examined.scenario.lift
    if drag.zero_lift is not None and drag.part:
        built = examined.model.drag_estimate().zero_lift.drag_zero_lift
        yield from _outside(built, drag.zero_lift, "drag.zero_lift", "the drag without lift that is stated")
    if lift.max is not None:
        built = examined.model.drag_estimate().lift.lift_max
        yield from _outside(built, lift.max, "lift.max", "the greatest lift that is stated")


def _outside(built: Uncertain, stated: float, key: str, what: str) -> Iterator[Remark]:
    reach = limits.BUILT_UP_DEVIATIONS * built.band
    usual = Usual(
        built.value - reach, built.value + reach, "built up", rule=told("built up: {value}", value=f"{built.value:.3g}")
    )
    yield from unusual(usual, stated, key=key, what=what, cure=CURE)
