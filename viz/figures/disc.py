"""A test disc with its marks and the line through them, beside angle against speed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, cast

from sim.units.quantities import quantity
from sim.units.text import brief
from viz.figures.inks import NEUTRAL, cross, ink, mark, series, style
from viz.figures.sheet import sheet
from viz.figures.timing_look import BLOCKED, rotation_arrow, turn, turns
from viz.words.reader import tell, unit_behind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.projections.polar import PolarAxes

    from sim.studies.disc_answer import DiscAnswer, DiscLine, MarkRow
    from sim.studies.disc_exercise import ExerciseMark
    from viz.sheets.format import Units

HUB, RIM, EDGE = -0.35, 1.16, 1.3
"""Radii over that of the highest speed: centre, the ring where rounds really pass, and the edge of the disc."""
ARROW, ARROW_RAD = 1.23, (math.radians(-32.0), math.radians(-58.0))
ODD = 0.5
FITTED, STATED = 1, 2
"""Strokes of the line through the marks, and of that which stated cam and delay would give."""
_PAPER = {"facecolor": "white", "edgecolor": "none", "pad": 0.8, "alpha": 0.9}


def draw(answer: DiscAnswer, units: Units) -> Figure:  # noqa: ARG001 - angles and speeds are alike in both
    """Return the disc and, beside it, angle against speed with the line, its band and the scatter."""
    figure, disc, chart = panels(answer.rotation)
    plain = [row for row in answer.marks if row.odd_probability <= ODD]
    odd = [row for row in answer.marks if row.odd_probability > ODD]
    fastest = max(row.rpm for row in answer.marks)
    face(disc, fastest)
    _blades(disc, answer, fastest)
    if answer.fitted:
        _spirals(disc, answer.fitted, answer.openings)
        _band(chart, answer.fitted)
    put(disc, answer.marks, plain, fastest)
    if odd:
        disc.plot([math.radians(row.angle_deg) for row in odd], [row.rpm for row in odd], **cross(series(1)))
    _marks(chart, plain, odd)
    chart.legend(loc="upper left", fontsize=8)
    return figure


def panels(rotation: str = "") -> tuple[Figure, PolarAxes, Axes]:
    """Return a figure with a disc, whose angles grow against its rotation, and a chart of angle against speed."""
    figure, (left, chart) = sheet(1, 2, width_in=10.4, height_in=5.4)
    left.remove()
    disc = cast("PolarAxes", figure.add_subplot(1, 2, 1, projection="polar"))
    turn(disc, "clockwise" if rotation == "anticlockwise" else "anticlockwise")
    said = tell("Marks of single rounds on the test disc\nIt {turns}", turns=turns(rotation))
    disc.set_title(said, fontsize=9, pad=16)
    disc.set_xlabel("outer ring: marks as on the disc; inside: the same further out at higher speed", fontsize=8)
    chart.set_title("Angle against speed", fontsize=9)
    chart.set_xlabel(_label("rpm"))
    chart.set_ylabel(tell("{angle}, laps counted", angle=_label("angle_deg")))
    return figure, disc, chart


def face(disc: PolarAxes, fastest_rpm: float) -> None:
    """Lay out the disc: standstill inside, the highest speed further out, then the ring where rounds pass."""
    disc.set_rorigin(HUB * fastest_rpm)
    disc.set_ylim(0.0, EDGE * fastest_rpm)
    disc.set_xticks([math.radians(angle) for angle in range(0, 360, 30)])
    step = _step(fastest_rpm)
    speeds = [step * place for place in range(1, int(fastest_rpm / step) + 1)]
    disc.set_yticks(speeds, [brief("rpm", speed, digits=4) for speed in speeds], fontsize=6)
    disc.set_rlabel_position(225.0)
    disc.tick_params(labelsize=7)
    rotation_arrow(disc, ARROW * fastest_rpm, *ARROW_RAD)


def put(
    disc: PolarAxes,
    every: Sequence[MarkRow | ExerciseMark],
    plain: Sequence[MarkRow | ExerciseMark],
    fastest_rpm: float,
) -> None:
    """Put marks on the disc: every one on the ring as it is, and plain ones inside by their speed."""
    ring = [math.radians(row.angle_deg) for row in every]
    disc.plot(ring, [RIM * fastest_rpm] * len(ring), markersize=3.0, color=NEUTRAL, marker="o", linestyle="none")
    disc.plot(
        [math.radians(row.angle_deg) for row in plain], [row.rpm for row in plain], markersize=4.0, **mark(series(0))
    )


def _step(fastest_rpm: float) -> float:
    """Return a round speed of which four or fewer go into the highest."""
    size = 10.0 ** math.floor(math.log10(fastest_rpm / 4.0))
    return next(size * step for step in (1.0, 2.0, 5.0, 10.0) if size * step >= fastest_rpm / 4.0)


def _label(name: str) -> str:
    told = {"rpm": "propeller speed", "angle_deg": "propeller angle at passage"}[name]
    return unit_behind(told, quantity(name).shown("si")[0])


def _blades(disc: PolarAxes, answer: DiscAnswer, fastest_rpm: float) -> None:
    for blade in range(answer.blades):
        disc.bar(
            math.tau * blade / answer.blades,
            EDGE * fastest_rpm,
            width=math.radians(answer.blocked_deg),
            alpha=0.6,
            zorder=0.5,
            **BLOCKED,
        )
    disc.text(
        0.0,
        0.72 * EDGE * fastest_rpm,
        "blade 1" if answer.blades else "line of blade 1",
        ha="center",
        fontsize=7,
        bbox=_PAPER,
    )


def _spirals(disc: PolarAxes, line: DiscLine, openings: int) -> None:
    for opening in range(openings):
        for place, angles in ((STATED, line.stated_deg), (FITTED, line.line_deg)):
            turned = [math.radians(angle) + math.tau * opening / openings for angle in angles]
            disc.plot(turned, line.rpm[: len(turned)], linewidth=1.2, **style(series(place)))


def _band(chart: Axes, line: DiscLine) -> None:
    chart.plot(line.rpm, line.line_deg, label="line through the marks: cam and delay", **style(series(FITTED)))
    if line.stated_deg:
        chart.plot(line.rpm, line.stated_deg, label="cam and delay as stated", **style(series(STATED)))
    ends = [
        [angle + side * reach for angle, reach in zip(line.line_deg, reaches, strict=True)]
        for reaches in ([1.96 * one for one in line.scatter_deg], line.line_error_deg)
        for side in (-1.0, 1.0)
    ]
    chart.fill_between(line.rpm, ends[0], ends[1], color=ink(0), alpha=0.12, label="19 of 20 marks lie within")
    chart.fill_between(line.rpm, ends[2], ends[3], color=ink(1), alpha=0.3, label="95 % limits of the line")
    chart.set_xlim(left=0.0)


def _marks(chart: Axes, plain: Sequence[MarkRow], odd: Sequence[MarkRow]) -> None:
    chart.plot(
        [row.rpm for row in plain], [row.lapped_deg for row in plain], markersize=4.0, label="mark", **mark(series(0))
    )
    if odd:
        label = "mark off the line"
        chart.plot([row.rpm for row in odd], [row.lapped_deg for row in odd], label=label, **cross(series(1)))
