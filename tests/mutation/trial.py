"""A mutant beside the tests: a copy of the checkout in which it stands, and a process forked for each test file."""

from __future__ import annotations

import compileall
import json
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from mutants import Mutant  # noqa: TC002

if TYPE_CHECKING:
    from collections.abc import Iterator

LIBRARIES = (
    "numpy",
    "scipy.optimize",
    "scipy.stats",
    "shapely",
    "pydantic",
    "click.testing",
    "ezdxf",
    "coverage",
    "matplotlib.figure",
    "matplotlib.backends.backend_agg",
    "matplotlib.backends.backend_svg",
    "rich.console",
    "babel.numbers",
    "jinja2",
    "pint",
    "tomlkit",
)
"""Imported before processes are forked, so that mutants need not wait: no plugin of pytest, nothing of the program."""
HUNG = 4
"""Processor time over that at which no further test begins, at which one that does not come back is ended."""
WAITING = 10
"""Wall time over that: a test that waits for something that never comes."""
STARTING_S = 5.0
"""Processor time in which a process has the program and its tests, however short the time for the tests is."""


def copy_of(root: Path, place: Path) -> Path:
    """Copy a checkout, without what git and tools keep beside it, compile what no run has yet, and return the copy."""
    beside = shutil.ignore_patterns(".git", ".venv", "*_cache", "node_modules", "dist")
    copy = Path(shutil.copytree(root, place, ignore=beside, dirs_exist_ok=True))
    for room in ("sim", "viz"):  # else every mutant would have all of it compiled again
        compileall.compile_dir(copy / room, quiet=2)
    return copy


def preload() -> None:
    """Import the libraries that tests need anyway."""
    for name in LIBRARIES:
        import_module(name)


@dataclass(frozen=True)
class Run:
    """Tests to be run in a tree, and how.

    Attributes
    ----------
    tree : pathlib.Path
        A checkout.
    tests : tuple of str
        As pytest takes them.
    most_cpu_s : float
        Processor time after which no further test begins. [s]
    mutated : bool
        Whether a mutant stands in the tree: nothing of it may stay.
    slow : bool
        Whether slow tests are run too, after the others.
    """

    tree: Path
    tests: tuple[str, ...]
    most_cpu_s: float = 8.0
    mutated: bool = True
    slow: bool = False


@dataclass(frozen=True)
class End:
    """How a run ended.

    Attributes
    ----------
    passed, whole : bool
        Whether all passed as far as they got; whether they got to their end.
    cpu_s : float
        Processor time. [s]
    failed : str
        The test that failed, as pytest takes it; empty where none was begun.
    lines : dict of str to list of int
        The lines reached, of each source file, from the root.
    """

    passed: bool
    whole: bool
    cpu_s: float
    failed: str = ""
    lines: dict[str, list[int]] = field(default_factory=dict)


@dataclass
class Deadline:
    """A plugin of pytest: begins no further test once the processor time is used up, keeps the first failure."""

    most_cpu_s: float
    reached: bool = False
    failed: str = ""

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Let those come first that hold a whole sheet, and slow ones last."""
        items.sort(key=lambda item: (bool(item.get_closest_marker("slow")), "snapshot" not in item.fixturenames))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Keep the name of the first test that fails."""
        if report.failed and not self.failed:
            self.failed = report.nodeid

    def pytest_runtest_teardown(self, item: pytest.Item, nextitem: pytest.Item | None) -> None:
        """Look at the clock of this process after each test but the last."""
        if nextitem is not None and time.process_time() > self.most_cpu_s:
            self.reached = True
            item.session.shouldstop = "the time for one mutant is used up"


@contextmanager
def standing(tree: Path, mutant: Mutant) -> Iterator[None]:
    """Let a mutant stand in the tree."""
    place = tree / mutant.path
    source = place.read_text(encoding="utf-8")
    for compiled in place.parent.glob(f"__pycache__/{place.stem}.*.pyc"):
        compiled.unlink()  # it might look as old and as long as the mutant
    place.write_text(mutant.code(source), encoding="utf-8")
    try:
        yield
    finally:
        place.write_text(source, encoding="utf-8")


NO_VERDICT = (pytest.ExitCode.INTERNAL_ERROR, pytest.ExitCode.USAGE_ERROR)
STOPPED = 10
"""How a run ends that passed as far as the time went."""


def ended(run: Run) -> End:
    """Do a run in a process of its own and return how it ended: a hung one has failed."""
    with tempfile.TemporaryDirectory() as place:
        into = Path(place) / "told.json"
        before, child = _children_s(), os.fork()
        if child == 0:
            _become(run, into)
        code = _code(child, WAITING * (run.most_cpu_s + STARTING_S))
        told = json.loads(into.read_text(encoding="utf-8")) if into.is_file() else {}
    if code in NO_VERDICT:
        message = f"pytest ended with {code} on {' '.join(run.tests)}"
        raise RuntimeError(message)
    passed = code in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED, STOPPED)
    return End(passed, code != STOPPED, _children_s() - before, **told)


def _children_s() -> float:
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def _code(child: int, most_s: float) -> int:
    """Wait for a process and return how it ended."""
    ends = time.monotonic() + most_s
    while time.monotonic() < ends:
        pid, status = os.waitpid(child, os.WNOHANG)
        if pid:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.02)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return pytest.ExitCode.TESTS_FAILED


def _become(run: Run, into: Path) -> None:
    """Become a process that runs the tests, silent, and ends with their code."""
    os.setpgid(0, 0)
    most = HUNG * int(run.most_cpu_s + STARTING_S)
    resource.setrlimit(resource.RLIMIT_CPU, (most, most))
    with Path(os.devnull).open("w") as nowhere:
        os.dup2(nowhere.fileno(), 1)
        os.dup2(nowhere.fileno(), 2)
    try:
        code = _watched(run, into)
    except BaseException:  # noqa: BLE001  whatever it is, the process must end here and tell it
        code = int(pytest.ExitCode.INTERNAL_ERROR)
    os._exit(code)


def _watched(run: Run, into: Path) -> int:
    """Run tests and write what they reached and which of them failed; return the code of pytest, or `STOPPED`."""
    from coverage import Coverage

    watch = Coverage(data_file=None, config_file=False, include=[f"{run.tree}/{room}/*" for room in ("sim", "viz")])
    deadline = Deadline(run.most_cpu_s)
    watch.start()
    try:
        return _run(run, deadline)
    finally:
        watch.stop()
        data = watch.get_data()
        names = {Path(name).relative_to(run.tree).as_posix(): name for name in data.measured_files()}
        lines = {path: data.lines(name) for path, name in names.items()}
        into.write_text(json.dumps({"failed": deadline.failed, "lines": lines}), encoding="utf-8")


def _run(run: Run, deadline: Deadline) -> int:
    os.chdir(run.tree)
    os.environ["PYTHONPATH"] = str(run.tree)
    if run.mutated:
        os.environ["PYTHONDONTWRITEBYTECODE"] = "1"
        sys.dont_write_bytecode = True
    sys.path.insert(0, str(run.tree))
    marks = ["-m", "slow or not slow"] if run.slow else []
    code = int(pytest.main(["-x", "-p", "no:cacheprovider", *marks, *run.tests], plugins=[deadline]))
    return STOPPED if deadline.reached and code == pytest.ExitCode.INTERRUPTED else code
