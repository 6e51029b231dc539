"""The window and its loop."""

from __future__ import annotations

import gc
import logging
import os
import time
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from viz.stage.layout import at_least, fits
from viz.stage.sdl_environment import prepare

if TYPE_CHECKING:
    from sim.live.scene_data import Stage
    from viz.stage.show import Setting

FRAMES_A_SECOND = 60
LOST_S = 1.0
"""A kiosk whose screen is lost looks for it again after this long. [s]"""
LONGEST_S = 0.25
"""A frame that took longer than this, as after a sleep of the machine, counts as this [s]."""

LOG = logging.getLogger("whirlgate.view")
NO_SCREEN = (
    "there is no screen to open a window on; run it on a desktop, or take a picture with --snapshot or a film with "
    "--record, which need none"
)


def _open_screen() -> None:
    """Find a screen; what the library falls back on without one shows nothing and counts only where asked for.

    Raises
    ------
    NoAnswerError
        When there is no screen.
    """
    import pygame

    try:
        pygame.display.init()
    except pygame.error as error:
        raise NoAnswerError(NO_SCREEN) from error
    if pygame.display.get_driver() in {"offscreen", "dummy", "evdev"} and "SDL_VIDEODRIVER" not in os.environ:
        pygame.display.quit()
        raise NoAnswerError(NO_SCREEN)


class Window:
    """A window that shows a show."""

    def __init__(self, stage: Stage, setting: Setting, size: tuple[int, int], *, fullscreen: bool = False) -> None:
        prepare()
        import pygame

        from viz.stage.hearing import Loudspeaker
        from viz.stage.show import Show

        self._size = size
        _open_screen()
        pygame.key.set_repeat(350, 60)
        pygame.joystick.init()
        self._pads: list[object] = []
        self.show = Show(stage, setting, size)
        self.show.session.fullscreen = fullscreen or setting.kiosk
        self._full: bool | None = None
        self._lost_s = 0.0
        self._loudspeaker = Loudspeaker()
        self._open()

    def _open(self) -> None:
        """Open the window, for the first time or where the screen was lost; the show goes on where it was."""
        import pygame

        pygame.display.init()
        self._full = None
        self._fit()
        self.show.resize(self.show.size)
        pygame.display.set_caption("whirlgate")
        if self.show.kiosk:
            pygame.event.set_keyboard_grab(True)

    def _fit(self) -> None:
        """Bring the window to the size and kind that is wanted, and tell the show."""
        import pygame

        wanted = self.show.session.fullscreen
        if wanted != self._full:
            self._full = wanted
            if wanted:
                pygame.display.set_mode((0, 0), pygame.FULLSCREEN)
            else:
                pygame.display.set_mode(self._size, pygame.RESIZABLE)
        size = pygame.display.get_window_size()
        if not wanted and not fits(*size):
            size = at_least(*size)
            pygame.display.set_mode(size, pygame.RESIZABLE)
        if size != self.show.size:
            self.show.resize(size)

    def _find_pads(self) -> None:
        """Take up pads that were plugged in, and drop those that were pulled out; what one held is let go."""
        import pygame

        count = pygame.joystick.get_count()
        if count == len(self._pads):
            return
        if count < len(self._pads):
            self.show.hands.let_go()
        try:
            self._pads = [pygame.joystick.Joystick(place) for place in range(count)]
        except pygame.error:
            self._pads = []  # pulled out in this very moment: looked for again with the next frame

    def frame(self, elapsed_s: float) -> None:
        """Take in what happened, go on by `elapsed_s` and show it; a kiosk outlives the loss of its screen."""
        import pygame

        self._lost_s = max(0.0, self._lost_s - elapsed_s)
        if self._lost_s > 0.0:
            return
        try:
            self._frame(elapsed_s)
        except pygame.error:
            if not self.show.kiosk:
                raise
            LOG.exception("no screen; looked for again in %g s", LOST_S)
            self._lost_s = LOST_S

    def _frame(self, elapsed_s: float) -> None:
        import pygame

        from viz.stage.events import tell_all

        if pygame.display.get_surface() is None:
            self._open()
        tell_all(self.show)
        self._find_pads()
        self._fit()
        self.show.frame(pygame.display.get_surface(), elapsed_s)
        self._loudspeaker.tell(self.show.heard)
        pygame.display.update(self.show.drawn)

    def run(self) -> None:
        """Show frames until the visitor leaves."""
        import pygame

        pace, before_s = pygame.time.Clock(), time.perf_counter()
        self.frame(0.0)
        gc.collect()
        gc.freeze()
        gc.disable()  # frames make no cycles; what the exchange of a scene leaves is collected with it
        try:
            while not self.show.session.finished:
                pace.tick(FRAMES_A_SECOND)
                now_s = time.perf_counter()
                before = self.show.session.scene, self.show.session.overlay
                self.frame(min(now_s - before_s, LONGEST_S))
                before_s = now_s
                if before != (self.show.session.scene, self.show.session.overlay):
                    gc.collect()
        finally:
            gc.enable()
            gc.unfreeze()
            self._loudspeaker.close()
            pygame.display.quit()
