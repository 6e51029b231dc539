"""Which lines of the program each test file reaches: seen by coverage while a mutant stands, kept for later runs."""

from __future__ import annotations

import ast
import hashlib
import json
import re
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

Lines = dict[str, tuple[str, int]]
"""Of each source file, from the root, its fingerprint and the lines that were reached, a bit each."""


@dataclass
class Reached:
    """What each test file of a checkout reaches, as far as it was seen.

    Attributes
    ----------
    tree : pathlib.Path
        The copy in which they run.
    kept : pathlib.Path
        A directory where the record stays.
    slow : bool
        Whether slow tests are run too.
    """

    tree: Path
    kept: Path
    slow: bool = False
    known: dict[str, Lines] = field(default_factory=dict)

    def may_reach(self, test: str, path: str, line: int) -> bool:
        """Return whether a test file reaches what a line is for, or was not seen yet."""
        if test not in self.known and self._place(test).is_file():
            lines = json.loads(self._place(test).read_text(encoding="utf-8"))
            if all(self._print_of(name) == one[0] for name, one in lines.items()):
                self.known[test] = lines
        return test not in self.known or self.reaches(self.known[test], path, line)

    def keep(self, test: str, reached: dict[str, list[int]]) -> Lines:
        """Keep what a test file reached that ran to its end and passed."""
        bits = {path: (self._print_of(path), _bits(iter(each))) for path, each in reached.items()}
        self._place(test).write_text(json.dumps(bits), encoding="utf-8")
        self.known[test] = bits
        return bits

    def reaches(self, lines: Lines, path: str, line: int) -> bool:
        """Return whether the statement at a line was reached, or what uses it where it runs on import."""
        return any(lines.get(place, ("", 0))[1] & bits for place, bits in users(self.tree, path, line))

    def _place(self, test: str) -> Path:
        words = source(self.tree / test.partition("::")[0])
        return self.kept / f"{fingerprint(f'{words} {test} {self.slow}')}.json"

    def _print_of(self, path: str) -> str:
        return fingerprint(source(self.tree / path)) if (self.tree / path).is_file() else ""


@cache
def source(place: Path) -> str:
    """Return a source as it is, read once: mutants stand in the file now and then."""
    return place.read_text(encoding="utf-8")


def fingerprint(words: str) -> str:
    """Return what tells two texts apart."""
    return hashlib.sha1(words.encode(), usedforsecurity=False).hexdigest()[:16]


@cache
def users(root: Path, path: str, line: int) -> list[tuple[str, int]]:
    """Return where a line matters, files and lines as bits: its statement, or in functions what names it."""
    tree = ast.parse(source(root / path))
    around = [node for node in ast.walk(tree) if isinstance(node, ast.stmt) and line in _span(node)]
    if any(isinstance(node, ast.FunctionDef) and line >= node.body[0].lineno for node in around):
        innermost = max(around, key=lambda node: (node.lineno, -(node.end_lineno or 0)))
        return [(path, _bits(_head(innermost, line)))]
    names = {name for node in around if node in tree.body for name in _names(node)}
    if not names:
        return [(path, ~0)]
    word = re.compile(rf"\b({'|'.join(map(re.escape, names))})\b")
    rooms = [root / "sim", root / "viz"]
    files = [place for room in rooms for place in sorted(room.rglob("*.py")) if word.search(source(place))]
    return [
        (place.relative_to(root).as_posix(), _bits(n for n in _inside(place) if word.search(_line(place, n))))
        for place in files
    ]


def _names(node: ast.stmt) -> set[str]:
    """Return the names that a statement of a module gives."""
    if isinstance(node, ast.ClassDef | ast.FunctionDef):
        return {node.name}
    targets = node.targets if isinstance(node, ast.Assign) else [getattr(node, "target", None)]
    return {one.id for target in targets if target for one in ast.walk(target) if isinstance(one, ast.Name)}


def _span(node: ast.stmt) -> range:
    return range(node.lineno, (node.end_lineno or node.lineno) + 1)


def _head(node: ast.stmt, line: int) -> range:
    """Return the lines of a statement, of a branch or loop those before its blocks."""
    body = getattr(node, "body", None)
    return range(node.lineno, body[0].lineno) if body and line < body[0].lineno else _span(node)


@cache
def _inside(place: Path) -> list[int]:
    """Return the lines of a file inside functions."""
    tree = ast.parse(source(place))
    spans = [range(node.body[0].lineno, (node.end_lineno or 0) + 1) for node in _functions(tree)]
    return sorted({line for span in spans for line in span})


def _functions(tree: ast.Module) -> Iterator[ast.FunctionDef]:
    return (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


def _line(place: Path, number: int) -> str:
    return _lines(place)[number - 1]


@cache
def _lines(place: Path) -> list[str]:
    return source(place).splitlines()


def _bits(lines: range | Iterator[int]) -> int:
    return sum(1 << line for line in lines)
