"""The bill of items of a scenario as a CSV file, out and in."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, refuse
from viz.files.atomic import write_whole
from viz.sheets.blocks import say

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.scenario.tables import Scenario
    from sim.units.quantities import System
    from viz.files.item_rows import ItemRows
    from viz.sheets.blocks import Sentence


def write_bill(path: str, scenario: Scenario, system: System, *, force: bool) -> Sentence:
    """Write the items of a scenario as CSV, and say how many.

    Raises
    ------
    InputError
        When the file is there and `force` is not given, or cannot be written.
    """
    from sim.scenario.bill_text import bill_text

    write_whole(path, bill_text(scenario, system), force=force)
    return say("Bill of items written to {path}: {count} items.", path=path, count=str(len(scenario.item)))


def load_with_bill(
    scenario: str, bill: str, settings: Iterable[str] = (), *, remove_others: bool = False
) -> tuple[Scenario, Sentence]:
    """Return a scenario, a file or a bundled name, with its items set from a bill, by name, and what that changes.

    Nothing is written.

    Raises
    ------
    InputError
        With every fault of the bill at once, at file, row and column.
    """
    found, rows = _merged(scenario, bill, settings, remove_others=remove_others)
    told = say(
        "Items counted as in {bill}: {said}. Nothing is written; --write-items SCENARIO.toml sets them in a file.",
        bill=bill,
        said=_done(rows) or "nothing differs",
    )
    return found, told


def write_items(path: str, bill: str, *, remove_others: bool) -> Sentence:
    """Set the items of a scenario's file from a bill, by name, and say which; other rows of it stay as they are.

    Raises
    ------
    InputError
        When there is no such file, or with every fault of the bill at once; the file is then left as it was.
    """
    file = Path(path)
    if not file.is_file():
        refuse("write_items", f'must be a scenario that is there (whirlgate new writes one), got "{path}"')
    rows = _merged(path, bill, (), remove_others=remove_others)[1]
    said = _done(rows)
    if not said:
        return say("Nothing to change in {path}: its items are those of {bill}.", path=path, bill=bill)
    before = file.read_bytes().decode()
    mark = "\ufeff" if before.startswith("\ufeff") else ""
    ending = "\r\n" if "\r\n" in before else "\n"
    write_whole(path, mark + rows.text.replace("\n", ending), force=True)
    return say("Items written to {path}: {said}.", path=path, said=said)


def _done(rows: ItemRows) -> str:
    """Return which items a bill changes, adds and removes; empty where none."""
    done = {"changed": rows.changed, "added": rows.added, "removed": rows.removed}
    return "; ".join(f"{word} {', '.join(names)}" for word, names in done.items() if names)


def _merged(scenario: str, bill: str, settings: Iterable[str], *, remove_others: bool) -> tuple[Scenario, ItemRows]:
    """Return the scenario and its text with the items of a bill."""
    from sim.scenario.bill import read_bill
    from sim.scenario.bill_slips import slips
    from sim.scenario.bundled import fetch, fetch_beside
    from sim.scenario.reading import read_text
    from viz.files.item_rows import with_bill

    file = fetch(scenario)
    before = read_text(file.text, called=file.called, folder=file.folder)
    found = read_bill(fetch_beside(Path(), bill, bill))
    rows = with_bill(file.text, found, remove_others=remove_others)
    after = read_text(rows.text, called=file.called, settings=settings, folder=file.folder, bill=found)
    faults = [*slips(found, _masses(before), _masses(after)), *_not_aboard(after, bill)]
    if faults:
        raise InputError(faults)
    return after, rows


def _masses(scenario: Scenario) -> dict[str, float]:
    return {item.name: item.mass_kg for item in scenario.item if item.mass_kg is not None}


def _not_aboard(scenario: Scenario, bill: str) -> Iterator[Fault]:
    """Yield groups of which a bill leaves no item, though they were on the scales."""
    groups = {item.group for item in scenario.item}
    for group in scenario.weighing.aboard if scenario.weighing else ():
        if group not in groups:
            yield Fault("group", f"has no item of {group}, which weighing.aboard says was on the scales", bill)
