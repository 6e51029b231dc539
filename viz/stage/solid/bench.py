"""An engine on a bench: the ring of the gimbal on its post, which stands, and the engine, which swings in it."""

from __future__ import annotations

import itertools
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage.solid.body import cowl_back_m
from viz.stage.solid.engine import CRANKCASE_M, middle_m
from viz.stage.solid.nose import REACH, SHAFT, STAND_M, add_engine, tinted
from viz.stage.solid.parts import body_of_revolution, box, circle
from viz.stage.solid.solid import Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.engine import EngineSetup
    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

RING_ROOM: Final = 1.14
"""Radius of the ring of the gimbal over the reach of the cylinders."""


POINTER_M: Final = 1.0
"""Length of the rod ahead of the hub, at whose end a visitor sees where the nose points. [m]"""


class Bench(NamedTuple):
    """What stands and what swings, about which point, and the end of its nose, in body axes from the CG [m]."""

    still: Solid
    swinging: Solid
    pivot: Numbers
    nose: Numbers


@lru_cache(maxsize=4)
def bench(figure: Figure, setup: EngineSetup) -> Bench:
    """Return an engine with its propeller in a gimbal."""
    back, axis = cowl_back_m(figure), np.array([0.0, 0.0, figure.hub[2]])
    pivot = axis + np.array([back + 0.2, 0.0, 0.0])
    still, swinging = Builder(), Builder()
    swinging.hinge(SHAFT, axis, (1.0, 0.0, 0.0))
    body_of_revolution(swinging, axis, [(back - 0.3, 0.03), (back - 0.28, 0.07), (back + 0.1, 0.07)], "steel_dark")
    if setup.kind == "rotary":
        rear = middle_m(figure) - CRANKCASE_M
        body_of_revolution(swinging, axis, [(rear - 0.01, 0.07), (rear, figure.cylinders.inner_radius_m)], "crankcase")
    add_engine(swinging, swinging, figure, setup)
    hub = np.array(figure.hub)
    nose = hub + np.array([POINTER_M, 0.0, 0.0])
    swinging.rod(hub, nose, "brass", width_m=0.045, pieces=8)
    fixed_m = REACH * (setup.crank_radius_m + setup.rod_length_m)
    _gimbal(still, pivot, RING_ROOM * (figure.cylinders.outer_radius_m if setup.kind == "rotary" else fixed_m))
    return Bench(still.solid(), tinted(swinging.solid(), setup.kind), pivot, nose)


def _gimbal(builder: Builder, pivot: Numbers, radius_m: float) -> None:
    """Add the ring, a post under it, and the bench."""
    around = pivot + radius_m * circle(32)
    for start, end in itertools.pairwise(around):
        builder.rod(start, end, "strut", width_m=0.05)
    low, high = pivot + np.array([-0.05, -0.05, radius_m]), pivot + np.array([0.05, 0.05, STAND_M])
    box(builder, low, high, "steel_dark")
    foot = np.array([0.4, 0.5, 0.0])
    down = np.array([0.0, 0.0, STAND_M])
    box(builder, pivot - foot + 0.78 * down, pivot + foot + down, "strut")
