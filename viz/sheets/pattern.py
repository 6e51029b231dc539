"""Rounds to blades: how a pattern is written, and what it means, said of one that the table shows."""

from __future__ import annotations

from math import gcd
from typing import TYPE_CHECKING, Protocol

from viz.words.reader import tell

if TYPE_CHECKING:
    from collections.abc import Sequence


PASS = {
    (False, False): "{head} {pattern}: {rounds} round while {blades} blade passes, again and again.",
    (False, True): "{head} {pattern}: {rounds} round while {blades} blades pass, again and again.",
    (True, False): "{head} {pattern}: {rounds} rounds while {blades} blade passes, again and again.",
    (True, True): "{head} {pattern}: {rounds} rounds while {blades} blades pass, again and again.",
}
"""Whether there are several rounds, and several blades."""


class Patterned(Protocol):
    """Anything that fires so many rounds in so many blade intervals, again and again."""

    @property
    def rounds_per_pattern(self) -> int | None:
        """Rounds; None or 0 where nothing repeats."""

    @property
    def intervals_per_pattern(self) -> int | None:
        """Blade intervals."""


def pattern(row: Patterned) -> str:
    """Return rounds to blades, a dash where nothing repeats."""
    return f"{row.rounds_per_pattern} : {row.intervals_per_pattern}" if row.rounds_per_pattern else "–"


def meaning(head: str, rows: Sequence[Patterned]) -> tuple[str, ...]:
    """Return what the column `head` means, of the shortest pattern of several rounds in it; nothing where it has none.

    Examples
    --------
    >>> from types import SimpleNamespace as Row
    >>> meaning("Pattern", [Row(rounds_per_pattern=1, intervals_per_pattern=4)])
    ('Pattern 1 : 4: 1 round while 4 blades pass, again and again.',)
    """
    found = [row for row in rows if row.rounds_per_pattern and row.intervals_per_pattern]
    if not found:
        return ()
    row = min(found, key=lambda each: (each.rounds_per_pattern == 1, each.rounds_per_pattern or 0))
    rounds, blades = row.rounds_per_pattern, row.intervals_per_pattern
    told = tell(PASS[rounds != 1, blades != 1], head=head, pattern=pattern(row), rounds=rounds, blades=blades)
    return (told, *_not_shortened(found))


def _not_shortened(rows: Sequence[Patterned]) -> tuple[str, ...]:
    """Return why some pattern has a common divisor, where one has."""
    row = next((each for each in rows if gcd(each.rounds_per_pattern or 0, each.intervals_per_pattern or 0) > 1), None)
    if row is None:
        return ()
    said = "{pattern} is not shortened: only after so many blades the same windows of the cam come again."
    return (tell(said, pattern=pattern(row)),)
