"""Two engines turning before our eyes, as slowly as one likes."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.live.engine import engine_picture
from viz.stage.dials import Range
from viz.stage.flashes import blur
from viz.stage.snapshot import Caption, EngineView
from viz.stage.worlds.hold import Hold
from viz.stage.worlds.paces import SLOW_MOTION, Pace
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.engine import EnginePicture, EngineSetup

STEADY_SHARE = 0.4
"""Of the pace picked, where little motion is asked for."""
SAID_S = 6.0
"""Of two sentences that are true at once each has its turn for so long [s]."""
ROTARY, FIXED = "rotary_spin_rad_s", "fixed_spin_rad_s"


class EngineWorld(World):
    """The rotary and the fixed engine, each at its own speed, slowed by the same factor."""

    def __init__(self, rotary: EngineSetup, fixed: EngineSetup) -> None:
        self._setups = {ROTARY: rotary, FIXED: fixed}
        ranges = tuple(
            Range(name, 0.0, setup.full_speed_rad_s, abs(setup.spin_rad_s)) for name, setup in self._setups.items()
        )
        super().__init__(ranges, Pace(SLOW_MOTION, 0.01))
        self._angle_rad = dict.fromkeys(self._setups, 0.0)
        self._hold, self._now_s = Hold(), 0.0

    def reset(self) -> None:
        """Start again with cylinder 1 straight up."""
        super().reset()
        self._angle_rad = dict.fromkeys(self._setups, 0.0)
        self._hold = Hold()

    def spin_rad_s(self, name: str) -> float:
        """Return the speed of an engine, clockwise from the cockpit positive [rad/s]."""
        return math.copysign(self.dials[name].value, self._setups[name].spin_rad_s)

    def follow(self, elapsed_s: float) -> None:
        """Bring the dials nearer to what was asked for, and say what is due when the last sentence has stood."""
        super().follow(elapsed_s)
        self._now_s += elapsed_s
        self._hold.take(self._due(), self._now_s)

    @property
    def shown_pace(self) -> float:
        """The pace picked, and where little motion is asked for a part of it."""
        return self.pace.value * (STEADY_SHARE if self.steady else 1.0)

    def advance(self, elapsed_s: float) -> None:
        """Turn both shafts."""
        for name in self._setups:
            turned = self._angle_rad[name] + self.spin_rad_s(name) * elapsed_s * self.shown_pace
            self._angle_rad[name] = turned % math.tau

    def step(self) -> None:
        """Turn both shafts by one step."""
        self.advance(STEP_S)

    def _picture(self, name: str) -> EnginePicture:
        return engine_picture(self._setups[name], self._angle_rad[name], self.spin_rad_s(name))

    def _blur(self, name: str) -> float:
        setup = self._setups[name]
        passages = setup.cylinders if setup.kind == "rotary" else 2
        return blur(self.spin_rad_s(name) * self.shown_pace / math.tau * passages)

    def view(self) -> EngineView:
        """Return both engines as they stand."""
        return EngineView(self._picture(ROTARY), self._picture(FIXED), self._blur(ROTARY), self._blur(FIXED))

    def caption(self) -> Caption:
        """Say which of the two holds more angular momentum, and why: a sentence at a time."""
        return self._hold.standing or self._due()

    def _due(self) -> Caption:
        if self._blur(ROTARY) > 0.0 and self._blur(FIXED) > 0.0:
            return Caption("caption.engine_fast")
        sizes = [abs(self._picture(name).angular_momentum_kg_m2_s) for name in (ROTARY, FIXED)]
        if sizes[0] > 0.0 and sizes[1] > 0.0:
            more = sizes[0] >= sizes[1]
            if (
                more
                and abs(self.spin_rad_s(ROTARY)) < abs(self.spin_rad_s(FIXED))
                and self._now_s % (2 * SAID_S) < SAID_S
            ):
                return Caption("caption.engine_why")
            key = "caption.engine_ratio" if more else "caption.engine_less"
            return Caption(key, {"ratio": f"{max(sizes) / min(sizes):.1f}"})
        return Caption("caption.engine_still")
