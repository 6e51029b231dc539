"""One airplane of the pair: its last two states and where its nose has pointed."""

from __future__ import annotations

import math
from collections import deque
from typing import TYPE_CHECKING

from sim.live.flight import by_stick, pilot_step, reading
from viz.stage.attitude import axes, between, heading
from viz.stage.snapshot import AirplaneView
from viz.stage.worlds.world import STEP_S

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.live.flight import FlightReading, Flyer
    from viz.stage.attitude import Vector

    Stick = tuple[float, float, float, float]

TRAIL_MARKS = 120
TRAIL_EVERY_S = 0.1


class Flown:
    """An airplane in the air: flown by the stick that `stick` returns, or through a maneuver."""

    def __init__(self, flyer: Flyer, stick: Callable[[], Stick]) -> None:
        self._flyer = flyer
        self._by_hand = by_stick(flyer, stick)
        self.restart("")

    def restart(self, script: str) -> None:
        """Go back to the start of a maneuver, or to level flight and the stick for an empty name."""
        flyer = self._flyer
        ready = flyer.scripts.get(script)
        self.state = self.before = ready.start if ready else flyer.start
        self._later = pilot_step(flyer, ready.wanted if ready else self._by_hand, STEP_S)
        self._trail: deque[Vector] = deque(maxlen=TRAIL_MARKS)
        self._next_mark_s = 0.0
        self._read: FlightReading | None = None

    def take_over(self) -> None:
        """Hand the stick to the visitor in mid-air."""
        self._later = pilot_step(self._flyer, self._by_hand, STEP_S)

    def step(self, time_s: float) -> None:
        """Fly one fixed step from `time_s`."""
        self.before, self.state = self.state, self._later(time_s, self.state)
        self._read = None
        if time_s >= self._next_mark_s:
            self._next_mark_s = time_s + TRAIL_EVERY_S
            self._trail.append(axes(self._attitude(1.0))[0])

    def lost(self, floor_m: float) -> bool:
        """Tell whether the flight is over: near the ground, or where the equations do not hold."""
        return not all(map(math.isfinite, self.state)) or -self.state[2] < floor_m

    def _attitude(self, blend: float) -> tuple[float, float, float, float]:
        e0, e1, e2, e3 = self.before[3:7]
        f0, f1, f2, f3 = self.state[3:7]
        return between((e0, e1, e2, e3), (f0, f1, f2, f3), blend)

    def read(self) -> FlightReading:
        """Return what the instruments show; read once for all who look between two steps."""
        if self._read is None:
            self._read = reading(self._flyer, self.state)
        return self._read

    @property
    def heading_rad(self) -> float:
        """Where the nose points now, from north, right positive [rad]."""
        return heading(axes(self._attitude(1.0))[0])

    def view(self, blend: float) -> AirplaneView:
        """Return the airplane at a share `blend` of the way between its last two states."""
        read, attitude = self.read(), self._attitude(blend)
        return AirplaneView(
            attitude=attitude,
            north_m=read.north_m,
            east_m=read.east_m,
            height_m=read.altitude_m,
            heading_rad=heading(axes(attitude)[0]),
            speed_m_s=read.speed_m_s,
            pitch_n_m=read.pitch_n_m,
            yaw_n_m=read.yaw_n_m,
            elevator_share=-read.elevator_share,
            aileron_share=-read.aileron_share,
            rudder_share=-read.rudder_share,
            trail=tuple(self._trail),
            spin_rad_s=read.spin_rad_s,
            throttle=read.throttle,
            beyond=bool(read.beyond),
        )
