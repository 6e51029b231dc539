"""Every command is a file of its own, in the table of help, and shows an example."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from viz.cli import COMMANDS, main

ROOT = Path(__file__).parents[2]


def test_the_table_and_the_files_agree():
    shared = {
        "__init__",
        "against",
        "other_airplane",
        "output",
        "options",
        "progress",
        "gun_options",
        "flight_options",
        "seed",
        "shift",
        "next_steps",
        "told",
        "written",
    }
    files = {p.stem.replace("_", "-") for p in (ROOT / "viz/commands").glob("*.py") if p.stem not in shared}
    assert set(COMMANDS) == files


@pytest.mark.parametrize("name", COMMANDS)
def test_help_shows_an_example(name):
    shown = CliRunner().invoke(main, [name, "--help"])
    assert shown.exit_code == 0
    assert f"Example: whirlgate {name}" in " ".join(shown.output.split()).replace("Examples:", "Example:")


def test_the_readme_lists_every_command():
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    assert not [name for name in COMMANDS if f"`whirlgate {name}" not in text]
