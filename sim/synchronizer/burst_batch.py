"""One block of bursts that step together, round by round, in place."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]

ROUNDING = 1e-9
"""A gun that is ready this little before the window closes is late, as in the closed form on the edge itself; one that
is ready this little after an opening is in time."""


class BurstBlock:
    """Bursts side by side; a round of each is fired by `fire`, and `passage` says where it went.

    Positions are counted in openings of the cam: `release` is 0 as a window opens, 1 for a round held until the next
    opening.
    """

    def __init__(self, gun: TimedGun, size: int, rounds: int, random: np.random.Generator) -> None:
        self.gun, self.scatter, self.random = gun, gun.scatter, random
        self.ready: Floats = random.random(size)
        self.release, self.interval, self.noise = np.empty(size), np.zeros(size), np.empty(size)
        self.whole = np.empty(size)
        self.shut = np.empty(size, dtype=bool)
        self.speed = None
        if self.scatter.speed_sd or self.scatter.drift_per_s:
            self.speed = 1.0 + self.scatter.speed_sd * random.standard_normal(size)
        self.hanging = _hanging(self.scatter.hang_share, size * rounds, random)
        self.hang_s = random.standard_exponential(self.hanging.size) * self.scatter.hang_s
        self.fired = 0
        self._shuts = max(gun.open_share - ROUNDING, ROUNDING)

    def fire(self) -> None:
        """Release one round of each burst; from the second on `interval` holds the time since the one before."""
        if self.fired:
            self._make_ready()
        else:
            self.release[:] = self.ready
            self._hold(self.release)
        self.fired += 1

    def _make_ready(self) -> None:
        """Let each gun run through its cycle, then hold it where the window is shut."""
        gun, noise, release, interval = self.gun, self.noise, self.release, self.interval
        if self.scatter.cycle_sd_s:
            self.random.standard_normal(out=noise)
            noise *= self.scatter.cycle_sd_s / gun.interval_s
            noise += gun.line.cycle_s / gun.interval_s
        else:
            noise.fill(gun.line.cycle_s / gun.interval_s)
        late, by_s = self._late(self.fired - 1)
        if late.size:
            noise[late] += by_s / gun.interval_s
        if self.speed is not None:
            noise *= self.speed
        noise += release
        np.floor(noise, out=interval)
        noise -= interval
        self._hold(noise)
        interval += noise
        interval -= release
        self.release, self.noise = noise, release
        if self.speed is not None:
            interval /= self.speed
            self.speed += (self.scatter.drift_per_s * gun.interval_s) * interval

    def _hold(self, phase: Floats) -> None:
        np.greater_equal(phase, self._shuts, out=self.shut)
        np.copyto(phase, 1.0, where=self.shut)

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
        noise += gun.aim - delay
        if gun.blades_per_opening == 1:
            noise += self.release
        else:
            noise += gun.blades_per_opening * self.release
        np.floor(noise, out=self.whole)
        noise -= self.whole
        return noise

    def _late(self, number: int) -> tuple[NDArray[np.int64], Floats]:
        """Return the bursts whose round of this number hangs, and by how long."""
        size = self.release.size
        first, last = np.searchsorted(self.hanging, (number * size, (number + 1) * size))
        return self.hanging[first:last] - number * size, self.hang_s[first:last]


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
