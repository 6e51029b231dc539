"""Control travel against bank with all powerplants, the roots of their modes, arrows between them, and the forces."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from sim.units.quantities import band_ends, quantity
from viz.figures.handling_forces import FORCES, UPWARD, forces_over_bank, forces_over_speed
from viz.figures.inks import NEUTRAL, cross, engine_places, mark, style
from viz.figures.sheet import sheet
from viz.words.reader import axis_label, tell, unit_behind, worded

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from numpy.typing import NDArray

    from sim.studies.handling_answer import Handling, PowerplantHandling, SteadyTurn
    from sim.studies.modes import GradedMode
    from viz.sheets.format import Units

    Drawn = NDArray[np.complex128]

CONTROLS = {"elevator_share": "Elevator", "rudder_share": "Rudder", "aileron_share": "Aileron"}
"""Field of a turn -> title of its panel."""
BELOW = 0.3
"""Room under the real axis for the names of the roots on it, over what is above."""
WIDEST = 110.0
"""Of the axis of control travel, where a band goes beyond the stops. [%]"""
FREE = "plus: stick and pedals free"
PAPER = {"facecolor": "white", "edgecolor": "none", "pad": 0.6, "alpha": 0.75}
"""Behind names among dots."""
LINEAR = "0.1"
"""Decay up to which its axis is linear. [1/s]"""
BELOW_ITS_MARKS = "short period"
WITHIN = 0.99
"""Share of the roots drawn that the panel has room for."""
ACROSS = 60
"""Letters to a line of what is written across."""


def draw(answer: Handling, units: Units) -> Figure:
    """Return three panels of control travel, one of roots, and for each force one over bank and one over speed."""
    figure, panels = sheet(2 + len(FORCES), 2, width_in=10.0, height_in=16.0)
    draw_controls(panels[:4], answer, units)
    draw_bank_forces(panels[4::2], answer, units)
    forces_over_speed(panels[5::2], answer, units)
    return figure


def draw_controls(panels: Sequence[Axes], answer: Handling, units: Units) -> None:
    """Draw control travel over bank into three panels, and the roots into a fourth."""
    for panel, name in zip(panels, CONTROLS, strict=False):
        _over_bank(panel, answer, _Drawn(name, 100.0, fill(unit_behind(quantity(name).meaning, "%"), UPWARD)))
        if panel.collections:
            least, most = panel.get_ylim()
            panel.set_ylim(max(least, -WIDEST), min(most, WIDEST))
        panel.set_title(CONTROLS[name])
        panel.set_xlabel(axis_label("bank_deg", units))
    meant = ["marks: steepest bank of 2° steps", "thin: beyond a limit"]
    if any(turn.holds_probability is not None for found in answer.powerplants.values() for turn in found.turns):
        meant.append("shaded: 90 % band")
    if any(_marked(found) for found in answer.powerplants.values()):
        meant.append("crosses: outside the range of validity")
    panels[0].legend(loc="best", title="\n".join(map(worded, meant)), title_fontsize=8)
    largest_first = sorted(answer.powerplants.items(), key=lambda item: -abs(item[1].angular_momentum_kg_m2_s))
    clouds = {name: one.drawn_roots for name, one in largest_first if one.drawn_roots is not None}
    places = _places(answer)
    draw_roots(panels[3], {name: one.modes for name, one in largest_first}, units, clouds, places=places)
    _free_roots(panels[3], dict(largest_first), places)


def draw_bank_forces(panels: Sequence[Axes], answer: Handling, units: Units) -> None:
    """Draw the forces that the pilot holds over bank, into a panel each."""
    forces_over_bank(panels, units, lambda panel, *drawn: _over_bank(panel, answer, _Drawn(*drawn)))


def _places(answer: Handling) -> dict[str, int]:
    return engine_places({name: one.kind for name, one in answer.powerplants.items()})


def _free_roots(panel: Axes, found: Mapping[str, PowerplantHandling], places: Mapping[str, int]) -> None:
    """Add the roots with stick and pedals free, and to the legend what their marks are."""
    for name, one in found.items():
        real, imag = ([getattr(mode, part) for mode in one.free_modes] for part in ("real_per_s", "imag_rad_s"))
        panel.plot(real, imag, label=f"_{FREE}", **{**mark(places[name]), "marker": "+", "markersize": 8.0})
    before = panel.get_legend()
    words = before.get_title().get_text() if before else ""
    panel.legend(loc="best", title=f"{words}\n{worded(FREE)}".strip())


class _Drawn(NamedTuple):
    """A field of a turn, what its numbers are multiplied by, and the label of its axis."""

    name: str
    factor: float
    label: str

    def of(self, turns: Iterable[SteadyTurn], end: str = "") -> list[float]:
        """Return the numbers of turns as drawn; with `end` those of that end of the band."""
        field = dict(zip(("low", "high"), band_ends(self.name), strict=True)).get(end, self.name)
        return [self.factor * getattr(turn, field) for turn in turns]


def _over_bank(panel: Axes, answer: Handling, drawn: _Drawn) -> None:
    places = _places(answer)
    for powerplant, found in answer.powerplants.items():
        place = places[powerplant]
        bank, numbers = [turn.bank_deg for turn in found.turns], drawn.of(found.turns)
        holds = [value if turn.holds else float("nan") for value, turn in zip(numbers, found.turns, strict=True)]
        panel.plot(bank, numbers, color=mark(place)["color"], linewidth=0.7, alpha=0.6)
        panel.plot(bank, holds, label=powerplant, **style(place))
        _band(panel, found, place, drawn)
        _end_marks(panel, found, place, drawn)
        _crosses(panel, found, place, drawn)
    panel.axvline(0.0, color="#808080", linewidth=0.6)
    panel.axhline(0.0, color="#808080", linewidth=0.6)
    panel.set_ylabel(drawn.label)


def _band(panel: Axes, found: PowerplantHandling, place: int, drawn: _Drawn) -> None:
    """Shade the 90 % band of the turns that hold, where there is one."""
    held = [turn for turn in found.turns if turn.holds and turn.holds_probability is not None]
    if held:
        bank, (low, high) = [turn.bank_deg for turn in held], (drawn.of(held, end) for end in ("low", "high"))
        panel.fill_between(bank, low, high, color=mark(place)["color"], alpha=0.15, linewidth=0.0)


def _end_marks(panel: Axes, found: PowerplantHandling, place: int, drawn: _Drawn) -> None:
    held = [turn for turn in found.turns if turn.holds]
    ends = [turn for turn in (held[0], held[-1]) if abs(turn.bank_deg) < abs(found.turns[0].bank_deg)] if held else []
    panel.plot([turn.bank_deg for turn in ends], drawn.of(ends), **mark(place))


def _crosses(panel: Axes, found: PowerplantHandling, place: int, drawn: _Drawn) -> None:
    """Set a cross on every turn that can be held and passes a bound of the flight model."""
    beyond = _marked(found)
    if beyond:
        panel.plot([turn.bank_deg for turn in beyond], drawn.of(beyond), **cross(place))


def _marked(found: PowerplantHandling) -> list[SteadyTurn]:
    return [turn for turn in found.turns if turn.holds and turn.beyond]


def draw_roots(
    panel: Axes,
    modes: dict[str, tuple[GradedMode, ...]],
    units: Units,
    drawn: Mapping[str, Drawn] | None = None,
    *,
    places: Mapping[str, int],
) -> None:
    """Draw the upper half of the root map; arrows go from the last powerplant to the first, dots are roots drawn."""
    names, clouds = list(modes), drawn or {}
    for index, name in enumerate(names):
        if name in clouds:
            panel.plot(clouds[name].real, clouds[name].imag, **_dots(places[name]))
        panel.plot(
            [mode.real_per_s for mode in modes[name]],
            [mode.imag_rad_s for mode in modes[name]],
            markerfacecolor="none" if index else None,
            label=name,
            **mark(places[name]),
        )
    named = sorted(modes[names[0]], key=lambda mode: (mode.imag_rad_s, mode.real_per_s))
    for place, mode in enumerate(named):
        _name(panel, mode, place if mode.imag_rad_s == 0.0 else 0, modes)
        others = [other for other in modes[names[-1]] if other.name == mode.name]
        if len(names) > 1 and others:
            _arrow(panel, min(others, key=lambda other: abs(other.real_per_s - mode.real_per_s)), mode)
    panel.axvline(0.0, color="#808080", linewidth=0.8)
    panel.set_xscale("symlog", linthresh=float(LINEAR))
    panel.xaxis.set_major_formatter(lambda value, _: f"{value:g}".replace("-", "−"))
    highest = max(mode.imag_rad_s for found in modes.values() for mode in found)
    top = 1.12 * max(highest, *_edge(clouds, "imag")) + 0.2
    panel.set_ylim(bottom=-BELOW * top, top=top)
    slowest = min(mode.real_per_s for found in modes.values() for mode in found)
    panel.set_xlim(left=1.6 * min(slowest, *(-edge for edge in _edge(clouds, "real"))))
    decay = tell("{meaning}; logarithmic beyond ±{linear}", meaning=quantity("real_per_s").meaning, linear=LINEAR)
    panel.set_xlabel(fill(unit_behind(decay, quantity("real_per_s").shown(units)[0]), ACROSS))
    panel.set_ylabel(axis_label("imag_rad_s", units))
    panel.set_title("Roots")
    meant = [tell("arrows: {first} to {last}", first=names[-1], last=names[0])] if len(names) > 1 else []
    meant += [worded("dots: airplanes drawn")] if clouds else []
    panel.legend(loc="best", title="\n".join(meant) or None)


def _dots(place: int) -> dict[str, Any]:
    return {"color": mark(place)["color"], "marker": ".", "markersize": 2.0, "linestyle": "none", "alpha": 0.35}


def _edge(clouds: Mapping[str, Drawn], part: str) -> Iterator[float]:
    """Yield how far nearly all roots drawn reach, up or to the left."""
    yield 0.0
    for roots in clouds.values():
        yield float(np.quantile(roots.imag if part == "imag" else -roots.real, WITHIN))


def _arrow(panel: Axes, start: GradedMode, end: GradedMode) -> None:
    panel.annotate(
        "",
        (end.real_per_s, end.imag_rad_s),
        xytext=(start.real_per_s, start.imag_rad_s),
        arrowprops={"arrowstyle": "->", "color": NEUTRAL, "shrinkA": 3, "shrinkB": 3},
    )


def _name(panel: Axes, mode: GradedMode, step: int, modes: Mapping[str, tuple[GradedMode, ...]]) -> None:
    """Write the name of a root where it covers no mark.

    Above the marks of its name, of a short period below them, for a Dutch roll is often beside it; of real roots below
    and in steps.
    """
    same = [other.imag_rad_s for found in modes.values() for other in found if other.name == mode.name]
    real, below = mode.imag_rad_s == 0.0, mode.name == BELOW_ITS_MARKS
    panel.annotate(
        mode.name,
        (mode.real_per_s, 0.0 if real else min(same) if below else max(same)),
        xytext=(-3, -9 - 11 * (step % 3) if real else -9 if below else 9),
        textcoords="offset points",
        ha="left",
        va="top" if real or below else "baseline",
        fontsize=8,
        bbox=PAPER,
    )
