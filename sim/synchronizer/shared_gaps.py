"""Two guns behind one propeller: how often a round of each passes through the same gap between two blades."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import tau
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.cycle_law import draw
from sim.synchronizer.ripple import STEADY
from sim.synchronizer.timed_gun import MOST_SPEED_SDS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

    Floats = NDArray[np.float64]

BURSTS = 4000
"""Bursts that are counted."""
FAR = 10**9
"""More gaps than pass in any burst: it tells those of one burst from those of the next."""


@dataclass(frozen=True, slots=True)
class SharedGaps:
    """Rounds that pass through a gap through which a round of the other gun passes as well.

    Attributes
    ----------
    shared_share, shared_error : float
        Their share of all rounds, and one standard error of it, bursts taken as independent.
    """

    shared_share: float
    shared_error: float


def shared_gaps(guns: Sequence[TimedGun], rounds_per_burst: int, *, seed: int) -> SharedGaps:
    """Count the gaps that two guns share whose triggers are pulled at one instant.

    Parameters
    ----------
    guns : sequence of TimedGun
        Two, behind one propeller, at one speed; each with a bore line, a cam and a delay of its own.
    rounds_per_burst : int
        Rounds of each gun in a burst.
    seed : int
        0 or more.

    Notes
    -----
    The propeller stands at any angle as the triggers are pulled. Cycle, delay and speed from burst to burst scatter;
    drift and ripple of the speed within a burst are left out. A gap is the arc between two blades in one turn: it comes
    to the bore line of one gun before it comes to that of the other.
    """
    guns = tuple(replace(gun, ripple=STEADY) for gun in guns)
    random = np.random.default_rng([seed, 2])
    period_rad = max(gun.cam.period_rad for gun in guns)
    upright_rad = random.random(BURSTS) * period_rad
    deviation = np.clip(random.standard_normal(BURSTS), -MOST_SPEED_SDS, MOST_SPEED_SDS)
    speed = 1.0 + guns[0].scatter.speed_sd * deviation
    gaps = [_gaps(gun, upright_rad, speed, rounds=rounds_per_burst, random=random) for gun in guns]
    rows = np.arange(BURSTS)[:, None] * FAR
    first, second = (rows + each for each in gaps)
    shared = np.isin(first, second).sum(axis=1) + np.isin(second, first).sum(axis=1)
    per_burst = shared / (2.0 * rounds_per_burst)
    return SharedGaps(float(per_burst.mean()), float(per_burst.std() / BURSTS**0.5))


def _gaps(
    gun: TimedGun, upright_rad: Floats, speed: Floats, *, rounds: int, random: np.random.Generator
) -> NDArray[np.int64]:
    """Return the number of the gap through which each round passes: a row for each burst."""
    line, scatter, passed = gun.line, gun.scatter, []
    ready = upright_rad - line.bore_turn_rad
    for _ in range(rounds):
        release = _released(gun, ready)
        hang_s = np.where(random.random(BURSTS) < scatter.hang_share, random.standard_exponential(BURSTS), 0.0)
        hang_s *= scatter.hang_s
        delay_s = line.delay_s + scatter.delay_sd_s * random.standard_normal(BURSTS) + hang_s
        turned_rad = scatter.delay_sd_rad * random.standard_normal(BURSTS)
        spin_rad_s = gun.spin_rad_s * speed
        passed.append(release + turned_rad + spin_rad_s * delay_s + line.leak.extra_rad(spin_rad_s))
        cycle_s = draw(line.cycle_s, scatter.cycle_sd_s, BURSTS, random) if scatter.cycle_sd_s else line.cycle_s
        ready = release + gun.spin_rad_s * speed * (cycle_s + hang_s)
    return np.floor(np.stack(passed, axis=1) * line.blades / tau).astype(np.int64)


def _released(gun: TimedGun, ready_rad: Floats) -> Floats:
    """Return the propeller angles at which guns that are ready at these are let go."""
    if gun.never_shuts:
        return ready_rad
    cam = gun.clock_cam
    step_rad, first_rad = cam.step_rad, cam.windows[0].opens_rad
    phase, steps = np.modf((ready_rad - first_rad) / step_rad)
    steps, phase = np.where(phase < 0.0, (steps - 1.0, phase + 1.0), (steps, phase))
    for start, end in gun.shut_arcs:
        phase = np.where((phase >= start) & ((phase < end) | (end >= 1.0)), end, phase)
    return np.asarray(first_rad + (steps + phase) * step_rad)
