"""The speeds at which a lead that falls at first, for a leak, and then grows with the speed is of an angle."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.synchronizer.safe_range import CamWindow

LEAST_ABOVE = 1e-9
"""Share of the speed at which a link never trips by which the least speed looked at is above it."""


class ClearSpan(NamedTuple):
    """Speeds at which rounds pass between two angles.

    Attributes
    ----------
    from_rad_s, to_rad_s : float
        First and last. [rad/s]
    from_longest : bool
        Whether the longest lead ends at the first, falling; else the shortest does, growing.
    to_shortest : bool
        Whether the shortest lead ends at the last, falling; else the longest does, growing.
    """

    from_rad_s: float
    to_rad_s: float
    from_longest: bool
    to_shortest: bool


def turning_point(slope: Callable[[float], float], low: float, high: float) -> float:
    """Return where between two bounds a function is least that falls and then grows, by its slope."""
    from scipy.optimize import brentq

    if slope(low) >= 0.0:
        return low
    return high if slope(high) <= 0.0 else float(brentq(slope, low, high, xtol=1e-13, rtol=1e-14))


def crossings(
    value: Callable[[float], float], target: float, *, low: float, least: float, high: float
) -> tuple[float | None, float | None]:
    """Return where a function comes down to a value below its least, and up to it above; None where it does not.

    Parameters
    ----------
    value : callable
        Falls from `low` to `least` and grows from there to `high`.
    target : float
        The value.
    low, least, high : float
        The bounds, and where it is least.
    """
    from scipy.optimize import brentq

    def off(at: float) -> float:
        return value(at) - target

    def root(begin: float, end: float) -> float | None:
        if begin >= end or off(begin) * off(end) > 0.0:
            return None
        return float(brentq(off, begin, end, xtol=1e-13, rtol=1e-14))

    return root(low, least), root(least, high)


def least_at(cam: CamWindow, place: int) -> float:
    """Return the speed at which the shortest lead, place 0, or the longest, place 1, is least of all speeds, in rad/s.

    Notes
    -----
    Each has one minimum. The leak's slope −κ falls as 1/Ω² or faster; what time and scatter add, at least t − s, falls
    slower than that, so that their ratio passes through 1 once.
    """
    low = _lowest(cam)
    high = 2.0 * low
    while cam.slopes_s(high)[place] < 0.0:
        high *= 2.0
    return turning_point(lambda spin: cam.slopes_s(spin)[place], low, high)


def clear_spans(cam: CamWindow, first_rad: float, last_rad: float) -> list[ClearSpan]:
    """Return the speeds at which the shortest lead is no less than an angle and the longest no more than another."""
    low = _lowest(cam)

    def shortest(spin_rad_s: float) -> float:
        return cam.leads_rad(spin_rad_s)[0]

    def longest(spin_rad_s: float) -> float:
        return cam.leads_rad(spin_rad_s)[1]

    least = [least_at(cam, place) for place in (0, 1)]
    if longest(least[1]) > last_rad:
        return []
    high = 2.0 * max(*cam.tight_speeds_at(first_rad), *cam.tight_speeds_at(last_rad), *least)
    begin, end = crossings(longest, last_rad, low=low, least=least[1], high=high)
    begin, end = (low if begin is None else begin), (high if end is None else end)
    if shortest(least[0]) >= first_rad:
        return [ClearSpan(begin, end, from_longest=True, to_shortest=False)]
    down, up = crossings(shortest, first_rad, low=low, least=least[0], high=high)
    found = []
    if down is not None and down > begin:
        found.append(ClearSpan(begin, min(down, end), from_longest=True, to_shortest=down < end))
    if up is not None and end > up:
        found.append(ClearSpan(max(begin, up), end, from_longest=begin > up, to_shortest=False))
    return found


def _lowest(cam: CamWindow) -> float:
    return cam.line.leak.leak_speed_rad_s * (1.0 + LEAST_ABOVE)
