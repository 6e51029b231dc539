"""A machine that fails, as with a full disk: a sentence, exit code 3, nothing half written; names are tried first."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest
from airplanes import BIPLANE
from click.testing import CliRunner

from viz.cli import main

FULL = Path("/dev/full")
NO_ROOM = "no space left on device; make room on the disk"
WITHIN = "import sys; sys.argv[0] = 'whirlgate'; from viz.cli import main; main()"


def ran(*words):
    return CliRunner().invoke(main, words)


@pytest.mark.parametrize("words", [["--help"], ["windows"], ["compare", "--json"], ["schema"]], ids=" ".join)
def test_an_output_that_is_full_is_told(words):
    if not FULL.exists():
        pytest.skip("there is no device that is always full")
    with FULL.open("w") as full:
        done = subprocess.run(
            [sys.executable, "-P", "-c", WITHIN, *words], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert (done.returncode, done.stderr) == (3, f"the machine could not go on: {NO_ROOM}\n")


LETTERS = {"latin-1": b"6.0?76.0", "utf-8": "6.0–76.0".encode()}


@pytest.mark.parametrize("letters", LETTERS)
def test_a_letter_that_the_output_has_not_is_a_question_mark(letters):
    done = subprocess.run(
        [sys.executable, "-P", "-c", WITHIN, "windows", str(BIPLANE), "--all"],
        env=os.environ | {"PYTHONIOENCODING": letters},
        capture_output=True,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert LETTERS[letters] in done.stdout, done.stdout


def test_a_reader_that_left_is_no_missing_answer():
    reads, writes = os.pipe()
    os.close(reads)
    done = subprocess.run(
        [sys.executable, "-P", "-c", WITHIN, "compare"], stdout=writes, stderr=subprocess.PIPE, check=False
    )
    os.close(writes)
    assert (done.returncode, done.stderr) == (3, b"")


@pytest.mark.parametrize("step", ["tempfile.mkstemp", "os.fdopen", "pathlib.Path.chmod", "pathlib.Path.replace"])
def test_a_full_disk_ends_with_3_and_leaves_no_piece(tmp_path, monkeypatch, step):
    file = tmp_path / "firing.svg"

    def full(*args, **more):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(step, full)
    done = ran("new", str(file))
    assert (done.exit_code, done.stderr) == (3, f"{file}: cannot be written: {NO_ROOM}\n")
    assert list(tmp_path.iterdir()) == []


def test_what_is_there_stays_when_the_disk_is_full(tmp_path, monkeypatch):
    file = tmp_path / "mine.toml"
    file.write_text("kept")
    monkeypatch.setattr("pathlib.Path.replace", lambda *_: (_ for _ in ()).throw(OSError(errno.EROFS, "read-only")))
    done = ran("new", str(file), "--force")
    assert (done.exit_code, file.read_text()) == (3, "kept")


def test_other_words_of_the_system_come_with_the_file(monkeypatch):
    def lost(*args, **more):
        raise OSError(errno.EIO, os.strerror(errno.EIO), "/somewhere/a.toml")

    monkeypatch.setattr("viz.commands.schema.command.callback", lost)
    done = ran("schema")
    told = "/somewhere/a.toml: the machine could not go on: input/output error; the disk does not answer as it should\n"
    assert (done.exit_code, done.stderr) == (3, told)


LONG = "a" * 300 + ".svg"
NAMES = {
    LONG: f"{LONG}: cannot be written: file name too long\n",
    "nowhere/a.svg": '--figure: needs the folder "nowhere", which is not there; make it first\n',
    "there.svg/a.svg": '--figure: needs the folder "there.svg", which is a file; give another\n',
    "a.gif": '--figure: must end in .svg or .png or .pdf, got "a.gif"\n',
    "a\0b.svg": "--figure: cannot be the name of a file: it holds a letter that no name may\n",
    "there.svg": "there.svg: is already there; give --force to replace it\n",
}


@pytest.mark.parametrize("name", NAMES, ids=["long", "nowhere", "in a file", "ending", "nul", "there"])
@pytest.mark.parametrize("command", ["windows", "handling", "stall", "exhibit", "drawing"])
def test_a_name_is_tried_before_the_work(tmp_path, monkeypatch, command, name):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "there.svg").write_text("kept")

    def works(*args, **more):
        raise AssertionError

    monkeypatch.setattr(f"viz.commands.{command}.command.callback", works)
    option = "--out" if command == "drawing" else "--figure"
    done = ran(command, option, name)
    told = NAMES[name].replace("--figure", option)
    if (command, name) == ("drawing", "a.gif"):
        told = '--out: must end in .svg or .pdf or .dxf, got "a.gif"\n'
    assert (done.exit_code, done.stderr) == (2, told)
    assert [file.name for file in tmp_path.iterdir()] == ["there.svg"]


def test_a_pipe_is_no_scenario(tmp_path):
    pipe = tmp_path / "pipe.toml"
    os.mkfifo(pipe)
    done = ran("check", str(pipe))
    told = f"{pipe}: cannot be read: it is no regular file; save what comes through it into one\n"
    assert (done.exit_code, done.stderr or done.output) == (2, told)
