"""``check``: every file is told, to people and to programs."""

import json
import re

import pytest
from airplanes import BIPLANE, DRAWING


def test_one_bad_file_does_not_hide_the_next(run, tmp_path):
    right, wrong = tmp_path / "right.toml", tmp_path / "wrong.toml"
    right.write_text(BIPLANE.read_text(encoding="utf-8"), encoding="utf-8")
    wrong.write_text(BIPLANE.read_text(encoding="utf-8").replace('"1400 lb ± 15 lb"', '"1400"'), encoding="utf-8")
    line = BIPLANE.read_text(encoding="utf-8").split("\n").index('mass = "1400 lb ± 15 lb"') + 1
    result = run("check", wrong, right, "tolgate")
    assert result.exit_code == 2
    assert result.stdout.startswith(f"{right}: no faults\n")
    assert (
        result.stderr.splitlines()[0] == f'{wrong}:{line}: airplane.mass: must have a unit, as in "1400 lb", got "1400"'
    )
    assert result.stderr.splitlines()[1].startswith("tolgate: is neither a file nor a bundled scenario (")


def test_remarks_stand_below_their_file_and_block_nothing(run, tmp_path):
    high = tmp_path / "high.toml"
    text = BIPLANE.read_text(encoding="utf-8").replace('gap = "4 ft 8 in" ', 'gap = "1 ft" ')
    high.write_text(text, encoding="utf-8")
    result = run("check", high)
    assert (result.exit_code, result.stderr) == (0, "")
    said = " ".join(result.stdout.split())
    assert said.startswith(f"{high}: no faults Remarks ")
    assert (
        " wing.gap: gap over mean chord is 0.222; usual is from 0.7 to 1.5. Check it and its unit, and wing.chord. "
        in said
    )


def test_a_file_without_a_remark_has_no_heading_for_them(run):
    assert run("check", "tollgate").stdout == "tollgate: no faults\n"


def test_check_answers_a_program_too(run, tmp_path):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(BIPLANE.read_text(encoding="utf-8").replace("[wing]", "[wnig]"), encoding="utf-8")
    result = run("check", "--json", BIPLANE, wrong)
    answer = json.loads(result.stdout)
    assert (result.exit_code, result.stderr) == (2, "")
    first = answer["files"][0]
    assert list(first) == ["file", "kind", "fine", "faults", "remarks"]
    assert (first["file"], first["kind"], first["fine"], first["faults"]) == (str(BIPLANE), "scenario", True, [])
    assert all(list(one) == ["key", "text"] and one["text"].startswith(f"{one['key']}: ") for one in first["remarks"])
    assert "gun.bore_radius" in [one["key"] for one in first["remarks"]]
    assert answer["files"][1]["remarks"] == []
    assert [fault["what"] for fault in answer["files"][1]["faults"]] == [
        "unknown table; did you mean wing?",
        "is missing: a table, the planes of the wing, all alike except for the overrides of the table plane",
    ]


def test_a_drawing_is_checked_as_one(run, tmp_path):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(DRAWING.read_text(encoding="utf-8").replace("one_scale", "one_scal"), encoding="utf-8")
    line = wrong.read_text(encoding="utf-8").split("\n").index("[view.front]") + 2
    result = run("check", DRAWING, wrong)
    assert (result.exit_code, result.stdout) == (2, f"{DRAWING}: no faults; a drawing, for whirlgate scale\n")
    assert result.stderr == f"{wrong}:{line}: view.front.one_scal: unknown key; did you mean one_scale?\n"
    assert json.loads(run("check", "--json", DRAWING).stdout)["files"][0]["kind"] == "drawing"


def test_no_file_is_a_sentence(run):
    assert "Missing argument 'FILE...'" in run("check").stderr


def test_the_json_lists_every_fault_and_remark_once_more(run, tmp_path):
    text = BIPLANE.read_text(encoding="utf-8")
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(text.replace('gap = "4 ft 8 in"', 'gap = "wide"'), encoding="utf-8")
    found = json.loads(run("check", "--json", BIPLANE, wrong).stdout)
    assert found["faults"] == found["files"][1]["faults"]
    assert found["remarks"] == found["files"][0]["remarks"]
    assert [fault["where"] for fault in found["faults"]] == ["wing.gap"]
    assert {"key", "text"} == set(found["remarks"][0])


SCALES = {
    "less than nothing": (
        ('scale = "556 lb ± 1 lb"', 'scale = "56 lb ± 1 lb"'),
        ('scale = "554 lb ± 1 lb"', 'scale = "54 lb ± 1 lb"'),
        ('scale = "522 lb ± 1 lb"', 'scale = "22 lb ± 1 lb"'),
        ('scale = "520 lb ± 1 lb"', 'scale = "20 lb ± 1 lb"'),
    ),
    "no balance": (('scale = "522 lb ± 1 lb"', 'scale = "582 lb ± 1 lb"'),),
    "a tare above the reading": (('tare = "8 1/2 lb"', 'tare = "128 lb"'),),
    "a group that is not there": (('aboard = ["pilot"]', 'aboard = ["pilots"]'),),
}


@pytest.mark.parametrize("changes", SCALES.values(), ids=SCALES)
def test_scales_that_balance_refuses_are_faults_in_the_same_words(changes, run, tmp_path):
    wrong, text = tmp_path / "wrong.toml", BIPLANE.read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    wrong.write_text(text, encoding="utf-8")
    refused = run("balance", wrong)
    assert refused.exit_code == 2
    result = run("check", wrong)
    assert (result.exit_code, result.stdout) == (2, "")
    places = [line.removeprefix(f"{wrong}:").partition(": ") for line in result.stderr.splitlines()]
    assert result.stderr == refused.stderr
    rows = text.split("\n")
    assert [re.split(r"[\s\]]", rows[int(line) - 1].strip("["))[0].rpartition(".")[2] for line, _, _ in places] == [
        place.rpartition(".")[2] for place in (fault.partition(":")[0] for _, _, fault in places)
    ]


def test_a_setting_is_checked_as_if_it_stood_in_the_file(run):
    wide = " ".join(run("check", BIPLANE, "--set", "wing.gap=12 ft").stdout.split())
    assert "wing.gap: gap over mean chord is " in wide
    assert "gap over mean chord" not in run("check", BIPLANE).stdout
    wrong = run("check", BIPLANE, "--set", "wing.gap=wide")
    assert wrong.exit_code == 2
    assert wrong.stderr.startswith("--set wing.gap: must be a length")


def test_a_drawing_takes_no_setting(run):
    result = run("check", DRAWING, "--set", "wing.gap=5 ft")
    assert result.exit_code == 2
    assert f"changes a scenario; {DRAWING} is a drawing, whose file is to be changed" in result.stderr


def test_of_thousands_of_faults_the_first_are_told(run, tmp_path):
    """Each engine lacks its six tables: 200 faults in their order, and how many more there are."""
    file = tmp_path / "many.toml"
    engines = "\n".join(f'[powerplant.x{number}]\nkind = "rotary"' for number in range(300))
    file.write_text(BIPLANE.read_text(encoding="utf-8") + engines, encoding="utf-8")
    said = run("check", file).stderr.splitlines()
    assert len(said) == 201
    whole = json.loads(run("check", file, "--json").stdout)["faults"]
    assert said[-1] == f"and {len(whole) - 200} more; mend these first"
    assert len(whole) > 600


def test_a_display_of_an_engine_that_there_is_not_is_told_with_file_and_line(run, tmp_path):
    text = BIPLANE.read_text(encoding="utf-8")
    assert text.count('\npowerplant = "rotary"  ') == 1
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(text.replace('\npowerplant = "rotary"  ', '\npowerplant = "radial"  '), encoding="utf-8")
    line = text[: text.index('\npowerplant = "rotary"  ')].count("\n") + 2
    result = run("check", wrong)
    said = f'{wrong}:{line}: exhibit.powerplant: must be rotary or flat_four, got "radial"'
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.splitlines() == [said]
