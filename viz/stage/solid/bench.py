"""An engine on a bench: the ring of the gimbal on its post, which stands, and the engine, which swings in it."""

from __future__ import annotations

import itertools
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage.solid.body import cowl_back_m
from viz.stage.solid.engine import engine
from viz.stage.solid.nose import REACH, SHAFT, STAND_M, flat
from viz.stage.solid.parts import body_of_revolution, box, circle
from viz.stage.solid.propeller import add_propeller
from viz.stage.solid.solid import Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.engine import EngineSetup
    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

RING_ROOM: Final = 1.14
"""Radius of the ring of the gimbal over the reach of the cylinders."""


class Bench(NamedTuple):
    """What stands and what swings, and about which point, in body axes from the centre of gravity [m]."""

    still: Solid
    swinging: Solid
    pivot: Numbers


@lru_cache(maxsize=4)
def bench(figure: Figure, setup: EngineSetup) -> Bench:
    """Return an engine with its propeller in a gimbal."""
    back, hub = cowl_back_m(figure), np.array([figure.hub[0], 0.0, figure.hub[2]])
    axis = np.array([0.0, 0.0, hub[2]])
    pivot = np.array([back + 0.2, 0.0, hub[2]])
    still, swinging = Builder(), Builder()
    swinging.hinge(SHAFT, axis, (1.0, 0.0, 0.0))
    body_of_revolution(swinging, axis, [(back - 0.3, 0.03), (back - 0.28, 0.07), (back + 0.1, 0.07)], "steel_dark")
    if setup.kind == "rotary":
        engine(swinging, figure, always=True)
        reach = figure.cylinders.outer_radius_m
    else:
        flat(swinging, setup, axis, (back + 0.06, hub[0] - 0.16))
        body_of_revolution(swinging, axis, [(hub[0] - 0.18, 0.05), (hub[0] - 0.03, 0.05)], "steel_dark", hinge=SHAFT)
        reach = REACH * (setup.crank_radius_m + setup.rod_length_m)
    sense = float(np.copysign(1.0, setup.spin_rad_s))
    add_propeller(swinging, hub, setup.blade, radius_m=setup.disc_radius_m, sense=sense, hinge=SHAFT)
    _gimbal(still, pivot, RING_ROOM * reach)
    return Bench(still.solid(), swinging.solid(), pivot)


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
