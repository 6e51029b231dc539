"""What a builder of a display alone meets first: units of his file, what check refuses, cures of slips in the file."""

import re

import pytest

from sim.scenario.new import new


@pytest.fixture
def alone(tmp_path):
    file = tmp_path / "alone.toml"
    file.write_text(new(exhibit=True), encoding="utf-8")
    return file


def test_the_terminal_is_in_the_units_of_the_file_unless_asked(run, alone):
    """The force at the lever of a metric display in newtons, of an inch display and where asked in pounds."""
    shown = {units: " ".join(run(*units, "exhibit", alone).stdout.split()) for units in ((), ("--units", "us"))}
    newtons = float(re.search(r"force at the ([\d.]+) N ", shown[()])[1])
    pounds = float(re.search(r"force at the ([\d.]+) lbf ", shown["--units", "us"])[1])
    assert newtons == pytest.approx(4.44822 * pounds, rel=0.01)
    inch = [f"exhibit.{words}" for words in ('hardware="inch"', 'shaft_diameter="3/8 in"', 'roller_diameter="5/8 in"')]
    settings = [word for each in inch for word in ("--set", each)]
    assert " lbf " in run("exhibit", alone, *settings).stdout


@pytest.mark.parametrize(
    ("key", "value", "most"),
    [("lift", "600 mm", "at most 8 mm"), ("propeller_diameter", "24 ft", "1.5 m"), ("lamp_voltage", "230 V", "60 V")],
)
def test_check_refuses_with_its_line_what_exhibit_refuses(run, alone, key, value, most):
    text = re.sub(rf'(?m)^{key} = "[^"]*"', f'{key} = "{value}"', alone.read_text(encoding="utf-8"))
    alone.write_text(text, encoding="utf-8")
    line = 1 + next(number for number, row in enumerate(text.splitlines()) if row.startswith(f"{key} ="))
    checked, asked = run("check", alone), run("exhibit", alone)
    assert (checked.exit_code, asked.exit_code) == (2, 2)
    assert f"{alone}:{line}: exhibit.{key}: " in checked.stderr
    assert most in checked.stderr
    assert {row.partition("exhibit.")[2] for row in asked.stderr.splitlines()} == {
        row.partition("exhibit.")[2] for row in checked.stderr.splitlines()
    }


def test_check_refuses_it_for_the_display_of_an_airplane_too(run, scenario):
    result = run("check", scenario, "--set", 'exhibit.lamp_voltage="230 V"')
    assert result.exit_code == 2
    assert "exhibit.lamp_voltage: a lamp within a child's reach" in result.stderr


@pytest.mark.parametrize(
    ("old", "slip", "said"),
    [
        ("lobes = 2", "lobes = two", "words stand in double quotes, and a count is a plain number such as 2"),
        ('lift = "6 mm"', 'lift = "6"', 'must have a unit, as in "6 mm", got "6"'),
        ("lobes = 2", 'hammer_mass = "1 kg"\nlobes = 2', "a hammer is a part of a working gun"),
    ],
)
def test_a_slip_is_told_with_its_cure(run, alone, old, slip, said):
    text = alone.read_text(encoding="utf-8")
    assert old in text
    alone.write_text(text.replace(old, slip), encoding="utf-8")
    result = run("check", alone)
    assert result.exit_code == 2
    assert said in result.stderr


def test_new_says_how_its_files_are_made(run, tmp_path):
    file = tmp_path / "mine.toml"
    said = run("new", "--exhibit", file).stdout
    assert said.endswith(f"whirlgate check {file}, and: whirlgate exhibit {file} --out FOLDER\n")


def test_a_shaft_that_is_not_sold_is_told_the_sizes_on_either_side(run, alone):
    """Bores of ISO 15 next to 11 mm: 10 mm and 12 mm; beyond the largest one only that."""
    said = {size: run("exhibit", alone, "--set", f'exhibit.shaft_diameter="{size} mm"').stdout for size in (11, 2)}
    assert "a shaft of 10 mm or 12 mm" in " ".join(said[11].split())
    assert "a shaft of 3 mm." in " ".join(said[2].split())
