"""Every file under valid/ is fine; every file under invalid/ has exactly the faults written beside it.

A new case is two files: NAME.toml and NAME.errors.txt.
"""

from pathlib import Path

import pytest

from sim.errors import InputError
from sim.scenario.bundled import folder
from sim.scenario.reading import load
from viz.sheets.from_sim import in_one_system

HERE = Path(__file__).parent
VALID = sorted([*HERE.glob("valid/*.toml"), *folder().glob("*.toml")])
INVALID = sorted(HERE.glob("invalid/*.toml"))


def told(path: Path) -> str:
    return path.with_suffix(".errors.txt").read_text(encoding="utf-8")


@pytest.fixture(autouse=True)
def beside_the_files(monkeypatch):
    monkeypatch.chdir(HERE / "invalid")


def test_there_are_enough_cases():
    assert len(INVALID) >= 25


@pytest.mark.parametrize("path", VALID, ids=lambda path: path.stem)
def test_a_right_file_is_fine(path, run):
    load(path)
    result = run("check", path)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(f"{path}: no faults\n")


@pytest.mark.parametrize("path", INVALID, ids=lambda path: path.stem)
def test_the_reader_tells_every_fault(path):
    with pytest.raises(InputError) as caught:
        load(path.name)
    assert f"{caught.value}\n" == told(path)


@pytest.mark.parametrize("path", INVALID, ids=lambda path: path.stem)
def test_the_command_line_tells_them_too(path, run):
    """By ``check``, in the units of its reader; a drawing, which that checks as one, by one that needs a scenario."""
    result = run("balance" if path.stem == "drawing" else "check", path.name)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", in_one_system(told(path), "us"))
