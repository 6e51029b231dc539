"""A file is written whole or not at all, and never over another one unasked."""

import pytest

from sim.errors import InputError
from viz.files.atomic import write_whole


def test_an_existing_file_is_kept(tmp_path):
    target = tmp_path / "answer.svg"
    target.write_text("old")
    with pytest.raises(InputError) as refusal:
        write_whole(target, "new")
    assert str(refusal.value) == f"{target}: is already there; give --force to replace it"
    assert target.read_text() == "old"


def test_force_replaces(tmp_path):
    target = tmp_path / "answer.svg"
    target.write_text("old")
    assert write_whole(target, b"new", force=True).read_text() == "new"


def test_a_folder_that_is_not_there(tmp_path):
    target = tmp_path / "nowhere" / "answer.svg"
    with pytest.raises(InputError) as refusal:
        write_whole(target, "new")
    assert str(refusal.value) == f"{target}: cannot be written: no such file or directory"


def test_a_failure_leaves_nothing_behind(tmp_path, monkeypatch):
    monkeypatch.setattr("os.fdopen", lambda *_: (_ for _ in ()).throw(KeyboardInterrupt))
    with pytest.raises(KeyboardInterrupt):
        write_whole(tmp_path / "answer.svg", "new")
    assert list(tmp_path.iterdir()) == []
