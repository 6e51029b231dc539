"""The plateaus of the rate behind a cam with windows at uneven angles, exact: from all the edges that they can have."""

from __future__ import annotations

from itertools import pairwise
from math import ceil, floor
from typing import TYPE_CHECKING

from sim.synchronizer.plateaus import Plateau
from sim.synchronizer.uneven_rate import uneven_pattern

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction

    Window = tuple[Fraction, Fraction]


def uneven_plateaus(
    windows: Sequence[Window], period: Fraction, start: Fraction, end: Fraction, *, most_rounds: int = 12
) -> list[Plateau]:
    """Return the plateaus that reach into a range of the gun's cycle, ascending, cut to that range.

    Parameters
    ----------
    windows : sequence of (fractions.Fraction, fractions.Fraction)
        As in `sim.synchronizer.uneven_rate.uneven_pattern`.
    period : fractions.Fraction
        Turn of the propeller after which they come again.
    start, end : fractions.Fraction
        Range of the cycle in mean intervals from opening to opening, T/τ, 0 < start < end.
    most_rounds : int
        Longest pattern listed. The list is complete up to there.

    Notes
    -----
    A pattern of n rounds is a ring of openings; from one of them, α, the gun runs free for r ≤ n rounds, until it comes
    to a shut part of the cam. Which rounds find it open and which shut changes only where one comes to an edge ε: at an
    advance (ε − α + k P)/r, with the period P. Between two neighbours among all such advances with r ≤ `most_rounds` a
    pattern of as many rounds holds throughout or nowhere, so that its middle tells. The mean turn
    from round to round never falls as the advance grows, so that a pattern that holds in two places holds between them.

    Examples
    --------
    >>> from fractions import Fraction
    >>> windows = [(Fraction(0), Fraction(60)), (Fraction(150), Fraction(210))]
    >>> step = uneven_plateaus(windows, Fraction(360), Fraction(1, 2), Fraction(3, 4), most_rounds=2)[0]
    >>> step.rounds, step.intervals, step.start * 180, step.end * 180
    (2, 2, Fraction(90, 1), Fraction(135, 1))
    """
    mean = period / len(windows)
    edges = sorted(
        {start * mean, end * mean, *advances(windows, period, start * mean, end * mean, most_rounds=most_rounds)}
    )
    gaps = list(pairwise(edges))
    held = [uneven_pattern(windows, period, (low + high) / 2) for low, high in gaps]
    found: list[Plateau] = []
    for ring, (low, high) in zip(held, gaps, strict=True):
        if ring is not None and ring.rounds <= most_rounds:
            step = Plateau(ring.rounds, ring.periods * len(windows), low / mean, high / mean)
            found[-1:] = _joined(found[-1:], step)
    return found


def _joined(before: list[Plateau], step: Plateau) -> list[Plateau]:
    """Return a plateau behind the last one, or both as one where they are of one pattern."""
    if before and (before[0].rounds, before[0].intervals) == (step.rounds, step.intervals):
        return [Plateau(step.rounds, step.intervals, before[0].start, step.end)]
    return [*before, step]


def advances(
    windows: Sequence[Window], period: Fraction, low: Fraction, high: Fraction, *, most_rounds: int
) -> Iterator[Fraction]:
    """Yield every advance between two at which a round, of so many from an opening on, comes to an edge of a window."""
    apart = {(edge - window[0]) % period for window in windows for other in windows for edge in other}
    for rounds in range(1, most_rounds + 1):
        for after in apart:
            laps = range(ceil((low * rounds - after) / period), floor((high * rounds - after) / period) + 1)
            yield from ((after + lap * period) / rounds for lap in laps)


def count_of_advances(windows: int, turn: float, most_rounds: int) -> float:
    """Return about how many of them there are over a range of so many periods."""
    return windows * 2.0 * windows * turn * most_rounds * (most_rounds + 1) / 2.0
