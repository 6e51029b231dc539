"""The nose of the airplane with an engine in it, cowl off: what stands, and what turns with the propeller."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage.solid.body import cowl_back_m, cowl_radius_m
from viz.stage.solid.engine import ENGINE, cylinder, engine
from viz.stage.solid.parts import circle
from viz.stage.solid.solid import MATT, METAL, Builder

if TYPE_CHECKING:
    from collections.abc import Sequence

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
BLADE_SHARES: Final = (0.08, 0.16, 0.25, 0.4, 0.55, 0.7, 0.82, 0.91, 0.97, 1.0)
"""Where a blade is drawn, over its radius; from its tip inward it is rounded off over the last tenth."""
ROUND_OFF: Final = 0.1
THICK_SHARE: Final = 0.16
"""Thickness of a blade over its chord."""
ROUND: Final = 16
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
    back, hub_x = cowl_back_m(figure), figure.hub[0]
    if setup.kind == "rotary":
        _tube(still, axis, [(back - 0.02, 0.1), (back + 0.16, 0.07)], "steel_dark")
        engine(turning, figure, always=True)
    else:
        _flat(still, setup, axis, (back + 0.06, hub_x - 0.16))
        _tube(turning, axis, [(hub_x - 0.18, 0.05), (hub_x - 0.03, 0.05)], "steel_dark", hinge=SHAFT)
    _propeller(turning, np.array([hub_x, 0.0, figure.hub[2]]), setup)
    return Nose(still.solid(), turning.solid(), axis)


def turned(angle_rad: float) -> dict[str, float]:
    """Return the hinges of what turns at an angle of the shaft, clockwise from the cockpit [rad]."""
    return {SHAFT: angle_rad, ENGINE: angle_rad}


def _tube(builder: Builder, axis: Numbers, rings: Sequence[tuple[float, float]], role: str, *, hinge: str = "") -> None:
    """Add a body of revolution: x and radius of each ring, both ends closed."""
    whole = [(rings[0][0], 0.0), *rings, (rings[-1][0], 0.0)]
    around = circle(ROUND)
    rows = np.array([axis + [x, 0.0, 0.0] + radius * around for x, radius in whole])
    core = axis + np.array([0.5 * (rings[0][0] + rings[-1][0]), 0.0, 0.0])
    builder.skin(rows, role, within=core, finish=METAL, hinge=hinge)


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


def _flat(builder: Builder, setup: EngineSetup, axis: Numbers, ends_m: tuple[float, float]) -> None:
    """Add crankcase and cylinders of a flat engine, in pairs one behind the other."""
    back, front = ends_m
    reach = REACH * (setup.crank_radius_m + setup.rod_length_m)
    inner, bore = 0.95 * (setup.rod_length_m - setup.crank_radius_m), BORE_SHARE * setup.rod_length_m
    _tube(
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


def _propeller(builder: Builder, hub: Numbers, setup: EngineSetup) -> None:
    """Add a boss and the blades, twisted as the sense of the engine asks for."""
    radius = setup.disc_radius_m
    _tube(builder, hub, [(-0.06, 0.055 * radius), (0.06, 0.075 * radius), (0.1, 0.03 * radius)], "wood", hinge=SHAFT)
    sense = np.copysign(1.0, setup.spin_rad_s)
    shares, blade = np.array(BLADE_SHARES), setup.blade
    along = shares * radius
    half = radius * np.interp(shares, blade.radius_share, blade.chord_per_diameter)
    half *= np.sqrt(np.clip(1.0 - ((shares - 1.0 + ROUND_OFF) / ROUND_OFF).clip(0.0) ** 2, 0.02, 1.0))
    twist = sense * np.interp(shares, blade.radius_share, blade.blade_angle_rad)
    for number in range(blade.blades):
        turn = 2.0 * np.pi * number / blade.blades
        away = np.array([0.0, np.sin(turn), -np.cos(turn)])
        aside = np.array([0.0, np.cos(turn), np.sin(turn)])
        chord = np.cos(twist)[:, None] * aside + np.sin(twist)[:, None] * [1.0, 0.0, 0.0]
        normal = np.cos(twist)[:, None] * [1.0, 0.0, 0.0] - np.sin(twist)[:, None] * aside
        spine = hub + along[:, None] * away
        edge = half[:, None] * chord
        thick = THICK_SHARE * half[:, None] * normal
        section = np.stack([spine - edge, spine + thick, spine + edge, spine - thick, spine - edge], axis=1)
        middle = 0.5 * (spine[:-1] + spine[1:])[:, None, :]
        roles = ["wood", *["blade"] * (len(BLADE_SHARES) - 4), "brass", "brass"]
        builder.skin(section, roles, within=middle, finish=MATT, hinge=SHAFT)
