"""Late-afternoon light on the faces of a solid: sky from above, earth from below, a low warm sun, and its shadows."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.solid import BARE, FABRIC, MATT, METAL

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure

    Numbers = NDArray[np.float64]

SUN: Final = np.array([-0.50, -0.46, -0.70]) / np.sqrt(0.50**2 + 0.46**2 + 0.70**2)
"""Towards the sun, north, east, down."""
WARM: Final = 0.74 * np.array([1.02, 0.93, 0.74])
SKY: Final = np.array([0.33, 0.385, 0.48])
EARTH: Final = np.array([0.30, 0.27, 0.20])
THROUGH: Final = 0.34 * np.array([1.1, 0.86, 0.5])
"""Of the sun behind it, what shines through cloth."""
GLINT: Final = np.array([{FABRIC: 0.04, METAL: 0.6, MATT: 0.055, BARE: 0.0}[kind] for kind in range(4)])
"""How strongly each finish glints."""
PARTS: Final = np.array([EARTH, SKY - EARTH, WARM, THROUGH])
SHARP: Final = 26
SHADE: Final = 0.75
"""Share of the sun that something in between takes away."""
SOFT_M: Final = 0.1
"""Width over which the edge of a shadow fades. [m]"""


def light(
    finish: NDArray[np.intp], *, normals: Numbers, to_eye: Numbers, sun: Numbers, up: Numbers, lit: Numbers
) -> tuple[Numbers, Numbers]:
    """Return what each face gives back of its colour, and what it adds in white, shape (n, 3) each.

    Parameters
    ----------
    finish : array of int, shape (n)
        Of each face.
    normals, to_eye : array, shape (n, 3)
        Unit vectors in body axes.
    sun, up : array, shape (3,)
        Towards the sun, and up, in body axes.
    lit : array, shape (n)
        Share of the sun that reaches each.
    """
    facing, high = (normals @ np.stack([sun, up], axis=1)).T
    given = np.empty((len(finish), 4))
    given[:, 0] = 1.0
    given[:, 1] = 0.5 + 0.5 * high
    given[:, 2] = np.maximum(facing, 0.0) * lit
    given[:, 3] = np.maximum(-facing, 0.0) * (finish == FABRIC) * lit
    colour = given @ PARTS
    colour[finish == BARE] = 1.0
    halfway = np.sqrt(np.maximum(2.0 + 2.0 * (to_eye @ sun), 1e-18))
    mirrored = np.maximum((np.einsum("ij,ij->i", normals, to_eye) + facing) / halfway, 0.0)
    return colour, (mirrored**SHARP * GLINT[finish] * lit)[:, None] * WARM


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
    x, y, z = middles.T
    share = _past_body(figure, middles, sun)
    if sun[2] < -0.05:
        for wing in figure.wings:
            ahead, out = 0.5 * (wing.root[0] + wing.tip[0]), wing.tip[1]
            up = (0.5 * (wing.root[2] + wing.tip[2]) - z) / sun[2]
            behind, aside = ahead - (x + up * sun[0]), np.abs(y + up * sun[1])
            inside = np.minimum(np.minimum(behind, wing.root_chord - behind), out - aside)
            inside[z <= max(wing.root[2], wing.tip[2]) + 0.3] = -SOFT_M
            share = np.minimum(share, _past_edge(inside))
    return share


def _past_edge(inside_m: Numbers) -> Numbers:
    """Return the share of the sun at distances inside the edge of a shadow [m]."""
    return np.asarray(1.0 - SHADE * np.minimum(np.maximum(inside_m / SOFT_M + 0.5, 0.0), 1.0))


def _past_body(figure: Figure, middles: Numbers, sun: Numbers) -> Numbers:
    body = figure.body
    centre = 0.5 * (body.top_m + body.bottom_m)
    around = sun[1] ** 2 + sun[2] ** 2
    if around < 1e-3:
        return np.ones(len(middles))
    y, z = middles[:, 1], middles[:, 2] - centre
    along = -(y * sun[1] + z * sun[2]) / around
    x = middles[:, 0] + along * sun[0]
    thick = np.interp(x, [body.stern_m, body.full_to_m, body.nose_m], [0.08, 0.42, 0.5])
    near = np.abs(y * sun[2] - z * sun[1]) / np.sqrt(around)
    past = (along > 0.0) & (np.hypot(y, z) > 1.45 * thick) & (x < body.nose_m) & (x > body.stern_m)
    return _past_edge(np.where(past, thick - near, -SOFT_M))
