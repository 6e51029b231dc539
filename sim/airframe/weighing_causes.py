"""What may be wrong with an item list beside scales: a group, the engine's place, pilot or fuel aboard or left out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import TYPE_CHECKING

from sim.airframe.weighing_gap import Cause, Effect

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_gap import Gap

GROSS_SHARE = 0.05
"""Standard deviation of an error beyond the stated ones, over the mass of the airplane: an estimate of ours."""
ABOARD_SHARE = 0.1
"""Standard deviation of pilot or fuel on the day over the listed mass: an estimate of ours."""
ENGINE_MOVE_M = 0.1
"""Standard deviation of an engine's place beyond its stated error, as of a mount built to another length: an estimate
of ours."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A cause to be tested: items of one group, all of it or not; `left_out` is None for an error of the list."""

    group: str
    items: tuple[Item, ...]
    whole: bool
    left_out: bool | None
    cause: Cause


def engine_elsewhere(found: Gap, there: Sequence[Item]) -> tuple[Cause, ...]:
    """Return the cause that the engine stands elsewhere, none where nothing moves with it."""
    moving = [item for item in there if item.moves_with_engine and item.mass_kg > 0.0]
    if not moving:
        return ()
    return (
        Cause((Effect(1.0, found.of_move(total_kg(moving)), _centre(moving).station_m),), 0.0, ENGINE_MOVE_M, -inf),
    )


def groups(found: Gap, items: Sequence[Item], mass_kg: float) -> Iterator[Candidate]:
    """Yield each group, wrong by an unknown mass; `mass_kg` is that of the airplane."""
    for group, own in _by_group(items):
        yield Candidate(group, own, whole=True, left_out=None, cause=_group_cause(found, own, mass_kg))


def _by_group(items: Sequence[Item]) -> Iterator[tuple[str, tuple[Item, ...]]]:
    for group in dict.fromkeys(item.group for item in items):
        yield group, tuple(item for item in items if item.group == group)


def _group_cause(found: Gap, own: Sequence[Item], mass_kg: float) -> Cause:
    places = [(0.5, _centre(own)), *((0.5 * share, item) for share, item in zip(_shares(own), own, strict=True))]
    return Cause(
        tuple(Effect(share, found.of_mass(item), item.station_m) for share, item in places if share > 0.0),
        0.0,
        GROSS_SHARE * mass_kg,
        -total_kg(own),
    )


def pilot_and_fuel(found: Gap, items: Sequence[Item], useful: Sequence[str], *, left_out: bool) -> Iterator[Candidate]:
    """Yield each group of pilot and fuel, and each item where the group has several."""
    for group, own in _by_group([item for item in items if item.group in useful and item.mass_kg > 0.0]):
        for some in (own, *((item,) for item in own if len(own) > 1)):
            cause = _aboard_cause(found, some, left_out=left_out)
            yield Candidate(group, some, whole=some == own, left_out=left_out, cause=cause)


def _aboard_cause(found: Gap, items: Sequence[Item], *, left_out: bool) -> Cause:
    mass_kg, centre = total_kg(items), _centre(items)
    effect = Effect(1.0, found.of_mass(centre), centre.station_m)
    return Cause((effect,), -mass_kg if left_out else mass_kg, ABOARD_SHARE * mass_kg, -mass_kg if left_out else 0.0)


def total_kg(items: Sequence[Item]) -> float:
    """Return the mass of all items [kg]."""
    return sum(item.mass_kg for item in items)


def _shares(items: Sequence[Item]) -> list[float]:
    whole_kg = total_kg(items)
    return [item.mass_kg / whole_kg if whole_kg else 1.0 / len(items) for item in items]


def _centre(items: Sequence[Item]) -> Item:
    """Return one item in the place of several, at their centre."""
    pairs = list(zip(_shares(items), items, strict=True))
    station_m, waterline_m = (
        sum(share * getattr(item, name) for share, item in pairs) for name in ("station_m", "waterline_m")
    )
    return replace(items[0], mass_kg=total_kg(items), station_m=station_m, waterline_m=waterline_m)
