"""On which line of a TOML text each table and key stands, and which of them stand twice.

A scan by lines, for messages only: what the text means is the standard library's to say.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import tomli

Path = tuple[str | int, ...]

_PART = r"""(?:[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*')"""
_KEYS = rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*"
_HEADER = re.compile(rf"[ \t]*(\[\[?)[ \t]*({_KEYS})[ \t]*\]{{1,2}}[ \t]*(?:#.*)?$")
_KEY = re.compile(rf"[ \t]*({_KEYS})[ \t]*=(.*)$")
_NEXT = re.compile(r'"""|\'\'\'|"(?:[^"\\\n]|\\.)*(?:"|\\?$)|\'[^\'\n]*(?:\'|$)|#.*|[\[\]{}]')
"""A quote that is not closed takes the rest of the line, so that a line is gone through once however many it holds."""


class Lines:
    """What stands where; lines count from 1.

    Attributes
    ----------
    first : dict
        Path of a table or key -> line where it stands first.
    at : dict
        Line -> the path that begins there.
    twice : list
        (path, line) of every table header or key that stands there for the second time.
    headers : set
        Lines that hold a table header.
    """

    def __init__(self) -> None:
        self.first: dict[Path, int] = {}
        self.at: dict[int, Path] = {}
        self.twice: list[tuple[Path, int]] = []
        self.headers: set[int] = set()

    def of(self, path: Path) -> int:
        """Return the line of `path`, or of the nearest table round it; 0 where there is none."""
        return next((self.first[path[:end]] for end in range(len(path), 0, -1) if path[:end] in self.first), 0)

    def note(self, path: Path, line: int, *, again: bool) -> None:
        """Note that `path` begins on `line`; `again` tells whether it may stand there more than once."""
        if path in self.first and not again:
            self.twice.append((path, line))
        self.first.setdefault(path, line)
        self.at[line] = path


def scan(text: str) -> Lines:
    """Return where every table and key of the text stands, as far as its lines can be made out."""
    lines, arrays, table = Lines(), dict[Path, int](), Path()
    inside, repeated = _Value(), False
    for number, line in enumerate(text.split("\n"), start=1):
        if inside.unfinished:
            inside.read(line)
        elif header := _HEADER.match(line):
            table = _placed(_parts(header.group(2)), arrays)
            lines.headers.add(number)
            if header.group(1) == "[[":
                bare = table
                arrays[bare] = arrays.get(bare, -1) + 1
                lines.note(bare, number, again=True)
                table = (*bare, arrays[bare])
            repeated = table in lines.first  # then its keys are not told as well
            lines.note(table, number, again=False)
        elif key := _KEY.match(line):
            lines.note((*table, *_parts(key.group(1))), number, again=repeated)
            inside.read(key.group(2))
    return lines


def _placed(parts: Path, arrays: dict[Path, int]) -> Path:
    """Return the path of a header with the number of the list item it falls in."""
    path: Path = ()
    for part in parts[:-1]:
        path = (*path, part)
        path = (*path, arrays[path]) if path in arrays else path
    return (*path, *parts[-1:])


def _parts(keys: str) -> Path:
    return tuple(_plain(part) for part in re.findall(_PART, keys))


def _plain(part: str) -> str:
    if part[0] not in "\"'":
        return part
    try:
        return next(iter(tomli.loads(f"{part} = 0")))
    except ValueError:
        return part[1:-1]


@dataclass(slots=True)
class _Value:
    """Whether a value that goes on over several lines is still open."""

    quote: str = ""
    depth: int = 0

    @property
    def unfinished(self) -> bool:
        """Whether a string, list or table is still to be closed."""
        return bool(self.quote) or self.depth > 0

    def read(self, line: str) -> None:
        """Take one more line, or the rest of the line that holds the key."""
        at = 0
        while at < len(line):
            if self.quote:
                end = line.find(self.quote, at)
                if end < 0:
                    return
                at, self.quote = end + len(self.quote), ""
            following = _NEXT.search(line, at)
            if not following:
                return
            mark, at = following.group(), following.end()
            self.quote = mark if len(mark) == 3 and mark in ('"""', "'''") else ""
            self.depth = max(0, self.depth + (mark in "[{") - (mark in "]}"))
