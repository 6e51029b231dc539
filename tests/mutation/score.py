"""How many small wrong changes of the sources the tests notice.

By hand over rooms, so many of each, and again over what was not killed, once tests were written:
``python tests/mutation/score.py sim/display sim/rotor --most 10 --each 30 --kept /tmp/mutants``, then with ``--again``;
``--table`` prints what all runs found. In ``.ci/run`` a sample for as long as it is given, changed lines first:
``python tests/mutation/score.py --seconds 60 --since HEAD~1``.
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
from collections import Counter, defaultdict
from functools import cache
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from judged import CAUGHT, Judged, Outcome, add, again, caught_of, read, table
from mutants import Mutant, mutants_of
from reached import Reached
from touching import nearest_tests
from trial import Run, copy_of, ended, preload, standing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

ROOT = Path(__file__).parents[2]
NUMBERS = ("sim", "viz/sheets", "viz/figures", "viz/drawings", "viz/files", "viz/page", "viz/report")
"""What is mutated: physics, and the parts of what a person sees that carry numbers."""
CHANCE = 0.01
"""A run fails where so few are killed or argued as in one run of a hundred, were the floor the share of all mutants."""
LONGEST_S = 60.0
"""Processor time that a test may take which killed a mutant and is tried without it."""
EQUIVALENT = tomllib.loads((Path(__file__).parent / "equivalent.toml").read_text(encoding="utf-8"))["mutant"]
"""Survivors that change nothing anyone can see, each with the reason."""


def main(words: Sequence[str]) -> int:
    """Try mutants, tell survivors and table, and return 1 where the score lies below the floor beyond chance."""
    given = _parsed(words)
    ends = time.monotonic() + given.seconds if given.seconds else None
    with tempfile.TemporaryDirectory() as place:
        kept = given.kept or Path(place) / "kept"
        kept.mkdir(exist_ok=True, parents=True)
        log = kept / "judged.jsonl"
        if not given.table:
            sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "fixtures")]
            preload()
            tree = copy_of(ROOT, Path(place) / "tree")
            (kept / "reached").mkdir(exist_ok=True)
            _judge_all(Reached(tree, kept / "reached", given.slow), given, ends=ends, log=log)
        found = [one for one in read(log).values() if not given.paths or one.path.startswith(tuple(given.paths))]
    print(table(found))
    return int(below_the_floor(*caught_of(Counter(one.outcome for one in found)), given.floor))


def _parsed(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("paths", nargs="*", help="files or rooms; everything that carries numbers, if not given")
    parser.add_argument("--most", type=int, default=100_000, help="mutants tried at most, of each file or room given")
    parser.add_argument("--seconds", type=float, help="time after which no further mutant is begun")
    parser.add_argument("--each", type=float, default=8.0, help="seconds of a processor for the tests of one mutant")
    parser.add_argument("--seed", type=int, default=1, help="of the sample")
    parser.add_argument("--floor", type=float, default=0.0, help="share to be killed or argued, chance allowed for")
    parser.add_argument("--since", help="commit whose differences to the checkout are tried first")
    parser.add_argument("--slow", action="store_true", help="run the slow tests of a file too, after its others")
    parser.add_argument("--kept", type=Path, help="directory where findings stay, so that a later run goes on")
    parser.add_argument("--again", action="store_true", help="try what earlier runs did not see killed")
    parser.add_argument("--table", action="store_true", help="try nothing, print the table of what is kept")
    return parser.parse_args(words)


def _judge_all(reached: Reached, given: argparse.Namespace, *, ends: float | None, log: Path) -> None:
    """Judge what is asked for and was not judged before, tell it and add it to the log."""
    before = read(log)
    rooms = [one for one in before.values() if not given.paths or one.path.startswith(tuple(given.paths))]
    asked = again(ROOT, rooms) if given.again else _sampled(given)
    for mutant, seed in asked:
        if ends is not None and time.monotonic() > ends:
            return
        lines = mutant.change((ROOT / mutant.path).read_text(encoding="utf-8"))
        if not given.again and (mutant.path, mutant.operator, *lines) in before:
            continue
        outcome, by = ("equivalent", "") if _argued(mutant.path, *lines) else _tried(reached, mutant, given.each)
        one = Judged(mutant.path, mutant.line, mutant.operator, *lines, seed, outcome, by)
        if outcome not in CAUGHT:
            print(one.told(), flush=True)
        add(log, one)


def _sampled(given: argparse.Namespace) -> Iterator[tuple[Mutant, int]]:
    for room in [(one,) for one in given.paths] or [NUMBERS]:
        yield from ((mutant, given.seed) for mutant in islice(_chosen(given, room), given.most))


def _tried(reached: Reached, mutant: Mutant, most_cpu_s: float) -> tuple[Outcome, str]:
    """Return what becomes of a mutant in the time there is, and the test that killed it."""
    left, outcome = most_cpu_s, "untested"
    for test in nearest_tests(reached.tree, mutant.path):
        if not reached.may_reach(test, mutant.path, mutant.line):
            continue
        if left <= 0:
            return "not judged", ""
        with standing(reached.tree, mutant):
            end = ended(Run(reached.tree, (test,), left, slow=reached.slow))
        left -= end.cpu_s
        if not end.passed and passes(reached.tree, end.failed or test):
            return "killed", end.failed or test
        if not (end.passed and end.whole):
            outcome = "not judged"
        elif reached.reaches(reached.keep(test, end.lines), mutant.path, mutant.line) and outcome == "untested":
            outcome = "survived"
    return outcome, ""


@cache
def passes(tree: Path, test: str) -> bool:
    """Return whether a test that a mutant fails passes without it; else it says nothing of one."""
    found = ended(Run(tree, (test,), LONGEST_S, mutated=False, slow=True)).passed
    if not found:
        print(f"left out, it fails as it is: {test}", flush=True)
    return found


def _chosen(given: argparse.Namespace, rooms: tuple[str, ...]) -> Iterator[Mutant]:
    """Yield mutants of changed lines, then of all the rest, each in an order that the seed gives."""
    files = sorted(
        path.relative_to(ROOT).as_posix()
        for room in rooms
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


def _argued(path: str, before: str, after: str) -> bool:
    return any((one["path"], one["before"], one["after"]) == (path, before, after) for one in EQUIVALENT)


def below_the_floor(caught: int, tries: int, floor: float) -> bool:
    """Return whether so few caught are rarer than one in a hundred, were the floor the share of all mutants."""
    from scipy.stats import binom

    return bool(tries and binom.cdf(caught, tries, floor) < CHANCE)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
