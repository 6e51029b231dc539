"""What may be wrong with an item list: a mass, a station, the engine's place, pilot or fuel aboard or left out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import TYPE_CHECKING, Literal

import numpy as np

from sim.airframe.weighing_gap import Cause, Effect
from sim.units.registry import ratio

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.masses import Item
    from sim.airframe.weighing_gap import Gap

GROSS_SHARE = 0.05
"""Standard deviation of an error beyond the stated ones, over the mass of the airplane: an estimate of ours."""
OWN_SHARE = 0.25
"""The same over the mass of the group itself, as probable: a light group is seldom doubled; an estimate of ours."""
ABOARD_SHARE = 0.1
"""Standard deviation of pilot or fuel on the day over the listed mass: an estimate of ours."""
ENGINE_MOVE_M = 0.1
"""Standard deviation of an engine's place beyond its stated error, as of a mount built to another length: an estimate
of ours."""
SURE_SHARE, SURE_PRIOR = 0.01, 0.1
"""Error over mass of what was weighed by itself, and how probable it is that such a mass is wrong beside another's: an
estimate of ours."""
SLIP_M = 2.0
"""Standard deviation of a station written wrong, as by a digit too many: an estimate of ours."""
SLIP_PRIOR = 0.5
"""How probable a slip in the stations, and one in the units, of all items is beside another cause: an estimate of
ours."""
UNIT_SHARE = 0.02
"""Standard error of a mass whose unit alone is wrong, over the mass: an estimate of ours."""

Kind = Literal["group", "load", "engine", "station", "unit", "support", "scale"]


@dataclass(frozen=True, slots=True)
class Candidate:
    """One cause to be tested.

    Attributes
    ----------
    kind : str
        A mass of a group, a load aboard or left out, the engine's place, the station of an item, the unit of its mass,
        the place of a support, a scale.
    names : tuple of str
        The group, items or supports that it is about.
    cause : Cause
        What it makes of the gap.
    prior : float
        Its probability before the scales are read, over that of a group.
    items : tuple of Item
        Of the list; none of a support or scale.
    whole : bool
        Whether they are all of their group.
    left_out : bool
        Of a load, whether the list has it aboard and the scales do not.
    buttline_m, spread_m : float
        How far right a mass of it sits, and the standard deviation of that. [m]
    """

    kind: Kind
    names: tuple[str, ...]
    cause: Cause
    prior: float = 1.0
    items: tuple[Item, ...] = ()
    whole: bool = True
    left_out: bool = False
    buttline_m: float = 0.0
    spread_m: float = 0.0


def in_list(found: Gap, items: Sequence[Item], mass_kg: float) -> Iterator[Candidate]:
    """Yield what may be wrong with the list of what stood on the scales; `mass_kg` is that of the airplane."""
    yield from _engine_elsewhere(found, items)
    for group, own in _by_group(items):
        yield _of_mass("group", (group,), own, _group_cause(found, own, mass_kg), prior=_prior(own))
    heavy = [item for item in items if item.mass_kg > 0.0]
    for item in heavy:
        place = Cause((Effect(1.0, found.of_move(item.mass_kg), item.station_m),), 0.0, SLIP_M, -inf)
        yield Candidate("station", (item.name,), place, SLIP_PRIOR / len(heavy), (item,))
        yield from _unit_slips(found, item, 0.5 * SLIP_PRIOR / len(heavy))


def _prior(own: Sequence[Item]) -> float:
    """Return the prior of a group by how well it was stated: what was weighed by itself is seldom wrong by much."""
    stated = [item for item in own if item.mass_kg > 0.0]
    sure = stated and all(0.0 < item.mass_error_kg < SURE_SHARE * item.mass_kg for item in stated)
    return SURE_PRIOR if sure else 1.0


def _engine_elsewhere(found: Gap, there: Sequence[Item]) -> Iterator[Candidate]:
    """Yield that the engine stands elsewhere, nothing where nothing moves with it."""
    moving = tuple(item for item in there if item.moves_with_engine and item.mass_kg > 0.0)
    if moving:
        effect = Effect(1.0, found.of_move(total_kg(moving)), _centre(moving).station_m)
        yield Candidate("engine", (), Cause((effect,), 0.0, ENGINE_MOVE_M, -inf), items=moving)


def _unit_slips(found: Gap, item: Item, prior: float) -> Iterator[Candidate]:
    """Yield that the mass of an item is of the other unit: a number of kilograms written as pounds, and the reverse."""
    pound_kg = float(ratio("lb", "kg"))
    for factor in (1.0 / pound_kg, pound_kg):
        true_kg = factor * item.mass_kg
        effect = Effect(1.0, found.of_mass(item), item.station_m)
        cause = Cause((effect,), true_kg - item.mass_kg, UNIT_SHARE * true_kg, -item.mass_kg)
        yield _of_mass("unit", (item.name,), (item,), cause, prior=prior)


def _by_group(items: Sequence[Item]) -> Iterator[tuple[str, tuple[Item, ...]]]:
    for group in dict.fromkeys(item.group for item in items):
        yield group, tuple(item for item in items if item.group == group)


def _of_mass(
    kind: Kind, names: tuple[str, ...], own: tuple[Item, ...], cause: Cause, *, prior: float = 1.0
) -> Candidate:
    """Return a cause that is a mass at the buttline of its items."""
    places = np.array([item.buttline_m for item in own])
    right_m = float(np.dot(_shares(own), places))
    spread_m = float(np.sqrt(np.dot(_shares(own), np.square(places - right_m))))
    return Candidate(kind, names, cause, prior, own, buttline_m=right_m, spread_m=spread_m)


def _group_cause(found: Gap, own: Sequence[Item], mass_kg: float) -> Cause:
    places = [(0.5, _centre(own)), *((0.5 * share, item) for share, item in zip(_shares(own), own, strict=True))]
    wide_kg = GROSS_SHARE * mass_kg
    own_share = OWN_SHARE * total_kg(own) / wide_kg
    widths = [(0.5, 1.0), (0.5, own_share)] if own_share else [(1.0, 1.0)]
    return Cause(
        tuple(
            Effect(share * part, found.of_mass(item), item.station_m, wider)
            for share, item in places
            if share > 0.0
            for part, wider in widths
        ),
        0.0,
        wide_kg,
        -total_kg(own),
    )


def pilot_and_fuel(found: Gap, items: Sequence[Item], useful: Sequence[str], *, left_out: bool) -> Iterator[Candidate]:
    """Yield each group of pilot and fuel, and each item where the group has several."""
    for group, own in _by_group([item for item in items if item.group in useful and item.mass_kg > 0.0]):
        for some in (own, *((item,) for item in own if len(own) > 1)):
            cause = _aboard_cause(found, some, left_out=left_out)
            yield replace(_of_mass("load", (group,), some, cause), whole=some == own, left_out=left_out)


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
