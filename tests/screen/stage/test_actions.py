"""One table of keys: none does two things, all can be done without a mouse, and the help page is that table."""

from viz.stage.actions import HELD, KEYS, KIOSK_CHORD, PAD_BUTTONS, SAME_KEYS, Action, key_called, key_for
from viz.stage.layout import layout
from viz.stage.scenes.pages import key_name, keys_page
from viz.stage.shapes import texts
from viz.words.catalogue import languages
from viz.words.say import say

ONLY_BY_PAD = {Action.NEXT_SCENE}


def test_no_key_does_two_things():
    names = [key.name for key in KEYS] + list(SAME_KEYS)
    assert len(names) == len(set(names))


def test_every_action_has_a_key():
    assert {action for action in Action if not key_for(action)} == ONLY_BY_PAD
    assert set(PAD_BUTTONS.values()) >= ONLY_BY_PAD


def test_keys_that_stand_in_mean_the_same():
    assert all(key_called(name) is key_called(other) for name, other in SAME_KEYS.items())


def test_a_key_without_a_use_is_none():
    assert key_called("scroll lock") is None


def test_held_keys_are_those_that_steer_and_the_trigger():
    assert {key.action for key in KEYS if key.held} == {*HELD, Action.FIRE}


def test_the_chord_is_no_key_alone():
    assert not any(key_called(name) and key_called(name).action is Action.LEAVE for name in KIOSK_CHORD)


def test_the_help_page_is_the_table():
    for language in languages():
        shown = [text.text for text in texts([keys_page(language, layout(1280, 720, 1.0), (1280, 720))])]
        for key in KEYS:
            assert key_name(language, key.name) in shown
            assert any(text.startswith(say(language, f"action.{key.action.value}")) for text in shown)
        assert sum("0" in text and text.endswith(")") for text in shown) >= 1
