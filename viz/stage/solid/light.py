"""Late-afternoon light on the faces of a solid: sky from above, earth from below, a low warm sun, and its shadows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.solid import BARE, FABRIC, METAL

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

SUN: Final = np.array([-0.50, -0.46, -0.70]) / np.sqrt(0.50**2 + 0.46**2 + 0.70**2)
"""Towards the sun, north, east, down."""
WARM: Final = 0.74 * np.array([1.02, 0.93, 0.74])
SKY: Final = np.array([0.33, 0.385, 0.48])
EARTH: Final = np.array([0.30, 0.27, 0.20])
THROUGH: Final = 0.34 * np.array([1.1, 0.86, 0.5])
"""Of the sun behind it, what shines through cloth."""
GLINT: Final = {FABRIC: 0.04, METAL: 0.6}
OTHER_GLINT: Final = 0.055
SHARP: Final = 26
SHADE: Final = 0.75
"""Share of the sun that something in between takes away."""
SOFT_M: Final = 0.1
"""Width over which the edge of a shadow fades. [m]"""


def light(
    solid: Solid, faces: NDArray[np.intp], *, normals: Numbers, to_eye: Numbers, sun: Numbers, up: Numbers, lit: Numbers
) -> tuple[Numbers, Numbers]:
    """Return what each face gives back of its colour, and what it adds in white, shape (n, 3) each.

    Parameters
    ----------
    solid : Solid
        Whose faces they are.
    faces : array of int
        Those that are seen.
    normals, to_eye : array, shape (n, 3)
        Unit vectors in body axes.
    sun, up : array, shape (3,)
        Towards the sun, and up, in body axes.
    lit : array, shape (n)
        Share of the sun that reaches each.
    """
    finish = solid.finish[faces]
    facing, high = normals @ sun, (0.5 + 0.5 * (normals @ up))[:, None]
    direct = (np.clip(facing, 0.0, None) * lit)[:, None] * WARM
    behind = (np.where(finish == FABRIC, np.clip(-facing, 0.0, None), 0.0) * lit)[:, None] * THROUGH
    given = high * SKY + (1.0 - high) * EARTH + direct + behind
    half = to_eye + sun
    half /= np.maximum(np.linalg.norm(half, axis=1, keepdims=True), 1e-9)
    strength = np.select([finish == kind for kind in GLINT], list(GLINT.values()), OTHER_GLINT)
    glint = (np.clip(np.einsum("ij,ij->i", normals, half), 0.0, None) ** SHARP * strength * lit)[:, None] * WARM
    bare = (finish == BARE)[:, None]
    return np.where(bare, 1.0, given), np.where(bare, 0.0, glint)


def sunlit(figure: Figure, middles: Numbers, sun: Numbers) -> Numbers:
    """Return the share of the sun that reaches places of an airplane past its own planes and its fuselage.

    Parameters
    ----------
    figure : Figure
        The airplane.
    middles : array, shape (n, 3)
        Places, body axes. [m]
    sun : array, shape (3,)
        Towards the sun, body axes.
    """
    share = np.ones(len(middles))
    if sun[2] < -0.05:
        for wing in figure.wings:
            ahead, out = 0.5 * (wing.root[0] + wing.tip[0]), wing.tip[1]
            up = (0.5 * (wing.root[2] + wing.tip[2]) - middles[:, 2]) / sun[2]
            at = middles + up[:, None] * sun
            inside = np.minimum.reduce([ahead - at[:, 0], at[:, 0] - ahead + wing.root_chord, out - np.abs(at[:, 1])])
            below = middles[:, 2] > max(wing.root[2], wing.tip[2]) + 0.3
            share = np.where(below, np.minimum(share, 1.0 - SHADE * np.clip(inside / SOFT_M + 0.5, 0.0, 1.0)), share)
    return np.minimum(share, _past_body(figure, middles, sun))


def _past_body(figure: Figure, middles: Numbers, sun: Numbers) -> Numbers:
    body = figure.body
    centre = 0.5 * (body.top_m + body.bottom_m)
    around = sun[1] ** 2 + sun[2] ** 2
    if around < 1e-3:
        return np.ones(len(middles))
    y, z = middles[:, 1], middles[:, 2] - centre
    along = -(y * sun[1] + z * sun[2]) / around
    at = middles + along[:, None] * sun
    thick = np.interp(at[:, 0], [body.stern_m, body.full_to_m, body.nose_m], [0.08, 0.42, 0.5])
    near = np.hypot(at[:, 1], at[:, 2] - centre)
    past = (along > 0.0) & (np.hypot(y, z) > 1.45 * thick) & (at[:, 0] < body.nose_m) & (at[:, 0] > body.stern_m)
    return np.where(past, 1.0 - SHADE * np.clip((thick - near) / SOFT_M + 0.5, 0.0, 1.0), 1.0)
