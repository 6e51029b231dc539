"""The items of a scenario's text set from a bill of items: rows that do not change stay as they are, to the byte."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import tomli

from sim.errors import refuse
from sim.scenario.bill_changes import changes
from sim.scenario.bill_columns import NAME, quantities
from sim.scenario.item_file import ITEM
from sim.scenario.toml_lines import scan
from sim.scenario.toml_text import dotted
from viz.files.scenario_keys import set_key

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.scenario.bill import Bill, BillRow
    from sim.scenario.bill_changes import Written
    from sim.scenario.toml_lines import Path

HEADER = f"[[{ITEM}]]"


@dataclass(frozen=True, slots=True)
class ItemRows:
    """A scenario's text with its items set, and what that took.

    Attributes
    ----------
    text : str
        Of the scenario.
    changed, added, removed : tuple of str
        ``pilot (mass, station)`` for each item that was changed; names of the others.
    """

    text: str
    changed: tuple[str, ...]
    added: tuple[str, ...]
    removed: tuple[str, ...]


@dataclass(slots=True)
class _Edits:
    """Rows of a text by their line from 1: what stands in their place, None for nothing, and what goes behind."""

    rows: list[str]
    lines: dict[Path, int]
    instead: dict[int, str | None] = field(default_factory=dict)
    behind: dict[int, list[str]] = field(default_factory=dict)

    def text(self) -> str:
        """Return the text with everything done."""
        rows = list[str]()
        for line, row in enumerate(self.rows, start=1):
            found = self.instead.get(line, row)
            rows += [*([] if found is None else [found]), *self.behind.get(line, [])]
        return "\n".join(rows)


def with_bill(text: str, bill: Bill, *, remove_others: bool) -> ItemRows:
    """Return a scenario's text with its items set from a bill, by name; new ones stand behind the last.

    Parameters
    ----------
    text : str
        A scenario without faults.
    bill : Bill
        What the items are to be.
    remove_others : bool
        Whether to remove the items that the bill lacks.

    Raises
    ------
    InputError
        When its items are not written as tables of their own.
    """
    edits = _Edits(text.split("\n"), scan(text).first)
    items = _items(text, edits)
    wanted = {row.name: row for row in bill.rows if NAME not in row.unread}
    changed, removed = list[str](), list[str]()
    for place, item in enumerate(items):
        row = wanted.pop(item[NAME], None)
        if row:
            new = dict(changes(bill, row, item))
            keys = [key for key in quantities() if key in new]
            for key in keys:
                _set(edits, place, key, new[key])
            changed += [f"{item[NAME]} ({', '.join(keys)})"] if keys else []
        elif remove_others:
            _remove(edits, place)
            removed.append(item[NAME])
    _add(edits, wanted.values())
    return ItemRows(edits.text(), tuple(changed), tuple(wanted), tuple(removed))


def _items(text: str, edits: _Edits) -> list[dict[str, Any]]:
    """Return the items; refuse those that stand in a file of their own, or not a key a line."""
    items: list[dict[str, Any]] = tomli.loads(text).get(ITEM, [])
    named = next((item["file"] for item in items if "file" in item), None)
    if named:
        refuse("bill_from", f'must be given a scenario that holds its items itself: change "{named}", where they are')
    if any((ITEM, place) not in edits.lines for place in range(len(items))):
        refuse("bill_from", f"must be given a scenario with each item under a line {HEADER} of its own")
    for path, line in edits.lines.items():
        if path[0] == ITEM and len(path) > 2 and not _whole(edits.rows[line - 1]):
            refuse(
                "bill_from", f"must be given a scenario with each value of an item on one line, not so {dotted(path)}"
            )
    return items


def _whole(row: str) -> bool:
    try:
        return bool(tomli.loads(row))
    except ValueError:
        return False


def _set(edits: _Edits, place: int, key: str, value: Written) -> None:
    """Set one key of an item, take it away, or put it in where its table has it."""
    import tomlkit

    line = edits.lines.get((ITEM, place, key))
    if line is None:
        before = list(quantities())[: list(quantities()).index(key)]
        at = max(edits.lines.get((ITEM, place, one), edits.lines[(ITEM, place)]) for one in before)
        row = edits.rows[at - 1]
        indent = row[: len(row) - len(row.lstrip())]
        edits.behind.setdefault(at, []).append(indent + _assigned(key, value))
    elif value is None:
        edits.instead[line] = None
    else:
        document = tomlkit.parse(edits.rows[line - 1])
        set_key(document, key, value)
        edits.instead[line] = tomlkit.dumps(document)


def _assigned(key: str, value: Written) -> str:
    import tomlkit

    return f"{key} = {tomlkit.item(value).as_string()}"


def _last_line(edits: _Edits, place: int) -> int:
    return max(line for path, line in edits.lines.items() if path[:2] == (ITEM, place))


def _add(edits: _Edits, rows: Iterable[BillRow]) -> None:
    """Put new items behind the last, or at the end of a text without any."""
    lines = [line for path, line in edits.lines.items() if path[0] == ITEM]
    at = max(lines or [line for line, row in enumerate(edits.rows, start=1) if row.strip()])
    for row in rows:
        table = row.table()
        assigned = [_assigned(key, table[key]) for key in quantities() if key in table]
        edits.behind.setdefault(at, []).extend(["", HEADER, *assigned])


def _remove(edits: _Edits, place: int) -> None:
    """Take away an item from its header to its last key, with one blank line behind; comments outside it stay."""
    end = _last_line(edits, place)
    end += end < len(edits.rows) and not edits.rows[end].strip()
    edits.instead |= dict.fromkeys(range(edits.lines[(ITEM, place)], end + 1))
