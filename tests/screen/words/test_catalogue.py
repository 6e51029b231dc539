"""Catalogues: every language says what English says, no string is missing or unused."""

import ast
import re
import string
from functools import cache
from pathlib import Path

import pytest

import sim
import viz
from viz.words import catalogue
from viz.words.catalogue import SOURCE, languages, locale, own_name, phrases, words
from viz.words.say import numeral, own_units, say

OTHERS = [language for language in languages() if language != SOURCE]
SPEAKING = ("stage", "page", "report", "drawings")
"""Rooms of `viz` that say words of the catalogues; `sim/live` has names of which the ends of keys are made."""


def blanks(text):
    """Return the names to be filled in."""
    return sorted(name for _, name, _, _ in string.Formatter().parse(text) if name)


def test_there_are_english_and_two_more():
    assert languages()[0] == SOURCE
    assert len(languages()) >= 3


@pytest.mark.parametrize("language", OTHERS)
def test_a_language_translates_every_string_as_english_has_it_now(language):
    """English that changed since is another string: what was made of the old one is missing."""
    told = {(one.context, one.id) for one in catalogue.catalogue(language) if one.context}
    assert told == set(words(SOURCE).items())
    assert set(words(language)) == set(words(SOURCE))


@pytest.mark.parametrize("language", OTHERS)
def test_the_same_things_are_filled_in(language):
    assert {key: blanks(text) for key, text in words(language).items()} == {
        key: blanks(text) for key, text in words(SOURCE).items()
    }


@pytest.mark.parametrize("language", languages())
def test_a_key_stands_in_a_file_once(language):
    text = (catalogue.FOLDER / f"{language}.po").read_text(encoding="utf-8")
    assert text.count("msgctxt ") == len(words(language))


def pattern(part):
    """Return what a part of a text with blanks may be: itself, one of two, or anything."""
    match part:
        case ast.Constant():
            return re.escape(part.value)
        case ast.FormattedValue(value=ast.IfExp(body=ast.Constant(yes), orelse=ast.Constant(no))):
            return f"({re.escape(yes)}|{re.escape(no)})"
    return "(.+)"


@cache
def told_by_code():
    """Return the constants of the code that speaks, and its texts with blanks as patterns."""
    folder = Path(viz.__file__).parent
    rooms = [*(folder / room for room in SPEAKING), Path(sim.__file__).parent / "live"]
    paths = [path for room in rooms for path in room.rglob("*.py")]
    constants, patterns = set(), set()
    for node in (node for path in paths for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            constants.add(node.value)
        elif isinstance(node, ast.JoinedStr):
            patterns.add("".join(map(pattern, node.values)))
    for path in [*(folder / "page").rglob("*.js"), *(folder / "page").rglob("*.jinja")]:
        constants |= set(re.findall(r"""["'`]([a-z_]+\.[a-z_]+)["'`]""", path.read_text(encoding="utf-8")))
    return constants, [re.compile(each) for each in patterns if re.search("[a-z]{2}", each)]


def written(text):
    """Return whether the code has a text, or makes it of a text with blanks and of others that it has."""
    constants, patterns = told_by_code()
    made = (each.fullmatch(text) for each in patterns)
    return text in constants or any(all(map(written, one.groups())) for one in made if one and one.groups())


def test_every_string_is_used():
    assert [key for key in words(SOURCE) if not written(key)] == []


def test_no_string_is_missing():
    tables = {key.partition(".")[0] for key in words(SOURCE)}
    asked = {text for text in told_by_code()[0] if re.fullmatch(rf"(?:{'|'.join(tables)})\.[a-z_-]+[a-z0-9]", text)}
    assert len(asked) > 80
    missing = [text for text in asked if not any(key.startswith(text) for key in words(SOURCE))]
    assert missing == ["page.css"]  # a file


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """Put the catalogues elsewhere; nothing read before is kept."""

    def forget():
        for cached in (languages, catalogue.catalogue, words):
            cached.cache_clear()

    monkeypatch.setattr(catalogue, "FOLDER", tmp_path)
    forget()
    yield tmp_path
    monkeypatch.undo()
    forget()


def file(code, *entries):
    """Return a catalogue of that language."""
    head = f'msgid ""\nmsgstr ""\n"Language: {code}\\n"\n"Content-Type: text/plain; charset=utf-8\\n"\n'
    return "\n".join(
        [head, *(f'{flag}msgctxt "{key}"\nmsgid "{own}"\nmsgstr "{said}"\n' for flag, key, own, said in entries)]
    )


def test_what_a_language_lacks_or_doubts_is_said_in_english(folder):
    keys = ("button.pause", "Pause"), ("button.step", "One step"), ("button.back", "Back")
    (folder / "english.po").write_text(file("en", *(("", *key, "") for key in keys)))
    said = [("", *keys[0], "Pauze"), ("", *keys[1], ""), ("#, fuzzy\n", *keys[2], "Rug")]
    (folder / "dutch.po").write_text(file("nl", *said))
    assert languages() == ("english", "dutch")
    assert [say("dutch", key) for key, _ in keys] == ["Pauze", "One step", "Back"]
    assert (own_name("dutch"), own_units("dutch"), numeral("80\u202f000.5 m", "dutch")) == (
        "Nederlands",
        "si",
        "80.000,5 m",
    )


def test_a_file_without_its_language_is_refused(folder):
    (folder / "english.po").write_text(file("en").replace("Language", "Tongue"))
    with pytest.raises(LookupError):
        locale("english")


def test_a_key_that_nobody_knows_is_our_mistake():
    with pytest.raises(KeyError):
        say(SOURCE, "button.nothing")


@pytest.mark.parametrize(
    ("language", "written"),
    [
        ("english", ["5.3", "-0.25 N m", "80,000", "7.5°", "v. 5.3 a", "12"]),
        ("french", ["5,3", "-0,25 N m", "80\u202f000", "7,5°", "v. 5.3 a", "12"]),
        ("german", ["5,3", "-0,25 N m", "80.000", "7,5°", "v. 5.3 a", "12"]),
    ],
)
def test_a_number_has_the_marks_of_its_language(language, written):
    assert [
        numeral(text, language) for text in ("5.3", "-0.25 N m", "80\u202f000", "7.5°", "v. 5.3 a", "12")
    ] == written


def test_french_keeps_its_marks_with_their_words():
    """A no-break space stands before ; : ! ? % and inside « », and an apostrophe is a curved one."""
    loose = re.compile(r"[^\u00a0][;:!?»%]|«[^\u00a0]|'")
    bare = {key: re.sub(r"\{[a-z]+\}", "x", text) for key, text in words("french").items()}
    assert {key: text for key, text in bare.items() if loose.search(text)} == {}


def test_german_says_du_to_readers():
    """Nobody is addressed as Sie, inside a sentence or by an order that begins one."""
    formal = re.compile(r"(?<![.:!?] )(?<!^)\b(?:Sie|Ihnen|Ihr|Ihre[mnrs]?)\b")
    assert formal.search("Drehen Sie die Kurbel.")
    assert not formal.search("Die Lampe ist hell. Sie leuchtet.")
    told = {**words("german"), **phrases("german")}
    assert {key: text for key, text in told.items() if formal.search(text)} == {}
