"""Phrases, entries of the catalogues without a key: all languages have the same ones, and something says each."""

import ast
import re
import string
import tomllib
from functools import cache
from pathlib import Path

import pytest

import sim
import viz
from tests.screen.words.invented import asked, marked, unmarked
from viz.words.catalogue import FOLDER, SOURCE, languages, phrases

OTHERS = [language for language in languages() if language != SOURCE]
ROOMS = [Path(sim.__file__).parent, Path(viz.__file__).parent]


def slots(text):
    """Return what is to be filled in, with its format."""
    parts = string.Formatter().parse(text)
    return sorted(f"{name}!{conversion}:{form}" for _, name, form, conversion in parts if name is not None)


@cache
def in_code():
    """Return every text that stands whole in the code, in a table of it, or in a template of a page."""
    found = set()
    for room in ROOMS:
        for path in room.rglob("*.py"):
            nodes = ast.walk(ast.parse(path.read_text(encoding="utf-8")))
            found |= {node.value for node in nodes if isinstance(node, ast.Constant) and isinstance(node.value, str)}
        for path in room.rglob("*.toml"):
            found |= set(texts(tomllib.loads(path.read_text(encoding="utf-8"))))
        for path in room.rglob("*.jinja"):
            found |= set(re.findall(r'(?:worded|tell)\("([^"]+)"[,)]', path.read_text(encoding="utf-8")))
    return found


def texts(table):
    """Yield every text in a table."""
    for one in table.values() if isinstance(table, dict) else table:
        if isinstance(one, str):
            yield one
        elif isinstance(one, dict | list):
            yield from texts(one)


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_has_words_for_every_phrase_of_english(language):
    assert set(phrases(language)) ^ asked() == set()


@pytest.mark.parametrize("language", OTHERS)
def test_the_same_slots_are_filled(language):
    assert {one: slots(said) for one, said in phrases(language).items()} == {one: slots(one) for one in asked()}


@pytest.mark.parametrize("language", languages())
def test_a_phrase_stands_in_a_file_once(language):
    lines = (FOLDER / f"{language}.po").read_text(encoding="utf-8").splitlines()
    own = [line for before, line in zip(["", *lines], lines, strict=False) if line.startswith("msgid ")
           and not before.startswith("msgctxt") and line != 'msgid ""']  # fmt: skip
    assert sorted(one for one in own if own.count(one) > 1) == []
    assert len(own) == len(asked())


def test_every_phrase_stands_in_the_code():
    assert sorted(asked() - in_code()) == []


@pytest.mark.parametrize("language", OTHERS)
def test_what_was_looked_up_is_not_another_phrase(language):
    """A report prints names after it looked phrases up, and its writer looks up again."""
    said = phrases(language)
    again = {text: said[text] for text in said.values() if said.get(text, text) != text}
    assert again == {}


def test_french_keeps_its_marks_with_their_words():
    """A no-break space stands before ; : ! ? % and inside « », and an apostrophe is a curved one."""
    loose = re.compile(r"[^\u00a0][;!?»%]|[^\u00a0\d]:|\d:(?!\d)|«[^\u00a0]|'")
    bare = {one: re.sub(r"\{[^}]*\}|`[^`]*`", "x", text) for one, text in phrases("french").items()}
    assert {one: text for one, text in bare.items() if loose.search(text)} == {}


def test_the_invented_language_shows_what_was_never_looked_up():
    text = marked("{name}: modes of {count:.0f}").format(name="gyro", count=2.0)
    assert text == "gyro⟦: modes of ⟧2"
    assert unmarked(text, ()) == ["gyro"]
    assert unmarked("flat-four ⟦: modes⟧ left", ("flat-four",)) == ["left"]
