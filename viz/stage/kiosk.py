"""A stand nobody watches: an attract loop that any touch ends and that begins again when the visitor has gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from viz.stage.worlds.turning import NAMES
from viz.words.catalogue import languages

if TYPE_CHECKING:
    from viz.stage.session import Session

IDLE_S = 75.0
"""After this long without a touch the visitor has gone [s]."""
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
        self._session.overlay = ""
        self._session.attract = True
        self._next_scene()

    def touched(self) -> None:
        """Note that somebody is there; what was touched ends the attract loop, see `Session.wake`."""
        if not self._session.attract:
            self._quiet_s = 0.0

    def tick(self, elapsed_s: float) -> None:
        """Let time pass: show the next scene of the attract loop, or begin it."""
        self._quiet_s += elapsed_s
        if self._session.attract:
            if self._quiet_s >= SCENE_S:
                self._next_scene()
        elif self._quiet_s >= IDLE_S:
            self._begin()

    def _next_scene(self) -> None:
        """Show the next scene from its beginning in the next language; the airplanes fly the next maneuver."""
        session = self._session
        session.restart()
        rounds, scene = divmod(self._shown, len(session.scenes))
        start = session.looks.language
        own = (start, *(language for language in languages() if language != start))
        session.looks = replace(session.looks, language=own[(rounds + scene) % len(own)])
        session.show(session.scenes[scene])
        if scene == 0:
            session.turning.perform(NAMES[rounds % len(NAMES)])
        self._shown += 1
        self._quiet_s = 0.0
