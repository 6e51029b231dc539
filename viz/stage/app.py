"""The window and its loop."""

from __future__ import annotations

import gc
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
LONGEST_S = 0.25
"""A frame that took longer than this, as after a sleep of the machine, counts as this [s]."""


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
        self._loudspeaker = Loudspeaker()
        self._fit()
        pygame.display.set_caption("whirlgate")
        if setting.kiosk:
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
        """Take up pads that were plugged in, and drop those that were pulled out."""
        import pygame

        count = pygame.joystick.get_count()
        if count != len(self._pads):
            self._pads = [pygame.joystick.Joystick(place) for place in range(count)]

    def frame(self, elapsed_s: float) -> None:
        """Take in what happened, go on by `elapsed_s` and show it."""
        import pygame

        from viz.stage.events import tell_all

        tell_all(self.show)
        try:
            self._find_pads()
            self._fit()
        except pygame.error:
            if not self.show.kiosk:
                raise
            self.show.fail()
        surface = pygame.display.get_surface()
        self.show.frame(surface, elapsed_s)
        self._loudspeaker.tell(self.show.heard)
        pygame.display.flip()

    def run(self) -> None:
        """Show frames until the visitor leaves, or whoever started it interrupts."""
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
        except KeyboardInterrupt:
            pass
        finally:
            gc.enable()
            gc.unfreeze()
            self._loudspeaker.close()
            pygame.display.quit()
