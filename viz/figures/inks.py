"""Inks of paper: warm for rotary engines and cool for fixed ones, as on the stage; others for whatever else is drawn.

A place is that of a series among the inks, strokes and marks: each goes with the stroke and the mark of its place.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

INKS: Final = (
    "#d47000",
    "#04324c",
    "#00795c",
    "#7a3b86",
    "#6b5a00",
    "#3f3f3f",
    "#8a4a00",
    "#1b6ea3",
    "#5a3000",
    "#0d4f78",
    "#a8287a",
    "#4b46b0",
)
"""The inks of rotary and fixed engines have the hues of the stage, and are as far apart in lightness as paper lets."""
STROKES: Final = (
    "-",
    "--",
    "-",
    "--",
    "-.",
    (0, (1, 2)),
    "-.",
    ":",
    (0, (8, 2)),
    (0, (5, 1, 1, 1, 1, 1)),
    ":",
    (0, (5, 1, 1, 1, 1, 1)),
)
"""No two engines have the same, and no two of what is none."""
MARKS: Final = ("o", "s", "o", "s", "^", "P", "^", "D", "v", "P", "D", "v")
ENGINES: Final[dict[str, tuple[int, ...]]] = {"rotary": (0, 6, 8), "fixed": (1, 7, 9)}
"""Kind of engine -> places of the first, the second and the third of it."""
SERIES: Final = (2, 3, 4, 10, 11, 5)
"""Places of what is no engine."""
FAMILIES: Final = (*ENGINES.values(), SERIES)
NEUTRAL: Final = INKS[5]
WARNING: Final = "#a3123a"
"""Of what forbids the use of a picture; no engine has it."""
TENSION: Final[dict[str, Any]] = {"color": "#1f9a6a", "linestyle": "-"}
COMPRESSION: Final[dict[str, Any]] = {"color": "#3b0f52", "linestyle": (0, (3, 1))}


def engine_places(kinds: Mapping[str, str]) -> dict[str, int]:
    """Return the place of every engine by its name: warm ones for rotaries, cool ones for fixed engines.

    Examples
    --------
    >>> engine_places({"flat_four": "fixed", "nine": "rotary", "six": "fixed"})
    {'flat_four': 1, 'nine': 0, 'six': 7}
    """
    seen: Counter[str] = Counter()
    found = {}
    for name, kind in kinds.items():
        own = ENGINES[kind]
        found[name] = own[seen[kind] % len(own)]
        seen[kind] += 1
    return found


def series(index: int) -> int:
    """Return the place of the series at `index`, of what is no engine."""
    return SERIES[index % len(SERIES)]


def ink(index: int) -> str:
    """Return the colour of the series at `index`, of what is no engine."""
    return INKS[series(index)]


def family(place: int) -> tuple[int, ...]:
    """Return the places that stand for the same as one: the same kind of engine, or no engine."""
    return next(own for own in FAMILIES if place in own)


def style(place: int) -> dict[str, Any]:
    """Return colour and stroke of a place, to be passed to ``plot``."""
    return {"color": INKS[place], "linestyle": STROKES[place]}


def mark(place: int) -> dict[str, Any]:
    """Return colour and mark of the single points of a place, to be passed to ``plot``."""
    return {"color": INKS[place], "marker": MARKS[place], "linestyle": "none"}


def cross(place: int) -> dict[str, Any]:
    """Return colour and cross of the points at which the series of a place is outside the range of validity."""
    return {"color": INKS[place], "marker": "x", "markersize": 5.0, "linestyle": "none"}
