"""``[[item]]`` with ``file = "items.csv"``: the rows of a bill of items in the place of tables."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from pydantic import ValidationError

from sim.errors import Fault, InputError
from sim.scenario.bundled import File, fetch_beside
from sim.scenario.faults import sentences
from sim.scenario.fields import ScenarioTable, ShortText
from sim.scenario.toml_text import Row, Source, dotted

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.scenario.bill import Bill, BillRow
    from sim.scenario.toml_lines import Path as Place

ITEM = "item"
NEEDED = ("group", "station")
"""Columns that a bill has to have besides the name, where it stands for tables."""


class ItemFileTable(ScenarioTable):
    """A CSV file of items in the place of this table: a row each, in order, with the unit in the head of a column."""

    file: Annotated[
        str,
        ShortText(
            "CSV file with an item a row, found from the folder of this file; columns as whirlgate balance writes them",
            example="items.csv",
        ),
    ]

    @classmethod
    def unknown(cls, key: str) -> str | None:  # noqa: ARG003
        """Return why another key is refused."""
        return "must not stand beside file: the items of the file bring their own keys"


def or_a_file_of_items(schema: dict[str, Any]) -> None:
    """Let the schema of the list of items take a file as well."""
    of_file = ItemFileTable.model_json_schema(by_alias=True)
    schema["items"] = {"anyOf": [schema["items"], of_file]}


def _files_named(data: Mapping[str, Any]) -> list[Any]:
    """Return the files that the items of a scenario name, as they are written."""
    items = data.get(ITEM)
    return [item["file"] for item in items if _names_one(item)] if isinstance(items, list) else []


def _names_one(item: object) -> bool:
    return isinstance(item, dict) and "file" in item


def bring_in(source: Source, called: str, folder: Path, texts: dict[str, str]) -> None:
    """Put the rows of each file of items in the place of the table that names it.

    Parameters
    ----------
    source : Source
        A scenario's tables, changed in place; faults are added to it.
    called : str
        The scenario in an error.
    folder : Path
        Where the files are found from.
    texts : dict
        Name -> text of files that are read already; those read here are added.
    """
    if source.data is None or not _files_named(source.data):
        return
    before, after, moved = source.data[ITEM], list[Any](), dict[int, int]()
    for place, item in enumerate(before):
        if not _names_one(item):
            moved[place] = len(after)
            after.append(item)
            continue
        bill = _bill(source, (place, item), called, folder=folder, texts=texts)
        if bill:
            for row in bill.rows:
                follow(source, bill, row, len(after))
                after.append(row.table())
    source.data[ITEM] = after
    source.lines.first = {path: line for old, line in source.lines.first.items() if (path := _moved(old, moved))}
    source.unread |= {path for old in source.unread if (path := _moved(old, moved))}


def follow(source: Source, bill: Bill, row: BillRow, place: int) -> None:
    """Note that an item of a scenario, counted from 0, stands in a row of a bill."""
    source.rows[(ITEM, place)] = Row(bill.called, row.line, bill.heads)
    source.unread |= {(ITEM, place, key) for key in (*row.unread, *bill.unread)}


def follow_names(source: Source, bill: Bill) -> None:
    """Note of every item of a scenario that a bill has one of its name, in which row that stands, and its faults."""
    from sim.scenario.bill_columns import NAME

    source.faults += bill.faults
    rows = {row.name: row for row in bill.rows}
    items = source.data.get(ITEM) if source.data else None
    for place, item in enumerate(items if isinstance(items, list) else ()):
        row = rows.get(str(item.get(NAME))) if isinstance(item, dict) else None
        if row:
            follow(source, bill, row, place)


def _moved(path: Place, moved: Mapping[int, int]) -> Place:
    """Return the path of an item at its new place, empty for one that names a file; others as they are."""
    if len(path) < 2 or path[0] != ITEM or not isinstance(path[1], int):
        return path
    return (ITEM, moved[path[1]], *path[2:]) if path[1] in moved else ()


def _bill(
    source: Source, numbered: tuple[int, Any], called: str, *, folder: Path, texts: dict[str, str]
) -> Bill | None:
    """Return the bill that an item names, or none; faults are added to the source."""
    place, item = numbered

    def fault(key: str, what: str) -> Fault:
        path: Place = (ITEM, place, key)
        return Fault(dotted(path), what, called, source.lines.of(path))

    try:
        name = ItemFileTable.model_validate(item).file
    except ValidationError as error:
        found = sentences(error.errors(include_url=False), ItemFileTable)
        source.faults += [fault(dotted(path), what) for path, what in found]
        return None
    shown = str(Path(called).parent / name)
    try:
        file = File(shown, texts[name], folder) if name in texts else fetch_beside(folder, name, shown)
    except InputError as error:
        source.faults += [one if one.line else fault("file", f"{shown} {one.what}") for one in error.faults]
        return None
    from sim.scenario.bill import read_bill

    texts[name] = file.text
    bill = read_bill(file, NEEDED)
    source.faults += bill.faults
    return bill
