"""What there is to hear of a scene; and the loudspeaker, where there is one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.stage.gun_states import guns
from viz.stage.snapshot import BenchView, BladesView, RingsView, TurningView
from viz.stage.sound import PIECE, RATE_HZ, SILENCE, Heard, Voice

if TYPE_CHECKING:
    from collections.abc import Callable

    import pygame

    from sim.live.scene_data import Stage
from viz.stage.snapshot import Snapshot

CUT = 0.02
"""Below this throttle the ignition is off."""


def heard(snapshot: Snapshot, stage: Stage) -> Heard:
    """Return what is heard: the rotary, which is in front; nothing while all stands still or nobody is there."""
    if not snapshot.sound or snapshot.paused or snapshot.overlay or snapshot.front == "attract":
        return SILENCE
    view, cylinders = snapshot.view, stage.rotary_engine.cylinders
    if isinstance(view, TurningView):
        plane = view.rotary
        return Heard(plane.spin_rad_s, cylinders, plane.throttle > CUT, plane.speed_m_s)
    if isinstance(view, RingsView):
        plane, engine = view.plane, stage.rotary_engine if view.who == "rotary" else stage.fixed_engine
        return Heard(plane.spin_rad_s, engine.cylinders, plane.throttle > CUT, plane.speed_m_s)
    if isinstance(view, BladesView):
        return Heard(view.gun.spin_rad_s, cylinders, rounds=sum(each.rounds for each in guns(view)))
    if isinstance(view, BenchView):
        return Heard(stage.rotary_engine.spin_rad_s, cylinders)
    return Heard(view.rotary.spin_rad_s, cylinders)


class Loudspeaker:
    """Plays what is heard; silent for good where there is no device, or where it is lost."""

    def __init__(self) -> None:
        import pygame

        self._voice = Voice()
        self._channel: pygame.mixer.Channel | None = None
        try:
            pygame.mixer.init(RATE_HZ, -16, 1, PIECE // 2, allowedchanges=0)
            self._channel = pygame.mixer.Channel(0)
        except pygame.error:
            self._channel = None

    def tell(self, now: Callable[[], Heard]) -> None:
        """Have the next pieces ready, of what is heard now: one that plays, one that waits."""
        import pygame

        if self._channel is None:
            return
        try:
            while self._channel.get_queue() is None:
                piece = pygame.mixer.Sound(buffer=self._voice.piece(now()).tobytes())
                if self._channel.get_busy():
                    self._channel.queue(piece)
                else:
                    self._channel.play(piece)
        except pygame.error:
            self._channel = None

    def close(self) -> None:
        """Let go of the device."""
        import pygame

        self._channel = None
        pygame.mixer.quit()
