"""Captions: three languages that say the same things, and English where one of them is silent."""

import re
import string

import pytest
from stage_shapes import later, shapes

from sim.live.flight import SCRIPTS
from viz.commands.view import MANEUVERS, command
from viz.stage import words
from viz.stage.actions import Action
from viz.stage.shapes import texts
from viz.stage.snapshot import SCENES, Looks
from viz.stage.words import FALLBACK, captions, languages, say

OTHERS = [language for language in languages() if language != FALLBACK]


def blanks(text):
    """Return the names to be filled in."""
    return {name for _, name, _, _ in string.Formatter().parse(text) if name}


def test_there_are_english_and_two_more():
    assert languages()[0] == FALLBACK
    assert len(languages()) >= 3


def test_the_command_offers_the_languages_and_maneuvers_there_are():
    offered = next(option.type for option in command.params if option.name == "language")
    assert set(offered.choices) == set(languages())
    assert set(MANEUVERS) == set(SCRIPTS)


@pytest.mark.parametrize("language", OTHERS)
def test_no_language_says_what_english_does_not(language):
    assert set(captions(language)) - set(captions(FALLBACK)) == set()


@pytest.mark.parametrize("language", OTHERS)
def test_no_language_leaves_anything_to_english_today(language):
    assert set(captions(FALLBACK)) - set(captions(language)) == {"button.language"} & set(captions(FALLBACK))


@pytest.mark.parametrize("language", OTHERS)
def test_the_same_things_are_filled_in(language):
    different = {key for key, text in captions(language).items() if blanks(text) != blanks(captions(FALLBACK)[key])}
    assert not different


def test_a_missing_key_is_said_in_english(tmp_path, monkeypatch):
    (tmp_path / "english.toml").write_text('[button]\npause = "Pause"\nstep = "One step"\n')
    (tmp_path / "dutch.toml").write_text('[button]\npause = "Pauze"\n')
    monkeypatch.setattr(words, "FOLDER", tmp_path)
    monkeypatch.setattr(words, "captions", words.captions.__wrapped__)
    assert say("dutch", "button.pause") == "Pauze"
    assert say("dutch", "button.step") == "One step"


def test_a_key_that_nobody_knows_is_our_mistake():
    with pytest.raises(KeyError):
        say(FALLBACK, "button.nothing")


def test_every_action_and_maneuver_has_words():
    known = captions(FALLBACK)
    assert all(f"action.{action.value}" in known for action in Action)
    assert all(f"maneuver.{script}" in known and f"caption.{script}" in known for script in SCRIPTS)


@pytest.mark.parametrize(("language", "ratio"), [("english", "5.3"), ("french", "5,3"), ("german", "5,3")])
def test_a_number_has_the_decimal_mark_of_its_language(language, ratio):
    assert f" {ratio}" in say(language, "caption.engine_ratio", ratio="5.3")
    assert say(language, "caption.engine_ratio", ratio="v. 5.3 a") == say(
        language, "caption.engine_ratio", ratio="5.3"
    ).replace(ratio, "v. 5.3 a")


@pytest.fixture
def marked(tmp_path, monkeypatch):
    """Add a language of one file, in which every word is marked."""
    for path in words.FOLDER.glob("*.toml"):
        (tmp_path / path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    text = (tmp_path / "german.toml").read_text(encoding="utf-8")
    lines = re.sub(r'^([a-z0-9_-]+) = ".*"$', _marked, text, flags=re.MULTILINE)
    (tmp_path / "marked.toml").write_text(lines, encoding="utf-8")
    monkeypatch.setattr(words, "FOLDER", tmp_path)
    for cached in (languages, captions):
        cached.cache_clear()
    yield "marked"
    monkeypatch.undo()
    for cached in (languages, captions):
        cached.cache_clear()


def _marked(found):
    key, line = found[1], found[0]
    if key in {"decimal", "units"}:
        return line
    return f'{key} = "§{"".join(f"{{{name}}}" for name in sorted(blanks(line)))}"'


UNITS = re.compile(r"(?<![^\W\d])(km/h|N m|m|°)(?![^\W\d])")


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("state", ["", "attract", "menu", "caution", "settings"])
def test_a_fourth_language_is_one_file_and_no_word_stands_in_code(session, stage, marked, scene, state):
    """In a language in which every word is a mark there is no letter on the screen but those of units."""
    session.show(scene)
    session.looks = Looks(marked)
    later(session, 2.0)
    session.attract = state == "attract"
    session.overlay = state if state in {"menu", "caution"} else ""
    if state == "settings":
        session.blades.toggle_settings()
    own = {captions(language)["language.name"] for language in languages()}
    said = [text.text for text in texts(shapes(session, stage)) if text.text]
    assert any("§" in text for text in said)
    if not session.overlay:
        assert own <= set(said)
    assert [text for text in said if text not in own and re.search(r"[^\W\d_]", UNITS.sub("", text))] == []


@pytest.mark.parametrize("language", OTHERS)
@pytest.mark.parametrize("scene", SCENES)
def test_no_number_has_a_point_where_the_language_has_a_comma(session, stage, scene, language):
    session.show(scene)
    session.looks = Looks(language)
    if scene == "turning":
        session.turning.perform("turn-left")
    found = []
    for settings in (False, True):
        later(session, 3.0)
        found += [text.text for text in texts(shapes(session, stage)) if re.search(r"\d\.\d", text.text)]
        if scene == "blades" and not settings:
            session.blades.toggle_settings()
    assert found == []


def test_units_are_those_of_the_language_until_they_are_chosen():
    assert [Looks(language).units for language in ("english", "french", "german")] == ["us", "si", "si"]
    assert {Looks(language, chosen_units="us").units for language in languages()} == {"us"}


@pytest.mark.parametrize(("words_given", "units"), [((), "si"), (("--units", "us"), "us")])
def test_the_command_takes_the_units_of_the_language_unless_told(monkeypatch, words_given, units):
    from click.testing import CliRunner

    from viz.cli import main

    told = []
    monkeypatch.setattr("viz.commands.view._show", lambda stage, setting, options: told.append(setting.looks.units))
    assert CliRunner().invoke(main, [*words_given, "view", "--language", "french"]).exit_code == 0
    assert told == [units]
