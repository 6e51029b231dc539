"""``check``: every file is told, to people and to programs."""

import json

from airplanes import BIPLANE, DRAWING


def test_one_bad_file_does_not_hide_the_next(run, tmp_path):
    right, wrong = tmp_path / "right.toml", tmp_path / "wrong.toml"
    right.write_text(BIPLANE.read_text(encoding="utf-8"), encoding="utf-8")
    wrong.write_text(BIPLANE.read_text(encoding="utf-8").replace('"1400 lb ± 15 lb"', '"1400"'), encoding="utf-8")
    line = BIPLANE.read_text(encoding="utf-8").split("\n").index('mass = "1400 lb ± 15 lb"') + 1
    result = run("check", wrong, right, "tolgate")
    assert result.exit_code == 2
    assert result.stdout == f"{right}: no faults\n"
    assert (
        result.stderr.splitlines()[0] == f'{wrong}:{line}: airplane.mass: must have a unit, as in "381 lb", got "1400"'
    )
    assert result.stderr.splitlines()[1].startswith("tolgate: is neither a file nor a bundled scenario (")


def test_check_answers_a_program_too(run, tmp_path):
    wrong = tmp_path / "wrong.toml"
    wrong.write_text(BIPLANE.read_text(encoding="utf-8").replace("[wing]", "[wnig]"), encoding="utf-8")
    result = run("check", "--json", BIPLANE, wrong)
    answer = json.loads(result.stdout)
    assert (result.exit_code, result.stderr) == (2, "")
    assert answer["files"][0] == {"file": str(BIPLANE), "kind": "scenario", "fine": True, "faults": []}
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
