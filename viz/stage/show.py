"""A running show: session, hands and painter together; a window, a recording and a test all drive this one."""

from __future__ import annotations

import logging
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from viz.stage.hearing import heard
from viz.stage.input import Hands
from viz.stage.kiosk import Kiosk
from viz.stage.layout import layout
from viz.stage.painter import Painter
from viz.stage.scenes.scene import draw, kind
from viz.stage.session import Session
from viz.stage.snapshot import Looks, SceneName

if TYPE_CHECKING:
    import pygame

    from sim.live.scene_data import Stage
    from viz.stage.sound import Heard

REST_S = 1.0
"""After a failure the picture stands for this long, so that one that comes back fills neither log nor eyes. [s]"""
LOG = logging.getLogger("whirlgate.view")


@dataclass(frozen=True, slots=True)
class Setting:
    """How a show begins."""

    looks: Looks = field(default_factory=Looks)
    scene: SceneName = "turning"
    script: str = ""
    bench: bool = False
    seed: int = 1
    kiosk: bool = False
    buttons: bool = True
    sound: bool = True


class Show:
    """Everything but the window."""

    def __init__(self, stage: Stage, setting: Setting, size: tuple[int, int]) -> None:
        self._stage, self._setting = stage, setting
        self.size = size
        self.failures = 0
        self._rest_s = 0.0
        self.begin()

    def begin(self) -> None:
        """Raise the curtain, for the first time or again after a failure."""
        setting = self._setting
        self.session = Session(self._stage, looks=setting.looks, scene=setting.scene, seed=setting.seed)
        self.hands = Hands(self.session, self.size)
        self.painter = Painter()
        self._painted: tuple[object, ...] = ()
        self.drawn: list[pygame.Rect] = []
        self.kiosk = Kiosk(self.session) if setting.kiosk else None
        self.session.buttons = setting.buttons
        self.session.sound = self.session.loud = setting.sound
        if setting.bench and setting.scene == "turning":
            self.session.to_bench(True)
        if setting.script:
            self.session.turning.perform(setting.script)

    def resize(self, size: tuple[int, int]) -> None:
        """Take another window, size of it or view of it; nothing of what has been painted is to be seen [px]."""
        self.size = self.hands.size = size
        self._painted = ()

    def touched(self) -> None:
        """Note that somebody is there."""
        if self.kiosk:
            self.kiosk.touched()

    def tick(self, elapsed_s: float) -> None:
        """Let time pass [s]."""
        if self.kiosk:
            self.kiosk.tick(elapsed_s)
        self.session.tick(elapsed_s)

    def paint(self, surface: pygame.Surface) -> None:
        """Draw what there is to see."""
        snapshot = self.session.snapshot()
        looks = snapshot.looks
        self.painter.contrast, self.painter.letters = looks.contrast, looks.font_scale
        now = (id(surface), *kind(snapshot, self.size))
        parts = layout(*self.size, looks.font_scale, snapshot.front)
        fresh = now != self._painted
        shapes = draw(snapshot, parts, self._stage.figure, self.size, fresh=fresh)
        self.drawn = self.painter.paint(surface, shapes, fresh=fresh)
        self._painted = now

    def heard(self) -> Heard:
        """Return what there is to hear."""
        return heard(self.session.snapshot(), self._stage)

    def frame(self, surface: pygame.Surface, elapsed_s: float) -> None:
        """Go on by one frame; in a kiosk a failure is logged and the scene begins again."""
        self._rest_s = max(0.0, self._rest_s - elapsed_s)
        self.drawn = []
        if self._rest_s > 0.0:
            return
        try:
            self.tick(elapsed_s)
            self.paint(surface)
        except Exception:
            if not self.kiosk:
                raise
            self.fail()

    def fail(self) -> None:
        """Log the failure being handled and begin the scene again."""
        self.failures += 1
        before = self.session
        LOG.exception("failure %d in scene %s; the scene begins again", self.failures, before.scene)
        self.begin()
        self.session.scene, self.session.overlay = before.scene, before.overlay
        self.session.attract, self.session.finished = before.attract, before.finished
        self._rest_s = REST_S
