"""A stand: caution first, attract loop, back to the start when the visitor has gone, no way out but the chord."""

import pytest

from viz.stage.actions import KEYS, KIOSK_CHORD, Action, Key
from viz.stage.input import Hands
from viz.stage.kiosk import CAUTION_S, IDLE_S, SCENE_S, Kiosk
from viz.stage.session import Session
from viz.stage.snapshot import SCENES


@pytest.fixture
def stand(stage):
    session = Session(stage)
    return session, Kiosk(session), Hands(session, (1280, 720))


def wait(stand, seconds, rate_hz=10):
    session, kiosk, _ = stand
    for _ in range(round(seconds * rate_hz)):
        kiosk.tick(1.0 / rate_hz)
        session.tick(1.0 / rate_hz)


def test_the_caution_is_first_and_the_attract_loop_follows(stand):
    session = stand[0]
    assert session.overlay == "caution"
    wait(stand, CAUTION_S + 0.5)
    assert session.attract
    assert session.overlay == ""


def test_the_attract_loop_shows_every_scene_and_a_maneuver(stand):
    session = stand[0]
    wait(stand, CAUTION_S + 1.0)
    shown = []
    for _ in range(3):
        shown.append(session.scene)
        wait(stand, SCENE_S)
    assert shown == list(SCENES)
    assert session.turning.script


def test_a_touch_ends_the_attract_loop_at_the_caution(stand):
    session, kiosk, _ = stand
    wait(stand, CAUTION_S + 5.0)
    kiosk.touched()
    assert session.overlay == "caution"
    assert not session.attract


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
    assert session.overlay == "caution"
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
    assert session.overlay == ""


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
