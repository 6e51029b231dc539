"""One picture for visitors: how hard each engine pushes the nose up or down in a turn to each side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.figures.inks import INKS, NEUTRAL, engine_places
from viz.figures.sheet import sheet
from viz.sheets.format import PITCH, shown, signed

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from sim.studies.compare import Comparison
    from viz.sheets.format import Units

BANK_DEG = 45.0
HATCHES = ("", "///", "...", "xxx", "\\\\\\", "++")
WIDTH = 0.8


def draw(answer: Comparison, units: Units) -> Figure:
    """Return bars, a pair of groups for left and right, one bar an engine, each with its value in words."""
    figure, (panel,) = sheet(width_in=7.5, height_in=3.9)
    unit, factor = shown("pitch_n_m", units)
    share = WIDTH / len(answer.powerplants)
    most = 0.0
    places = engine_places({name: one.kind for name, one in answer.powerplants.items()})
    for index, (name, found) in enumerate(answer.powerplants.items()):
        for place, bank in enumerate((-BANK_DEG, BANK_DEG)):
            turn = next(turn for turn in found.turns if turn.bank_deg == bank)
            height = 0.0 if turn.effect == "none" else factor * turn.pitch_n_m
            most = max(most, abs(height))
            at = place - WIDTH / 2.0 + (index + 0.5) * share
            panel.bar(
                at,
                height,
                0.9 * share,
                color=INKS[places[name]],
                hatch=HATCHES[index % len(HATCHES)],
                edgecolor="white",
                label=None if place else name,
            )
            words = "no such turn" if turn.effect == "none" else signed("pitch_n_m", turn.pitch_n_m, units, PITCH)
            panel.annotate(
                words.replace(" nose", "\nnose"),
                (at, height),
                xytext=(0, -3 if height < 0.0 else 3),
                textcoords="offset points",
                ha="center",
                va="top" if height < 0.0 else "bottom",
            )
    panel.axhline(0.0, color=NEUTRAL, linewidth=0.8)
    panel.grid(visible=False, axis="x")
    panel.set_xticks((0, 1), ("turn to the left", "turn to the right"))
    panel.set_ylim(-1.35 * most, 1.35 * most)
    panel.set_ylabel(f"gyroscopic moment on the nose [{unit}]")
    panel.legend(loc="upper right")
    return figure
