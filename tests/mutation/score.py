"""How many small wrong changes of the sources the tests notice.

By hand over a room: ``python tests/mutation/score.py sim/display --most 60``; in ``.ci/run`` a sample for as long as
it is given, changed lines first: ``python tests/mutation/score.py --seconds 60 --since HEAD~1``.
"""

from __future__ import annotations

import argparse
import random
import re
import subprocess
import sys
import tempfile
import time
import tomllib
from collections import defaultdict
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from mutants import Mutant, mutants_of
from trial import Outcome, copy_of, passes, preload, tried

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

ROOT = Path(__file__).parents[2]
NUMBERS = ("sim", "viz/sheets", "viz/figures", "viz/drawings", "viz/files", "viz/page", "viz/report")
"""What is mutated: physics, and the parts of what a person sees that carry numbers."""
CHANCE = 0.01
"""A run fails where so few are killed or argued as in one run of a hundred, were the floor the share of all mutants."""
EQUIVALENT = tomllib.loads((Path(__file__).parent / "equivalent.toml").read_text(encoding="utf-8"))["mutant"]
"""Survivors that change nothing anyone can see, each with the reason."""


def main(words: Sequence[str]) -> int:
    """Try mutants, tell the survivors and the score, and return 1 where it lies below the floor beyond chance."""
    given = _parsed(words)
    ends = time.monotonic() + given.seconds if given.seconds else None
    sys.path.insert(0, str(ROOT))
    preload()
    with tempfile.TemporaryDirectory() as place:
        tree = copy_of(ROOT, Path(place))
        found = dict(_judged(tree, islice(_chosen(given), given.most), ends=ends, whole=bool(given.paths)))
    return _told(found, given.floor)


def _parsed(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("paths", nargs="*", help="files or rooms; everything that carries numbers, if not given")
    parser.add_argument("--most", type=int, default=100_000, help="mutants tried at most")
    parser.add_argument("--seconds", type=float, help="time after which no further mutant is begun")
    parser.add_argument("--seed", type=int, default=1, help="of the sample")
    parser.add_argument("--floor", type=float, default=0.0, help="share to be killed or argued, chance allowed for")
    parser.add_argument("--since", help="commit whose differences to the checkout are tried first")
    return parser.parse_args(words)


def _chosen(given: argparse.Namespace) -> Iterator[Mutant]:
    """Yield mutants of changed lines, then of all the rest, each in an order that the seed gives."""
    files = sorted(
        path.relative_to(ROOT).as_posix()
        for room in given.paths or NUMBERS
        for path in ([ROOT / room] if (ROOT / room).is_file() else (ROOT / room).rglob("*.py"))
    )
    draw = random.Random(given.seed)
    changed = _changed(given.since) if given.since else {}
    touched = [one for path in files if path in changed for one in mutants_of(ROOT, path) if one.line in changed[path]]
    draw.shuffle(touched)
    yield from touched
    yield from (one for one in _drawn(files, draw) if one not in touched)


def _drawn(files: list[str], draw: random.Random) -> Iterator[Mutant]:
    """Yield all mutants by chance, a file by its length: only those of files drawn are made."""
    lengths = {path: len((ROOT / path).read_bytes()) for path in files}
    left: dict[str, list[Mutant]] = {}
    while lengths:
        (path,) = draw.choices(list(lengths), list(lengths.values()))
        if path not in left:
            left[path] = mutants_of(ROOT, path)
            draw.shuffle(left[path])
        if left[path]:
            yield left[path].pop()
        else:
            del lengths[path]


def _changed(since: str) -> dict[str, set[int]]:
    """Return the lines of each file that differ from a commit; none where the checkout does not hold it."""
    words = ["git", "-C", str(ROOT), "diff", "--unified=0", "--no-color", since, "--", *NUMBERS]
    told = subprocess.run(words, capture_output=True, text=True)
    found: dict[str, set[int]] = defaultdict(set)
    name = ""
    for line in told.stdout.splitlines():
        if line.startswith("+++ "):
            name = line.removeprefix("+++ b/")
        elif place := re.match(r"@@ \S+ \+(\d+)(?:,(\d+))? @@", line):
            first, count = int(place[1]), int(place[2] or 1)
            found[name] |= set(range(first, first + count))
    return dict(found)


def _judged(
    tree: Path, mutants: Iterable[Mutant], *, ends: float | None, whole: bool
) -> Iterator[tuple[Mutant, Outcome | str]]:
    """Yield what became of each mutant; the tests of each file, of a sample those of its first, must pass as it is."""
    sound: dict[str, bool] = {}
    for mutant in mutants:
        if ends is not None and time.monotonic() > ends:
            return
        if mutant.path not in sound and (whole or not sound):
            sound[mutant.path] = passes(tree, mutant.path)
            if not sound[mutant.path]:
                print(f"left out, its tests fail as it is: {mutant.path}", flush=True)
        if not sound.get(mutant.path, True):
            continue
        before, after = mutant.change((tree / mutant.path).read_text(encoding="utf-8"))
        outcome = "equivalent" if _argued(mutant.path, before, after) else tried(tree, mutant)
        if outcome in ("survived", "untested"):
            print(f"{outcome}: {mutant.path}:{mutant.line}\n  - {before}\n  + {after}", flush=True)
        yield mutant, outcome


def _argued(path: str, before: str, after: str) -> bool:
    return any((one["path"], one["before"], one["after"]) == (path, before, after) for one in EQUIVALENT)


def _told(found: dict[Mutant, Outcome | str], floor: float) -> int:
    rooms: dict[str, list[bool]] = defaultdict(list)
    for mutant, outcome in found.items():
        rooms["/".join(mutant.path.split("/")[:2])].append(outcome in ("killed", "equivalent"))
    for room, ends in sorted(rooms.items()):
        print(f"{room}: {sum(ends)} of {len(ends)}")
    caught, tries = sum(map(sum, rooms.values())), sum(map(len, rooms.values()))
    print(f"killed or argued equivalent: {caught} of {tries}")
    return int(below_the_floor(caught, tries, floor))


def below_the_floor(caught: int, tries: int, floor: float) -> bool:
    """Return whether so few caught are rarer than one in a hundred, were the floor the share of all mutants."""
    from scipy.stats import binom

    return bool(tries and binom.cdf(caught, tries, floor) < CHANCE)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
