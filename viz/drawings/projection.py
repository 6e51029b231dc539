"""The symbol of a method of projection, a cone cut off seen from the side and from its small end: ISO 5456-2."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from viz.drawings.marks import Ring, Stroke
from viz.drawings.view import View

if TYPE_CHECKING:
    from viz.drawings.marks import Mark

Projection = Literal["first-angle", "third-angle"]
SMALL_MM, LARGE_MM, LONG_MM = 2.5, 5.0, 5.0
"""Diameters of the ends of the cone, and its length. [mm]"""
APART_MM = 4.5
"""From the middle of the rings to the nearer end of the cone. [mm]"""


def symbol(projection: Projection) -> View:
    """Return the symbol: the view from the left stands at the right in first angle, at the left in third angle."""
    start = -APART_MM - LONG_MM if projection == "first-angle" else APART_MM
    end = start + LONG_MM
    small, large = SMALL_MM / 2.0, LARGE_MM / 2.0
    marks: list[Mark] = [
        Stroke([(start, -small), (end, -large), (end, large), (start, small)], "edge", closed=True),
        Ring((0.0, 0.0), SMALL_MM, "edge"),
        Ring((0.0, 0.0), LARGE_MM, "edge"),
        Stroke([(-large - 0.8, 0.0), (large + 0.8, 0.0)], "centre"),
        Stroke([(0.0, -large - 0.8), (0.0, large + 0.8)], "centre"),
        Stroke([(start - 0.8, 0.0), (end + 0.8, 0.0)], "centre"),
    ]
    return View(tuple(marks), 1.0, f"Symbol of {projection} projection.")
