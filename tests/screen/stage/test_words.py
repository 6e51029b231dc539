"""Captions: three languages that say the same things, and English where one of them is silent."""

import string

import pytest

from sim.live.flight import SCRIPTS
from viz.commands.view import MANEUVERS, command
from viz.stage import words
from viz.stage.actions import Action
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
