"""A scenario's text turned into plain tables, with every fault of the writing at once."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import tomli

from sim.errors import Fault
from sim.scenario.toml_lines import Lines, Path, scan
from sim.units.parsing import quoted

MOST_FAULTS = 50
_PLACE = re.compile(r"\(at line (\d+), column \d+\)")
_BARE = re.compile(r"=\s*([+\-0-9.][^\"'#]*[A-Za-z°%][^\"'#]*)")
_WORD = re.compile(r"=\s*[A-Za-z][A-Za-z -]*(#.*)?$")
_DEEP = re.compile(r"^[ \t]*\[+(?:[^\n.=,]*\.){100}", re.MULTILINE)
"""A header of a hundred parts: its reader takes time with their square."""
_OPENING = re.compile(r"\s*\[+\s*([A-Za-z0-9_.-]*)")


@dataclass(frozen=True, slots=True)
class Row:
    """Where a table that a file of items brought in stands there.

    Attributes
    ----------
    file : str
        What the file is called.
    line : int
        Number of the row, from 1.
    heads : dict
        Key -> the head of its column.
    """

    file: str
    line: int
    heads: dict[str, str]


@dataclass
class Source:
    """The tables of a text, where they stand, and what could not be read.

    Attributes
    ----------
    text : str
        The text.
    data : dict or None
        Plain tables as TOML gives them; None where the text as a whole cannot be read.
    faults : list of Fault
        What is wrong with the writing.
    unread : set
        Paths that stand in the text and could not be read, so that nobody calls them missing.
    rows : dict
        Path of an item -> where it stands in a file of items.
    """

    text: str
    data: dict[str, Any] | None = None
    faults: list[Fault] = field(default_factory=list)
    unread: set[Path] = field(default_factory=set)
    rows: dict[Path, Row] = field(default_factory=dict)

    @cached_property
    def lines(self) -> Lines:
        """Where each table and key stands; looked for when first asked, since only a fault needs to know."""
        return scan(self.text)

    def fault(self, path: Path, what: str, called: str) -> Fault:
        """Return a fault at a path, with file and line, or with file, row and column."""
        row = self.rows.get(path[:2])
        if row is None:
            return Fault(dotted(path), what, called, self.lines.of(path))
        key = dotted(path[2:])
        return Fault(row.heads.get(key, key), what, row.file, row.line)


def parse(text: str, called: str) -> Source:
    """Return the tables of a TOML text; a line that cannot be read is told, put aside, and the rest read again."""
    if deep := _DEEP.search(text):
        line = text.count("\n", 0, deep.start()) + 1
        return Source(text, faults=[Fault("", "cannot be read: its tables are nested too deep", called, line)])
    try:
        return Source(text, tomli.loads(text))
    except (RecursionError, ValueError):
        return _mended(text, called)


def _mended(text: str, called: str) -> Source:
    source = Source(text)
    rows = text.split("\n")
    for path, line in source.lines.twice:
        first = source.lines.first[path]
        source.faults.append(Fault(dotted(path), f"is given twice, first on line {first}", called, line))
        rows[line - 1] = _aside(source, line)
    for _ in range(MOST_FAULTS):
        try:
            source.data = _without_aside(tomli.loads("\n".join(rows)))
        except RecursionError:
            source.faults.append(Fault("", "cannot be read: its values are nested too deep", called))
            break
        except ValueError as error:
            place = _PLACE.search(str(error))
            line = min(int(place.group(1)), len(rows)) if place else len(rows)
            while line > 1 and not rows[line - 1].strip():
                line -= 1
            _note(source, rows[line - 1], line, called=called, why=str(error).partition(" (at ")[0])
            if not rows[line - 1].strip() or rows[line - 1].startswith("[aside-"):
                break
            rows[line - 1] = _aside(source, line, rows[line - 1])
        else:
            break
    return source


def dotted(path: Path) -> str:
    """Return a path as it is written in the file; a key that needs quotes has them, an item counts from 1."""
    return ".".join(
        str(part + 1) if isinstance(part, int) else part if re.fullmatch(r"[A-Za-z0-9_-]+", part) else quoted(part)
        for part in path
    )


def _note(source: Source, row: str, line: int, *, called: str, why: str) -> None:
    path = source.lines.at.get(line, ())
    bare = _BARE.search(row)
    if bare:
        what = f"a value with a unit or letters stands in double quotes, got {quoted(row.strip())}"
    elif _WORD.search(row):
        what = f"words stand in double quotes, and a count is a plain number such as 2, got {quoted(row.strip())}"
    else:
        what = f"is not TOML: {why[:1].lower()}{why[1:]}, got {quoted(row.strip())}"
    if not any(fault.line == line for fault in source.faults):
        source.faults.append(Fault(dotted(path), what, called, line))
    opening = _OPENING.match(row)
    source.unread.add(path or tuple(opening.group(1).split(".")) if opening else path)


def _aside(source: Source, line: int, row: str = "") -> str:
    """Return what stands in for a line that is put aside: nothing for a key, a table of its own for a header."""
    return f"[aside-{line}]" if line in source.lines.headers or _OPENING.match(row) else ""


def _without_aside(data: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if not key.startswith("aside-")}
