"""Any options of any command: an answer or a sentence, in time; files whole or not at all, none there touched."""

import pytest
from fuzzed import NO_NUMBER, examples, in_time, is_whole
from hypothesis import given
from option_lists import option_lists

LONGEST_S = 120


class NoWindow:
    """In the place of a window, which stays open until somebody closes it."""

    def __init__(self, *_, **__):
        pass

    def run(self):
        pass


@pytest.fixture
def room(tmp_path, monkeypatch):
    """Stand in a folder with a folder and files in it; no window opens and no handbook is made."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("viz.stage.app.Window", NoWindow)
    monkeypatch.setattr("viz.handbook.making.site.build", lambda *_: None)
    monkeypatch.setattr("click.launch", lambda *_: None)
    return tmp_path


def furnish(room):
    """Put into an emptied room what the options name, and return its files with what they hold."""
    for file in sorted(room.rglob("*"), reverse=True):
        file.rmdir() if file.is_dir() else file.unlink()
    for name in ("folder", "folder.svg", "folder.csv", "folder.html"):
        (room / name).mkdir()
    for name in ("there", "there.toml", "there.svg", "there.csv", "there.html", "there.png"):
        (room / name).write_bytes(b"kept")
    return held(room)


def held(room):
    return {file: file.read_bytes() for file in room.rglob("*") if file.is_file()}


def test_no_list_of_options_ends_otherwise_than_in_an_answer_or_sentences(run, room):
    @examples(60)
    @given(option_lists())
    def hold(words):
        before = furnish(room)
        with in_time(LONGEST_S):
            done = run(*words)
        ended_well(done, words)
        whole(before, held(room), words, done.exit_code)

    hold()


def ended_well(done, words):
    assert done.exception is None or isinstance(done.exception, SystemExit), (words, repr(done.exception))
    assert done.exit_code in (0, 1, 2), (words, done.output)
    assert done.exit_code == 0 or done.stderr.strip() or "--json" in words, words
    assert "Traceback" not in done.output, words
    found = None if NO_NUMBER.search(" ".join(words)) else NO_NUMBER.search(done.stdout)
    assert not found, (words, done.stdout[max(found.start() - 80, 0) : found.end() + 20])


def whole(before, after, words, code):
    """Hold that what is new is whole, and that nothing is new or changed where the command did not answer."""
    new = {file: data for file, data in after.items() if before.get(file) != data}
    assert "--force" in words or "--write" in words or not set(new) & set(before), words
    assert before.keys() <= after.keys(), words
    assert code == 0 or not new, (words, list(new))
    for file, data in new.items():
        assert is_whole(file.name, data), (words, file)
