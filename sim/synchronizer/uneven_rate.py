"""Steady rate of fire behind a cam whose windows are at uneven angles: exact, in whole numbers.

From the opening at which a round is released the gun runs free until a round finds the cam shut; that one is released
at the opening that follows. So openings lead to openings, and sooner or later round and round. No round overtakes
another, however the trigger is pulled: the map from one release to the next is a monotone one of the circle, whose
rotation number, the rate, is the same from everywhere.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import gcd, lcm
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Ring:
    """A pattern that the gun falls into.

    Attributes
    ----------
    rounds, periods : int
        So many rounds in so many periods of the cam, over and over; without a common divisor.
    """

    rounds: int
    periods: int


def first_within(advance: int, whole: int, low: int, high: int) -> int | None:
    """Return the least n ≥ 0 with n · advance mod whole from `low` to `high`, None where there is none.

    Parameters
    ----------
    advance, whole, low, high : int
        0 ≤ low ≤ high < whole.

    Notes
    -----
    Euclid's algorithm: where no multiple of the advance lies between the bounds at once, the laps take the place of the
    steps, in a circle as long as the advance.

    Examples
    --------
    >>> first_within(7, 30, 2, 4)
    9
    """
    if low == 0:
        return 0
    advance %= whole
    if advance == 0:
        return None
    if 2 * advance > whole:
        advance, low, high = whole - advance, whole - high, whole - low
    steps = -(-low // advance)
    if steps * advance <= high:
        return steps
    laps = first_within(-whole % advance, advance, low % advance, high % advance)
    return None if laps is None else -(-(low + laps * whole) // advance)


def uneven_pattern(windows: Sequence[tuple[Fraction, Fraction]], period: Fraction, advance: Fraction) -> Ring | None:
    """Return the pattern of a gun behind a cam; None where the gun runs free.

    Parameters
    ----------
    windows : sequence of (fractions.Fraction, fractions.Fraction)
        Where each opens and closes, ascending, in any unit of angle; the first opens in [0, period).
    period : fractions.Fraction
        Turn of the propeller after which they come again.
    advance : fractions.Fraction
        Turn of the propeller in one free cycle of the gun.

    Notes
    -----
    A window is open from its opening instant on and shut from its closing instant on; an impulse releases a gun that is
    ready at its very instant.

    References
    ----------
    Poincaré 1885, J. Math. Pures Appl. 4, 1: the rotation number of a map of the circle that keeps the order.

    Examples
    --------
    >>> from fractions import Fraction
    >>> windows = [(Fraction(0), Fraction(60)), (Fraction(150), Fraction(210))]
    >>> uneven_pattern(windows, Fraction(360), Fraction(100))
    Ring(rounds=2, periods=1)
    """
    unit = lcm(period.denominator, advance.denominator, *(edge.denominator for window in windows for edge in window))
    whole, step = int(period * unit), int(advance * unit)
    opens = [int(window[0] * unit) for window in windows]
    shut = list(_shut(opens, [int(window[1] * unit) for window in windows], whole))
    seen: dict[int, tuple[int, int]] = {}
    number = rounds = turned = 0
    while number not in seen:
        seen[number] = rounds, turned
        lead = _next(opens[number], opens, shut, step=step, whole=whole)
        if lead is None:
            return None
        number, rounds, turned = lead[0], rounds + lead[1], turned + lead[2]
    before = seen[number]
    rounds, periods = rounds - before[0], (turned - before[1]) // whole
    common = gcd(rounds, periods)
    return Ring(rounds // common, periods // common)


def _shut(opens: list[int], closes: list[int], whole: int) -> Iterator[tuple[int, int, int]]:
    """Yield the first and the last instant of each shut part, and the number of the window that opens after it."""
    for number, (start, end) in enumerate(zip(opens, closes, strict=True)):
        follows = (number + 1) % len(opens)
        last = opens[follows] + (whole if follows == 0 else 0) - 1
        first = max(end, start + 1) if end == start else end
        if first <= last:
            yield first, last, follows


def _next(
    start: int, opens: list[int], shut: list[tuple[int, int, int]], *, step: int, whole: int
) -> tuple[int, int, int] | None:
    """Return the window that a gun released at `start` is held for, its rounds until then, and the time that takes."""
    found = []
    for first, last, follows in shut:
        low, high = ((edge - start - step) % whole for edge in (first, last))
        rounds = 0 if low > high else first_within(step, whole, low, high)
        if rounds is not None:
            found.append((rounds + 1, follows))
    if not found:
        return None
    rounds, follows = min(found)
    ready = start + rounds * step
    return follows, rounds, rounds * step + (opens[follows] - ready) % whole
