"""Rotary engine in its cowl: finned cylinders, crankcase and shaft, turning together on one hinge."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.body import cowl_back_m
from viz.stage.solid.parts import circle
from viz.stage.solid.solid import METAL

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Builder

    Numbers = NDArray[np.float64]

SIDES: Final = 6
FINS: Final = ((0.0, 0.72, "fin_dark"), (0.25, 1.0, "fin_light"), (0.5, 0.95, "fin_dark"), (0.75, 1.03, "fin_light"))
"""Share of the cylinder's length, radius over its own, colour of what follows."""
HEAD: Final = (1.0, 0.87)
ENGINE: Final = "engine"
CRANKCASE_M: Final = 0.1
"""Half the length of the crankcase of a rotary. [m]"""


def middle_m(figure: Figure) -> float:
    """Return how far ahead of the centre of gravity the plane of the cylinders is [m]."""
    return cowl_back_m(figure) + 0.2


def engine(builder: Builder, figure: Figure, *, always: bool = False) -> None:
    """Add cylinders, crankcase and shaft; seen from ahead of the firewall, or always."""
    ahead_of = -np.inf if always else cowl_back_m(figure)
    hub_x, _, hub_z = figure.hub
    middle = np.array([middle_m(figure), 0.0, hub_z])
    builder.hinge(ENGINE, middle, (1.0, 0.0, 0.0))
    one = figure.cylinders
    for number in range(one.cylinders):
        turn = 2.0 * np.pi * number / one.cylinders
        reach_m = one.inner_radius_m, one.outer_radius_m
        cylinder(builder, middle, turn, reach_m=reach_m, diameter_m=one.diameter_m, ahead_of=ahead_of, hinge=ENGINE)
    around = circle(12)
    wide = one.inner_radius_m + 0.01
    profile = (
        (-CRANKCASE_M, wide, "crankcase"),
        (CRANKCASE_M, wide, "crankcase"),
        (0.16, 0.4 * wide, "fin_dark"),
        (hub_x - middle[0] - 0.02, 0.3 * wide, "fin_light"),
        (hub_x - middle[0], 0.0, "fin_light"),
    )
    rows = np.array([middle + [ahead, 0.0, 0.0] + radius * around for ahead, radius, _ in profile])
    builder.skin(
        rows,
        [role for _, _, role in profile[1:]],
        within=middle - [0.3, 0.0, 0.0],
        finish=METAL,
        ahead_of=ahead_of,
        hinge=ENGINE,
    )


def cylinder(
    builder: Builder,
    middle: Numbers,
    turn_rad: float,
    *,
    reach_m: tuple[float, float],
    diameter_m: float,
    ahead_of: float = -np.inf,
    hinge: str = "",
) -> None:
    """Add a finned cylinder on the shaft's axis: clockwise from straight up [rad], from its foot to its head [m]."""
    away, aside = (
        np.array([0.0, np.sin(turn_rad), -np.cos(turn_rad)]),
        np.array([0.0, np.cos(turn_rad), np.sin(turn_rad)]),
    )
    ahead = np.array([1.0, 0.0, 0.0])
    angle = np.linspace(0.0, 2.0 * np.pi, SIDES + 1)[:, None]
    around = 0.5 * diameter_m * (np.cos(angle) * aside + np.sin(angle) * ahead)
    lengths = [*((share, wide) for share, wide, _ in FINS), HEAD, (1.0, 0.0)]
    foot, reach = reach_m[0], reach_m[1] - reach_m[0]
    rows = np.array([middle + (foot + share * reach) * away + wide * around for share, wide in lengths])
    roles = [*(role for _, _, role in FINS), "fin_light"]
    core = middle + (foot + 0.4 * reach) * away
    builder.skin(rows, roles, within=core, finish=METAL, ahead_of=ahead_of, hinge=hinge)
