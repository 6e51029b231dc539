"""What every test may count on."""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # threads of small matrices wait for each other beside other tests

import pytest
from click.testing import CliRunner
from hypothesis import settings

settings.register_profile("house", deadline=None, derandomize=True)  # a slow machine is not a wrong answer
settings.load_profile("house")


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
