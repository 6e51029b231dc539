"""The shadow of an airplane on the ground, slid down the rays of a low sun so that it stays in the picture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.scenes.camera import NEAR_M

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.scenes.camera import Camera

    Numbers = NDArray[np.float64]

LOW_SUN: Final = np.array([-0.74, -0.10, -0.235])
"""Towards the sun that throws the shadow, north, east, down: lower than the one that lights the airplane."""


def shadow(figure: Figure, camera: Camera, turn: Numbers, height_m: float) -> tuple[list[list[float]], ...]:
    """Return the outlines of wings, body and tail where their shadows fall on the picture.

    Parameters
    ----------
    figure : Figure
        The airplane.
    camera : Camera
        Told from the airplane.
    turn : array, shape (3, 3)
        From body axes to north, east, down.
    height_m : float
        Of the airplane above the ground. [m]
    """
    found = []
    for flat in _outlines(figure):
        at = np.array(flat) @ turn.T
        ground = at + LOW_SUN * ((height_m - at[:, 2:]) / LOW_SUN[2])
        points = camera.seen(ground)
        if points[:, 0].min() > NEAR_M:
            found.append(camera.project(points).tolist())
    return tuple(found)


def _outlines(figure: Figure) -> list[list[tuple[float, float, float]]]:
    body, tail = figure.body, figure.tailplane
    found = []
    for wing in figure.wings:
        (x, _, z), (tip_x, half, tip_z), chord, tip = wing.root, wing.tip, wing.root_chord, wing.tip_chord
        right = [(x, 0.0, z), (tip_x - 0.1, 0.93 * half, tip_z), (tip_x - 0.4 * tip, half, tip_z)]
        right += [(tip_x - tip + 0.1, 0.93 * half, tip_z), (x - chord, 0.0, z)]
        found.append([*right, *((x, -y, z) for x, y, z in reversed(right[1:-1]))])
    wide = 0.5 * body.width_m
    sides = [(body.nose_m, wide, 0.0), (body.full_to_m, wide, 0.0), (body.stern_m, 0.05, 0.0)]
    found.append([*sides, *((x, -y, z) for x, y, z in reversed(sides))])
    x, _, z = tail.quarter
    lead, out = x + 0.25 * tail.chord_m, 0.5 * tail.span_m
    found.append([(lead, 0.0, z), (lead - 0.4, out, z), (lead - tail.chord_m, 0.8 * out, z)])
    found[-1] += [(lead - tail.chord_m, -0.8 * out, z), (lead - 0.4, -out, z)]
    return found
