"""Fingers, keys and pad reach the session; what is dragged is what is read."""

import pytest

from sim.live.assisted import MOST_BANK_RAD
from viz.stage.actions import Action
from viz.stage.bank_pad import BankPad
from viz.stage.controls import widgets
from viz.stage.input import MOUSE, Hands
from viz.stage.layout import layout
from viz.stage.widgets import Button, Slider, Stick

SIZE = (1280, 720)


@pytest.fixture
def hands(session):
    return Hands(session, SIZE)


def touchable(session, kind):
    return [w for w in widgets(session.snapshot(), layout(*SIZE, 1.0)) if isinstance(w, kind)]


def button(session, action):
    return next(w for w in touchable(session, Button) if w.action is action)


def later(session, seconds):
    for _ in range(round(seconds * 60)):
        session.tick(1.0 / 60.0)


def test_a_finger_on_a_button_presses_it(session, hands):
    hands.touch(1, *button(session, Action.PAUSE).rect.center)
    assert session.paused


def test_a_finger_beside_everything_does_nothing(session, hands):
    before = session.snapshot()
    hands.touch(1, 2, 2)
    hands.drag(1, 300, 300)
    hands.lift(1)
    assert session.snapshot() == before


def test_a_slider_follows_the_finger_to_its_ends(session, hands):
    session.show("blades")
    slider = touchable(session, Slider)[0]
    hands.touch(1, *slider.groove.center)
    hands.drag(1, slider.groove.right + 500, 0)
    later(session, 1.0)
    dial = session.blades.dials["spin_rad_s"]
    assert dial.value == dial.range.most
    hands.drag(1, slider.groove.x - 500, 0)
    later(session, 1.0)
    assert dial.value == dial.range.least


def test_the_stick_follows_and_springs_back(session, hands):
    session.act(Action.FULL_CONTROL)
    stick = touchable(session, Stick)[0]
    x, y = stick.rect.center
    hands.touch(1, x + 0.21 * stick.rect.w, y + 0.42 * stick.rect.h)
    later(session, 1.0)
    view = session.snapshot().view
    assert (view.roll, view.pitch) == (pytest.approx(0.5), pytest.approx(1.0))
    hands.lift(1)
    view = session.snapshot().view
    assert (view.roll, view.pitch) == (0.0, 0.0)


def test_a_finger_on_the_pad_sets_the_bank_alone_and_levels_when_it_is_lifted(session, hands):
    (pad,) = touchable(session, BankPad)
    assert touchable(session, Stick) == touchable(session, Slider) == []
    x, y = pad.rect.center
    hands.touch(1, x - 0.21 * pad.rect.w, pad.rect.y + 1)
    later(session, 3.0)
    view = session.snapshot().view
    assert (view.roll, view.pitch) == (pytest.approx(-0.5), 0.0)
    assert view.told_rad == pytest.approx(-0.5 * MOST_BANK_RAD)
    hands.drag(1, x - 9999.0, y + 9999.0)
    later(session, 2.0)
    assert session.snapshot().view.told_rad == pytest.approx(-MOST_BANK_RAD)
    hands.lift(1)
    later(session, 2.0)
    assert session.snapshot().view.told_rad == 0.0


def test_keys_and_pad_set_the_bank_and_move_no_rudder_without_full_control(session, hands):
    hands.press("right")
    hands.press("d")
    hands.pad_axis(2, 1.0)
    later(session, 1.0)
    assert session.snapshot().view.told_rad == pytest.approx(0.6 * MOST_BANK_RAD)
    assert session.turning.dials["rudder"].wanted == 0.5
    hands.press("e")
    hands.press("d")
    assert session.turning.dials["rudder"].wanted == 1.0


def test_two_fingers_hold_stick_and_rudder_at_once(session, hands):
    session.act(Action.FULL_CONTROL)
    stick, rudder = touchable(session, Stick)[0], touchable(session, Slider)[0]
    hands.touch(1, stick.rect.center[0], stick.rect.y + 2)
    hands.touch(2, rudder.groove.right, rudder.groove.center[1])
    later(session, 1.0)
    assert session.snapshot().view.pitch == -1.0
    assert session.turning.dials["rudder"].value == pytest.approx(1.0)
    hands.lift(2)
    later(session, 1.0)
    assert session.turning.dials["rudder"].value == pytest.approx(0.0)
    assert session.snapshot().view.pitch == -1.0


def test_a_storm_of_fingers_is_not_followed_for_ever(session, hands):
    session.show("blades")
    slider = touchable(session, Slider)[0]
    for finger in range(5000):
        hands.touch(finger, *slider.groove.center)
    assert len(hands._dragged) <= 10


def test_held_keys_steer_and_let_go(session, hands):
    hands.press("right")
    hands.press("down")
    view = session.snapshot().view
    assert (view.roll, view.pitch) == (0.6, 0.6)
    hands.release("right")
    hands.release("down")
    view = session.snapshot().view
    assert (view.roll, view.pitch) == (0.0, 0.0)


def test_the_stick_takes_over_from_a_maneuver(session, hands):
    session.turning.perform("turn-right")
    later(session, 1.0)
    hands.press("left")
    assert session.snapshot().view.script == ""


def test_everything_can_be_reached_by_the_keyboard_alone(session, hands):
    session.show("blades")
    count = len(widgets(session.snapshot(), layout(*SIZE, 1.0)))
    reached = set()
    for _ in range(count):
        hands.press("tab")
        reached.add(session.snapshot().focus)
    assert reached == set(range(count))
    hands.press("backspace")
    assert session.snapshot().focus == count - 2


def test_keys_move_the_slider_in_focus(session, hands):
    session.show("blades")
    hands.press("s")
    places = widgets(session.snapshot(), layout(*SIZE, 1.0))
    session.focus = next(place for place, w in enumerate(places) if isinstance(w, Slider) and w.name == "blades")
    hands.press(".")
    later(session, 0.5)
    assert session.blades.dials["blades"].value == 3
    hands.press("-")
    assert session.blades.pace.value == 0.01


def test_return_presses_the_button_in_focus_or_the_one_of_a_page(session, hands):
    session.focus = next(
        place
        for place, w in enumerate(widgets(session.snapshot(), layout(*SIZE, 1.0)))
        if isinstance(w, Button) and w.action is Action.PAUSE
    )
    hands.press("return")
    assert session.paused
    session.overlay, session.focus = "caution", -1
    hands.press("return")
    assert session.overlay == ""


def test_the_pad_steers_outside_its_dead_middle(session, hands):
    hands.pad_axis(1, 0.05)
    assert session.snapshot().view.pitch == 0.0
    hands.pad_axis(1, 0.8)
    assert session.snapshot().view.pitch == 0.8
    hands.pad_axis(9, 1.0)
    hands.pad_button(0)
    assert session.paused
    hands.pad_button(99)


def test_losing_the_keyboard_lets_everything_go(session, hands):
    hands.press("right")
    hands.touch(MOUSE, *touchable(session, BankPad)[0].rect.center)
    hands.let_go()
    assert session.snapshot().view.roll == 0.0
    assert not hands._down
    assert not hands._dragged
