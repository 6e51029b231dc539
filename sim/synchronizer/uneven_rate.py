"""Steady rate of fire behind a cam whose windows are at uneven angles: exact, in whole numbers.

From the opening at which a round is released the gun runs free until a round finds the cam shut; that one is released
at the opening that follows. So openings lead to openings, and sooner or later round and round: the rate is that of the
ring. Which ring is reached depends on when the trigger is pulled.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MOST_STEPS = 20_000
"""Rounds after which what has never been held counts as free: its share of all instants is then of no account."""


@dataclass(frozen=True, slots=True)
class Ring:
    """A pattern that the gun falls into.

    Attributes
    ----------
    rounds, periods : int
        So many rounds in so many periods of the cam, over and over.
    """

    rounds: int
    periods: int


@dataclass(frozen=True, slots=True)
class UnevenPattern:
    """What the gun falls into, from an instant at random.

    Attributes
    ----------
    rounds_per_cycle : fractions.Fraction
        Rounds in the time of one free cycle of the gun, 1 at most: the mean over all instants of the trigger.
    ring : Ring or None
        The pattern, where it is the same from everywhere; None where it is not, or where the gun runs free.
    """

    rounds_per_cycle: Fraction
    ring: Ring | None


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


def uneven_pattern(windows: Sequence[tuple[Fraction, Fraction]], period: Fraction, advance: Fraction) -> UnevenPattern:
    """Return the pattern of a gun behind a cam.

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

    Examples
    --------
    >>> windows = [(Fraction(0), Fraction(60)), (Fraction(150), Fraction(210))]
    >>> uneven_pattern(windows, Fraction(360), Fraction(100)).ring
    Ring(rounds=2, periods=1)
    """
    unit = lcm(period.denominator, advance.denominator, *(edge.denominator for window in windows for edge in window))
    whole, step = int(period * unit), int(advance * unit)
    opens = [int(window[0] * unit) for window in windows]
    shut = list(_shut(opens, [int(window[1] * unit) for window in windows], whole))
    leads = [_next(start, opens, shut, step=step, whole=whole) for start in opens]
    rings = {_ring(start, leads, whole) for start in range(len(opens))}
    if len(rings) == 1:
        (only,) = rings
        return UnevenPattern(Fraction(1) if only is None else _rate(only, step, whole), only)
    shares = _shares(opens, shut, leads, step=step, whole=whole)
    mean = sum((share * _rate(ring, step, whole) for ring, share in shares.items()), start=Fraction(0))
    return UnevenPattern(mean, None)


def _rate(ring: Ring | None, step: int, whole: int) -> Fraction:
    return Fraction(1) if ring is None else Fraction(ring.rounds * step, ring.periods * whole)


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


def _ring(start: int, leads: Sequence[tuple[int, int, int] | None], whole: int) -> Ring | None:
    """Return the ring that an opening leads to; None where the gun runs free from there."""
    seen: list[int] = []
    number = start
    while number not in seen:
        seen.append(number)
        lead = leads[number]
        if lead is None:
            return None
        number = lead[0]
    around = [lead for lead in (leads[each] for each in seen[seen.index(number) :]) if lead is not None]
    rounds, periods = sum(lead[1] for lead in around), sum(lead[2] for lead in around) // whole
    common = gcd(rounds, periods)
    return Ring(rounds // common, periods // common)


def _shares(
    opens: list[int],
    shut: list[tuple[int, int, int]],
    leads: Sequence[tuple[int, int, int] | None],
    *,
    step: int,
    whole: int,
) -> dict[Ring | None, Fraction]:
    """Return the share of all instants of the trigger from which each ring is reached."""
    held, free = [0] * len(opens), [(0, whole)]
    for _ in range(min(MOST_STEPS, whole // gcd(step, whole)) + 1):
        left = []
        for low, high in free:
            parts = [(low, high)]
            for first, last, follows in shut:
                for turn in (0, whole):
                    begin, end = first - turn, last + 1 - turn
                    cut = []
                    for a, b in parts:
                        inside = min(b, end) - max(a, begin)
                        if inside <= 0:
                            cut.append((a, b))
                            continue
                        held[follows] += inside
                        cut += [(x, y) for x, y in ((a, max(a, begin)), (min(b, end), b)) if y > x]
                    parts = cut
            left += parts
        if not left:
            break
        free = [piece for low, high in left for piece in _moved(low, high, step, whole)]
    shares: dict[Ring | None, Fraction] = {}
    for number, measure in enumerate(held):
        ring = _ring(number, leads, whole)
        shares[ring] = shares.get(ring, Fraction(0)) + Fraction(measure, whole)
    shares[None] = shares.get(None, Fraction(0)) + 1 - sum(shares.values())
    return shares


def _moved(low: int, high: int, step: int, whole: int) -> Iterator[tuple[int, int]]:
    start = (low + step) % whole
    end = start + high - low
    yield start, min(end, whole)
    if end > whole:
        yield 0, end - whole
