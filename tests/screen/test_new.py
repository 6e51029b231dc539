"""``new``: a commented scenario or drawing that is fine, and never over a file unasked."""

import re

import pytest

from sim.scenario.bundled import fetch, names


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


@pytest.mark.parametrize("name", names())
def test_any_bundled_airplane_may_be_started_from(name, run, tmp_path):
    path = tmp_path / "camp.toml"
    assert run("new", path, "--like", name).stdout == f"{path}: written; change it, then run: whirlgate check {path}\n"
    assert path.read_text(encoding="utf-8") == fetch(name).text
    assert run("check", path).output == f"{path}: no faults\n"


def test_what_did_not_come_along_is_refused_with_the_names_of_those_that_did(run, tmp_path, monkeypatch):
    """A file of that name in the working directory is none of them."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "packhors").write_text("mine", encoding="utf-8")
    result = run("new", "camp.toml", "--like", "packhors")
    said = f'--like: must be one of {", ".join(names())}, got "packhors"; did you mean packhorse?\n'
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", said)
    result = run("new", "--drawing", "three.toml", "--like", "packhorse")
    assert result.stderr == f'--like: must be one of {", ".join(names("drawings"))}, got "packhorse"\n'
    assert not (tmp_path / "camp.toml").exists()


@pytest.mark.parametrize("words", [("--help",), ("new", "--help")], ids="_".join)
def test_the_help_names_every_bundled_airplane(words, run):
    assert set(names()) <= set(re.findall("[a-z]+", run(*words).stdout))
