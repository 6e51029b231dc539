"""Two airplanes and one wish: the same bank for two pilots, or the same stick, with the rotary and the fixed engine."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.live.assisted import BANK_RATE_RAD_S, MOST_BANK_RAD, together
from sim.live.flight import SCRIPTS, full_arrow_n_m
from viz.stage.attitude import angle_towards, bank, on_picture
from viz.stage.clock import StepClock
from viz.stage.dials import Range
from viz.stage.flashes import eased
from viz.stage.snapshot import Caption, TurningView
from viz.stage.worlds.flown import Flown, Hand
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.narrator import Foot, Narrator, still, word
from viz.stage.worlds.paces import FLIGHT, Pace
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.flight import FlightReading, Flyer
    from viz.stage.worlds.narrator import Move

CAMERA_S = 0.8
"""Time in which the heading of the picture follows that of the airplanes [s]."""
LET_GO_S = HOLD_S
"""For so long nobody flies when the pilots are told to let go, as the sentence about it stands [s]."""
LEVEL_RAD = math.radians(6.0)
"""Let go with less bank than that, airplanes fly straight on: no nose parts. [rad]"""
SPARE_M = 20.0
"""Height to spare with which a visitor gets the airplanes back after a recovery [m]."""
APART_S = 8.0
"""Time in which the ghost comes back to the airplane in front, had it flown as that does [s]."""
FOOT_MORE = 0.06
"""Share of the travel by which the foot of one pilot works more than that of the other, to be told."""
FOOT_WORKS = 0.03
"""Share of the travel that it works itself, to be told."""
NAMES = tuple(SCRIPTS)
KICKS = ("rudder-kick", "pull", "blip")
"""Maneuvers after which the nose swings to and fro, sooner than a sentence about it is read: their own stands."""
RANGES = (Range("rudder", -1.0, 1.0, 0.0), Range("throttle", -1.0, 1.0, 0.0))


class TurningWorld(World):
    """The pair in the air."""

    def __init__(self, rotary: Flyer, fixed: Flyer) -> None:
        super().__init__(RANGES, Pace(FLIGHT, 1.0))
        self._narrator = Narrator()
        self._flyers = (rotary, fixed)
        self._banks_rad = [0.0, 0.0]
        self._pair = (
            Flown(rotary, self._stick, lambda: self._banks_rad[0]),
            Flown(fixed, self._stick, lambda: self._banks_rad[1]),
        )
        self.full = False
        self._clock = StepClock(STEP_S, max_backlog_s=0.1 * FLIGHT[-1])
        self._couple_scale_n_m = max(1.0, *(full_arrow_n_m(flyer) for flyer in (rotary, fixed)))
        self._begin("")

    def _begin(self, script: str) -> None:
        for flown in self._pair:
            flown.restart(script)
        self._clock.clear()
        self.script = script
        self.hand = Hand.SCRIPT if script else Hand.PILOT
        self._told_rad = self._back_s = 0.0
        self._let_go_level = False
        self._apart_m = (0.0, 0.0, 0.0)
        self._steps = 0
        self._blend = 1.0
        self._camera_rad = self._mean_heading()
        self._pushed = "none"
        self._name_push()
        self._narrator.reset()
        self._said: Caption | None = None
        self._asked = self._held = (0.0, 0.0)

    def reset(self) -> None:
        """Start both again in level flight, in their pilots' hands."""
        super().reset()
        self.full = False
        self._begin("")

    def perform(self, script: str) -> None:
        """Start a scripted maneuver from its beginning; an empty name begins in level flight."""
        self._begin(script)
        if self.full and not script:
            self._take(Hand.VISITOR)

    def next_script(self) -> None:
        """Start the next scripted maneuver, round and round."""
        self.perform(NAMES[(NAMES.index(self.script) + 1) % len(NAMES)] if self.script else NAMES[0])

    def _take(self, hand: Hand) -> None:
        """Hand both airplanes over where they are."""
        self.hand = hand
        for flown in self._pair:
            flown.take(hand)
        self._narrator.reset()
        self._said = None

    def _take_over(self) -> None:
        """End a maneuver: the visitor, or the pilots for him, go on from where the airplanes are, at the bank there."""
        if self.script:
            self.script = ""
            self._told_rad = min(max(bank(self._pair[0].attitude), -MOST_BANK_RAD), MOST_BANK_RAD)
            self._take(Hand.VISITOR if self.full else Hand.PILOT)

    def let_go(self) -> None:
        """Let stick and pedals of both go back to where they stand in level flight, for `LET_GO_S`."""
        self._take_over()
        if self.hand is Hand.PILOT:
            self._let_go_level = max(abs(bank(flown.attitude)) for flown in self._pair) < LEVEL_RAD
            self._take(Hand.NOBODY)
            self._back_s = self.time_s + LET_GO_S

    def toggle_full(self) -> None:
        """Give the visitor stick, pedals and throttle of both, or give them back to the pilots."""
        self.full = not self.full
        self._asked = self._held = (0.0, 0.0)
        for dial in self.dials.values():
            dial.reset()
        self.script = ""
        self._said = None
        if self.hand is not Hand.RECOVERY:
            self._take(Hand.VISITOR if self.full else Hand.PILOT)

    def stick(self, roll: float, pitch: float) -> None:
        """Ask for a place of the stick, right and pulled positive, −1..1; it takes over from a maneuver.

        The pilots take its place to the side for a bank, as a share of `MOST_BANK_RAD`, and nothing else.
        """
        self._take_over()
        self._asked = (roll, pitch)

    def set(self, name: str, share: float) -> None:
        """Ask a dial for a share of its range; rudder and throttle are the visitor's with full control alone."""
        if name in self.dials and not self.full:
            return
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
        self._name_push()
        self._said = self._told()

    def step(self) -> None:
        """Fly one step and show its end."""
        self._one_step()
        self._blend = 1.0
        self._name_push()
        self._said = self._told()

    def _push(self) -> Move:
        """Return how far the rotary pushes its nose up and right on the picture [N m]."""
        found = self._pair[0].read()
        return on_picture(found.attitude, self._camera_rad, up=found.pitch_n_m, right=found.yaw_n_m)

    def _name_push(self) -> None:
        """Keep the word for the push while it is true, so that none comes and goes where two would do."""
        push = self._push()
        if self._pushed == "none" or not still(self._pushed, push):
            self._pushed = word(push)

    def _one_step(self) -> None:
        self._tell()
        for flown in self._pair:
            flown.step(self._steps * STEP_S)
        self._steps += 1
        self._part()
        self._hand_over()
        over = self.script and self.time_s >= self._flyers[0].scripts[self.script].flown_s
        if over or any(flown.lost() for flown in self._pair):
            self._begin(self.script)

    def _tell(self) -> None:
        """Tell both pilots the bank that the visitor wishes; each adds what brings their noses together again."""
        wished_rad = self._asked[0] * MOST_BANK_RAD if self.hand in {Hand.PILOT, Hand.NOBODY} else 0.0
        most_rad = BANK_RATE_RAD_S * STEP_S
        self._told_rad += min(max(wished_rad - self._told_rad, -most_rad), most_rad)
        rotary, fixed = (flown.heading_rad for flown in self._pair)
        self._banks_rad = [self._told_rad + together(rotary, fixed), self._told_rad + together(fixed, rotary)]

    def _part(self) -> None:
        """Note how far the fixed engine's airplane has left the other; what is long ago is forgotten."""
        rotary, fixed = self._pair
        kept = 1.0 - STEP_S / APART_S
        north, east, down = (
            kept * apart + (there - before) - (here - then)
            for apart, there, before, here, then in zip(
                self._apart_m, fixed.state, fixed.before, rotary.state, rotary.before, strict=False
            )
        )
        self._apart_m = (north, east, down)

    def _hand_over(self) -> None:
        """Bring the pilots back after they let go, and whenever an airplane has gone astray."""
        pair = self._pair
        if self.hand is Hand.NOBODY and self.time_s >= self._back_s:
            self._take(Hand.PILOT)
        astray = {Hand.PILOT: Flown.upset, Hand.NOBODY: Flown.upset, Hand.VISITOR: Flown.endangered}.get(self.hand)
        if astray and any(map(astray, pair)):
            self._take(Hand.RECOVERY)
        elif self.hand is Hand.RECOVERY:
            for flown in pair:
                if flown.hand is Hand.RECOVERY and flown.level():
                    flown.take(Hand.PILOT)
                elif flown.hand is Hand.PILOT and flown.upset():
                    flown.take(Hand.RECOVERY)
            if all(flown.hand is Hand.PILOT and not (self.full and flown.endangered(SPARE_M)) for flown in pair):
                self._take(Hand.VISITOR if self.full else Hand.PILOT)

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
        return TurningView(
            rotary,
            fixed,
            *self._asked,
            script=self.script,
            hand=self.hand.value,
            full=self.full,
            told_rad=self._told_rad,
            apart_m=self._apart_m,
            pushed=self._pushed,
            parting=self.script in KICKS or self.hand in {Hand.NOBODY, Hand.VISITOR},
            camera_heading_rad=self._camera_rad,
            couple_scale_n_m=self._couple_scale_n_m,
        )

    def caption(self) -> Caption:
        """Say what the rotary does to its airplane just now."""
        if self._said is None:
            self._said = self._told()
        return self._said

    def _told(self) -> Caption:
        """Go on with the story, to where both airplanes are now."""
        rotary, fixed = (flown.read() for flown in self._pair)
        turning = {"up": rotary.pitch_rate_rad_s, "right": rotary.yaw_rate_rad_s}
        cause, effect = on_picture(rotary.attitude, self._camera_rad, **turning), self._push()
        unsaid = self.script in KICKS or self.hand in {Hand.NOBODY, Hand.RECOVERY}
        share = 0.0 if unsaid else math.hypot(rotary.pitch_n_m, rotary.yaw_n_m) / self._couple_scale_n_m
        straight = self.hand is Hand.NOBODY and self._let_go_level
        level = Caption("caption.nobody_level" if straight else f"caption.{self.script or self.hand.value}")
        return self._narrator.tell(cause, effect, share, _ratio(rotary, fixed), level=level, foot=self._foot())

    def _foot(self) -> Foot:
        """Return the foot with which the rotary's pilot works against its push, more than the other pilot does."""
        rotary, fixed = (flown.feet_share for flown in self._pair)
        more, against = rotary - fixed, rotary * self._pair[0].read().yaw_n_m < 0.0
        if not (rotary * more > 0.0 and against and abs(more) > 0.5 * FOOT_MORE):
            return Foot()
        return Foot("right" if rotary > 0.0 else "left", abs(rotary) > FOOT_WORKS and abs(more) > FOOT_MORE)


def _ratio(rotary: FlightReading, fixed: FlightReading) -> str:
    less = math.hypot(fixed.pitch_n_m, fixed.yaw_n_m)
    return f"{math.hypot(rotary.pitch_n_m, rotary.yaw_n_m) / less:.0f}" if less > 1.0 else "∞"
