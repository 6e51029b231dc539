"""check, new and schema as a user meets them."""

import json

from airplanes import BIPLANE

from sim.scenario.bundled import fetch


def test_one_bad_file_does_not_hide_the_next(run, tmp_path):
    right, wrong = tmp_path / "right.toml", tmp_path / "wrong.toml"
    right.write_text(BIPLANE.read_text(encoding="utf-8"), encoding="utf-8")
    wrong.write_text(BIPLANE.read_text(encoding="utf-8").replace('"1400 lb ± 15 lb"', '"1400"'), encoding="utf-8")
    line = BIPLANE.read_text(encoding="utf-8").split("\n").index('mass = "1400 lb ± 15 lb"') + 1
    result = run("check", wrong, right, "tolgate")
    assert result.exit_code == 2
    assert result.stdout == f"{right}: fine\n"
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
    assert answer["files"][0] == {"file": str(BIPLANE), "fine": True, "faults": []}
    assert [fault["what"] for fault in answer["files"][1]["faults"]] == [
        "unknown table; did you mean wing?",
        "is missing: a table, the planes of the wing, all alike unless said otherwise",
    ]


def test_a_new_scenario_is_commented_and_fine(run, tmp_path):
    path = tmp_path / "camp.toml"
    result = run("new", path)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == f"{path}: written; change it, then run: whirlgate check {path}\n"
    assert path.read_text(encoding="utf-8").count("#") > 50
    assert run("check", path).output == f"{path}: fine\n"


def test_new_never_replaces_a_file_unasked(run, tmp_path):
    path = tmp_path / "camp.toml"
    path.write_text("mine", encoding="utf-8")
    result = run("new", path)
    assert (result.exit_code, result.stderr) == (2, f"{path}: is already there; give --force to replace it\n")
    assert path.read_text(encoding="utf-8") == "mine"
    assert run("new", path, "--force").exit_code == 0
    assert path.read_text(encoding="utf-8") == fetch("tollgate").text


def test_the_schema_is_json(run):
    result = run("schema")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["title"] == "whirlgate scenario"


def test_no_file_is_a_sentence(run):
    assert "Missing argument 'FILE...'" in run("check").stderr
