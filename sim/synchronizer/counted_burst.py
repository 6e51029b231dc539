"""Monte Carlo simulation of many bursts at once, round by round: where rounds pass and which meet a blade.

All bursts of a block step together through their rounds, in place, in arrays that fit the processor's cache. Each
block draws from a generator of its own, numbered from the seed: the numbers do not depend on how blocks are
distributed.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

from sim.synchronizer.burst_batch import BurstBlock

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from numpy.typing import NDArray

    from sim.synchronizer.timed_gun import TimedGun

BLOCK = 8192
"""Bursts that step together: six arrays of 64 KiB, which stay in the cache."""


@dataclass(frozen=True, slots=True)
class Tally:
    """Counts over many rounds; the sum of two tallies is the tally of both.

    Attributes
    ----------
    bursts, rounds, strikes, near : int
        Bursts, rounds, rounds that met a blade, and rounds that passed within the margin without meeting it.
    strikes_squared : int
        Sum over the bursts of the square of the strikes in a burst.
    interval_sum, interval_squares, interval_least, interval_most : float
        Of the times from round to round within a burst, in openings of the cam.
    passage_sum, passage_squares : float
        Of where the rounds passed, in blade intervals from the centre of a blade.
    passages : numpy.ndarray
        How many rounds passed in each equal part of the blade interval; empty where not asked for.
    """

    bursts: int
    rounds: int
    strikes: int
    near: int
    strikes_squared: int
    interval_sum: float
    interval_squares: float
    interval_least: float
    interval_most: float
    passage_sum: float
    passage_squares: float
    passages: NDArray[np.int64]

    def __add__(self, other: Tally) -> Tally:
        """Return both counts together."""
        summed = {field.name: getattr(self, field.name) + getattr(other, field.name) for field in fields(self)}
        summed["interval_least"] = min(self.interval_least, other.interval_least)
        summed["interval_most"] = max(self.interval_most, other.interval_most)
        return Tally(**summed)


def fire_bursts(
    gun: TimedGun,
    *,
    bursts: int,
    rounds_per_burst: int,
    seed: int,
    bins: int = 0,
    progress: Callable[[Iterable[int]], Iterable[int]] = lambda numbers: numbers,
) -> Tally:
    """Fire bursts and count.

    Parameters
    ----------
    gun : TimedGun
        Propeller, cam, gun and scatter.
    bursts : int
        Bursts, 1 or more; the trigger of each is pulled at an instant of its own.
    rounds_per_burst : int
        2 or more.
    seed : int
        0 or more; the same seed gives the same numbers.
    bins : int
        Parts of the blade interval for the histogram of passages; 0 keeps none and is quicker.
    progress : callable
        Wraps the numbers of the blocks, to show how far the work is.

    Notes
    -----
    Memory does not grow with the number of rounds.
    """
    seeds = np.random.SeedSequence(seed)
    blocks = range(-(-bursts // BLOCK))
    total: Tally | None = None
    for number in progress(blocks):
        own = np.random.SeedSequence(seeds.entropy, spawn_key=(number,))
        size = min(BLOCK, bursts - number * BLOCK)
        block = BurstBlock(gun, size, rounds_per_burst, np.random.Generator(np.random.SFC64(own)))
        counted = _count(block, rounds_per_burst, bins)
        total = counted if total is None else total + counted
    if total is None:
        message = "at least one burst"
        raise ValueError(message)
    return total


def _count(block: BurstBlock, rounds: int, bins: int) -> Tally:
    """Fire the block's rounds and count them."""
    counter = _Counter(block.gun, block.release.size, bins)
    for number in range(rounds):
        block.fire()
        if number:
            counter.times(block.interval)
        counter.places(block.passage())
    return counter.tally(rounds)


class _Counter:
    """What a block's rounds add up to."""

    def __init__(self, gun: TimedGun, size: int, bins: int) -> None:
        self.half, self.wide = gun.half_blocked(), gun.half_blocked(margin=True)
        self.struck, self.hit = np.zeros(size, dtype=np.int64), np.empty(size, dtype=bool)
        self.passages = np.zeros(bins, dtype=np.int64)
        self.strikes = self.near = 0
        self.interval_sum = self.interval_squares = self.passage_sum = self.passage_squares = 0.0
        self.least, self.most = np.inf, -np.inf

    def times(self, interval: NDArray[np.float64]) -> None:
        """Count the times from round to round."""
        self.interval_sum += float(interval.sum())
        self.interval_squares += float(interval @ interval)
        self.least, self.most = min(self.least, float(interval.min())), max(self.most, float(interval.max()))

    def places(self, passed: NDArray[np.float64]) -> None:
        """Count where rounds passed, in blade intervals; the array is used up."""
        self.passage_sum += float(passed.sum())
        self.passage_squares += float(passed @ passed)
        bins = self.passages.size
        if bins:
            self.passages += np.bincount((passed * bins).astype(np.int64), minlength=bins + 1)[:bins]
        passed -= 0.5
        np.abs(passed, out=passed)
        np.greater(passed, 0.5 - self.half, out=self.hit)
        strikes = int(np.count_nonzero(self.hit))
        if strikes:
            self.struck += self.hit
            self.strikes += strikes
        if self.wide > self.half:
            np.greater(passed, 0.5 - self.wide, out=self.hit)
            self.near += int(np.count_nonzero(self.hit)) - strikes

    def tally(self, rounds: int) -> Tally:
        """Return the counts after so many rounds of each burst."""
        return Tally(
            bursts=self.struck.size,
            rounds=self.struck.size * rounds,
            strikes=self.strikes,
            near=self.near,
            strikes_squared=int(self.struck @ self.struck),
            interval_sum=self.interval_sum,
            interval_squares=self.interval_squares,
            interval_least=self.least,
            interval_most=self.most,
            passage_sum=self.passage_sum,
            passage_squares=self.passage_squares,
            passages=self.passages,
        )
