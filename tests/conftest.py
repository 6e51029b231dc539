"""What every test may count on."""

import importlib.util
import os
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads of small matrices wait for each other beside other tests

import pytest
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


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item, call):
    """Turn a skip into a failure where the machine is said to have everything (``WHIRLGATE_NO_SKIPS``)."""
    report = yield
    if report.skipped and os.environ.get("WHIRLGATE_NO_SKIPS") and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"skipped where nothing may be: {report.longrepr[2]}"
    return report


@pytest.fixture
def run():
    """Call the command line as a user would; the result holds exit code, stdout and stderr."""
    from viz.cli import main

    return lambda *words: CliRunner().invoke(main, [str(word) for word in words])
