"""Groups of items: those that are loads have names of their own, and a misspelt one counts as part of the airplane."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from sim.airframe.loading import PILOT, USEFUL
from sim.model.plausibility.remark import Remark
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined

ALSO_CALLED = {
    "copilot": "passenger",
    "crew": "pilot",
    "gas": "fuel",
    "gasoline": "fuel",
    "luggage": "baggage",
    "petrol": "fuel",
    "tank contents": "fuel",
}
"""Word for a load -> the group that counts as one."""
ALIKE = 0.75
"""Least likeness of a misspelt group."""


def loads(examined: Examined) -> Iterator[Remark]:
    """Yield items whose group seems meant for a load and is none, and pilots without an item."""
    scenario = examined.scenario
    for item in scenario.item:
        meant = _meant(item.group.lower())
        if meant is not None and item.group not in USEFUL:
            key = f"item.{item.name}.group"
            yield Remark(
                key,
                told(
                    '{key}: the item counts as part of the empty airplane, for "{group}" is no load; loads are {loads} '
                    "and {last}. Did you mean {meant}?",
                    key=key,
                    group=item.group,
                    loads=", ".join(USEFUL[:-1]),
                    last=USEFUL[-1],
                    meant=meant,
                ),
            )
    table = scenario.balance
    if table is None or not scenario.item or any(item.group == PILOT for item in scenario.item):
        return
    for key, mass_kg in (("pilot_lightest", table.pilot_lightest_kg), ("pilot_heaviest", table.pilot_heaviest_kg)):
        if mass_kg is not None:
            yield Remark(
                f"balance.{key}",
                told(
                    '{key}: no item is in the group "{group}", so no loading has a pilot and this one counts for '
                    'nothing. Give the pilot an [[item]] with group = "{group}".',
                    key=f"balance.{key}",
                    group=PILOT,
                ),
            )


def _meant(group: str) -> str | None:
    near = get_close_matches(group, USEFUL, n=1, cutoff=ALIKE)
    return near[0] if near else ALSO_CALLED.get(group)
