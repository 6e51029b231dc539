"""One gun between the blades: its cam as cut, its rounds, and how it stood a moment ago."""

from __future__ import annotations

import math
from collections import deque
from dataclasses import replace
from typing import TYPE_CHECKING

from sim.live.gun import GunState, advance, delay_s, trips_no_cam, wait_rad
from sim.synchronizer.cam import Cam, Opening
from sim.synchronizer.timed_gun import fitted

if TYPE_CHECKING:
    from random import Random

    from sim.live.gun import Round
    from sim.synchronizer.timed_gun import TimedGun

REMEMBERED = 4
"""Rounds of which it is known when they were released, to be seen once more."""
FREE = Cam((Opening(0.0, math.tau),))
"""In the place of a cam where there is no gear: nothing holds the gun."""


class Barrel:
    """A gun in slow motion. Its cam stays as cut until a visitor cuts it anew."""

    def __init__(self, own: TimedGun, bore_radius_m: float, angle_rad: float, random: Random) -> None:
        self.own, self.gun, self.bore_radius_m = own, own, bore_radius_m
        self.state = GunState(angle_rad=angle_rad % own.cam.period_rad)
        self.wait_s = 0.0
        self._cut, self._random = own.cam, random
        self._passed: deque[Round] = deque(maxlen=REMEMBERED)

    @property
    def last(self) -> Round | None:
        """The round that passed last."""
        return self._passed[-1] if self._passed else None

    def follow(self, *, spin_rad_s: float, rate_per_s: float, delay_times: float, delay_sd_s: float) -> None:
        """Take speed of the propeller, rate of the gun, delay over the scenario's own, and scatter of the delay."""
        gun = self._delayed(delay_times, delay_sd_s)
        line = replace(gun.line, natural_rate_per_s=rate_per_s)
        self.gun = replace(gun, line=line, spin_rad_s=spin_rad_s)

    def _delayed(self, times: float, sd_s: float) -> TimedGun:
        """Return the gun with another delay and another scatter of it.

        The parts of them that are a turn of the propeller grow with those that are a time: a link as much slower.
        """
        gun, own = self.gun, self.own
        line = replace(
            gun.line,
            delay_s=times * own.line.delay_s,
            delay_rad=times * own.line.delay_rad,
            leak=own.line.leak.times(times),
        )
        if own.delay_sd_s == 0.0:
            return replace(gun, line=line, scatter=replace(gun.scatter, delay_sd_s=sd_s))
        wider = sd_s / own.delay_sd_s
        scatter = replace(
            gun.scatter, delay_sd_s=wider * own.scatter.delay_sd_s, delay_sd_rad=wider * own.scatter.delay_sd_rad
        )
        return replace(gun, line=line, scatter=scatter)

    def put_blades(self, blades: int) -> None:
        """Put on a propeller of so many blades: its cam trips once for each."""
        self.gun = replace(self.gun, line=replace(self.gun.line, blades=blades, impulses_per_rev=0))

    def recut(self, *, geared: bool) -> bool:
        """Cut the cam for the settings of this moment, unless the gun never trips; tell whether it was cut."""
        if trips_no_cam(self.gun):
            return False
        line = replace(self.gun.line, action="interrupter")  # an impulse comes in the middle of the window
        self._cut = fitted(line, self.gun.spin_rad_s, self.gun.scatter).cam
        self.put_gear(geared=geared)
        return True

    def put_gear(self, *, geared: bool) -> None:
        """Put the gear between propeller and gun, or take it off."""
        cut, action = (self._cut, self.own.line.action) if geared else (FREE, "interrupter")
        self.gun = replace(self.gun, line=replace(self.gun.line, cam=cut, action=action))

    def run(self, gun_s: float, *, trigger: bool) -> tuple[Round, ...]:
        """Let time of the gun's own pass [s]; return the rounds that passed."""
        waited = self.state.holding
        self.state = advance(self.state, self.gun, gun_s, self._random, trigger=trigger)
        if self.state.holding and not waited:
            self.wait_s = wait_rad(self.gun, self.state.angle_rad) / self.gun.spin_rad_s
        self._passed.extend(self.state.passed)
        return self.state.passed

    def stood(self, time_s: float, angle_rad: float) -> GunState:
        """Return the gun as it stood at a time of a round that has passed, at a propeller angle from its bore line."""
        gone = [fired for fired in (*self._passed, *self.state.flying) if fired.release_s <= time_s]
        ready_s = gone[-1].release_s + self.gun.line.cycle_s if gone else 0.0
        return replace(
            self.state,
            time_s=time_s,
            angle_rad=angle_rad,
            ready_s=ready_s,
            flying=tuple(fired for fired in gone if time_s < fired.pass_s),
            holding=time_s >= ready_s,
        )

    def last_before(self, time_s: float) -> Round | None:
        """Return the round that had passed last at a time."""
        return next((fired for fired in reversed(self._passed) if fired.pass_s <= time_s), None)

    def arrival_rad(self, state: GunState) -> float | None:
        """Return where the propeller stands when the round under way, or one released now, gets there; None if none."""
        gun = self.gun
        if state.flying:
            return state.angle_rad + gun.spin_rad_s * (state.flying[0].pass_s - state.time_s)
        if trips_no_cam(gun) and not gun.never_shuts:
            return None
        return state.angle_rad + gun.spin_rad_s * delay_s(gun)
