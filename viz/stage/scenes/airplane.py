"""An airplane of a hundred faces, shaped from the scenario's own span, chord, gap, height of the wing and tail."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.scenes.mesh import Builder, Mesh

if TYPE_CHECKING:
    from sim.live.scene_data import Figure

RING = 8
WING_PANELS = 3


@dataclass(frozen=True, slots=True)
class _Places:
    """Where the big parts sit along x, forward of the centre of gravity [m]."""

    nose: float
    cowl_end: float
    cockpit: float
    tail: float


def _places(figure: Figure) -> _Places:
    tail = -(figure.tail_arm_m + 0.6 * figure.tail_chord_m)
    nose = max(tail + figure.length_m, 0.6 * figure.chord_m)
    return _Places(nose, nose - 0.15 * figure.length_m, nose - 0.45 * figure.length_m, tail)


@lru_cache(maxsize=4)
def airplane(figure: Figure) -> Mesh:
    """Return the mesh of an airplane in body axes: x forward, y right, z down, from the centre of gravity [m]."""
    builder, places = Builder(), _places(figure)
    _fuselage(builder, figure, places)
    heights = _plane_heights(figure)
    for index, height in enumerate(heights):
        ahead = figure.stagger_m * (0.5 - index / max(1, len(heights) - 1)) if len(heights) > 1 else 0.0
        _wing(builder, figure, height, ahead)
    _struts(builder, figure, heights)
    _tail(builder, figure, places)
    _undercarriage(builder, figure, places)
    return builder.mesh()


def nose_m(figure: Figure) -> tuple[float, float, float]:
    """Return the point of the propeller hub in body axes [m]."""
    return _places(figure).nose, 0.0, 0.0


def _plane_heights(figure: Figure) -> list[float]:
    """Return z of each plane, uppermost first [m]."""
    if figure.planes == 1:
        return [-figure.wing_height_m]
    bottom = 0.42 * figure.depth_m
    return [bottom - figure.gap_m * (figure.planes - 1 - index) for index in range(figure.planes)]


def _ring(x: float, width: float, depth: float, centre_z: float = 0.0) -> list[tuple[float, float, float]]:
    angles = [math.tau * (step + 0.5) / RING for step in range(RING)]
    return [(x, 0.5 * width * math.sin(a), centre_z - 0.5 * depth * math.cos(a)) for a in angles]


def _fuselage(builder: Builder, figure: Figure, places: _Places) -> None:
    across = 1.05 * max(figure.width_m, figure.depth_m)
    rings = [
        _ring(places.nose, 0.78 * across, 0.78 * across),
        _ring(places.nose - 0.04 * figure.length_m, across, across),
        _ring(places.cowl_end, across, across),
        _ring(places.cockpit, figure.width_m, figure.depth_m),
        _ring(places.tail, 0.14 * figure.width_m, 0.3 * figure.depth_m, -0.1 * figure.depth_m),
    ]
    roles = ("cowl", "cowl", "fuselage", "fuselage")
    for before, after, role in zip(rings, rings[1:], roles, strict=False):
        for step in range(RING):
            other = (step + 1) % RING
            builder.face([before[step], before[other], after[other], after[step]], role)
    builder.face([rings[0][step] for step in (0, 2, 4, 6)], "cowl")
    builder.face([rings[-1][step] for step in (6, 4, 2, 0)], "fuselage")


def _wing(builder: Builder, figure: Figure, height: float, ahead: float) -> None:
    front, back = ahead + 0.35 * figure.chord_m, ahead - 0.65 * figure.chord_m
    thick, rise = 0.07 * figure.chord_m, math.tan(figure.dihedral_rad)
    for side in (-1.0, 1.0):
        for panel in range(WING_PANELS):
            edges = [0.5 * figure.span_m * (panel + step) / WING_PANELS for step in (0, 1)]
            inner, outer = (_section(side * y, height - rise * y, front=front, back=back, thick=thick) for y in edges)
            builder.slab(inner, outer, side > 0.0, end=panel == WING_PANELS - 1)


def _section(y: float, z: float, *, front: float, back: float, thick: float) -> list[tuple[float, float, float]]:
    """Return front top, back top, back bottom, front bottom of a wing section."""
    return [(front, y, z - thick), (back, y, z), (back, y, z + 0.01), (front, y, z + 0.2 * thick)]


def _parasol(builder: Builder, figure: Figure) -> None:
    """Put a single plane that is clear of the fuselage on its cabane and its lift struts."""
    out, half = 0.28 * figure.span_m, 0.5 * figure.depth_m
    tip = -figure.wing_height_m - math.tan(figure.dihedral_rad) * out
    for side in (-1.0, 1.0):
        for x in (0.2 * figure.chord_m, -0.3 * figure.chord_m):
            builder.strut((x, 0.5 * side, -figure.wing_height_m), (x, 0.35 * side, -0.8 * half))
            builder.strut((x, side * out, tip), (0.5 * x, 0.4 * side * figure.width_m, 0.8 * half))


def _struts(builder: Builder, figure: Figure, heights: list[float]) -> None:
    if len(heights) == 1 and figure.wing_height_m > 0.5 * figure.depth_m:
        _parasol(builder, figure)
    rise = math.tan(figure.dihedral_rad)
    for top, bottom in pairwise(heights):
        for side in (-1.0, 1.0):
            for x in (0.22 * figure.chord_m, -0.35 * figure.chord_m):
                y = side * 0.36 * figure.span_m
                z = rise * abs(y)
                ahead = 0.5 * figure.stagger_m
                builder.strut((x + ahead, y, top - z), (x - ahead, y, bottom - z))
                builder.strut((x + ahead, 0.5 * side, top), (x, 0.35 * side, -0.4 * figure.depth_m))


def _tail(builder: Builder, figure: Figure, places: _Places) -> None:
    z = -0.15 * figure.depth_m
    front = -figure.tail_arm_m + 0.4 * figure.tail_chord_m
    back = places.tail
    half = 0.5 * figure.tail_span_m
    for side in (-1.0, 1.0):
        builder.plate(
            [
                (front, 0.0, z),
                (front - 0.25 * figure.tail_chord_m, side * half, z),
                (back, side * half, z),
                (back, 0.0, z),
            ],
            "tail",
        )
    top = z - figure.fin_height_m
    root = back + 1.1 * figure.fin_chord_m
    rear = back - 0.25 * figure.fin_chord_m
    builder.plate(
        [(root, 0.0, z), (back + 0.5 * figure.fin_chord_m, 0.0, top), (rear, 0.0, top), (rear, 0.0, z)], "tail"
    )


def _undercarriage(builder: Builder, figure: Figure, places: _Places) -> None:
    x, drop = 0.5 * figure.chord_m, 0.5 * figure.depth_m + 0.75
    half = 0.09 * figure.span_m
    radius = 0.32
    for side in (-1.0, 1.0):
        hub = (x, side * half, drop)
        builder.strut((x + 0.3, 0.4 * side * figure.width_m, 0.4 * figure.depth_m), hub)
        builder.strut((x - 0.6, 0.4 * side * figure.width_m, 0.4 * figure.depth_m), hub)
        angles = [math.tau * step / 4 for step in range(4)]
        rim = [(x + radius * math.cos(a), side * half, drop + radius * math.sin(a)) for a in angles]
        builder.plate(rim, "wheel")
    builder.strut((x, -half, drop), (x, half, drop))
    builder.strut((places.tail + 0.3, 0.0, 0.0), (places.tail, 0.0, 0.45))


def disc_rim(figure: Figure, marks: int = 20) -> np.ndarray:
    """Return points of the propeller's rim in body axes, shape (marks, 3) [m]."""
    angles = np.linspace(0.0, math.tau, marks)
    radius = figure.disc_radius_m
    x = np.full(marks, _places(figure).nose + 0.1)
    return np.stack([x, radius * np.sin(angles), -radius * np.cos(angles)], axis=-1)
