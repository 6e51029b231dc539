"""Columns of a bill of items: ``mass [lb]``, its error ``mass ± [lb]``, ``name``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from sim.errors import did_you_mean
from sim.scenario.fields import Given, key_of
from sim.scenario.shop import ItemTable
from sim.units.parsing import quoted
from sim.units.quantities import kinds
from sim.units.registry import DIMENSIONS, find

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.units.quantities import System

NAME = "name"
_HEAD = re.compile(r"\s*([^\[\]±]*?)\s*(±|\+/-|\+-)?\s*(?:\[([^\[\]]*)\])?\s*")


@dataclass(frozen=True, slots=True)
class BillColumn:
    """One column.

    Attributes
    ----------
    key : str
        Of an item.
    head : str
        As it is written.
    unit : str
        Unit of its numbers; empty where there is none, and the cells of a quantity then bring their own.
    error : bool
        Whether it holds the standard deviation of the key.
    """

    key: str
    head: str
    unit: str = ""
    error: bool = False


@cache
def quantities() -> dict[str, Given | None]:
    """Return every key of an item in the order of its table, with what it holds where that is a quantity."""
    return {
        key_of(name): next((mark for mark in field.metadata if isinstance(mark, Given)), None)
        for name, field in ItemTable.model_fields.items()
    }


@cache
def yes_or_no_keys() -> frozenset[str]:
    """Return the keys of an item that are true or false."""
    return frozenset(key_of(name) for name, field in ItemTable.model_fields.items() if field.annotation is bool)


def column(key: str, system: System, *, error: bool = False) -> BillColumn:
    """Return the column of a key in a reader's units."""
    given = quantities()[key]
    unit = kinds()[given.unit].filed[system == "si"] if given else ""
    return BillColumn(key, _head(key, unit, error=error), unit, error)


def _head(key: str, unit: str, *, error: bool = False) -> str:
    return f"{key}{' ±' if error else ''}{f' [{unit}]' if unit else ''}"


def key_of_head(head: str) -> str:
    """Return the key that a head is meant for, whatever else is wrong with it."""
    return (_parts(head) or (head,))[0]


def columns(heads: Sequence[str]) -> Iterator[BillColumn | tuple[str, str]]:
    """Yield the column of every head, or the head and what is wrong with it; a blank one is a column without a key."""
    seen = set[tuple[str, bool]]()
    values = {key_of_head(head) for head in heads if not (_parts(head) or ("", True))[1]}
    for head in heads:
        found = _column(head)
        if isinstance(found, BillColumn) and found.key:
            mark = (found.key, found.error)
            if mark in seen:
                found = head, "must not stand in the first row twice"
            elif found.error and found.key not in values:
                found = head, f'must stand beside a column "{_head(found.key, found.unit)}"'
            seen.add(mark)
        yield found


def _parts(head: str) -> tuple[str, bool, str] | None:
    """Return key, whether it is its error, and unit."""
    match = _HEAD.fullmatch(head)
    return (match[1].lower().replace(" ", "_"), bool(match[2]), match[3] or "") if match else None


def _column(head: str) -> BillColumn | tuple[str, str]:
    if not head.strip():
        return BillColumn("", "")
    keys = quantities()
    key, error, unit = _parts(head) or (head, False, "")
    head = " ".join(head.split())
    if key not in keys and "±" in head:
        return head, f'must be a column of errors as in "{_head("mass", "lb", error=True)}", got {quoted(head)}'
    if key not in keys:
        return head, f"must be one of {', '.join(keys)}, got {quoted(head)}{did_you_mean(key, keys)}"
    given = keys[key]
    if given is None:
        wrong = error or unit
        return (head, f'must be without ± and without a unit, as in "{key}"') if wrong else BillColumn(key, head)
    found = find(unit.strip()) if unit else None
    if (unit or "[" in head) and (found is None or found.dimension != DIMENSIONS[given.unit]):
        kind = kinds()[given.unit]
        example = _head(key, kind.filed[0], error=error)
        return head, f'must have a unit of {kind.called} in brackets, as in "{example}", got {quoted(head)}'
    return BillColumn(key, head, unit.strip(), error)
