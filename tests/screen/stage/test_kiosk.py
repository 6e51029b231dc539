"""A stand: the attract loop, which any touch ends and which comes back, and no way out but the chord."""

import pytest
from stage_shapes import flat, shapes

from viz.stage.actions import KEYS, KIOSK_CHORD, Action, Key
from viz.stage.controls import widgets
from viz.stage.input import Hands
from viz.stage.kiosk import IDLE_S, SCENE_S, Kiosk
from viz.stage.layout import layout
from viz.stage.session import Session
from viz.stage.shapes import Text
from viz.stage.snapshot import SCENES
from viz.words.catalogue import languages, own_name
from viz.words.say import say

SIZE = (1280, 720)


@pytest.fixture
def stand(stage):
    session = Session(stage)
    return session, Kiosk(session), Hands(session, SIZE)


def wait(stand, seconds, rate_hz=10):
    session, kiosk, _ = stand
    for _ in range(round(seconds * rate_hz)):
        kiosk.tick(1.0 / rate_hz)
        session.tick(1.0 / rate_hz)


def said(session, stage):
    return [shape.text for shape in flat(shapes(session, stage, SIZE)) if isinstance(shape, Text)]


def test_a_stand_begins_with_a_title_and_a_gesture_in_the_language_that_is_on(stand, stage):
    session = stand[0]
    assert session.attract
    for _ in range(9):
        language, scene = session.looks.language, session.scene
        assert {say(language, f"attract.{scene}"), say(language, "attract.touch")} <= set(said(session, stage))
        wait(stand, SCENE_S)


def test_the_attract_loop_shows_every_scene_in_every_language_and_a_maneuver(stand):
    session = stand[0]
    shown = []
    for _ in range(len(SCENES) * len(languages())):
        shown.append((session.scene, session.looks.language))
        if session.scene == "turning":
            assert session.turning.script
        wait(stand, SCENE_S)
    assert [scene for scene, _ in shown[:3]] == list(SCENES)
    assert len(set(shown)) == len(shown)


def test_a_touch_beside_everything_ends_the_attract_loop_in_the_language_of_the_start(stand):
    session, kiosk, hands = stand
    wait(stand, SCENE_S + 5.0)
    assert session.looks.language != "english"
    kiosk.touched()
    hands.touch(1, 640.0, 300.0)
    assert not session.attract
    assert (session.scene, session.overlay, session.looks.language) == ("turning", "", "english")


@pytest.mark.parametrize("language", languages())
def test_a_language_that_is_touched_ends_the_attract_loop_in_it(stand, language):
    session, kiosk, hands = stand
    wait(stand, 5.0)
    at = layout(*SIZE, 1.0, session.front)
    button = next(one for one in widgets(session.snapshot(), at) if one.choice == language)
    assert button.label == own_name(language)
    kiosk.touched()
    hands.touch(1, *button.rect.center)
    assert not session.attract
    assert session.looks.language == language


@pytest.mark.parametrize("wake", [lambda hands: hands.press("space"), lambda hands: hands.pad_button(0)])
def test_what_ends_the_attract_loop_does_nothing_else(stand, wake):
    session, kiosk, hands = stand
    wait(stand, 5.0)
    kiosk.touched()
    wake(hands)
    assert not session.attract
    assert not session.paused


def test_a_mouse_that_shakes_neither_ends_nor_holds_up_the_attract_loop(stand):
    session, kiosk, _ = stand
    for _ in range(round(SCENE_S) + 2):
        wait(stand, 1.0)
        kiosk.touched()
    assert session.attract
    assert session.scene == SCENES[1]


def test_no_chord_is_told_on_the_screen(stand, stage):
    session = stand[0]
    wait(stand, 1.0)
    session.wake()
    for overlay in ("", "menu", "devices", "help", "caution"):
        session.overlay = overlay
        assert not [text for text in said(session, stage) if "ctrl" in text.lower() or "strg" in text.lower()]


def test_a_visitor_who_has_gone_leaves_no_trace(stand):
    session, kiosk, hands = stand
    hands.press("return")
    for name in ("c", "3", "space"):
        wait(stand, 1.0)
        kiosk.touched()
        hands.press(name)
    wait(stand, 2.0)
    session.blades.set("spin_rad_s", 1.0)
    assert session.looks.contrast == "high"
    wait(stand, IDLE_S + 1.0)
    assert session.attract
    assert session.looks.contrast == "normal"
    assert not session.paused
    dial = session.blades.dials["spin_rad_s"]
    assert dial.value == dial.range.start


@pytest.mark.slow
def test_a_visitor_who_stays_is_not_sent_away(stand):
    session, kiosk, hands = stand
    hands.press("return")
    for _ in range(3):
        wait(stand, IDLE_S / 2)
        kiosk.touched()
    assert not session.attract


@pytest.mark.parametrize("key", KEYS, ids=lambda key: key.name if isinstance(key, Key) else key)
def test_no_key_leads_out(stand, key):
    session, _, hands = stand
    for _ in range(3):
        hands.press(key.name)
        hands.release(key.name)
        wait(stand, 1.0)
    session.act(Action.LEAVE)
    assert not session.finished


def test_the_chord_leads_out_and_parts_of_it_do_not(stand):
    session, _, hands = stand
    *first, last = sorted(KIOSK_CHORD)
    for name in first:
        hands.press(name)
    hands.release(first[0])
    hands.press(last)
    assert not session.finished
    hands.press(first[0])
    assert session.finished
