"""The geometry of a flat part: outline, holes, openings and scribed lines, in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from sim.display.rise_laws import FloatArray

CHORD_ERROR_M = 5e-6
"""Largest chordal error of an outline. [m]"""


@dataclass(frozen=True, slots=True)
class Hole:
    """A round hole.

    Attributes
    ----------
    x_m, y_m, diameter_m : float
        Centre and diameter. [m]
    use : str
        What goes into it.
    fit : str
        Its ISO 286 class, or the thread that is tapped; empty for a drilled hole.
    sunk_m : float
        Diameter of its countersink, 90°, 0 for none. [m]
    sunk_behind : bool
        Whether countersink or blind hole is on the rear face; of a hole along y, on the upper face.
    deep_m : float
        Depth of a blind hole, 0 for one that goes through. [m]
    """

    x_m: float
    y_m: float
    diameter_m: float
    use: str
    fit: str = ""
    sunk_m: float = 0.0
    sunk_behind: bool = False
    deep_m: float = 0.0


LETTER_M = 0.0022
"""Height of the letters of a label. [m]"""


@dataclass(frozen=True, slots=True)
class Scribe:
    """A scribed line.

    Attributes
    ----------
    corners_m : array
        Rows of x and y. [m]
    label : str
        Its label.
    along : bool
        Whether the label is written along the line, or past its end.
    letter_m : float
        Height of its capital letters. [m]
    """

    corners_m: FloatArray
    label: str
    along: bool = False
    letter_m: float = LETTER_M


@dataclass(frozen=True, slots=True)
class Slot:
    """A slot with round ends: straight along y, or bent round the origin.

    Attributes
    ----------
    start_m, end_m : tuple of float
        Centres of its ends, x and y; of a bent one anticlockwise. [m]
    width_m : float
        Width. [m]
    use : str
        What stands in it.
    bend_m : float
        Radius of its middle round the origin; 0 for a straight one. [m]
    fit : str
        ISO 286 class of its width, empty where none matters.
    """

    start_m: tuple[float, float]
    end_m: tuple[float, float]
    width_m: float
    use: str
    bend_m: float = 0.0
    fit: str = ""

    @property
    def outline_m(self) -> FloatArray:
        """Corners of its closed outline, anticlockwise. [m]."""
        (x, low), (_, high) = self.start_m, self.end_m
        if not self.bend_m:
            return slot(x, low, high, self.width_m)
        first, last = (math.atan2(up, across) for across, up in (self.start_m, self.end_m))
        return arc_slot(self.bend_m, first, first + (last - first) % math.tau, self.width_m)


@dataclass(frozen=True, slots=True)
class FlatPart:
    """A flat part.

    Attributes
    ----------
    name : str
        ``cam``, ``follower``, ``lead plate`` or ``base``.
    thickness_m : float
        Thickness of the plate. [m]
    outline_m : array
        Corners of the closed outline, anticlockwise, rows of x and y. [m]
    holes : tuple of Hole
        Round holes.
    cut_slots : tuple of Slot
        Slots.
    scribes : tuple of Scribe
        Lines to scribe or engrave.
    cutter_path_m : array or None
        Path of the centre of the milling cutter, for the cam. [m]
    """

    name: str
    thickness_m: float
    outline_m: FloatArray
    holes: tuple[Hole, ...]
    cut_slots: tuple[Slot, ...] = ()
    scribes: tuple[Scribe, ...] = ()
    cutter_path_m: FloatArray | None = None

    @property
    def openings_m(self) -> tuple[FloatArray, ...]:
        """Closed cut-outs, corners as for the outline. [m]."""
        return tuple(each.outline_m for each in self.cut_slots)


def hull(*circles: tuple[float, float, float]) -> FloatArray:
    """Return the convex hull of circles, each given as x, y and radius. [m]."""
    from scipy.spatial import ConvexHull

    rims = []
    for x, y, radius in circles:
        count = max(24, math.ceil(math.pi / math.acos(1.0 - CHORD_ERROR_M / radius)))
        turn = 2.0 * math.pi * np.arange(count) / count
        rims.append(np.column_stack([x + radius * np.cos(turn), y + radius * np.sin(turn)]))
    rim = np.concatenate(rims)
    corners: FloatArray = rim[ConvexHull(rim).vertices]
    return corners


def arc(radius_m: float, from_rad: float, to_rad: float) -> FloatArray:
    """Return points on an arc round the origin, within the chord error. [m]."""
    step = 2.0 * math.acos(1.0 - CHORD_ERROR_M / radius_m)
    turn = np.linspace(from_rad, to_rad, max(3, math.ceil(abs(to_rad - from_rad) / step) + 1))
    return np.column_stack([radius_m * np.cos(turn), radius_m * np.sin(turn)])


def arc_slot(radius_m: float, from_rad: float, to_rad: float, width_m: float) -> FloatArray:
    """Return a slot bent round the origin, with round ends, anticlockwise; the angles are its ends'."""
    half = width_m / 2.0
    ends = []
    for angle, first in ((to_rad, to_rad), (from_rad, from_rad + math.pi)):
        cap = arc(half, first, first + math.pi)
        ends.append(cap + radius_m * np.array([math.cos(angle), math.sin(angle)]))
    outer, inner = arc(radius_m + half, from_rad, to_rad), arc(radius_m - half, to_rad, from_rad)
    return np.concatenate([outer[:-1], ends[0][:-1], inner[:-1], ends[1][:-1]])


def slot(x_m: float, from_y_m: float, to_y_m: float, width_m: float) -> FloatArray:
    """Return a straight slot along y with round ends, anticlockwise; from and to are its ends' centres. [m]."""
    half = width_m / 2.0
    top = arc(half, 0.0, math.pi) + np.array([x_m, to_y_m])
    bottom = arc(half, math.pi, 2.0 * math.pi) + np.array([x_m, from_y_m])
    return np.concatenate([top, bottom])


def rounded_box(left_m: float, bottom_m: float, right_m: float, top_m: float) -> FloatArray:
    """Return a box with corners rounded to 6 mm, anticlockwise. [m]."""
    radius = 0.006
    inset = [(x, y) for x in (left_m + radius, right_m - radius) for y in (bottom_m + radius, top_m - radius)]
    return hull(*((x, y, radius) for x, y in inset))
