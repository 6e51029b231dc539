"""Forces at stick and pedals over bank and over speed with all powerplants, between what a pilot can hold."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

import numpy as np
from matplotlib.lines import Line2D

from sim.flight.force_limits import MINUTES, MOMENT
from sim.units.quantities import band_ends, quantity
from viz.figures.inks import NEUTRAL, engine_places, style
from viz.words.reader import axis_label, tell, worded

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from matplotlib.axes import Axes

    from sim.studies.handling_answer import Handling
    from viz.sheets.format import Units

FORCES = {
    "stick_force_n": ("Stick, fore and aft", MINUTES.stick_n, MOMENT.stick_n),
    "stick_side_force_n": ("Stick, sideways", MINUTES.stick_side_n, MOMENT.stick_side_n),
    "pedal_force_n": ("Pedal", MINUTES.pedal_n, MOMENT.pedal_n),
}
"""Field of a turn -> title of its panels, and what a pilot holds of it for minutes and for a moment [N]."""
LIMIT_STROKES = (":", (0, (6, 2)))
REACHED = 0.6
"""Share of a limit that an axis must reach to have its line: one far outside would leave no room for the forces."""
UPWARD = 30
"""Letters to a line of what is written upward."""
SPEED_TITLE = "{title}, level over speed"
ONE_THROTTLE = "at one throttle"
KEY_LINE = 0.083
"""Height of a line of the key over that of a panel: it stands below all curves."""
PAPER: dict[str, Any] = {"frameon": True, "facecolor": "white", "edgecolor": "none", "framealpha": 0.85}
"""Behind the key, where the line of a limit passes."""
DOTS = ("dots: with the throttle of level flight between them", "thin: beyond a limit")
HELD_FOR = ("held for minutes: {force}", "held for a moment: {force}")
LIMITS_OF = "14 CFR 23.143(c)"


def forces_over_bank(panels: Sequence[Axes], units: Units, over_bank: Callable[[Axes, str, float, str], None]) -> None:
    """Draw each of `FORCES` over bank, into a panel each.

    Parameters
    ----------
    panels : sequence of Axes
        One for each of `FORCES`.
    units : str
        Of the reader.
    over_bank : function
        (panel, field, factor, label of the axis): draws a field of the turns over bank.
    """
    for panel, (name, (title, *limits_n)) in zip(panels, FORCES.items(), strict=True):
        unit, factor = quantity(name).shown(units)
        over_bank(panel, name, factor, _label(name, units))
        panel.set_title(title)
        panel.set_xlabel(axis_label("bank_deg", units))
        _limits(panel, [factor * limit for limit in limits_n], unit, ())


def forces_over_speed(panels: Sequence[Axes], answer: Handling, units: Units) -> None:
    """Draw each of `FORCES` over speed in straight flight, into a panel each."""
    for panel, (name, (title, *limits_n)) in zip(panels, FORCES.items(), strict=True):
        unit, factor = quantity(name).shown(units)
        _over_speed(panel, answer, name, units)
        panel.set_title(tell(SPEED_TITLE, title=title))
        panel.set_ylabel(_label(name, units))
        _limits(panel, [factor * limit for limit in limits_n], unit, DOTS)


def _label(name: str, units: Units) -> str:
    return fill(axis_label(name, units), UPWARD)


def _over_speed(panel: Axes, answer: Handling, name: str, units: Units) -> None:
    """Draw what each level flight takes, thick where it can be flown, and a dotted piece at one throttle."""
    speed, factor = quantity("speed_m_s"), quantity(name).shown(units)[1]
    places = engine_places({engine: one.kind for engine, one in answer.powerplants.items()})
    for powerplant, found in answer.powerplants.items():
        level = [row for row in found.forces.straight if row.power == "level"]
        same = [row for row in found.forces.straight if row.power == "same"]
        at = [speed.shown(units)[1] * row.speed_m_s for row in level]
        force = [factor * getattr(row, name) for row in level]
        ink = style(places[powerplant])
        panel.plot(at, force, color=ink["color"], linewidth=0.7, alpha=0.6)
        flown = [value if row.limit is None else float("nan") for value, row in zip(force, level, strict=True)]
        panel.plot(at, flown, label=powerplant, **ink)
        low, high = ([getattr(row, end) for row in level] for end in band_ends(name))
        if None not in (*low, *high):
            least, most = ([factor * value for value in one] for one in (low, high))
            panel.fill_between(at, least, most, color=ink["color"], alpha=0.15, linewidth=0.0)
        panel.plot(
            [speed.shown(units)[1] * row.speed_m_s for row in same],
            [factor * getattr(row, name) for row in same],
            color=ink["color"],
            linewidth=0.9,
            marker=".",
            label=f"_{ONE_THROTTLE}, {powerplant}",
        )
    panel.axhline(0.0, color="#808080", linewidth=0.6)
    panel.set_xlabel(axis_label("speed_m_s", units))


def _limits(panel: Axes, limits: list[float], unit: str, meant: tuple[str, ...]) -> None:
    """Draw between which forces a pilot can hold them for minutes and for a moment, by 14 CFR 23.143(c)."""
    reach, lowest = max(map(abs, panel.get_ylim())), _lowest(panel)
    title = "\n".join(map(worded, (*meant, LIMITS_OF)))
    lines = list(_limit_lines(panel, limits, unit, reach))
    room = KEY_LINE * (len(lines) + title.count("\n") + 2.2)
    least, most = panel.get_ylim()
    panel.set_ylim(min(least, lowest - room / (1.0 - room) * (most - lowest)), most)
    panel.legend(handles=lines, loc="lower center", title=title, **PAPER)


def _lowest(panel: Axes) -> float:
    """Return the lowest number that is drawn of the forces and their bands."""
    curves = [one.get_ydata() for one in panel.get_lines() if one.get_transform() == panel.transData]
    bands = [np.asarray(path.vertices)[:, 1] for one in panel.collections for path in one.get_paths()]
    return float(np.nanmin(np.concatenate([np.asarray(each, dtype=float) for each in (*curves, *bands)])))


def _limit_lines(panel: Axes, limits: list[float], unit: str, reach: float) -> Iterator[Line2D]:
    for limit, said, stroke in zip(limits, HELD_FOR, LIMIT_STROKES, strict=True):
        look: dict[str, Any] = {"color": NEUTRAL, "linewidth": 0.9, "linestyle": stroke}
        label = tell(said, force=f"{limit:.0f} {unit}")
        if reach < REACHED * limit:
            yield Line2D([], [], **look, label=tell("{line}, beyond this axis", line=label))
            continue
        panel.axhline(-limit, **look)
        yield panel.axhline(limit, **look, label=label)
