"""``import sim`` gives every command as a function of its name, all called alike."""

import inspect
import subprocess
import sys
from pathlib import Path

import pytest
from airplanes import BIPLANE, TRIPLANE

import sim
from sim.interface import ABOUT_A_MODEL, NAMES
from sim.model.model import model
from viz.cli import COMMANDS

SHOWN = {"view", "report", "page", "handbook"}
"""Commands that only show what others compute: they are of viz."""


def test_every_command_is_a_function():
    asked = {name.replace("-", "_") for name in COMMANDS} - SHOWN
    assert asked <= set(NAMES)
    assert all(inspect.isfunction(getattr(sim, name)) for name in NAMES)


@pytest.mark.parametrize("name", ABOUT_A_MODEL)
def test_it_takes_a_scenario_first_and_options_by_keyword(name):
    first, *rest = inspect.signature(getattr(sim, name)).parameters.values()
    assert first.name == "scenario"
    assert all(one.kind is one.KEYWORD_ONLY for one in rest if one.default is not one.empty)
    assert "model : Model" not in getattr(sim, name).__doc__


def test_a_name_a_file_a_scenario_and_a_model_answer_alike():
    scenario = sim.load(TRIPLANE, set=["wing.span=27 ft"])
    answers = [sim.speeds(one).to_json() for one in (scenario, model(scenario))]
    assert answers[0] == answers[1] != sim.speeds(TRIPLANE).to_json()
    assert sim.speeds(str(BIPLANE)).to_json() == sim.speeds(BIPLANE).to_json()


def test_the_line_of_the_readme_prints_json():
    line = "import sim; print(sim.compare(sim.load('tollgate')))"
    done = subprocess.run([sys.executable, "-c", line], capture_output=True, text=True, check=True)
    assert done.stdout.startswith('{\n "title": "Tollgate single-seater"')


def test_an_unknown_name_is_refused():
    with pytest.raises(AttributeError, match="module 'sim' has no attribute 'handlin'"):
        sim.handlin  # noqa: B018


def test_no_package_has_the_name_of_a_function():
    """Importing a package would put it in the place of the function."""
    packages = {path.parent.name for path in Path(sim.__file__).parent.glob("*/__init__.py")}
    assert packages
    assert not packages & set(NAMES)
