"""``new``: a commented scenario or drawing that is fine, and never over a file unasked."""

from sim.scenario.bundled import fetch


def test_a_new_scenario_is_commented_and_fine(run, tmp_path):
    path = tmp_path / "camp.toml"
    result = run("new", path)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == f"{path}: written; change it, then run: whirlgate check {path}\n"
    assert path.read_text(encoding="utf-8").count("#") > 50
    assert run("check", path).output == f"{path}: no faults\n"


def test_new_never_replaces_a_file_unasked(run, tmp_path):
    path = tmp_path / "camp.toml"
    path.write_text("mine", encoding="utf-8")
    result = run("new", path)
    assert (result.exit_code, result.stderr) == (2, f"{path}: is already there; give --force to replace it\n")
    assert path.read_text(encoding="utf-8") == "mine"
    assert run("new", path, "--force").exit_code == 0
    assert path.read_text(encoding="utf-8") == fetch("tollgate").text


def test_a_new_drawing_is_commented_fine_and_can_be_scaled(run, tmp_path):
    path = tmp_path / "threeview.toml"
    result = run("new", "--drawing", path)
    assert (result.exit_code, result.stderr) == (0, "")
    assert path.read_text(encoding="utf-8") == fetch("tollgate", "drawings").text
    assert run("check", path).output == f"{path}: no faults; a drawing, for whirlgate scale\n"
    assert run("scale", path).exit_code == 0
