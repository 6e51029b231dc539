"""The examples in the docstrings answer as they say."""

import doctest
from importlib import import_module
from pathlib import Path

import pytest

import sim
import viz

LONG = "sim.sweeps.monte_carlo"
"""Its example solves airplanes by the hundred."""
MODULES = [
    ".".join((package.__name__, *path.relative_to(Path(package.__file__).parent).with_suffix("").parts))
    for package in (sim, viz)
    for path in sorted(Path(package.__file__).parent.rglob("*.py"))
    if ">>> " in path.read_text(encoding="utf-8")
]


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name == LONG else name for name in MODULES]
)
def test_an_example_answers_as_it_says(name):
    found = doctest.testmod(import_module(name.removesuffix(".__init__")))
    assert found.attempted > 0
    assert found.failed == 0
