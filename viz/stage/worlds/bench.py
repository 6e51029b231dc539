"""Before the flight: both engines on a bench, each in a gimbal, the rotary spinning and the other one stopped."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from sim.live.gimbal import Gimbal, Nose, moved, steady_rate_rad_s, torque_for_n_m
from viz.stage.flashes import eased
from viz.stage.snapshot import BenchEngineView, BenchView, Caption
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.narrator import still, word
from viz.stage.worlds.paces import FLIGHT, Pace
from viz.stage.worlds.world import STEP_S, World

if TYPE_CHECKING:
    from sim.live.engine import EngineSetup

FULL_RATE_RAD_S: Final = 0.09
"""A full push makes the rotary answer at about this rate. [rad/s]"""
DAMPING_SHARES: Final = (0.15, 1.0)
"""Damping over the rotary's angular momentum: it answers 8.5° from a right angle, the stopped one about as fast."""
MOST_RAD: Final = 0.42
"""The nose goes as far from the middle. [rad]"""
MARGIN_RAD: Final = 0.1
"""Within this of the end the push on it fades. [rad]"""
BACK_S: Final = 0.8
"""Time in which a nose that is let go is brought back to the middle. [s]"""
DRAWN_RAD_S: Final = 3.0
"""What spins is drawn turning so fast, that it is seen to turn. [rad/s]"""
IDLE_S: Final = 25.0
"""After so long without a push the flight begins. [s]"""
FELT: Final = 0.3
"""A push below which it is not put into words."""
AT_STOP: Final = 0.08
"""Share of a push that has room left, and of the full rate, below which a nose counts as stopped."""
SAID_S: Final = 4.0
"""A sentence gives way to the next one that is true as well after this time. [s]"""
AT_REST_RAD: Final = 0.02
ALWAYS_TRUE: Final = frozenset({"caption.bench_spins", "caption.bench_ask"})
"""Sentences that stand their time, whatever is pushed meanwhile."""


class BenchWorld(World):
    """Two engines that one finger pushes alike."""

    def __init__(self, rotary: EngineSetup, fixed: EngineSetup) -> None:
        super().__init__((), Pace(FLIGHT, 1.0))
        self._setups = (rotary, fixed)
        momentum = rotary.polar_inertia_kg_m2 * rotary.spin_rad_s
        self._gimbals = tuple(
            Gimbal(spin, setup.polar_inertia_kg_m2, share * abs(momentum))
            for spin, setup, share in zip((momentum, 0.0), self._setups, DAMPING_SHARES, strict=True)
        )
        self._most_n_m = abs(torque_for_n_m(self._gimbals[0], FULL_RATE_RAD_S))
        self._begin()

    def _begin(self) -> None:
        self._noses = [Nose(), Nose()]
        self._asked = self._push = 0j
        self._shaft_rad = self.idle_s = self._now_s = self._since_s = self._behind_s = 0.0
        self._said = Caption("caption.bench_spins")

    def reset(self) -> None:
        """Start again with both noses in the middle."""
        super().reset()
        self._begin()

    def stick(self, roll: float, pitch: float) -> None:
        """Push both noses to one side, right and down positive, −1..1: along the larger of the two alone."""
        self._asked = complex(-pitch, 0.0) if abs(pitch) > abs(roll) else complex(0.0, roll)

    def follow(self, elapsed_s: float) -> None:
        """Let the push come nearer to what is asked for, and say what is due."""
        self._push = complex(
            eased(self._push.real, self._asked.real, 2.0 * elapsed_s),
            eased(self._push.imag, self._asked.imag, 2.0 * elapsed_s),
        )
        self.idle_s = 0.0 if self._asked else self.idle_s + elapsed_s
        self._now_s += elapsed_s
        self._speak()

    def advance(self, elapsed_s: float) -> None:
        """Move both noses, in steps no longer than those of the flight, and say no longer what is no longer true."""
        elapsed_s *= self.pace.value
        steps = max(1, math.ceil(elapsed_s / STEP_S))
        for _ in range(steps):
            self._one_step(elapsed_s / steps)
        self._speak()

    def step(self) -> None:
        """Go on by one step."""
        self._one_step(STEP_S)

    def _one_step(self, elapsed_s: float) -> None:
        for place, gimbal in enumerate(self._gimbals):
            self._noses[place] = moved(gimbal, self._noses[place], self._torque_n_m(place), elapsed_s)
        slower = 0.4 if self.steady else 1.0
        way = math.copysign(1.0, self._setups[0].spin_rad_s)
        self._shaft_rad = (self._shaft_rad + way * slower * DRAWN_RAD_S * elapsed_s) % math.tau

    def _torque_n_m(self, place: int) -> complex:
        """Return the torque on an engine: the visitor's push, or the one that brings a nose back that is let go."""
        if self._asked or self._push:
            return self._push * self._most_n_m * self._room(place)
        return torque_for_n_m(self._gimbals[place], -self._noses[place].angle_rad / BACK_S)

    def _room(self, place: int) -> float:
        """Return the share of the push that there is room for: none where it would turn the nose beyond its end."""
        angle = self._noses[place].angle_rad
        way = steady_rate_rad_s(self._gimbals[place], self._push)
        if not way:
            return 1.0
        outward = (angle * (way / abs(way)).conjugate()).real
        return min(max((MOST_RAD - outward) / MARGIN_RAD, 0.0), 1.0)

    def view(self) -> BenchView:
        """Return both engines as they stand."""
        rotary, fixed = (
            BenchEngineView(
                setup,
                shaft,
                gimbal.angular_momentum_kg_m2_s,
                nose.angle_rad.real,
                nose.angle_rad.imag,
                nose.rate_rad_s.real / FULL_RATE_RAD_S,
                nose.rate_rad_s.imag / FULL_RATE_RAD_S,
            )
            for setup, gimbal, nose, shaft in zip(
                self._setups, self._gimbals, self._noses, (self._shaft_rad, 0.0), strict=True
            )
        )
        return BenchView(rotary, fixed, self._push.real, self._push.imag, self._asked.real, self._asked.imag)

    def caption(self) -> Caption:
        """Say what the push does: a sentence at a time."""
        return self._said

    def _speak(self) -> None:
        """Keep the sentence for its time while it is true; let it go at once where it is not."""
        due, stood_s = self._due(), self._now_s - self._since_s
        follows = due[0]
        if self._said in due:
            if stood_s < SAID_S:
                return
            follows = due[(due.index(self._said) + 1) % len(due)]
        elif self._said.key in ALWAYS_TRUE and stood_s < HOLD_S:
            return
        if follows != self._said:
            self._said, self._since_s = follows, self._now_s

    def _due(self) -> tuple[Caption, ...]:
        """Return the sentences that are true and worth saying now, in the order in which they are said."""
        spins, ask = Caption("caption.bench_spins"), Caption("caption.bench_ask")
        if abs(self._push) < FELT:
            away = max(abs(nose.angle_rad) for nose in self._noses) > AT_REST_RAD
            return (Caption("caption.bench_back"),) if away and not self._asked else (spins, ask)
        quickest = max(abs(nose.rate_rad_s) for nose in self._noses) / FULL_RATE_RAD_S
        if max(map(self._room, range(2))) < AT_STOP and quickest < AT_STOP:
            return (Caption("caption.bench_end"),)
        words = self._words()
        return (Caption("caption.bench_push", words=words),) if words else (spins,)

    def _words(self) -> dict[str, str]:
        """Return the words for push, which the stopped engine follows, and answer; none where they would be false."""
        push, rate, other = self._push, *(nose.rate_rad_s for nose in self._noses)
        level = abs(push.imag) > abs(push.real)
        cause, effect = word((push.real, push.imag)), word((rate.real, 0.0) if level else (0.0, rate.imag))
        moves = ((cause, push), (cause, other), (effect, rate))
        if not (rate and all(still(said, (move.real, move.imag)) for said, move in moves)):
            return {}
        return {"cause": f"effect.{cause}", "effect": f"effect.{effect}"}
