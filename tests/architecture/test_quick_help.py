"""``--help`` answers without loading anything heavy."""

import subprocess
import sys

import pytest

from viz.cli import COMMANDS

HEAVY = ("numpy", "scipy", "matplotlib", "sympy", "pygame", "pydantic", "pint", "rich", "jinja2", "ezdxf")
PROBE = """
import sys
from viz.cli import main
main({words!r}, standalone_mode=False)
print("LOADED", *sorted(set(sys.modules) & set({heavy!r})))
"""


def loaded(*words: str) -> list[str]:
    """Return which heavy libraries a call of the command line loads."""
    code = PROBE.format(words=list(words), heavy=HEAVY)
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return run.stdout.splitlines()[-1].split()[1:]


def test_the_list_of_commands_loads_nothing_heavy():
    assert loaded("--help") == []


@pytest.mark.parametrize("name", COMMANDS)
def test_the_help_of_a_command_loads_nothing_heavy(name):
    assert loaded(name, "--help") == []
