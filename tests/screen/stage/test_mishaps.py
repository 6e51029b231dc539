"""What befalls a window: its screen is lost, a pad is pulled out while it holds the stick over."""

import pygame
import pytest

from viz.stage.app import LOST_S, Window
from viz.stage.show import Setting

SIZE, STEP_S = (960, 540), 1.0 / 60.0


@pytest.fixture
def opened(stage, monkeypatch):
    """Return a way to open a window on a screen that nobody sees."""
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    monkeypatch.setenv("SDL_AUDIODRIVER", "dummy")
    yield lambda **setting: Window(stage, Setting(**setting), SIZE)
    pygame.display.quit()


def lost(monkeypatch):
    """Lose the screen; return a way to bring it back."""
    init = pygame.display.init

    def refused():
        message = "No available video device"
        raise pygame.error(message)

    pygame.display.quit()
    monkeypatch.setattr(pygame.display, "init", refused)
    return lambda: monkeypatch.setattr(pygame.display, "init", init)


def test_a_kiosk_goes_on_where_it_was_when_its_screen_comes_back(opened, monkeypatch, caplog):
    window = opened(kiosk=True)
    window.frame(STEP_S)
    window.show.session.wake()
    window.show.session.show("blades")
    back = lost(monkeypatch)
    for _ in range(round(2.5 * LOST_S / STEP_S)):
        window.frame(STEP_S)
    assert len([record for record in caplog.records if "no screen" in record.message]) == 3, "once a second"
    back()
    for _ in range(round(1.1 * LOST_S / STEP_S)):
        window.frame(STEP_S)
    assert window.show.failures == 0
    assert (window.show.session.scene, window.show.session.attract) == ("blades", False)
    seen = pygame.surfarray.array3d(pygame.display.get_surface())
    assert (seen.max(axis=2) > 0).mean() > 0.99, "the whole picture is painted anew"


def test_a_window_at_a_desk_says_that_its_screen_is_lost(opened, monkeypatch):
    window = opened()
    window.frame(STEP_S)
    lost(monkeypatch)
    with pytest.raises(pygame.error, match="No available video device"):
        window.frame(STEP_S)


def test_a_pad_that_is_pulled_out_lets_go_of_the_stick(opened, monkeypatch):
    window = opened()
    window.frame(STEP_S)
    monkeypatch.setattr(pygame.joystick, "get_count", lambda: 1)
    monkeypatch.setattr(pygame.joystick, "Joystick", lambda place: place)
    window.frame(STEP_S)
    pygame.event.post(pygame.event.Event(pygame.JOYAXISMOTION, axis=0, value=0.8))
    window.frame(STEP_S)
    assert window.show.session.snapshot().view.roll == pytest.approx(0.8)
    monkeypatch.setattr(pygame.joystick, "get_count", lambda: 0)
    window.frame(STEP_S)
    assert window.show.session.snapshot().view.roll == 0.0


def test_a_pad_that_is_gone_in_the_moment_in_which_it_is_looked_for_is_none(opened, monkeypatch):
    def gone(place):
        message = f"no such pad: {place}"
        raise pygame.error(message)

    window = opened()
    window.frame(STEP_S)
    monkeypatch.setattr(pygame.joystick, "get_count", lambda: 1)
    monkeypatch.setattr(pygame.joystick, "Joystick", gone)
    for _ in range(3):
        window.frame(STEP_S)
    assert window.show.failures == 0
