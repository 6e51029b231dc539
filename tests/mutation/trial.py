"""A mutant beside the tests: a copy of the checkout in which it stands, and a process forked for each."""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sys
import time
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import pytest
from mutants import Mutant  # noqa: TC002
from touching import nearest_tests

if TYPE_CHECKING:
    from collections.abc import Iterator

Outcome = Literal["killed", "survived", "untested"]

LIBRARIES = ("numpy", "scipy.optimize", "scipy.stats", "shapely", "pydantic", "click.testing", "ezdxf")
"""Imported before processes are forked, so that mutants need not wait: no plugin of pytest, nothing of the program."""
MOST_CPU_S = 8.0
"""Processor time of the tests of one mutant, after which no further test begins."""
HUNG = 4
"""Processor time over that at which a test that does not come back is ended, and counts as failed."""
WAITING = 40
"""Wall time over that: a test that waits for something that never comes."""


def copy_of(root: Path, place: Path) -> Path:
    """Copy a checkout, without what git and tools keep beside it, and return the copy."""
    beside = shutil.ignore_patterns(".git", ".venv", "*_cache", "__pycache__", "node_modules", "dist")
    return Path(shutil.copytree(root, place, ignore=beside, dirs_exist_ok=True))


def preload() -> None:
    """Import the libraries that tests need anyway."""
    for name in LIBRARIES:
        import_module(name)


class Deadline:
    """A plugin of pytest that begins no further test once the processor time is used up."""

    reached = False

    def pytest_runtest_teardown(self, item: pytest.Item) -> None:
        """Look at the clock of this process after each test."""
        if time.process_time() > MOST_CPU_S:
            self.reached = True
            item.session.shouldstop = "the time for one mutant is used up"


def tried(tree: Path, mutant: Mutant) -> Outcome:
    """Return whether a test notices the mutant in the time there is."""
    tests = nearest_tests(tree, mutant.path)
    if not tests:
        return "untested"
    with _standing(tree, mutant):
        return "survived" if passing(tree, tests) else "killed"


def passes(tree: Path, path: str) -> bool:
    """Return whether the tests of a file pass as it is; without that no mutant of it can be judged."""
    return passing(tree, nearest_tests(tree, path))


@contextmanager
def _standing(tree: Path, mutant: Mutant) -> Iterator[None]:
    place = tree / mutant.path
    source = place.read_text(encoding="utf-8")
    for compiled in place.parent.glob(f"__pycache__/{place.stem}.*.pyc"):
        compiled.unlink()  # it might look as old and as long as the mutant
    place.write_text(mutant.code(source), encoding="utf-8")
    try:
        yield
    finally:
        place.write_text(source, encoding="utf-8")


NO_VERDICT = (pytest.ExitCode.INTERNAL_ERROR, pytest.ExitCode.USAGE_ERROR, pytest.ExitCode.NO_TESTS_COLLECTED)


def passing(tree: Path, tests: list[str]) -> bool:
    """Return whether tests pass as far as they get; without a verdict of pytest nothing is said of a mutant."""
    code = _in_fork(tree, tests)
    if code in NO_VERDICT:
        message = f"pytest ended with {code} on {' '.join(tests)}"
        raise RuntimeError(message)
    return code == pytest.ExitCode.OK


def _in_fork(tree: Path, tests: list[str]) -> int:
    """Run tests in a process of their own, at the tree, and return how pytest ended; a hung one as failed."""
    child = os.fork()
    if child == 0:
        _run(tree, tests)
    ends = time.monotonic() + WAITING * MOST_CPU_S
    while time.monotonic() < ends:
        ended, status = os.waitpid(child, os.WNOHANG)
        if ended:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return pytest.ExitCode.TESTS_FAILED


def _run(tree: Path, tests: list[str]) -> None:
    """Become a run of pytest and end with its code."""
    os.setpgid(0, 0)
    resource.setrlimit(resource.RLIMIT_CPU, (HUNG * int(MOST_CPU_S), HUNG * int(MOST_CPU_S)))
    with Path(os.devnull).open("w") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        os.dup2(nowhere.fileno(), 2)
    os.chdir(tree)
    os.environ["PYTHONPATH"] = str(tree)
    sys.dont_write_bytecode = True
    sys.path.insert(0, str(tree))
    deadline = Deadline()
    try:
        code = int(pytest.main(["-x", "-p", "no:cacheprovider", *tests], plugins=[deadline]))
    except BaseException:  # noqa: BLE001  whatever it is, the process must end here and tell it
        code = int(pytest.ExitCode.INTERNAL_ERROR)
    passed = deadline.reached and code == pytest.ExitCode.INTERRUPTED
    os._exit(pytest.ExitCode.OK if passed else code)
