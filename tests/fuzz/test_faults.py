"""What fails around a command, a disk, an output, a place, a signal: a sentence, an exit code, nothing half written."""

import signal
import tempfile
import time
from pathlib import Path

import pytest
from fuzzed import examples
from hypothesis import given
from hypothesis import strategies as st
from injected import ELSEWHERE, ENDED, FAULTS, READERS, WRITERS, assert_whole, gone_within, held, started

pytestmark = pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="sessions are looked at in /proc")
SWEEP = ("sweep", "--vary", "wing.span=26ft:30ft:400", "--collect", "speeds.powerplants.rotary.stall_m_s")
CHILDREN_S = 2.0
"""Within this the workers of a sweep are gone that was told to end."""
QUIET = ("errors closed", "output closed", "reader gone", "output full")


@pytest.fixture
def room():
    with tempfile.TemporaryDirectory() as folder:
        yield Path(folder)


def emptied():
    return tempfile.TemporaryDirectory(prefix="whirlgate-")


def test_nothing_around_a_command_makes_it_break():
    @examples(6)
    @given(st.sampled_from(WRITERS + READERS), st.sampled_from(sorted(FAULTS)))
    def hold(words, name):
        with emptied() as folder:
            said = held(started(words, folder, FAULTS[name]), (*FAULTS[name].codes, 1), folder)
            assert said.strip() or name in QUIET, (words, name)

    hold()


def test_no_place_makes_it_break():
    @examples(3)
    @given(st.sampled_from(WRITERS), st.sampled_from(ELSEWHERE))
    def hold(words, place):
        with emptied() as folder:
            (Path(folder) / "there").write_text("")
            (Path(folder) / "there").unlink()
            moved = [str(word).replace("a.", f"{place}.") if str(word)[:2] == "a." else word for word in words]
            moved = [place if word == "a" else word for word in moved]
            said = held(started(moved, folder), (0, 2, 3) if words[0] == "exhibit" else (2, 3), folder)
            assert said.count(b"\n") >= 1, moved

    hold()


def test_no_signal_leaves_a_piece():
    @examples(4)
    @given(st.sampled_from(WRITERS), st.sampled_from(sorted(ENDED)), st.floats(0.0, 3.0))
    def hold(words, number, seconds):
        with emptied() as folder:
            process = started(words, folder)
            time.sleep(seconds)
            process.send_signal(number)
            said = process.communicate(timeout=60)
            assert process.returncode in ENDED[number], (words, number, seconds, process.returncode, said)
            if process.returncode == 128 + number:
                assert b"Traceback" not in said[1], (words, number, seconds, said[1][-900:])
            assert_whole(folder, process)

    hold()


def test_a_sweep_that_is_told_to_end_goes_with_its_workers():
    @examples(1)
    @given(st.sampled_from(sorted(ENDED)), st.integers(1, 20))
    def hold(number, points):
        with emptied() as folder:
            process = started((*SWEEP, "--workers", "2", "--out", "a.csv"), folder)
            journal, deadline_s = Path(folder) / "a.csv.journal", time.monotonic() + 60.0
            while time.monotonic() < deadline_s and (
                not journal.exists() or journal.read_bytes().count(b"\n") <= points
            ):
                time.sleep(0.01)
            process.send_signal(number)
            said = process.communicate(timeout=60)
            assert process.returncode == 128 + number, said
            assert b"Traceback" not in said[1], said[1][-900:]
            assert gone_within(process.pid, CHILDREN_S)
            assert [file.name for file in Path(folder).iterdir()] == ["a.csv.journal"]

    hold()


@pytest.mark.parametrize("number", [signal.SIGHUP, signal.SIGINT])
def test_what_is_to_be_ignored_is(number, room):
    """As after ``nohup``, or behind an ``&`` in a script."""
    process = started(("drag",), room, preexec_fn=lambda: signal.signal(number, signal.SIG_IGN))
    time.sleep(1.0)
    process.send_signal(number)
    assert process.communicate(timeout=60)[1] == b""
    assert process.returncode == 0
