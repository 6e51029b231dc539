"""One airplane of the pair: its last two states, and who flies it."""

from __future__ import annotations

import math
from enum import Enum
from typing import TYPE_CHECKING

from sim.flight.actuation import INTEGRATORS
from sim.live.assisted import assisted, endangered, level, recovery, upset
from sim.live.flight import by_stick, pilot_step, reading
from viz.stage.attitude import axes, between, heading
from viz.stage.snapshot import AirplaneView
from viz.stage.worlds.world import STEP_S

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.live.flight import FlightReading, Flyer
    from viz.stage.snapshot import Quaternion

    Stick = tuple[float, float, float, float]


class Hand(Enum):
    """Who flies."""

    SCRIPT = "script"
    PILOT = "pilot"
    NOBODY = "nobody"
    VISITOR = "visitor"
    RECOVERY = "recovery"


LET_GO = (0.0, 0.0, 0.0, 0.0)


class Flown:
    """An airplane in the air: through a maneuver, or as one of `Hand` flies it."""

    def __init__(self, flyer: Flyer, stick: Callable[[], Stick], bank_rad: Callable[[], float]) -> None:
        self._flyer = flyer
        self._level_rudder_share = reading(flyer, flyer.start).rudder_share
        self._laws = {
            Hand.PILOT: assisted(flyer, bank_rad),
            Hand.NOBODY: by_stick(flyer, lambda: LET_GO),
            Hand.VISITOR: by_stick(flyer, stick),
            Hand.RECOVERY: recovery(flyer),
        }
        self.restart("")

    def restart(self, script: str) -> None:
        """Go back to the start of a maneuver, or to level flight and the pilot for an empty name."""
        flyer = self._flyer
        ready = flyer.scripts.get(script)
        self.state = self.before = ready.start if ready else flyer.start
        self.hand = Hand.SCRIPT if ready else Hand.PILOT
        self._later = pilot_step(flyer, ready.wanted if ready else self._laws[self.hand], STEP_S)
        self._read: FlightReading | None = None

    def take(self, hand: Hand) -> None:
        """Hand the controls over in mid-air; a pilot goes on with what he has learnt, if nobody but him flew since."""
        if hand is self.hand:
            return
        if {self.hand, hand} != {Hand.PILOT, Hand.NOBODY}:
            self.state = (*self.state[:-INTEGRATORS], *(0.0,) * INTEGRATORS)
        self.hand = hand
        self._later = pilot_step(self._flyer, self._laws[hand], STEP_S)

    def step(self, time_s: float) -> None:
        """Fly one fixed step from `time_s`."""
        self.before, self.state = self.state, self._later(time_s, self.state)
        self._read = None

    def lost(self) -> bool:
        """Tell whether the flight is over: in the ground, or where the equations do not hold."""
        return not all(map(math.isfinite, self.state)) or self.state[2] > 0.0

    def upset(self) -> bool:
        """Tell whether a pilot has to recover it first."""
        return upset(self._flyer, self.state)

    def endangered(self, spare_m: float = 0.0) -> bool:
        """Tell whether it must be recovered now, to stay above the ground with `spare_m` to spare."""
        return endangered(self._flyer, self.state, spare_m)

    def level(self) -> bool:
        """Tell whether a recovery is over."""
        return level(self._flyer, self.state)

    @property
    def attitude(self) -> Quaternion:
        """Its attitude now, body to earth."""
        return self._attitude(1.0)

    def _attitude(self, blend: float) -> Quaternion:
        e0, e1, e2, e3 = self.before[3:7]
        f0, f1, f2, f3 = self.state[3:7]
        return between((e0, e1, e2, e3), (f0, f1, f2, f3), blend)

    def read(self) -> FlightReading:
        """Return what the instruments show; read once for all who look between two steps."""
        if self._read is None:
            self._read = reading(self._flyer, self.state)
        return self._read

    @property
    def feet_share(self) -> float:
        """How far the feet hold the rudder from where it stands in level flight, over its travel, right positive."""
        return self._level_rudder_share - self.read().rudder_share

    @property
    def heading_rad(self) -> float:
        """Where the nose points now, from north, right positive [rad]."""
        return heading(axes(self.attitude)[0])

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
            feet_share=self.feet_share,
            spin_rad_s=read.spin_rad_s,
            throttle=read.throttle,
            beyond=bool(read.beyond),
        )
