"""How long a pilot can hold forces at the controls, by the limits of an airworthiness code."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, Literal, NamedTuple

import numpy as np

from sim.units.convert import LBF_N

if TYPE_CHECKING:
    from sim.flight.control_forces import ControlForces

    Held = Literal["minutes", "a moment", "no"]
    Force = Literal["", "stick force", "sideways force", "pedal force"]


class Longest(NamedTuple):
    """Forces at the grip fore and aft, at the grip sideways, and at a pedal. [N]."""

    stick_n: float
    stick_side_n: float
    pedal_n: float


MOMENT: Final = Longest(60.0 * LBF_N, 30.0 * LBF_N, 150.0 * LBF_N)
"""For temporary application, by a stick: 14 CFR 23.143(c), 2014 text."""
MINUTES: Final = Longest(10.0 * LBF_N, 5.0 * LBF_N, 20.0 * LBF_N)
"""For prolonged application, likewise: what a pilot can hold for minutes."""


FORCES: Final[tuple[Force, ...]] = ("stick force", "sideways force", "pedal force")
"""What the forces of `Longest` are called, in its order."""


def past(forces: ControlForces, most: Longest) -> list[tuple[Force, ...]]:
    """Return which of each set of forces are larger than those that a pilot holds; none where there are no forces.

    Examples
    --------
    >>> from sim.flight.control_forces import ControlForces
    >>> past(ControlForces(*np.array([[50.0, 30.0], [140.0, 0.0], [700.0, 60.0]])), MINUTES)
    [('stick force', 'sideways force', 'pedal force'), ()]
    """
    over = (np.abs(np.array(forces)) > np.array(most)[:, None]).T.tolist()
    return [tuple(name for name, more in zip(FORCES, row, strict=True) if more) for row in over]


def held(forces: ControlForces) -> list[Held | None]:
    """Return how long a pilot can hold each set of forces; None where there are none.

    Examples
    --------
    >>> from sim.flight.control_forces import ControlForces
    >>> held(ControlForces(*np.array([[0.0, 50.0, 300.0], [0.0, 0.0, 0.0], [60.0, 60.0, 60.0]])))
    ['minutes', 'a moment', 'no']
    """
    known = np.isfinite(np.array(forces)).all(axis=0).tolist()
    words: list[Held | None] = []
    for one, minutes, moment in zip(known, past(forces, MINUTES), past(forces, MOMENT), strict=True):
        words.append(("no" if moment else "a moment" if minutes else "minutes") if one else None)
    return words


def too_large(forces: ControlForces) -> list[Force]:
    """Return which of each set of forces is larger than a pilot can hold even for a moment; the first of several.

    An empty string where none is, or where there are none.

    Examples
    --------
    >>> from sim.flight.control_forces import ControlForces
    >>> too_large(ControlForces(*np.array([[50.0, 300.0], [140.0, 0.0], [700.0, 60.0]])))
    ['sideways force', 'stick force']
    """
    return [next(iter(names), "") for names in past(forces, MOMENT)]
