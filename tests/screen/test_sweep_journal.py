"""The journal of a sweep: one sweep at a time, whole lines alone, nobody else's file; killed, it goes on."""

import os
import signal
import subprocess
import sys
import time

import pytest
from airplanes import BIPLANE

from sim.sweeps.runner import Outcome
from viz.files.journal import HEAD, Journal

STALL = "speeds.powerplants.rotary.stall_m_s"
TOP = "speeds.powerplants.rotary.top_m_s"
ASK = ("sweep", str(BIPLANE), "--vary", "wing.span=26ft:30ft:3", "--collect", STALL)
WHIRLGATE = (sys.executable, "-c", "from viz.cli import main; main()")


def test_a_file_in_the_place_of_the_journal_is_left_alone(run, tmp_path):
    journal = tmp_path / "t.csv.journal"
    journal.write_text("my own notes\n", encoding="utf-8")
    result = run(*ASK, "--out", tmp_path / "t.csv")
    assert result.exit_code == 2
    assert result.stderr == (
        f"{journal}: is in the way: it is no journal of a sweep; remove it or give another --out\n"
    )
    assert journal.read_text(encoding="utf-8") == "my own notes\n"


@pytest.mark.parametrize("text", ["5\n", "[1, 2, 3]\n", '["half a li', '{"whirlgate journal": 2}\n'])
def test_a_file_that_begins_otherwise_is_no_journal(run, tmp_path, text):
    journal = tmp_path / "t.csv.journal"
    journal.write_text(text, encoding="utf-8")
    result = run(*ASK, "--out", tmp_path / "t.csv")
    assert (result.exit_code, journal.read_text(encoding="utf-8")) == (2, text)
    assert result.stderr.startswith(f"{journal}: is in the way")


def test_a_journal_is_of_one_sweep_at_a_time(run, tmp_path):
    out = tmp_path / "t.csv"
    with Journal(out) as journal:
        result = run(*ASK, "--out", out)
        assert result.exit_code == 2
        assert result.stderr == (
            f"{journal.path}: is written by another sweep that runs; wait for it or give another --out\n"
        )
    assert run(*ASK, "--out", out).exit_code == 0
    assert [file.name for file in tmp_path.iterdir()] == ["t.csv"]


def test_what_is_damaged_in_a_journal_is_computed_again(tmp_path):
    """A point with a letter changed, and one cut short, are forgotten; those before, between and after are not."""
    with Journal(tmp_path / "t.csv") as journal:
        for number in range(4):
            journal.keep(f"point {number}", Outcome((1.5 * number, "word"), "why"))
    lines = journal.path.read_bytes().splitlines(keepends=True)
    assert lines[0] == HEAD
    lines[2] = lines[2].replace(b"1.5", b"9.5")
    journal.path.write_bytes(b"".join(lines)[:-7])
    with Journal(tmp_path / "t.csv") as again:
        known = [again.known(f"point {number}") for number in range(4)]
        again.keep("point 3", Outcome((7.0,)))
    assert known == [Outcome((0.0, "word"), "why"), None, Outcome((3.0, "word"), "why"), None]
    with Journal(tmp_path / "t.csv") as last:
        assert last.known("point 3") == Outcome((7.0,))
    assert journal.path.read_bytes().count(b"\n") == 5


@pytest.mark.slow
def test_killed_in_the_middle_it_goes_on_to_the_same_table(run, tmp_path):
    ask = (str(BIPLANE), "--vary", "wing.span=26ft:30ft:24", "--collect", STALL, "--collect", TOP)
    whole, out, journal = tmp_path / "whole.csv", tmp_path / "t.csv", tmp_path / "t.csv.journal"
    killed = subprocess.Popen([*WHIRLGATE, "sweep", *ask, "--out", str(out)], stdout=subprocess.DEVNULL)
    deadline = time.monotonic() + 120.0
    while time.monotonic() < deadline and (not journal.exists() or journal.read_bytes().count(b"\n") < 5):
        time.sleep(0.01)
    os.kill(killed.pid, signal.SIGKILL)
    assert killed.wait() == -signal.SIGKILL
    assert not out.exists()
    kept = journal.read_bytes()
    assert 5 <= kept.count(b"\n") < 24
    journal.write_bytes(kept + b'["half a li')  # what a kill in the middle of a line leaves
    assert run("sweep", *ask, "--out", out).exit_code == 0
    assert run("sweep", *ask, "--out", whole).exit_code == 0
    assert out.read_bytes() == whole.read_bytes()
    assert sorted(tmp_path.iterdir()) == [out, whole]


@pytest.mark.slow
@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP])
def test_told_to_end_it_goes_with_its_workers_and_keeps_its_journal(tmp_path, number):
    ask = ("sweep", str(BIPLANE), "--vary", "wing.span=26ft:30ft:200", "--collect", STALL, "--workers", "2")
    journal = tmp_path / "t.csv.journal"
    words = [*WHIRLGATE, *ask, "--out", str(tmp_path / "t.csv")]
    told = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True)
    deadline = time.monotonic() + 120.0
    while time.monotonic() < deadline and (not journal.exists() or journal.read_bytes().count(b"\n") < 3):
        time.sleep(0.01)
    os.kill(told.pid, number)
    assert told.communicate(timeout=5.0)[0] == b""  # ends only when no worker holds it any more
    assert told.returncode == 128 + number
    assert [file.name for file in tmp_path.iterdir()] == ["t.csv.journal"]
