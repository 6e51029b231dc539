"""The nose of the airplane with an engine in it, cowl off: what stands, and what turns with the propeller."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage.solid.body import cowl_back_m, cowl_radius_m
from viz.stage.solid.engine import ENGINE, cylinder, engine
from viz.stage.solid.parts import body_of_revolution, circle
from viz.stage.solid.propeller import add_propeller
from viz.stage.solid.solid import MATT, METAL, Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.engine import EngineSetup
    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

SHAFT: Final = "shaft"
BACK_M: Final = 0.75
"""How much of the fuselage is left behind the firewall. [m]"""
STAND_M: Final = 1.35
"""Height of the shaft above the ground on which the nose is set up. [m]"""
TINTED: Final = ("fin_light", "fin_dark", "crankcase")
"""Roles of an engine that have a tint of each kind."""
BORE_SHARE: Final = 0.36
"""Width of a cylinder over the rod, of a fixed engine."""
REACH: Final = 1.32
"""Heads of its cylinders from the shaft axis, over the farthest piston pin."""


class Nose(NamedTuple):
    """What stands and what turns about the shaft, in body axes from the centre of gravity [m]."""

    still: Solid
    turning: Solid
    shaft: Numbers


@lru_cache(maxsize=4)
def nose(figure: Figure, setup: EngineSetup) -> Nose:
    """Return the nose of an airplane with an engine."""
    still, turning = Builder(), Builder()
    axis = np.array([0.0, 0.0, figure.hub[2]])
    turning.hinge(SHAFT, axis, (1.0, 0.0, 0.0))
    _stand(still, figure)
    if setup.kind == "rotary":
        back = cowl_back_m(figure)
        body_of_revolution(still, axis, [(back - 0.02, 0.1), (back + 0.16, 0.07)], "steel_dark")
    add_engine(still, turning, figure, setup)
    return Nose(tinted(still.solid(), setup.kind), tinted(turning.solid(), setup.kind), axis)


def tinted(solid: Solid, kind: str) -> Solid:
    """Return a solid with the metal of its engine in a warm tint where that is a rotary, in a cool one where not."""
    return replace(solid, roles=tuple(f"{kind}_{role}" if role in TINTED else role for role in solid.roles))


def add_engine(still: Builder, turning: Builder, figure: Figure, setup: EngineSetup) -> None:
    """Add an engine with its propeller on the shaft of an airplane: what of it stands, and what turns on `SHAFT`."""
    (hub_x, _, shaft_z), back = figure.hub, cowl_back_m(figure)
    axis = np.array([0.0, 0.0, shaft_z])
    if setup.kind == "rotary":
        engine(turning, figure, always=True)
    else:
        flat(still, setup, axis, (back + 0.06, hub_x - 0.16))
        body_of_revolution(turning, axis, [(hub_x - 0.18, 0.05), (hub_x - 0.03, 0.05)], "steel_dark", hinge=SHAFT)
    hub, sense = np.array([hub_x, 0.0, shaft_z]), float(np.copysign(1.0, setup.spin_rad_s))
    add_propeller(turning, hub, setup.blade, radius_m=setup.disc_radius_m, sense=sense, hinge=SHAFT)


def turned(angle_rad: float) -> dict[str, float]:
    """Return the hinges of what turns at an angle of the shaft, clockwise from the cockpit [rad]."""
    return {SHAFT: angle_rad, ENGINE: angle_rad}


def _stand(builder: Builder, figure: Figure) -> None:
    """Add the fuselage behind the firewall, the firewall, and the trestle on which it is set up."""
    x, radius, axis_z = cowl_back_m(figure), cowl_radius_m(figure), figure.hub[2]
    around = circle(28)
    rings = [(x - BACK_M, 1.03), (x - 0.5 * BACK_M, 1.0), (x, 0.97)]
    rows = np.array([[at, 0.0, axis_z] + share * radius * around for at, share in rings])
    builder.skin(rows, ["linen", "metal"], within=[x - 0.4, 0.0, axis_z], finish=METAL)
    wall = np.array([[x, 0.0, axis_z] + share * radius * around for share in (0.97, 0.0)])
    builder.skin(wall, "firewall", within=[x - 1.0, 0.0, axis_z], finish=MATT, nearer=-0.1)
    for side in (-1.0, 1.0):
        top = np.array([x - 0.35, side * 0.35, axis_z + 0.8 * radius])
        for ahead in (-0.35, 0.3):
            foot = np.array([x - 0.35 + ahead, side * 0.6, axis_z + STAND_M])
            builder.rod(top, foot, "strut", width_m=0.06, pieces=4)


def flat(builder: Builder, setup: EngineSetup, axis: Numbers, ends_m: tuple[float, float]) -> None:
    """Add crankcase and cylinders of a flat engine, in pairs one behind the other."""
    back, front = ends_m
    reach = REACH * (setup.crank_radius_m + setup.rod_length_m)
    inner, bore = 0.95 * (setup.rod_length_m - setup.crank_radius_m), BORE_SHARE * setup.rod_length_m
    body_of_revolution(
        builder,
        axis,
        [(back, 0.5 * inner), (back + 0.03, inner), (front - 0.05, inner), (front, 0.45 * inner)],
        "crankcase",
    )
    pairs = -(-setup.cylinders // 2)
    pitch = (front - back - 0.06) / max(pairs, 1)
    for number in range(setup.cylinders):
        middle = axis + np.array([front - 0.04 - (number // 2 + 0.5) * pitch, 0.0, 0.0])
        side = 0.5 * np.pi if number % 2 == 0 else -0.5 * np.pi
        cylinder(builder, middle, side, reach_m=(0.9 * inner, reach), diameter_m=min(1.3 * bore, 0.9 * pitch))
