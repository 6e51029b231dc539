"""A show goes on: a failure in a kiosk is logged and the show begins again; elsewhere it is not hidden."""

import logging

import pygame
import pytest

from viz.stage.actions import Action
from viz.stage.controls import widgets
from viz.stage.events import MOST_A_FRAME, tell, tell_all
from viz.stage.input import MOUSE
from viz.stage.layout import layout
from viz.stage.painter import Painter
from viz.stage.shapes import Block, Clip, Rect
from viz.stage.show import Setting, Show

SIZE = (960, 540)


def surface():
    return pygame.Surface(SIZE, depth=32)


def broken(elapsed_s):
    raise ZeroDivisionError(elapsed_s)


def test_in_a_kiosk_a_failure_is_logged_and_the_scene_begins_again(stage, caplog):
    show = Show(stage, Setting(kiosk=True), SIZE)
    show.session.show("blades")
    show.session.overlay = ""
    show.session.tick = broken
    before = show.session
    with caplog.at_level(logging.ERROR, logger="whirlgate.view"):
        show.frame(surface(), 0.1)
    assert show.failures == 1
    assert show.session is not before
    assert (show.session.scene, show.session.overlay) == ("blades", "")
    assert "ZeroDivisionError" in caplog.text
    assert caplog.records[0].getMessage() == "failure 1 in scene blades; the scene begins again"


def test_a_failure_that_comes_back_is_logged_once_a_second(stage, monkeypatch):
    monkeypatch.setattr("viz.stage.session.Session.tick", lambda self, elapsed_s: broken(elapsed_s))
    show = Show(stage, Setting(kiosk=True), SIZE)
    for _ in range(300):
        show.frame(surface(), 1.0 / 60.0)
    assert show.failures == 5


def test_at_a_desk_a_failure_is_not_hidden(stage):
    show = Show(stage, Setting(), SIZE)
    show.session.tick = broken
    with pytest.raises(ZeroDivisionError):
        show.frame(surface(), 0.1)


DEEDS = {
    12: Action.PAUSE,
    22: Action.PAUSE,
    30: Action.FASTER,
    50: Action.HELP,
    75: Action.HELP,
    100: Action.UNITS,
    125: Action.RESTART,
}
"""What a visitor does, by the number of the frame before which it is done."""


@pytest.mark.parametrize("size", [SIZE, (1283, 721), (720, 1280)])
@pytest.mark.parametrize("scene", ["turning", "engine", "blades"])
def test_a_frame_over_the_last_one_is_the_frame_on_a_fresh_ground(stage, scene, size):
    """Drawing over the frame before leaves nothing of it behind, and leaves nothing out that has changed."""
    show, fresh = Show(stage, Setting(scene=scene, buttons=True), size), pygame.Surface(size, depth=32)
    over = pygame.Surface(size, depth=32)
    for frame in range(140):
        if frame in DEEDS:
            show.session.act(DEEDS[frame])
        show.tick(1.0 / 60.0)
        show.paint(over)
        if frame % 9 == 4:
            again = Show(stage, Setting(scene=scene, buttons=True), size)
            again.session = show.session
            again.paint(fresh)
            assert pygame.image.tobytes(over, "RGB") == pygame.image.tobytes(fresh, "RGB"), frame


def test_what_is_still_is_painted_when_it_changes_and_on_a_fresh_ground():
    rect = Rect(2, 2, 8, 8)
    one, other = (Clip(rect, (Block(rect, role),), still=True) for role in ("ink", "strike"))
    painter, picture = Painter(), pygame.Surface((16, 16), depth=32)

    def shown(clip, *, fresh):
        picture.fill((1, 2, 3))
        painter.paint(picture, [clip], fresh=fresh)
        return tuple(picture.get_at((5, 5)))[:3]

    untouched = (1, 2, 3)
    assert shown(one, fresh=True) == shown(one, fresh=True) != untouched
    assert shown(one, fresh=False) == untouched
    assert untouched != shown(other, fresh=False) != shown(one, fresh=False)


def event(kind, **detail):
    return pygame.event.Event(kind, detail)


def test_a_mouse_made_of_a_finger_is_not_counted_twice(stage):
    show = Show(stage, Setting(buttons=True), SIZE)
    button = (40, SIZE[1] - 40)
    tell(show, event(pygame.MOUSEBUTTONDOWN, button=1, pos=button, touch=True))
    assert not show.session.paused
    tell(show, event(pygame.MOUSEBUTTONDOWN, button=1, pos=button, touch=False))
    assert show.session.paused


def test_fingers_come_as_shares_of_the_window(stage):
    show = Show(stage, Setting(buttons=True), SIZE)
    tell(show, event(pygame.FINGERDOWN, finger_id=3, x=0.04, y=0.92))
    assert show.session.paused


def test_right_buttons_and_unknown_events_do_nothing(stage):
    show = Show(stage, Setting(buttons=True), SIZE)
    tell(show, event(pygame.MOUSEBUTTONDOWN, button=3, pos=(40, SIZE[1] - 20)))
    tell(show, event(pygame.USEREVENT))
    assert not show.session.paused
    assert MOUSE not in show.hands._dragged


def test_the_window_button_closes_a_desk_and_not_a_kiosk(stage):
    for kiosk in (False, True):
        show = Show(stage, Setting(kiosk=kiosk), SIZE)
        tell(show, event(pygame.QUIT))
        assert show.session.finished is not kiosk


def test_a_storm_of_events_is_cut_to_what_a_frame_can_take(stage, monkeypatch):
    show = Show(stage, Setting(kiosk=True), SIZE)
    taken = []
    monkeypatch.setattr("viz.stage.events.tell", lambda show, event: taken.append(event))
    monkeypatch.setattr(pygame.event, "get", lambda: [event(pygame.KEYDOWN, key=pygame.K_h)] * 9000)
    tell_all(show)
    assert len(taken) == MOST_A_FRAME


def test_a_bad_event_in_a_kiosk_is_logged(stage, monkeypatch):
    show = Show(stage, Setting(kiosk=True), SIZE)
    monkeypatch.setattr(pygame.event, "get", lambda: [event(pygame.MOUSEBUTTONDOWN)])
    tell_all(show)
    assert show.failures == 1


def test_a_finger_on_a_language_of_the_attract_loop_chooses_it_though_its_mouse_comes_first(stage):
    show = Show(stage, Setting(kiosk=True), SIZE)
    show.tick(1.0)
    parts = layout(*SIZE, 1.0, "attract")
    german = next(one for one in widgets(show.session.snapshot(), parts) if one.choice == "german")
    x, y = german.rect.center
    tell(show, event(pygame.MOUSEMOTION, pos=(x, y), buttons=(1, 0, 0), touch=True))
    tell(show, event(pygame.MOUSEBUTTONDOWN, button=1, pos=(x, y), touch=True))
    assert show.session.attract
    tell(show, event(pygame.FINGERDOWN, finger_id=1, x=x / SIZE[0], y=y / SIZE[1]))
    assert not show.session.attract
    assert show.session.looks.language == "german"
    tell(show, event(pygame.FINGERUP, finger_id=1, x=x / SIZE[0], y=y / SIZE[1]))
    assert (show.session.scene, show.session.paused, show.session.overlay) == ("turning", False, "")


def test_pictures_carry_no_buttons_unless_they_are_asked_for(stage):
    for buttons in (True, False):
        show = Show(stage, Setting(buttons=buttons), SIZE)
        assert bool(widgets(show.session.snapshot(), layout(*SIZE, 1.0, show.session.front))) is buttons


@pytest.mark.parametrize("scene", ["turning", "engine", "blades"])
def test_what_is_copied_to_the_window_is_all_that_changed(stage, scene):
    """Through two seconds, a finger on a button among them: a copy of the places told stays like the picture."""
    show, picture, window = Show(stage, Setting(scene=scene), SIZE), surface(), surface()
    pixels = []
    for frame in range(120):
        if frame == 60:
            touched = widgets(show.session.snapshot(), layout(*SIZE, 1.0, "full"))
            show.hands.touch(MOUSE, *touched[-1].rect.center)
            show.hands.lift(MOUSE)
        show.frame(picture, 1.0 / 60.0)
        for place in show.drawn:
            window.blit(picture, place, place)
        pixels.append(sum(place.w * place.h for place in show.drawn))
        assert pygame.image.tobytes(window, "RGB") == pygame.image.tobytes(picture, "RGB"), frame
    assert pixels[0] == SIZE[0] * SIZE[1]
    assert sorted(pixels)[60] < 0.75 * pixels[0]


def test_a_window_that_was_covered_is_copied_whole(stage):
    show, picture = Show(stage, Setting(), SIZE), surface()
    for _ in range(3):
        show.frame(picture, 1.0 / 60.0)
    assert picture.get_rect() not in show.drawn
    tell(show, pygame.event.Event(pygame.WINDOWEXPOSED))
    show.frame(picture, 1.0 / 60.0)
    assert picture.get_rect() in show.drawn
