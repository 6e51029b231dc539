"""What is too quick for the eye: a propeller as a steady translucent disc, so that nothing flickers."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.shapes import Veil
from viz.stage.solid.parts import circle

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Place
    from viz.stage.scenes.camera import Camera

    Numbers = NDArray[np.float64]
    Rings = tuple[tuple[float, float, float], ...]

SECTORS: Final = 32


def whirl(
    camera: Camera,
    rings: Rings,
    radius_m: float,
    hub_m: Place,
    *,
    turn: Numbers,
    place_m: Numbers,
    role: str = "blade",
    sectors: int = SECTORS,
) -> Veil:
    """Return the disc of a propeller.

    Parameters
    ----------
    camera : Camera
        Which sees it.
    rings : tuple of (from, to, opacity)
        Rings of the disc, over its radius, each beginning where one ends, but for the innermost.
    radius_m, hub_m : float, (x, y, z)
        Radius of the disc and its middle, in body axes. [m]
    turn, place_m
        Of the airplane, as `viz.stage.solid.view.seen` takes them.
    role : str
        Its colour.
    sectors : int
        Sides of the polygons that stand for circles.
    """
    corners, opacity = _circles(rings, radius_m, hub_m, sectors)
    return Veil(camera.project(camera.seen(corners @ turn.T + place_m)).reshape(-1, sectors, 2), opacity, role)


@lru_cache(maxsize=8)
def _circles(rings: Rings, radius_m: float, hub_m: Place, count: int) -> tuple[Numbers, Numbers]:
    """Return corners of circles, the widest first, in body axes [m], and the opacity of each; the last is the hole."""
    around = radius_m * circle(count)[:-1]
    outward = sorted(rings, key=lambda each: -each[1])
    found = [np.array(hub_m) + share * around for share in (*(end for _, end, _ in outward), outward[-1][0])]
    return np.concatenate(found), np.array([*(opacity for _, _, opacity in outward), 0.0])
