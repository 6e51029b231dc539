"""The window and its loop."""

from __future__ import annotations

import gc
import time
from typing import TYPE_CHECKING

from viz.stage.layout import LEAST
from viz.stage.surroundings import prepare

if TYPE_CHECKING:
    from sim.studies.stage import Stage
    from viz.stage.show import Setting

FRAMES_A_SECOND = 60
LONGEST_S = 0.25
"""A frame that took longer than this, as after a sleep of the machine, counts as this [s]."""


class Window:
    """A window that shows a show."""

    def __init__(self, stage: Stage, setting: Setting, size: tuple[int, int], *, fullscreen: bool = False) -> None:
        prepare()
        import pygame

        from viz.stage.show import Show

        self._size = size
        pygame.display.init()
        pygame.key.set_repeat(350, 60)
        pygame.joystick.init()
        self._pads: dict[int, object] = {}
        self.show = Show(stage, setting, size)
        self.show.session.fullscreen = fullscreen or setting.kiosk
        self._full: bool | None = None
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
        if not wanted and (size[0] < LEAST[0] or size[1] < LEAST[1]):
            size = (max(size[0], LEAST[0]), max(size[1], LEAST[1]))
            pygame.display.set_mode(size, pygame.RESIZABLE)
        if size != self.show.size:
            self.show.resize(size)

    def _find_pads(self) -> None:
        """Take up pads that were plugged in."""
        import pygame

        for place in range(pygame.joystick.get_count()):
            if place not in self._pads:
                self._pads[place] = pygame.joystick.Joystick(place)

    def frame(self, elapsed_s: float) -> None:
        """Take in what happened, go on by `elapsed_s` and show it."""
        import pygame

        from viz.stage.events import tell_all

        tell_all(self.show)
        self._find_pads()
        self._fit()
        surface = pygame.display.get_surface()
        self.show.frame(surface, elapsed_s)
        pygame.display.flip()

    def run(self) -> None:
        """Show frames until the visitor leaves."""
        import pygame

        pace, before_s = pygame.time.Clock(), time.perf_counter()
        self.frame(0.0)
        gc.collect()
        gc.freeze()
        try:
            while not self.show.session.finished:
                pace.tick(FRAMES_A_SECOND)
                now_s = time.perf_counter()
                self.frame(min(now_s - before_s, LONGEST_S))
                before_s = now_s
        finally:
            gc.unfreeze()
            pygame.display.quit()
