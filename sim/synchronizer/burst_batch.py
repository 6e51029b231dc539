"""One block of bursts that step together, round by round, in place."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.cycle_law import draw
from sim.synchronizer.pace import shifts
from sim.synchronizer.timed_gun import MOST_SPEED_SDS

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]


class BurstBlock:
    """Bursts side by side; a round of each is fired by `fire`, and `passage` says where it went.

    Positions are counted in steps of the cam: `release` is 0 as it first opens, 1 for a round held until it does so
    again. `interval` is in steps at the speed of `gun`.
    """

    def __init__(self, gun: TimedGun, size: int, rounds: int, random: np.random.Generator) -> None:
        self.gun, self.scatter, self.random = gun, gun.scatter, random
        self.ready: Floats = random.random(size)
        self.release, self.interval, self.noise = np.empty(size), np.zeros(size), np.empty(size)
        self.whole = np.empty(size)
        self.shut = np.empty(size, dtype=bool)
        self.speed = None
        if self.scatter.speed_sd or self.scatter.drift_per_s:
            self.speed = 1.0 + self.scatter.speed_sd * _cut_normal(size, random)
        self.hanging = _hanging(self.scatter.hang_share, size * rounds, random)
        self.hang_s = random.standard_exponential(self.hanging.size) * self.scatter.hang_s
        self.step = random.integers(gun.meetings, size=size).astype(float) if gun.meetings > 1 else None
        self.fired = 0
        self.shifts = shifts(gun, rounds)

    def fire(self) -> None:
        """Release one round of each burst; from the second on `interval` holds the time since the one before."""
        if self.fired:
            self._make_ready()
        else:
            self.release[:] = self.ready
            self._hold(self.release)
        self.fired += 1

    def _make_ready(self) -> None:
        """Let each gun run through its cycle, then hold it where the cam is shut."""
        gun, noise, release, interval = self.gun, self.noise, self.release, self.interval
        cycle, sd = gun.line.cycle_s / gun.interval_s, self.scatter.cycle_sd_s / gun.interval_s
        if sd:
            noise = draw(cycle, sd, release.size, self.random)
        else:
            noise.fill(cycle)
        late, by_s = self._late(self.fired - 1)
        if late.size:
            noise[late] += by_s / gun.interval_s
        later = self.speed
        if self.speed is not None:
            noise *= self.speed
            later = self.speed + (self.shifts[self.fired] - self.shifts[self.fired - 1])
        noise += release
        leaked = self._leaked(later)
        noise += leaked
        np.floor(noise, out=interval)
        noise -= interval
        if self.step is not None:
            self.step += interval
        self._hold(noise)
        interval += noise
        interval -= release
        interval -= leaked
        self.release, self.noise = noise, release
        if self.speed is not None:
            interval /= self.speed
            self.speed = later

    def _leaked(self, later: Floats | None) -> Floats | float:
        """Return by how many steps sooner the link lets go as its propeller has come to another share of the speed."""
        if self.speed is None or later is None or not (self.gun.line.leak.counts and self.scatter.drift_per_s):
            return 0.0
        return self.gun.leaked_steps(self.speed, later)

    def _hold(self, phase: Floats) -> None:
        """Move each phase at which the cam is shut to its next opening."""
        if self.gun.never_shuts:
            return
        for start, end in self.gun.shut_arcs:
            np.greater_equal(phase, start, out=self.shut)
            if end < 1.0:
                self.shut &= phase < end
            np.copyto(phase, end, where=self.shut)

    def passage(self) -> Floats:
        """Return where each round passes, in blade intervals from the centre of a blade: in [0, 1)."""
        gun, noise = self.gun, self.noise
        delay = gun.line.delay_s / gun.blade_s
        if self.scatter.delay_sd_s:
            self.random.standard_normal(out=noise)
            noise *= self.scatter.delay_sd_s / gun.blade_s
            noise += delay
        else:
            noise.fill(delay)
        late, by_s = self._late(self.fired - 1)
        if late.size:
            noise[late] += by_s / gun.blade_s
        if self.speed is not None:
            noise *= self.speed
        if self.scatter.delay_sd_rad:
            turned_sd = self.scatter.delay_sd_rad * gun.line.blades / math.tau
            noise += turned_sd * self.random.standard_normal(noise.size)
        leak = gun.line.leak
        if self.speed is not None and leak.counts:
            more_rad = leak.extra_rad(gun.spin_rad_s * self.speed) - leak.extra_rad(gun.spin_rad_s)
            noise += more_rad * (gun.line.blades / math.tau)
        noise += gun.aim - delay
        if gun.blades_per_opening == 1.0:
            noise += self.release
        else:
            noise += gun.blades_per_opening * self.release
        if self.step is not None:
            noise += gun.blades_per_opening * self.step
        if gun.ripple.depth:
            spacing_rad = math.tau / gun.line.blades
            noise[:] = gun.ripple.stands_at(noise * spacing_rad) / spacing_rad
        np.floor(noise, out=self.whole)
        noise -= self.whole
        return noise

    def _late(self, number: int) -> tuple[NDArray[np.int64], Floats]:
        """Return the bursts whose round of this number hangs, and by how long."""
        size = self.release.size
        first, last = np.searchsorted(self.hanging, (number * size, (number + 1) * size))
        return self.hanging[first:last] - number * size, self.hang_s[first:last]


def _cut_normal(size: int, random: np.random.Generator) -> Floats:
    """Return standard normal numbers, those beyond `MOST_SPEED_SDS` drawn again."""
    drawn = random.standard_normal(size)
    while (far := np.flatnonzero(np.abs(drawn) > MOST_SPEED_SDS)).size:
        drawn[far] = random.standard_normal(far.size)
    return drawn


def _hanging(share: float, rounds: int, random: np.random.Generator) -> NDArray[np.int64]:
    """Return the numbers of the rounds that hang, ascending: each one with the same chance, drawn as gaps between."""
    if share <= 0.0:
        return np.empty(0, dtype=np.int64)
    expected = share * rounds
    gaps = random.geometric(share, size=int(expected + 8.0 * expected**0.5 + 16.0))
    numbers = np.cumsum(gaps) - 1
    while numbers[-1] < rounds:
        numbers = np.concatenate([numbers, numbers[-1] + np.cumsum(random.geometric(share, size=64))])
    return numbers[numbers < rounds]
