"""A propeller whose speed ripples within a turn, as behind an engine of few cylinders.

By the clock it turns evenly; the angle at which it stands runs ahead of that and behind. Cam and blades are fixed to
the propeller, so that by the clock their angles are moved and nothing else: what is timed by angles and seconds then
follows as at an even speed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import cos, sin
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.synchronizer.cam import Cam

LAST_RAD = 1e-15


@dataclass(frozen=True, slots=True)
class Ripple:
    """How the speed ripples: Ω (1 + share · cos(n (Ωt − peak))), with the mean speed Ω.

    Attributes
    ----------
    depth : float
        Greatest deviation of the speed over its mean, 0 to below 1. [-]
    per_rev : int
        Ripples in a turn of the propeller, 1 or more.
    peak_rad : float
        Propeller angle at which it turns fastest, 0 with blade 1 on the bore line. [rad]
    """

    depth: float = 0.0
    per_rev: int = 1
    peak_rad: float = 0.0

    def stands_at(self, clock_rad: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return where the propeller stands, by the angle that it has at its mean speed. [rad]."""
        return clock_rad + self.depth / self.per_rev * np.sin(self.per_rev * (clock_rad - self.peak_rad))

    def clock_rad(self, angle_rad: float) -> float:
        """Return the angle at the mean speed when the propeller stands at an angle, by Newton's method. [rad].

        Examples
        --------
        >>> ripple = Ripple(0.2, 2, 0.3)
        >>> round(ripple.clock_rad(float(ripple.stands_at(np.float64(1.1)))), 12)
        1.1
        """
        share, number = self.depth, self.per_rev
        found = angle_rad
        for _ in range(60):
            at = number * (found - self.peak_rad)
            step = (found + share / number * sin(at) - angle_rad) / (1.0 + share * cos(at))
            found -= step
            if abs(step) < LAST_RAD:
                break
        return found

    def most_shift_rad(self, turn_rad: float) -> float:
        """Return the largest angle by which it moves a passage, a time later that is such a turn at the mean speed.

        Notes
        -----
        The turn in a time t, with Ωt = λ, from the clock's angle c is λ + (d/n) (sin n(c + λ − p) − sin n(c − p)), with
        depth d, n ripples a turn and peak p: over all c it deviates from λ by up to (2 d/n) |sin(n λ/2)|.

        Examples
        --------
        >>> round(Ripple(0.1, 2).most_shift_rad(0.5), 6)
        0.047943
        """
        return 2.0 * self.depth / self.per_rev * abs(sin(0.5 * self.per_rev * turn_rad))


STEADY = Ripple()


@lru_cache(maxsize=256)
def by_the_clock(cam: Cam, ripple: Ripple) -> Cam:
    """Return a cam with its windows at the angles of a propeller that turns at the mean speed."""
    windows = tuple(
        replace(each, opens_rad=ripple.clock_rad(each.opens_rad), closes_rad=ripple.clock_rad(each.closes_rad))
        for each in cam.windows
    )
    return replace(cam, windows=windows)
