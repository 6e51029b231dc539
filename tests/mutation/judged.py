"""What became of each mutant: told, counted in a table, kept in a file by which a later run goes on."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Literal

from mutants import Mutant, mutants_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

Outcome = Literal["killed", "equivalent", "survived", "untested", "not judged"]
CAUGHT = ("killed", "equivalent")
COLUMNS = ("killed", "equivalent", "survived", "untested", "not judged")


@dataclass(frozen=True)
class Judged:
    """What became of a mutant, with its line before and after.

    Attributes
    ----------
    path, line, operator, before, after : str or int
        As `mutants.Mutant` has them.
    seed : int
        Of the sample in which it was drawn.
    outcome : str
        "survived": every test file near it that reaches the line passes; "not judged": the time did not suffice for
        all of them, or one fails as it is; "untested": none reaches it.
    by : str
        The test file that killed it.
    """

    path: str
    line: int
    operator: str
    before: str
    after: str
    seed: int
    outcome: Outcome
    by: str = ""

    @property
    def key(self) -> tuple[str, str, str, str]:
        """Return what stays the same where lines move."""
        return self.path, self.operator, self.before, self.after

    @property
    def room(self) -> str:
        """Return the part of the program it stands in."""
        return "/".join(self.path.split("/")[:2])

    def told(self) -> str:
        """Return what a reader of the run needs to find it."""
        return f"{self.outcome}: {self.path}:{self.line}\n  - {self.before}\n  + {self.after}"


def read(place: Path | None) -> dict[tuple[str, str, str, str], Judged]:
    """Return what earlier runs found, of each mutant the last."""
    if place is None or not place.is_file():
        return {}
    found = (Judged(**json.loads(line)) for line in place.read_text(encoding="utf-8").splitlines())
    return {one.key: one for one in found}


def add(place: Path | None, one: Judged) -> None:
    """Add a line to the file of a run."""
    if place is not None:
        with place.open("a", encoding="utf-8") as file:
            file.write(json.dumps(asdict(one), ensure_ascii=False) + "\n")


def again(root: Path, found: Iterable[Judged]) -> Iterator[tuple[Mutant, int]]:
    """Yield those that were not killed and still can be made, with the seeds of their samples."""
    for one in found:
        if one.outcome not in CAUGHT and (root / one.path).is_file():
            source = (root / one.path).read_text(encoding="utf-8")
            alike = (each for each in mutants_of(root, one.path) if each.operator == one.operator)
            mutant = next((each for each in alike if each.change(source) == (one.before, one.after)), None)
            if mutant is not None:
                yield mutant, one.seed


def table(found: Iterable[Judged]) -> str:
    """Return a table: a row a room, and one of all."""
    rooms: dict[str, Counter[str]] = {}
    for one in found:
        rooms.setdefault(one.room, Counter())[one.outcome] += 1
    rows = [*sorted(rooms.items()), ("all", sum(rooms.values(), Counter()))]
    width = max(map(len, ("room", *rooms)))
    lines = [f"{'room':{width}}  sampled  {'  '.join(COLUMNS)}  caught of judged"]
    for room, counts in rows:
        numbers = "  ".join(f"{counts[name]:{len(name)}}" for name in COLUMNS)
        caught, judged = caught_of(counts)
        lines.append(f"{room:{width}}  {counts.total():7}  {numbers}  {f'{caught}/{judged}':>16}")
    return "\n".join(lines)


def caught_of(counts: Counter[str]) -> tuple[int, int]:
    """Return how many were killed or argued equivalent, and of how many that is: those of which a test could tell."""
    return sum(counts[name] for name in CAUGHT), counts.total() - counts["not judged"]
