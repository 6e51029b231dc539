"""A scenario is found as a file or by name, in a checkout and in an installed package; else a sentence says why."""

import pytest

from sim.errors import InputError
from sim.scenario import bundled


def refused(path_or_name: object) -> str:
    with pytest.raises(InputError) as caught:
        bundled.fetch(path_or_name)
    return str(caught.value)


def test_the_demonstration_came_along():
    assert "tollgate" in bundled.names()
    assert bundled.fetch("tollgate").text.startswith("# A whirlgate scenario")


def test_a_file_goes_before_a_name(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "tollgate").write_text("mine", encoding="utf-8")
    assert bundled.fetch("tollgate").text == "mine"


def test_an_installed_package_holds_its_own(tmp_path, monkeypatch):
    (tmp_path / "scenarios").mkdir()
    (tmp_path / "scenarios" / "one.toml").write_text("", encoding="utf-8")
    monkeypatch.setattr(bundled, "__file__", str(tmp_path / "scenario" / "bundled.py"))
    assert bundled.names() == ["one"]


def test_what_cannot_be_found_or_read(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "camp.toml").write_text("", encoding="utf-8")
    (tmp_path / "big.toml").write_bytes(b"#" * (bundled.MOST_BYTES + 1))
    neither = f"is neither a file nor a bundled scenario ({', '.join(bundled.names())})"
    assert refused("tolgate") == f"tolgate: {neither}; did you mean tollgate?"
    assert refused("cmap.toml") == f"cmap.toml: {neither}; did you mean camp?"
    assert refused("") == '"": cannot be read: is a directory'
    assert refused(tmp_path) == f"{tmp_path}: cannot be read: is a directory"
    assert refused("big.toml") == "big.toml: is not a scenario: it is larger than 1 MB"
    assert refused("a\0b") == f'"a\\u0000b": {neither}'
    assert refused("x" * 5000) == f"{'x' * 5000}: cannot be read: file name too long"
