"""Two airplanes and one stick: the same movement fed to the rotary and to the fixed engine."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.live.flight import SCRIPTS, full_arrow_n_m
from viz.stage.attitude import angle_towards, on_picture
from viz.stage.clock import StepClock
from viz.stage.dials import Range
from viz.stage.flashes import eased
from viz.stage.snapshot import Caption, TurningView
from viz.stage.worlds.flown import Flown
from viz.stage.worlds.narrator import Narrator
from viz.stage.worlds.paces import FLIGHT, Pace
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.flight import FlightReading, Flyer

CAMERA_S = 0.8
"""Time in which the heading of the picture follows that of the airplanes [s]."""
FLOOR_M = 15.0
"""Height at which both airplanes begin again [m]."""
NAMES = tuple(SCRIPTS)
KICKS = ("rudder-kick", "pull", "blip")
"""Maneuvers after which the nose swings to and fro, sooner than a sentence about it is read: their own stands."""
RANGES = (Range("rudder", -1.0, 1.0, 0.0), Range("throttle", -1.0, 1.0, 0.0))


class TurningWorld(World):
    """The pair in the air."""

    def __init__(self, rotary: Flyer, fixed: Flyer) -> None:
        super().__init__(RANGES, Pace(FLIGHT, 1.0))
        self._asked = self._held = (0.0, 0.0)
        self._narrator = Narrator()
        self._flyers = (rotary, fixed)
        self._pair = (Flown(rotary, self._stick), Flown(fixed, self._stick))
        self._clock = StepClock(STEP_S, max_backlog_s=0.1 * FLIGHT[-1])
        self._couple_scale_n_m = max(1.0, *(full_arrow_n_m(flyer) for flyer in (rotary, fixed)))
        self._begin("")

    def _begin(self, script: str) -> None:
        for flown in self._pair:
            flown.restart(script)
        self._clock.clear()
        self.script = script
        self._steps = 0
        self._blend = 1.0
        self._camera_rad = self._mean_heading()
        self._narrator.reset()
        self._asked = self._held = (0.0, 0.0)

    def reset(self) -> None:
        """Start both again in level flight, with the stick let go."""
        super().reset()
        self._begin("")

    def perform(self, script: str) -> None:
        """Start a scripted maneuver from its beginning; an empty name hands the stick back in level flight."""
        self._begin(script)

    def next_script(self) -> None:
        """Start the next scripted maneuver, round and round."""
        self.perform(NAMES[(NAMES.index(self.script) + 1) % len(NAMES)] if self.script else NAMES[0])

    def _take_over(self) -> None:
        """Let the visitor's stick have both airplanes where they are."""
        if self.script:
            self.script = ""
            for flown in self._pair:
                flown.take_over()

    def stick(self, roll: float, pitch: float) -> None:
        """Ask for a place of the stick, right and pulled positive, −1..1; it takes over from a maneuver."""
        self._take_over()
        self._asked = (roll, pitch)

    def set(self, name: str, share: float) -> None:
        """Ask a dial for a share of its range; the rudder takes over from a maneuver."""
        if name == "rudder":
            self._take_over()
        super().set(name, share)

    def follow(self, elapsed_s: float) -> None:
        """Let stick and dials come nearer to what was asked for."""
        super().follow(elapsed_s)
        self._narrator.now_s += elapsed_s
        roll, pitch = (eased(now, asked, 2.0 * elapsed_s) for now, asked in zip(self._held, self._asked, strict=True))
        self._held = (roll, pitch)

    def _stick(self) -> tuple[float, float, float, float]:
        """Return roll, pitch, rudder and throttle that the visitor holds."""
        return (*self._held, self.dials["rudder"].value, self.dials["throttle"].value)

    def advance(self, elapsed_s: float) -> None:
        """Fly as many whole steps as are due."""
        steps, self._blend = self._clock.tick(elapsed_s * self.pace.value)
        for _ in range(steps):
            self._one_step()
        self._camera_rad = angle_towards(
            self._camera_rad, self._mean_heading(), min(1.0, elapsed_s * self.pace.value / CAMERA_S)
        )

    def step(self) -> None:
        """Fly one step and show its end."""
        self._one_step()
        self._blend = 1.0

    def _one_step(self) -> None:
        for flown in self._pair:
            flown.step(self._steps * STEP_S)
        self._steps += 1
        over = self.script and self.time_s >= self._flyers[0].scripts[self.script].flown_s
        if over or any(flown.lost(FLOOR_M) for flown in self._pair):
            self._begin(self.script)

    @property
    def time_s(self) -> float:
        """Since both began, counted in whole steps [s]."""
        return self._steps * STEP_S

    def _mean_heading(self) -> float:
        rotary, fixed = (flown.heading_rad for flown in self._pair)
        return angle_towards(rotary, fixed, 0.5)

    def view(self) -> TurningView:
        """Return both airplanes as seen between the last two steps."""
        rotary, fixed = (flown.view(self._blend) for flown in self._pair)
        return TurningView(rotary, fixed, *self._asked, self.script, self._camera_rad, self._couple_scale_n_m)

    def caption(self) -> Caption:
        """Say what the rotary does to its airplane just now."""
        rotary, fixed = (flown.read() for flown in self._pair)
        cause, effect = (
            on_picture(rotary.attitude, self._camera_rad, up=up, right=right)
            for up, right in (
                (rotary.pitch_rate_rad_s, rotary.yaw_rate_rad_s),
                (rotary.pitch_n_m, rotary.yaw_n_m),
            )
        )
        share = 0.0 if self.script in KICKS else math.hypot(rotary.pitch_n_m, rotary.yaw_n_m) / self._couple_scale_n_m
        level = Caption(f"caption.{self.script or 'level'}")
        return self._narrator.tell(cause, effect, share, _ratio(rotary, fixed), level=level)


def _ratio(rotary: FlightReading, fixed: FlightReading) -> str:
    less = math.hypot(fixed.pitch_n_m, fixed.yaw_n_m)
    return f"{math.hypot(rotary.pitch_n_m, rotary.yaw_n_m) / less:.0f}" if less > 1.0 else "∞"
