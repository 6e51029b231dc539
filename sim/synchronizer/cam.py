"""A cam: the propeller angles at which it lets the gun go, cut once, the same at every speed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from math import tau
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

SAME_RAD = 1e-9
"""Angles that differ by less are the same: no cam is cut so closely."""


@dataclass(frozen=True, slots=True)
class Opening:
    """One window of a cam, in propeller angle; that of an impulse has no length.

    Attributes
    ----------
    opens_rad, closes_rad : float
        Where it opens, and where it closes, not before that. [rad]
    """

    opens_rad: float
    closes_rad: float

    @property
    def dwell_rad(self) -> float:
        """Turn of the propeller for which it is open, in radians."""
        return self.closes_rad - self.opens_rad


@dataclass(frozen=True)
class Cam:
    """The windows of a cam in propeller angle, 0 with blade 1 on the bore line.

    Attributes
    ----------
    windows : tuple of Opening
        Those of one period, ascending; none closes after the next opens. Empty for a cam that stays shut.
    period_turns : int
        Turns of the propeller after which they come again: 1; 2 for one trip in two turns; m for a cam that turns k
        times in m turns of the propeller.
    ideal : bool
        Whether it is fitted to one speed, which no single cam is at every speed.
    """

    windows: tuple[Opening, ...]
    period_turns: int = 1
    ideal: bool = False

    @property
    def period_rad(self) -> float:
        """Turn of the propeller after which the windows come again, in radians."""
        return self.period_turns * tau

    @cached_property
    def repeats(self) -> int:
        """Into how many parts the period falls that are equal to each other; 1 where there is no window."""
        count = len(self.windows)
        parts = (parts for parts in range(count, 1, -1) if count % parts == 0)
        return next((each for each in parts if _falls_into(self, each)), 1)

    @property
    def step_rad(self) -> float:
        """The least turn of the propeller after which the windows come again, in radians."""
        return self.period_rad / self.repeats

    @property
    def step_windows(self) -> tuple[Opening, ...]:
        """The windows of the first such turn."""
        return self.windows[: len(self.windows) // self.repeats]

    @property
    def dwell_rad(self) -> float:
        """Turn of the propeller for which the longest window is open, in radians; 0 for impulses and without any."""
        return max((opening.dwell_rad for opening in self.windows), default=0.0)

    @property
    def is_even(self) -> bool:
        """Whether all windows are of one length and at even angles."""
        return len(self.step_windows) == 1

    def turned(self, by_rad: float) -> Cam:
        """Return the cam with every window later by an angle, in radians."""
        moved = (Opening(each.opens_rad + by_rad, each.closes_rad + by_rad) for each in self.windows)
        return replace(self, windows=tuple(moved))

    def in_one_turn(self) -> Iterator[Opening]:
        """Yield the windows as they come in the period, each opening in [0, period), ascending."""
        period_rad = self.period_rad
        turned = [(opening.opens_rad % period_rad, opening.dwell_rad) for opening in self.windows]
        for opens_rad, dwell_rad in sorted(turned):
            yield Opening(opens_rad, opens_rad + dwell_rad)


def _falls_into(cam: Cam, parts: int) -> bool:
    count, step_rad = len(cam.windows) // parts, cam.period_rad / parts
    for earlier, later in zip(cam.windows, cam.windows[count:], strict=False):
        if abs(later.opens_rad - earlier.opens_rad - step_rad) > SAME_RAD:
            return False
        if abs(later.dwell_rad - earlier.dwell_rad) > SAME_RAD:
            return False
    return True


def even(opens_rad: float, dwell_rad: float, count: int, *, turns: int = 1, ideal: bool = False) -> Cam:
    """Return a cam with windows of one length at even angles; one that stays shut where the length is below nothing.

    Parameters
    ----------
    opens_rad : float
        Propeller angle at which the first opens. [rad]
    dwell_rad : float
        Turn of the propeller for which each is open; 0 for impulses; cut to the angle between two of them. [rad]
    count, turns : int
        So many windows in so many turns of the propeller, each 1 or more.
    ideal : bool
        Whether it is fitted to one speed.

    Examples
    --------
    >>> cam = even(0.5, 1.0, 2)
    >>> [round(opening.opens_rad, 3) for opening in cam.windows], cam.repeats
    ([0.5, 3.642], 2)
    """
    if dwell_rad < 0.0:
        return Cam((), turns, ideal)
    step_rad = turns * tau / count
    starts = (opens_rad + number * step_rad for number in range(count))
    return Cam(tuple(Opening(start, start + min(dwell_rad, step_rad)) for start in starts), turns, ideal)


def uneven(starts_rad: Sequence[float], dwell_rad: float, *, turns: int = 1) -> Cam:
    """Return a cam with windows of one length at any angles.

    Parameters
    ----------
    starts_rad : sequence of float
        Where each opens, within one period, in any order. [rad]
    dwell_rad : float
        Turn of the propeller for which each is open; 0 for impulses. [rad]
    turns : int
        Turns of the propeller after which they come again.

    Raises
    ------
    ValueError
        Where one closes after the next opens.

    Examples
    --------
    >>> uneven((0.0, 2.0), 0.5).is_even
    False
    """
    starts = sorted(starts_rad)
    nexts = [*starts[1:], starts[0] + turns * tau]
    if any(later - start < dwell_rad - SAME_RAD for start, later in zip(starts, nexts, strict=True)):
        message = "a window closes after the next opens"
        raise ValueError(message)
    return Cam(tuple(Opening(start, start + dwell_rad) for start in starts), turns)
