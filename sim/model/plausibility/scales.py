"""The weighing: whether the item list contradicts it, and which engine stood on the scales."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.loading import PILOT
from sim.model.plausibility.remark import Remark
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined


def list_contradicts(examined: Examined) -> Iterator[Remark]:
    """Yield that scales and item list contradict each other, in the words that head the balance."""
    from sim.model.scales_and_list import contradiction, weighing

    scales = weighing(examined.model)
    said = contradiction(scales) if scales else None
    if said:
        yield Remark("weighing", told("{key}: {said} See whirlgate balance.", key="weighing", said=said))


def pilot_was_aboard(examined: Examined) -> Iterator[Remark]:
    """Yield that the pilot on the scales has a weight and was not aboard."""
    table, key = examined.scenario.weighing, "weighing.pilot"
    if table is not None and table.pilot_kg is not None and PILOT not in table.aboard:
        yield Remark(
            key,
            told(
                "{key}: gives the weight of the pilot on the scales, and weighing.aboard has no pilot. Add {pilot} to "
                "it, or take {key} away.",
                key=key,
                pilot=PILOT,
            ),
        )


def engine_is_named(examined: Examined) -> Iterator[Remark]:
    """Yield that a weighing of an airplane with several engines does not say which of them it was with."""
    from sim.model.weighing import engine_on_scales

    table, engines = examined.scenario.weighing, examined.scenario.powerplant
    if table is None or table.powerplant or len(engines) == 1:
        return
    key, taken = "weighing.powerplant", engine_on_scales(examined.scenario, table)
    yield Remark(
        key,
        told(
            "{key}: is not given, and the scenario has {count} engines; {taken} is taken to have been on the scales. "
            "Write the one that was.",
            key=key,
            count=len(engines),
            taken=taken,
        ),
    )
