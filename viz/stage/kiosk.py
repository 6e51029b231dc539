"""A stand nobody watches: an attract loop, back to the start when a visitor has gone, no way out but the chord."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.worlds.turning import NAMES

if TYPE_CHECKING:
    from viz.stage.session import Session

IDLE_S = 75.0
"""After this long without a touch the visitor has gone [s]."""
CAUTION_S = 20.0
"""How long the caution page waits before the attract loop begins [s]."""
SCENE_S = 21.0
"""How long each scene of the attract loop is shown [s]."""


class Kiosk:
    """Keeps a session fit for the next visitor."""

    def __init__(self, session: Session) -> None:
        self._session = session
        session.kiosk = session.fullscreen = True
        self._shown = 0
        self._begin()

    def _begin(self) -> None:
        self._session.restart()
        self._session.overlay = "caution"
        self._session.attract = False
        self._quiet_s = 0.0

    def touched(self) -> None:
        """Note that somebody is there; the attract loop ends with the caution page."""
        if self._session.attract:
            self._begin()
        self._quiet_s = 0.0

    def tick(self, elapsed_s: float) -> None:
        """Let time pass: begin again, begin the attract loop, or show its next scene."""
        session = self._session
        self._quiet_s += elapsed_s
        if session.attract:
            if self._quiet_s >= SCENE_S:
                self._next_scene()
        elif session.overlay == "caution":
            if self._quiet_s >= CAUTION_S:
                session.overlay, session.attract = "", True
                self._next_scene()
        elif self._quiet_s >= IDLE_S:
            self._begin()

    def _next_scene(self) -> None:
        """Show the next scene from its beginning; the airplanes fly the next maneuver."""
        session = self._session
        session.restart()
        rounds, scene = divmod(self._shown, len(session.scenes))
        session.show(session.scenes[scene])
        if scene == 0:
            session.turning.perform(NAMES[rounds % len(NAMES)])
        self._shown += 1
        self._quiet_s = 0.0
