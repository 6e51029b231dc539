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
        Rings of the disc, over its radius.
    radius_m, hub_m : float, (x, y, z)
        Radius of the disc and its middle, in body axes. [m]
    turn, place_m
        Of the airplane, as `viz.stage.solid.view.seen` takes them.
    role : str
        Its colour.
    sectors : int
        Into which each ring is cut.
    """
    corners, opacity = _sectors(rings, radius_m, hub_m, sectors)
    return Veil(camera.project(camera.seen(corners @ turn.T + place_m)).reshape(-1, 4, 2), opacity, role)


@lru_cache(maxsize=8)
def _sectors(rings: Rings, radius_m: float, hub_m: Place, count: int) -> tuple[Numbers, Numbers]:
    """Return corners of the sectors of rings, four by four, in body axes [m], and the opacity of each sector."""
    around = radius_m * circle(count)
    found: list[Numbers] = []
    for start, end, _ in rings:
        inner, outer = (np.array(hub_m) + share * around for share in (start, end))
        found.append(np.stack([inner[:-1], inner[1:], outer[1:], outer[:-1]], axis=1))
    return np.concatenate(found).reshape(-1, 3), np.repeat([share for _, _, share in rings], count)
