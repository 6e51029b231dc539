"""Flying qualities of the modes by MIL-F-8785C (5 November 1980), Class I: small light airplanes.

Level 1 is clearly adequate, Level 2 costs the pilot work, Level 3 can be controlled; worse is Level 4 here, a number
that the standard does not use.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, Literal

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from sim.flight.modes import Mode

EDITION: Final = "MIL-F-8785C, Class I"
Category = Literal["A", "B", "C"]
WORST: Final = 4

_DUTCH_ROLL: Final = {
    "A": ((0.19, 0.35, 1.0), (0.02, 0.05, 0.4), (0.0, -math.inf, 0.4)),
    "B": ((0.08, 0.15, 0.4), (0.02, 0.05, 0.4), (0.0, -math.inf, 0.4)),
    "C": ((0.08, 0.15, 1.0), (0.02, 0.05, 0.4), (0.0, -math.inf, 0.4)),
}
"""Least damping ratio, damping ratio times frequency [rad/s], frequency [rad/s], for Levels 1 to 3: 3.3.1.1."""
_ROLL_S: Final = {"A": (1.0, 1.4, 10.0), "B": (1.4, 3.0, 10.0), "C": (1.0, 1.4, 10.0)}
"""Greatest roll time constant for Levels 1 to 3: 3.3.1.2. [s]"""
_SPIRAL_S: Final = {"A": (12.0, 8.0, 4.0), "B": (20.0, 8.0, 4.0), "C": (12.0, 8.0, 4.0)}
"""Least time to double for Levels 1 to 3: 3.3.1.3. [s]"""
_SHORT_PERIOD: Final = {
    "A": ((0.35, 1.30), (0.25, 2.0), (0.15, math.inf)),
    "B": ((0.30, 2.00), (0.20, 2.0), (0.15, math.inf)),
    "C": ((0.35, 1.30), (0.25, 2.0), (0.15, math.inf)),
}
"""Least and greatest damping ratio for Levels 1 to 3: 3.2.2.1.2."""
_PHUGOID: Final = (0.04, 0.0)
_PHUGOID_DOUBLE_S: Final = 55.0
"""Least damping ratio for Levels 1 and 2, least time to double for Level 3: 3.2.1.2."""


def level(mode: Mode, others: Sequence[Mode] = (), category: Category = "B") -> int | None:
    """Return the level of a mode, 1 to 3, 4 where it is worse, None where the standard does not grade it.

    Parameters
    ----------
    mode : Mode
        From `sim.flight.modes.modes`.
    others : sequence of Mode
        All modes of the airplane: two real roots of one name are graded together.
    category : str
        Flight phase: A rapid manoeuvring, B climb and cruise, C take-off and landing.

    Notes
    -----
    Control forces, the frequency of the short period against load factor, and roll-rate response are parts of the
    standard that need more than roots; they are not graded. A coupled roll and spiral is Level 1 to 3 by its damping
    (3.3.1.4: product of damping ratio and frequency at least .5, .3, .15 rad/s).

    References
    ----------
    MIL-F-8785C, Flying Qualities of Piloted Airplanes, paragraphs 3.2.1.2, 3.2.2.1.2, 3.3.1.1 to 3.3.1.4.
    """
    graders: dict[str, Callable[[], int | None]] = {
        "short period": lambda: _first(low <= _damping(mode, others) <= high for low, high in _SHORT_PERIOD[category]),
        "phugoid": lambda: _phugoid(mode, others),
        "Dutch roll": lambda: _dutch_roll(mode, category),
        "roll": lambda: _first(mode.real_per_s < 0.0 and -1.0 / mode.real_per_s <= most for most in _ROLL_S[category]),
        "spiral": lambda: _first(_doubling_s(mode) >= least for least in _SPIRAL_S[category]),
        "roll and spiral": lambda: _first(-mode.real_per_s >= least for least in (0.5, 0.3, 0.15)),
    }
    return graders[mode.name]() if mode.name in graders else None


def _first(passed: Iterable[bool]) -> int:
    return next((i for i, good in enumerate(passed, 1) if good), WORST)


def _doubling_s(mode: Mode) -> float:
    return mode.time_to_double_s if mode.time_to_double_s is not None else math.inf


def _damping(mode: Mode, others: Sequence[Mode]) -> float:
    """Return the damping ratio; of two real roots that of their product, −inf where one of them grows."""
    if mode.damping_ratio is not None:
        return mode.damping_ratio
    roots = [other.real_per_s for other in others if other.name == mode.name and other.damping_ratio is None]
    if len(roots) != 2 or max(roots) >= 0.0:  # a lone real root, or one that grows
        return -math.inf
    return -sum(roots) / (2.0 * math.sqrt(roots[0] * roots[1]))


def _phugoid(mode: Mode, others: Sequence[Mode]) -> int:
    damping = _damping(mode, others)
    graded = _first(damping >= least for least in _PHUGOID)
    if graded <= len(_PHUGOID):
        return graded
    slowest = min((_doubling_s(other) for other in others or (mode,) if other.name == mode.name), default=math.inf)
    return 3 if slowest >= _PHUGOID_DOUBLE_S else WORST


def _dutch_roll(mode: Mode, category: Category) -> int | None:
    if mode.damping_ratio is None or mode.natural_frequency_rad_s is None:
        return WORST if mode.real_per_s > 0.0 else None
    found = mode.damping_ratio, mode.damping_ratio * mode.natural_frequency_rad_s, mode.natural_frequency_rad_s
    return _first(all(value >= least for value, least in zip(found, row, strict=True)) for row in _DUTCH_ROLL[category])
