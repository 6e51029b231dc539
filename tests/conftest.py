"""What every test may count on."""

import gc
import importlib.util
import os
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads of small matrices wait for each other beside other tests

import pytest
import workers
from airplanes import BIPLANE, DRAWING
from click.testing import CliRunner
from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True)  # a slow machine is not a wrong answer
settings.load_profile("house")


def pytest_configure(config):
    """Let the run that gathers the reports write the proof page; see tests/published/proof.py."""
    if not hasattr(config, "workerinput"):
        spec = importlib.util.spec_from_file_location("proof", Path(__file__).parent / "published" / "proof.py")
        proof = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(proof)
        config.pluginmanager.register(proof.Proof(config), "proof")


def pytest_collection_modifyitems(items):
    """Let the files that take longest come first, so that at the end no worker waits for another."""
    items.sort(key=lambda item: workers.rank(item.nodeid))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    return workers.Files(config, log) if config.getvalue("dist") == "loadfile" else None


def pytest_collection_finish():
    """Leave what is imported out of every later search for garbage: it stays to the end."""
    gc.freeze()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """Turn a skip into a failure where the machine is said to have everything (``WHIRLGATE_NO_SKIPS``)."""
    report = yield
    if report.skipped and os.environ.get("WHIRLGATE_NO_SKIPS") and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"skipped where nothing may be: {report.longrepr[2]}"
    return report


OWN_OPTIONS = ("windows", "rate", "burst", "safe-range", "disc", "propeller")
"""They take options of their own, of a gun, of marks or of a propeller, where no scenario is named."""


@pytest.fixture(scope="session")
def run():
    """Call the command line as a user would; the result holds exit code, stdout and stderr.

    Where a command would take the demonstration, it takes the frozen biplane; `OWN_OPTIONS` have to be given it.
    """
    from viz.cli import COMMANDS, main

    frozen = {"scenario": str(BIPLANE), "drawing": str(DRAWING)}
    defaults = {name: frozen for name in COMMANDS if name not in OWN_OPTIONS}
    return lambda *words: CliRunner().invoke(main, [str(word) for word in words], default_map=defaults)


@pytest.fixture(scope="session", autouse=True)
def one_core_each():
    """Let a report be drawn by the process that writes it: beside other tests a second one only makes both wait."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("viz.report.drawings.cores", lambda: 1)
        yield
