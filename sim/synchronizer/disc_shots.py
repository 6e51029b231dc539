"""Single rounds fired through a test disc, with a gun, a cam and a reading of speed that err as they are told to."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.disc_marks import DiscMarks

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class DiscShots:
    """What a disc is fired with.

    Attributes
    ----------
    opens_rad : float
        Propeller angle at which the cam lets go. [rad]
    delay_s, time_sd_s : float
        From cam to passage, mean and standard deviation from round to round. [s]
    angle_sd_rad : float
        Standard deviation of the angle of release: play in the gear. [rad]
    hang_share, hang_s : float
        Share of rounds that hang fire, and the mean of the delay this adds, which is exponential. [-, s]
    reading_factor, reading_sd : float
        True speed over speed read, and what it differs by from speed to speed, one standard deviation as a share.
    misread : int
        Marks that are read at any angle.
    openings : int
        Openings of the cam in a turn, of which any lets a round go.
    """

    opens_rad: float
    delay_s: float
    time_sd_s: float = 0.0
    angle_sd_rad: float = 0.0
    hang_share: float = 0.0
    hang_s: float = 0.0
    reading_factor: float = 1.0
    reading_sd: float = 0.0
    misread: int = 0
    openings: int = 1


def fire(shots: DiscShots, speeds_rad_s: Sequence[float], rounds: int, rng: np.random.Generator) -> DiscMarks:
    """Return the marks of so many rounds at each speed as it was read.

    Parameters
    ----------
    shots : DiscShots
        What is fired with.
    speeds_rad_s : sequence of float
        Speeds as read. [rad/s]
    rounds : int
        At each.
    rng : numpy.random.Generator
        For all that is random.
    """
    read = np.repeat(np.asarray(speeds_rad_s, dtype=float), rounds)
    errors = np.repeat(rng.normal(0.0, shots.reading_sd, len(speeds_rad_s)), rounds)
    count = len(read)
    spin = read * shots.reading_factor * (1.0 + errors)
    hangs = np.where(rng.random(count) < shots.hang_share, rng.exponential(shots.hang_s, count), 0.0)
    delay = shots.delay_s + rng.normal(0.0, shots.time_sd_s, count) + hangs
    angle = shots.opens_rad + rng.normal(0.0, shots.angle_sd_rad, count) + spin * delay
    angle += rng.integers(shots.openings, size=count) * math.tau / shots.openings
    wrong = rng.permutation(count)[: shots.misread]
    angle[wrong] = rng.uniform(0.0, math.tau, len(wrong))
    return DiscMarks(read, angle % math.tau, math.tau / shots.openings)
