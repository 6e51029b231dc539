"""What the README says can be done as it stands."""

import re
from pathlib import Path

import pytest

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")


def blocks(language):
    return re.findall(rf"^```{language}\n(.*?)^```$", README, re.DOTALL | re.MULTILINE)


def test_two_commands_of_a_line_each_set_up_compare_and_test():
    compared, tested = (block.splitlines() for block in blocks("sh"))
    assert len(compared) == len(tested) == 1
    assert compared[0].endswith("whirlgate compare")
    assert "pytest" in tested[0]


@pytest.mark.slow
def test_the_lines_of_python_run_and_every_expression_has_a_value():
    lines = blocks("python")[0].replace("draws=256", "draws=8").splitlines()
    space, values = {}, []
    for line in lines:
        if line.startswith(("sim.", "viz.", "compared.", "windows.")):
            values.append(eval(line, space))
        else:
            exec(line, space)
    assert len(values) == 8
    assert all(value is not None for value in values)


def test_every_picture_is_there():
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert pictures
    root = Path(__file__).parents[2]
    assert [picture for picture in pictures if not (root / picture).is_file()] == []


def test_every_command_under_a_picture_is_one():
    from viz.cli import COMMANDS

    assert set(re.findall(r"^\*`whirlgate (\w+)", README, re.MULTILINE)) <= set(COMMANDS)
