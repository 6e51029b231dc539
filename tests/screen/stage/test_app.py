"""A real window on a real screen: keys pressed and sliders dragged from outside, and the screen read back."""

import os
import shutil
import struct
import subprocess
import time
from pathlib import Path

import numpy as np
import pytest

from viz.stage.bank_pad import REACH, BankPad
from viz.stage.controls import widgets
from viz.stage.layout import layout
from viz.stage.palette import colour
from viz.stage.show import Setting
from viz.stage.widgets import Button, Slider, Stick

SCREEN = (1280, 720)
NEEDED = ("Xvfb", "xdotool")
missing = [name for name in NEEDED if shutil.which(name) is None]
pytestmark = [pytest.mark.skipif(bool(missing), reason=f"not installed: {' '.join(missing)}"), pytest.mark.slow]


@pytest.fixture(scope="module")
def screen(tmp_path_factory):
    """Start a screen without a monitor; yield its name and the file that holds its pixels."""
    folder = tmp_path_factory.mktemp("screen")
    told, tell = os.pipe()
    size = f"{SCREEN[0]}x{SCREEN[1]}x24"
    words = [
        "Xvfb",
        "-displayfd",
        str(tell),
        "-screen",
        "0",
        size,
        "-fbdir",
        str(folder),
        "-nolisten",
        "tcp",
        "-noreset",
    ]
    with subprocess.Popen(words, pass_fds=[tell], stderr=subprocess.DEVNULL) as server:
        os.close(tell)
        with os.fdopen(told) as stream:
            number = stream.readline().strip()
        yield f":{number}", folder / "Xvfb_screen0"
        server.terminate()


class Outside:
    """Somebody before the screen: presses keys, drags, and looks."""

    def __init__(self, display, pixels, window):
        self.pixels, self.window = pixels, window
        self.environment = os.environ | {"DISPLAY": display}

    def do(self, *words):
        subprocess.run(["xdotool", *map(str, words)], env=self.environment, check=True, timeout=20)
        self.wait()

    @staticmethod
    def number():
        """Return the number by which the screen knows the window."""
        import pygame

        return pygame.display.get_wm_info()["window"]

    def wait(self, frames=12):
        for _ in range(frames):
            self.window.frame(1.0 / 60.0)
            time.sleep(0.004)

    def look(self):
        """Return what is on the screen, an array (height, width, 3)."""
        data = Path(self.pixels).read_bytes()
        head = struct.unpack(">25I", data[:100])
        start = head[0] + 12 * head[19]
        rows = np.frombuffer(data[start : start + head[12] * head[5]], dtype=np.uint8).reshape(head[5], head[12])
        return rows[:, : 4 * head[4]].reshape(head[5], head[4], 4)[:, :, 2::-1]

    def at(self, kind, pick=lambda widget: True):
        session = self.window.show.session
        parts = layout(*self.window.show.size, session.looks.font_scale, session.front)
        found = widgets(session.snapshot(), parts)
        return next(widget for widget in found if isinstance(widget, kind) and pick(widget))

    def click(self, x, y):
        self.do("mousemove", round(x), round(y), "click", 1)


@pytest.fixture
def setting():
    return Setting()


@pytest.fixture
def outside(screen, stage, setting, monkeypatch):
    import pygame

    from viz.stage.app import Window

    display, pixels = screen
    monkeypatch.setenv("DISPLAY", display)
    monkeypatch.setenv("SDL_VIDEODRIVER", "x11")
    window = Window(stage, setting, (960, 540) if setting.kiosk else SCREEN)
    person = Outside(display, pixels, window)
    person.wait()
    person.do("windowfocus", person.number())
    yield person
    pygame.display.quit()


def close(one, other):
    return np.abs(np.asarray(one, dtype=int) - np.asarray(other, dtype=int)).max() <= 2


def test_the_cautions_are_a_page_behind_a_button(outside):
    session = outside.window.show.session
    outside.click(*outside.at(Button, lambda widget: widget.action.value == "cautions").rect.center)
    assert session.overlay == "caution"
    button = outside.at(Button)
    x, y = round(button.rect.x + 5), round(button.rect.y + 5)
    assert close(outside.look()[y, x], colour("button_on", "normal"))
    outside.wait(30)
    outside.do("key", "Return")
    assert session.overlay == ""
    assert not close(outside.look()[y, x], colour("button_on", "normal"))


def test_keys_change_the_scene_and_the_screen_shows_it(outside):
    session = outside.window.show.session
    for key, scene in (("3", "blades"), ("2", "engine"), ("1", "turning")):
        outside.do("key", key)
        outside.wait(30)
        assert session.scene == scene
        on = outside.at(Button, lambda widget: widget.on)
        assert on.action.value == scene
        assert close(outside.look()[round(on.rect.y + 5), round(on.rect.x + 5)], colour("button_on", "normal"))


def test_a_slider_is_dragged_and_its_knob_stands_where_the_session_says(outside):
    session = outside.window.show.session
    outside.do("key", "2")
    slider = outside.at(Slider)
    y = round(slider.groove.center[1])
    outside.do("mousemove", round(slider.groove.x + slider.share * slider.groove.w), y, "mousedown", 1)
    outside.do("mousemove", round(slider.groove.x + 0.3 * slider.groove.w), y)
    outside.do("mouseup", 1)
    outside.wait(60)
    dial = session.engine.dials[slider.name]
    assert dial.range.share(dial.value) == pytest.approx(0.3, abs=0.01)
    seen = outside.look()
    knob = round(slider.groove.x + dial.wanted * slider.groove.w)
    assert close(seen[y, knob], colour("knob", "normal"))
    assert close(seen[y, round(slider.groove.x + 0.7 * slider.groove.w)], colour("groove", "normal"))


def test_the_pad_is_dragged_and_both_airplanes_bank(outside):
    session = outside.window.show.session
    pad = outside.at(BankPad)
    x, y = round(pad.middle[0]), round(pad.groove_y)
    outside.do("mousemove", x, y, "mousedown", 1, "mousemove", round(x + 0.5 * REACH * pad.rect.w), y)
    outside.wait(90)
    view = session.snapshot().view
    assert view.roll == pytest.approx(0.5, abs=0.01)
    assert min(view.told_rad, *(bank_rad for _, bank_rad in outside.at(BankPad).flown)) > 0.15
    outside.do("mouseup", 1)
    assert session.snapshot().view.roll == 0.0


def test_the_stick_is_dragged_and_both_airplanes_follow(outside):
    session = outside.window.show.session
    outside.do("key", "e")
    stick = outside.at(Stick)
    x, y = map(round, stick.rect.center)
    before = outside.look().copy()
    outside.do("mousemove", x, y, "mousedown", 1, "mousemove", x, round(y + 0.2 * stick.rect.h))
    outside.wait(30)
    view = session.snapshot().view
    assert view.pitch > 0.4
    assert view.rotary.elevator_share > 0.2
    assert view.fixed.elevator_share == pytest.approx(view.rotary.elevator_share, abs=0.02)
    outside.do("mouseup", 1)
    assert session.snapshot().view.pitch == 0.0
    assert np.mean(np.abs(outside.look().astype(int) - before).max(axis=2) > 8) > 0.02


def test_the_screen_is_what_the_session_says_pixel_for_pixel(outside, stage):
    """The whole window equals the session's snapshot drawn anew on a plain surface."""
    import pygame

    from viz.stage.painter import Painter
    from viz.stage.scenes.scene import draw

    outside.do("key", "space")
    snapshot = outside.window.show.session.snapshot()
    assert snapshot.paused
    drawn = pygame.Surface(SCREEN, depth=32)
    Painter().paint(drawn, draw(snapshot, layout(*SCREEN, 1.0), stage.figure, SCREEN))
    assert np.array_equal(outside.look(), pygame.surfarray.array3d(drawn).transpose(1, 0, 2))


def test_the_window_can_be_resized_and_the_buttons_follow(outside):
    outside.do("windowsize", outside.number(), 1000, 600)
    outside.wait(20)
    assert outside.window.show.size == (1000, 600)
    outside.click(*outside.at(Button, lambda widget: widget.action.value == "pause").rect.center)
    assert outside.window.show.session.paused


def test_escape_leaves_the_desk(outside):
    outside.do("key", "Escape")
    assert outside.window.show.session.finished


@pytest.mark.parametrize("setting", [Setting(kiosk=True)])
def test_a_kiosk_fills_the_screen_and_only_the_chord_leads_out(outside):
    assert outside.window.show.size == SCREEN
    outside.do("key", "Return")
    for key in ("Escape", "q", "alt+F4", "F11", "ctrl+c"):
        outside.do("key", key)
        outside.wait(30)
    assert not outside.window.show.session.finished
    assert outside.window.show.size == SCREEN
    outside.do("keydown", "Control_L", "keydown", "Alt_L", "key", "x", "keyup", "Alt_L", "keyup", "Control_L")
    assert outside.window.show.session.finished
