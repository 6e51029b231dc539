"""The plateaus of the rate of fire: which pattern of rounds to blades holds between which speeds, in closed form."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, gcd
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator


@dataclass(frozen=True, slots=True)
class Plateau:
    """One pattern and where it holds, as the gun's cycle measured in intervals (T/τ): from `start` up to `end`.

    Attributes
    ----------
    rounds, intervals : int
        So many rounds in so many openings, over and over; without a common divisor.
    start, end : fractions.Fraction
        Edges in T/τ, exact. At `start` the pattern holds; at `end` the next one does, or the gun runs free.
    """

    rounds: int
    intervals: int
    start: Fraction
    end: Fraction


def interrupter_plateaus(
    shut_share: Fraction, start: Fraction, end: Fraction, *, most_rounds: int = 12
) -> list[Plateau]:
    """Return the plateaus of an interrupter that reach into [start, end], ascending, cut to that range.

    Parameters
    ----------
    shut_share : fractions.Fraction
        Shut part of each interval, above 0, below 1.
    start, end : fractions.Fraction
        Range of T/τ, 0 < start < end.
    most_rounds : int
        Longest pattern listed. The list is complete up to there; longer ones accumulate above each free speed.

    Notes
    -----
    n rounds in m openings hold where round n is the first to come within the shut share before an opening. Let
    l/k < m/n < r/s be its neighbours in the Stern-Brocot tree (k, s < n). Then the plateau runs from (m − b)/n to
    the lesser of m/n and (r − b)/s, and it exists only if k b < 1, with b the shut share. For one l/k the plateaus
    n = s + k, s + 2 k, … stand side by side and accumulate at l/k, where the gun runs free. The widths over one
    unit of T/τ sum to 1 as `most_rounds` grows.

    Examples
    --------
    >>> step = interrupter_plateaus(Fraction(1, 4), Fraction(4), Fraction(5), most_rounds=1)[0]
    >>> step.rounds, step.intervals, float(step.start), float(step.end)
    (1, 5, 4.75, 5.0)
    """
    found = [
        Plateau(n, m, max(low, start), min(high, end))
        for n, m, low, high in _every(shut_share, start, end, most_rounds)
        if low < end and high > start
    ]
    return sorted(found, key=lambda plateau: plateau.start)


def _every(
    shut: Fraction, start: Fraction, end: Fraction, most_rounds: int
) -> Iterator[tuple[int, int, Fraction, Fraction]]:
    for k in range(1, min(ceil(1 / shut) - 1, most_rounds) + 1):
        for left in range(floor(start * k) - k, ceil(end * k)):
            if left < 0 or gcd(left, k) > 1:
                continue
            s = pow(-left, -1, k) if k > 1 else 0
            r = (1 + left * s) // k
            while s + k <= most_rounds:
                n, m = s + k, r + left
                low, high = (m - shut) / n, Fraction(m, n)
                yield n, m, low, min(high, (r - shut) / s) if s else high
                s, r = n, m


def impulse_plateaus(start: Fraction, end: Fraction) -> list[Plateau]:
    """Return the plateaus of an impulse gun over a range of T f: one round in k impulses from above k − 1 up to k.

    Examples
    --------
    >>> [step.intervals for step in impulse_plateaus(Fraction(3, 2), Fraction(4))]
    [2, 3, 4]
    """
    return [
        Plateau(1, k, max(Fraction(k - 1), start), min(Fraction(k), end))
        for k in range(floor(start) + 1, ceil(end) + 1)
        if min(Fraction(k), end) > max(Fraction(k - 1), start)
    ]
