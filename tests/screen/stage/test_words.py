"""Words on the stage: all from the catalogues, with the numbers and units of their language."""

import re

import pytest
from stage_shapes import later, shapes

from sim.live.flight import SCRIPTS
from viz.commands.view import MANEUVERS, command
from viz.stage.actions import Action
from viz.stage.shapes import texts
from viz.stage.snapshot import SCENES, Looks
from viz.words import catalogue
from viz.words.catalogue import SOURCE, languages, own_name, words

OTHERS = [language for language in languages() if language != SOURCE]


def test_the_command_offers_the_languages_and_maneuvers_there_are():
    offered = next(option.type for option in command.params if option.name == "language")
    assert set(offered.choices) == set(languages())
    assert set(MANEUVERS) == set(SCRIPTS)


def test_every_action_and_maneuver_has_words():
    known = words(SOURCE)
    assert all(f"action.{action.value}" in known for action in Action)
    assert all(f"maneuver.{script}" in known and f"caption.{script}" in known for script in SCRIPTS)


@pytest.fixture
def marked(tmp_path, monkeypatch):
    """Add a language of one file, in which every word is marked."""

    def forget():
        for cached in (languages, catalogue.catalogue, words):
            cached.cache_clear()

    for path in catalogue.FOLDER.glob("*.po"):
        (tmp_path / path.name).write_text(path.read_text(encoding="utf-8"), encoding="utf-8")
    text = (tmp_path / "german.po").read_text(encoding="utf-8").replace("Language: de", "Language: nl")
    lines = re.sub(r'^msgstr ".+"$', _marked, text, flags=re.MULTILINE)
    (tmp_path / "marked.po").write_text(lines, encoding="utf-8")
    monkeypatch.setattr(catalogue, "FOLDER", tmp_path)
    forget()
    yield "marked"
    monkeypatch.undo()
    forget()


def _marked(found):
    return f'msgstr "§{"".join(sorted(set(re.findall("{[a-z]+}", found[0]))))}"'


UNITS = re.compile(r"(?<![^\W\d])(km/h|kg|N m|m|°)(?![^\W\d])")


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
    own = {own_name(language) for language in languages()}
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
        found += [text.text for text in texts(shapes(session, stage)) if re.search(r"\d\.\d(?!\d\d\b)", text.text)]
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
