"""A scenario file read into SI tables, or every fault in it at once."""

from __future__ import annotations

from functools import cache
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any, TypeVar

from pydantic import ValidationError

from sim.errors import Fault, InputError
from sim.scenario.bundled import fetch
from sim.scenario.faults import placed, sentences
from sim.scenario.fields import Given, ScenarioTable, entry_of, key_of
from sim.scenario.item_file import bring_in, follow_names
from sim.scenario.settings import apply
from sim.scenario.tables import Scenario, ScenarioSource
from sim.scenario.toml_text import dotted, parse

if TYPE_CHECKING:
    import os
    from collections.abc import Callable, Iterable, Iterator

    from sim.scenario.bill import Bill
    from sim.scenario.toml_lines import Path
    from sim.scenario.toml_text import Source

DEMO = "tollgate"
AnyTable = TypeVar("AnyTable", bound=ScenarioTable)


def load(path_or_name: str | os.PathLike[str] = DEMO, settings: Iterable[str] = ()) -> Scenario:
    """Return the scenario in a file, or the bundled one of that name, with settings applied.

    Parameters
    ----------
    path_or_name : str or path
        A TOML file, or a name such as ``tollgate``; a file of that name goes first.
    settings : iterable of str
        ``table.key=value`` each, read as if it stood in the file.

    Raises
    ------
    InputError
        With every fault at once, each with file, line, key, what came and what is allowed.

    Examples
    --------
    >>> load("tollgate", ["wing.span=27 ft 6 in"]).wing.span_m
    8.382
    """
    file = fetch(str(path_or_name))
    return read_text(file.text, called=file.called, settings=settings, folder=file.folder)


def read_text(
    text: str,
    *,
    called: str = "",
    settings: Iterable[str] = (),
    drawn: Iterable[str] = (),
    folder: FilePath | None = None,
    files: Iterable[tuple[str, str]] = (),
    bill: Bill | None = None,
) -> Scenario:
    """Return the scenario that a text holds.

    Parameters
    ----------
    text : str
        TOML.
    called : str
        Its name in errors.
    settings : iterable of str
        ``table.key=value`` each.
    drawn : iterable of str
        The like, behind them, drawn from the ± of the file: not asked for, they go before no item list.
    folder : Path or None
        Where the files that it names are found from; None: where it lies itself.
    files : iterable of (str, str)
        Name and text of such files, where they are read already.
    bill : Bill or None
        Bill that items of the text were taken from, for its faults and the places of theirs.

    Raises
    ------
    InputError
        With every fault at once.
    """
    texts, settings, drawn = dict(files), tuple(settings), tuple(drawn)

    def with_items(source: Source) -> None:
        bring_in(source, called, FilePath(called).parent if folder is None else folder, texts)
        if bill:
            follow_names(source, bill)

    scenario, data = read_table(text, Scenario, called=called, settings=(*settings, *drawn), adding=with_items)
    tolerances = {dotted(path): spread for path, spread in _tolerances(scenario, data)}
    scenario.keep(tolerances, ScenarioSource(text, called, settings, tuple(texts.items()), drawn))
    return scenario


def read_table(
    text: str,
    root: type[AnyTable],
    *,
    called: str = "",
    settings: Iterable[str] = (),
    adding: Callable[[Source], None] = lambda _: None,
) -> tuple[AnyTable, dict[str, Any]]:
    """Return the tables of a text as a `root`, and as they were written; `adding` puts in what other files hold.

    Raises
    ------
    InputError
        With every fault at once.
    """
    source = parse(text, called)
    if source.data is None:
        raise InputError(source.faults)
    adding(source)
    if foreign := root.foreign(source.data):
        raise InputError([Fault("", foreign, called)])
    set_faults: list[Fault] = []
    changed = dict(apply(source.data, settings, set_faults))
    try:
        table = root.model_validate(source.data)
    except ValidationError as error:
        found = sentences(error.errors(include_url=False), root)
        source.faults += placed(found, called=called, source=source, changed=changed)
    if source.faults or set_faults:
        raise InputError([*sorted(source.faults, key=lambda fault: _by_line(fault, called)), *set_faults])
    return table, source.data


def _by_line(fault: Fault, called: str) -> tuple[bool, bool, int]:
    return fault.file != called, not fault.line, fault.line


def _tolerances(value: object, raw: Any, path: Path = ()) -> Iterator[tuple[Path, float]]:  # noqa: ANN401
    """Yield (path, one standard deviation in SI) of every key that was written with a tolerance."""
    if isinstance(value, ScenarioTable):
        for name, key, given, entry in _declared(type(value)):
            if key in raw and given:
                yield from _tolerance(given, raw[key], (*path, key))
            elif key in raw and entry:
                entries = raw[key]
                for part, text in entries.items() if isinstance(entries, dict) else enumerate(entries):
                    yield from _tolerance(entry, text, (*path, key, part))
            elif key in raw:
                yield from _tolerances(getattr(value, name), raw[key], (*path, key))
    elif isinstance(value, dict | list):
        for part, item in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _tolerances(item, raw[part], (*path, part))


@cache
def _declared(table: type[ScenarioTable]) -> tuple[tuple[str, str, Given | None, Given | None], ...]:
    """Return attribute, key, quantity of the key and quantity of its entries, of every key of a table."""
    return tuple(
        (name, key_of(name), next((mark for mark in field.metadata if isinstance(mark, Given)), None), entry_of(field))
        for name, field in table.model_fields.items()
    )


def _tolerance(given: Given, raw: object, path: Path) -> Iterator[tuple[Path, float]]:
    spread = given.measured(raw).tolerance if isinstance(raw, str) else 0.0
    yield from ((path, spread),) if spread else ()
