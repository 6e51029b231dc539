"""The challenge: one course of rings, flown with the rotary and then with the fixed engine, and what each took."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from sim.live.assisted import BANK_RATE_RAD_S, MOST_BANK_RAD
from sim.live.course import course, crossed, towards_rad
from sim.live.effort import Effort, further
from sim.live.flight import full_arrow_n_m
from viz.stage.attitude import angle_towards
from viz.stage.clock import StepClock
from viz.stage.snapshot import Caption, RingsView, Run
from viz.stage.worlds.flown import LET_GO, Flown, Hand
from viz.stage.worlds.hold import Hold
from viz.stage.worlds.paces import FLIGHT, Pace
from viz.stage.worlds.turning import CAMERA_S
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.course import Ring
    from sim.live.flight import Flyer
    from viz.stage.snapshot import EngineName

ORDER: Final[tuple[EngineName, ...]] = ("rotary", "fixed")
"""Whose turn it is, one after the other."""
LATE_S: Final = 4.0
"""A ring that has not been come to so long after it was due is passed by, so that nobody circles for ever. [s]"""
SAID_S: Final = 3.0
"""For so long it is said how a ring was passed. [s]"""
AFTER_S: Final = 2.5
"""After the last ring the flight goes on for so long. [s]"""
HELP_RAD: Final = math.radians(10.0)
"""The pilot himself adds no more bank than this towards the next ring. [rad]"""
LEAST_S: Final = 3.0
"""Time banked to a side below which there is nothing to compare. [s]"""
LEAST_FEET: Final = 0.02
"""Mean work of the feet to a side, over full travel, below which it was flown straight."""


class RingsWorld(World):
    """One airplane at a time among the rings, in the assisted pilot's hands; the visitor sets the bank."""

    def __init__(self, rotary: Flyer, fixed: Flyer, span_m: float) -> None:
        super().__init__((), Pace(FLIGHT, 1.0))
        self._flyers: dict[EngineName, Flyer] = {"rotary": rotary, "fixed": fixed}
        self._courses = {who: course(flyer, span_m) for who, flyer in self._flyers.items()}
        self._clock = StepClock(STEP_S, max_backlog_s=0.1 * FLIGHT[-1])
        self._couple_scale_n_m = max(1.0, *(full_arrow_n_m(flyer) for flyer in (rotary, fixed)))
        self._bank_rad = 0.0
        self._planes = {
            who: Flown(flyer, lambda: LET_GO, lambda: self._bank_rad) for who, flyer in self._flyers.items()
        }
        self._begin()

    def _begin(self) -> None:
        self._runs: tuple[Run, ...] = ()
        self._now_s = self._asked = 0.0
        self._hold = Hold()
        self._start_run()

    def _start_run(self) -> None:
        """Put the airplane whose turn it is at the beginning of the course."""
        self.who: EngineName = ORDER[min(len(self._runs), len(ORDER) - 1)]
        self._plane.restart("")
        self._clock.clear()
        self._steps, self._blend, self._bank_rad = 0, 1.0, 0.0
        self._passed: tuple[bool, ...] = ()
        self._passed_s = -math.inf
        self._effort = Effort()
        self._camera_rad = self._plane.heading_rad

    @property
    def _plane(self) -> Flown:
        return self._planes[self.who]

    @property
    def done(self) -> bool:
        """Whether both flights are over, and compared."""
        return len(self._runs) == len(ORDER)

    @property
    def time_s(self) -> float:
        """Since the flight of whose turn it is began, counted in whole steps [s]."""
        return self._steps * STEP_S

    def reset(self) -> None:
        """Start again with the first flight."""
        super().reset()
        self._begin()

    def stick(self, roll: float, pitch: float) -> None:  # noqa: ARG002
        """Ask for a bank as a share of `MOST_BANK_RAD`, right positive, −1..1; the pilot does the rest."""
        self._asked = roll

    def follow(self, elapsed_s: float) -> None:
        """Say what is due."""
        super().follow(elapsed_s)
        self._now_s += elapsed_s
        self._hold.take(self._due(), self._now_s)

    def advance(self, elapsed_s: float) -> None:
        """Fly as many whole steps as are due."""
        if self.done:
            return
        steps, self._blend = self._clock.tick(elapsed_s * self.pace.value)
        for _ in range(steps):
            self.step()
        share = min(1.0, elapsed_s * self.pace.value / CAMERA_S)
        self._camera_rad = angle_towards(self._camera_rad, self._plane.heading_rad, share)

    def step(self) -> None:
        """Fly one step."""
        if self.done:
            return
        most_rad = BANK_RATE_RAD_S * STEP_S
        self._bank_rad += min(max(self._wished_rad() - self._bank_rad, -most_rad), most_rad)
        plane = self._plane
        plane.step(self.time_s)
        self._steps += 1
        if plane.lost():
            self._start_run()
            return
        self._hand_over()
        rings = self._courses[self.who]
        if len(self._passed) < len(rings):
            self._effort = further(self._effort, self._flyers[self.who], plane.before, plane.state, step_s=STEP_S)
            self._look_for(rings[len(self._passed)])
        elif self.time_s >= self._passed_s + AFTER_S:
            self._end_run()

    def _wished_rad(self) -> float:
        """Return the bank that the visitor wishes, and what the pilot adds who looks at the next ring too [rad]."""
        rings = self._courses[self.who]
        if len(self._passed) == len(rings):
            return self._asked * MOST_BANK_RAD
        lacks_rad = towards_rad(rings[len(self._passed)], self._plane.state) - self._asked * MOST_BANK_RAD
        return self._asked * MOST_BANK_RAD + min(max(lacks_rad, -HELP_RAD), HELP_RAD)

    def _look_for(self, ring: Ring) -> None:
        """Note whether the ring was flown through or past in the last step."""
        through = crossed(ring, self._plane.before, self._plane.state)
        if through is None and self.time_s < ring.due_s + LATE_S:
            return
        self._passed = (*self._passed, bool(through))
        self._passed_s = self.time_s

    def _end_run(self) -> None:
        """Note what the flight took, and begin the next one."""
        self._runs = (*self._runs, Run(self.who, self._effort, sum(self._passed), len(self._passed)))
        if not self.done:
            self._start_run()

    def _hand_over(self) -> None:
        """Recover the airplane where it has gone astray, and give it back."""
        plane = self._plane
        if plane.hand is Hand.RECOVERY and plane.level():
            plane.take(Hand.PILOT)
        elif plane.hand is not Hand.RECOVERY and plane.upset():
            plane.take(Hand.RECOVERY)

    def view(self) -> RingsView:
        """Return the airplane among the rings as seen between the last two steps, and the flights that are over."""
        return RingsView(
            who=self.who,
            plane=self._plane.view(self._blend),
            rings=self._courses[self.who],
            passed=self._passed,
            roll=self._asked,
            told_rad=self._bank_rad,
            camera_heading_rad=self._camera_rad,
            couple_scale_n_m=self._couple_scale_n_m,
            runs=self._runs,
        )

    def caption(self) -> Caption:
        """Say what there is to do, how the last ring was passed, or what both flights took."""
        return self._hold.standing or self._due()

    def _due(self) -> Caption:
        if self.done:
            return _compared(*(run.effort for run in self._runs))
        if self._plane.hand is Hand.RECOVERY:
            return Caption("caption.rings_recovery")
        if self._passed and self.time_s < self._passed_s + SAID_S:
            last = len(self._passed) == len(self._courses[self.who])
            return Caption(f"caption.rings_{'through' if self._passed[-1] else 'past'}{'_last' if last else ''}")
        return Caption(f"caption.rings_{self.who}")


def _compared(rotary: Effort, fixed: Effort) -> Caption:
    """Return how much harder the feet worked to one side than to the other with each engine, and how the nose fared."""
    least_s = min(time_s for effort in (rotary, fixed) for time_s in (effort.left_s, effort.right_s))
    feet = [share for effort in (rotary, fixed) for share in (effort.feet_left_share, effort.feet_right_share)]
    if least_s < LEAST_S or min(feet) < LEAST_FEET:
        return Caption("caption.rings_straight")
    left, right, fixed_left, fixed_right = feet
    side = "left" if left >= right else "right"
    ratios = (left / right, fixed_left / fixed_right) if side == "left" else (right / left, fixed_right / fixed_left)
    nose = rotary.wander_rad / fixed.wander_rad
    told = dict(zip(("rotary", "fixed", "nose"), (f"{ratio:.1f}" for ratio in (*ratios, nose)), strict=True))
    return Caption(f"caption.rings_{side}", told)
