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


def held(forces: ControlForces) -> list[Held | None]:
    """Return how long a pilot can hold each set of forces; None where there are none.

    Examples
    --------
    >>> from sim.flight.control_forces import ControlForces
    >>> held(ControlForces(*np.array([[0.0, 50.0, 300.0], [0.0, 0.0, 0.0], [60.0, 60.0, 60.0]])))
    ['minutes', 'a moment', 'no']
    """
    sizes = np.abs(np.array(forces))
    lasting, brief = ((sizes <= np.array(limits)[:, None]).all(axis=0) for limits in (MINUTES, MOMENT))
    known = np.isfinite(sizes).all(axis=0)
    words: list[Held | None] = []
    for one, minutes, moment in zip(known.tolist(), lasting.tolist(), brief.tolist(), strict=True):
        words.append(("minutes" if minutes else "a moment" if moment else "no") if one else None)
    return words


FORCES: Final[tuple[Force, ...]] = ("stick force", "sideways force", "pedal force")
"""What the forces of `Longest` are called, in its order."""


def too_large(forces: ControlForces) -> list[Force]:
    """Return which of each set of forces is larger than a pilot can hold even for a moment; the first of several.

    An empty string where none is, or where there are none.

    Examples
    --------
    >>> from sim.flight.control_forces import ControlForces
    >>> too_large(ControlForces(*np.array([[50.0, 300.0], [140.0, 0.0], [700.0, 60.0]])))
    ['sideways force', 'stick force']
    """
    sizes = np.abs(np.array(forces))
    over = (sizes > np.array(MOMENT)[:, None]).T.tolist()
    return [next((name for name, more in zip(FORCES, row, strict=True) if more), "") for row in over]
