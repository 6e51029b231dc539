"""The staircase: rounds a minute against propeller speed, plateaus labelled rounds : blades."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.sheet import INKS, sheet

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from sim.studies.rate import RateStep, Staircase, Staircases

LEAST_LABELLED = 0.03
"""Share of the speed range that a plateau must cover to carry its label."""


def draw(answer: Staircases) -> Figure:
    """Return one panel a staircase."""
    count = len(answer.staircases)
    figure, panels = sheet(count, height_in=4.2 * count)
    for panel, staircase in zip(panels, answer.staircases, strict=True):
        _staircase(panel, staircase)
    return figure


def _staircase(panel: Axes, staircase: Staircase) -> None:
    rpm = [row.rpm for row in staircase.rows]
    panel.plot(
        rpm,
        [staircase.gun_rounds_per_min] * len(rpm),
        color=INKS[5],
        linestyle=":",
        label="the gun alone",
    )
    for step in staircase.plateaus:
        panel.plot(
            (step.from_rpm, step.to_rpm),
            (step.from_rounds_per_min, step.to_rounds_per_min),
            color=INKS[0],
            solid_capstyle="butt",
        )
        if step.to_rpm - step.from_rpm >= LEAST_LABELLED * (max(rpm) - min(rpm)):
            _label(panel, step)
    panel.plot([], [], color=INKS[0], label="through the blades, locked: rounds : blades")
    panel.set_xlabel("propeller speed [rpm]")
    panel.set_ylabel("rate of fire [rounds a minute]")
    panel.set_title(f"Rate of fire against propeller speed, {staircase.action} {staircase.powerplant}".strip())
    panel.margins(y=0.12)
    panel.legend(loc="lower right")


def _label(panel: Axes, step: RateStep) -> None:
    panel.annotate(
        f"{step.rounds_per_pattern} : {step.intervals_per_pattern}",
        (step.from_rpm, step.from_rounds_per_min),
        xytext=(0, -4),
        textcoords="offset points",
        ha="center",
        va="top",
        fontsize=8,
    )
