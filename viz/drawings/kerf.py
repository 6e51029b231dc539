"""The path of a beam or cutter that leaves a part: its outline grown, its openings shrunk by half the kerf."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from shapely import Polygon

from sim.errors import Fault, InputError
from viz.drawings.marks import in_words

if TYPE_CHECKING:
    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Chain

SEGMENTS = 32
"""Straight lines that a quarter of a round corner is drawn by."""


def compensated(drawing: Drawing, *, kerf_mm: float = 0.0, fit_mm: float = 0.0) -> Drawing:
    """Return the path of the cut whose edge is the part.

    Parameters
    ----------
    drawing : Drawing
        The part at its true size.
    kerf_mm : float
        Width that the cut takes away, at least 0. [mm]
    fit_mm : float
        By which holes and openings become wider than drawn, all round the same; negative for a tighter fit. [mm]

    Raises
    ------
    InputError
        When an opening or a hole is no wider than the kerf, so that nothing of it can be cut.
    """
    if not kerf_mm and not fit_mm:
        return drawing
    inward = (kerf_mm - fit_mm) / 2.0
    narrow = any(across <= 2.0 * inward for _, across in drawing.circles)
    openings = [offset(opening, -inward) for opening in drawing.openings]
    if narrow or not all(openings):
        sentence = f"must leave a path inside every hole and opening of the {drawing.name}, got {in_words(kerf_mm)}"
        raise InputError([Fault("kerf", sentence)])
    return replace(
        drawing,
        outline=offset(drawing.outline, kerf_mm / 2.0),
        openings=openings,
        circles=[(centre, across - 2.0 * inward) for centre, across in drawing.circles],
        cutter_path=[],
    )


def offset(chain: Chain, by_mm: float) -> Chain:
    """Return a closed chain moved outward by a distance, inward where negative; empty where nothing is left. [mm]."""
    if not by_mm:
        return chain
    moved = Polygon(chain).buffer(by_mm, quad_segs=SEGMENTS, join_style="round")
    if moved.is_empty or moved.geom_type != "Polygon":
        return []
    return [(float(x), float(y)) for x, y in moved.exterior.coords[:-1]]
