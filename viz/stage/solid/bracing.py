"""Struts, wires, wheels, axle and skid."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.solid import MATT

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure, WheelFigure
    from viz.stage.solid.solid import Builder

STRUT_M, WIRE_M, AXLE_M = 0.05, 0.008, 0.05
PIECE_M: Final = 0.7
"""Rods are cut into pieces of about this length. [m]"""
ROUND, PLAIN_ROUND = 12, 10
"""Faces round a wheel, and round one of which the outline alone is seen."""
TYRE_SHARE, TYRE_M = 0.74, 0.05
"""Radius of the cloth of a wheel over that of its tyre, and half the width of that. [m]"""


def bracing(builder: Builder, figure: Figure) -> None:
    """Add struts and wires as they are laid out."""
    for rods, role, wide in ((figure.struts, "strut", STRUT_M), (figure.wires, "wire", WIRE_M)):
        for one, other in rods:
            builder.rod(one, other, role, width_m=wide, pieces=_pieces(one, other))


def _pieces(one: tuple[float, float, float], other: tuple[float, float, float]) -> int:
    return max(2, round(float(np.linalg.norm(np.subtract(one, other))) / PIECE_M))


def wheels(builder: Builder, figure: Figure, *, plain: bool = False) -> None:
    """Add wheels with their legs and axle, and the skid; plain for the sake of their outline alone."""
    pair = [wheel for wheel in figure.wheels if wheel.radius_m]
    skids = [wheel for wheel in figure.wheels if not wheel.radius_m]
    for wheel in pair:
        _wheel(builder, wheel, plain=plain)
        _legs(builder, figure, wheel)
    if len(pair) == 2:
        builder.rod(pair[0].axle, pair[1].axle, "steel", width_m=AXLE_M, pieces=6)
    for skid in skids:
        x, y, z = skid.axle
        top = (x + 0.25, y, np.interp(x, [figure.body.stern_m, figure.body.full_to_m], _under(figure)))
        builder.rod(top, (x, y, z), "strut", width_m=AXLE_M, pieces=2)


def _under(figure: Figure) -> list[float]:
    return [figure.body.stern_bottom_m, figure.body.bottom_m]


def _legs(builder: Builder, figure: Figure, wheel: WheelFigure) -> None:
    x, y, z = wheel.axle
    side = 1.0 if y > 0.0 else -1.0
    foot = (x, y - side * 0.14, z)
    for ahead in (0.12, -0.7):
        head = (x + ahead, side * 0.4 * figure.body.width_m, figure.body.bottom_m - 0.04)
        builder.rod(head, foot, "strut", width_m=STRUT_M, pieces=3)
    builder.rod(
        (x - 0.7, -side * 0.4 * figure.body.width_m, figure.body.bottom_m), foot, "wire", width_m=WIRE_M, pieces=4
    )


def _wheel(builder: Builder, wheel: WheelFigure, *, plain: bool) -> None:
    x, y, z = wheel.axle
    angle = np.linspace(0.0, 2.0 * np.pi, (PLAIN_ROUND if plain else ROUND) + 1)
    around = np.stack([np.cos(angle), np.zeros_like(angle), np.sin(angle)], axis=-1)
    middle, r = np.array([x, y, z]), wheel.radius_m

    def ring(radius: float, out: float) -> NDArray[np.float64]:
        return np.asarray(middle + [0.0, out, 0.0] + radius * around)

    if plain:
        builder.skin([ring(0.0, -TYRE_M), ring(r, -TYRE_M), ring(r, TYRE_M), ring(0.0, TYRE_M)], "tyre", within=middle)
        return
    tyre = [
        ring(TYRE_SHARE * r, -TYRE_M),
        ring(r, -0.5 * TYRE_M),
        ring(r, 0.5 * TYRE_M),
        ring(TYRE_SHARE * r, TYRE_M),
    ]
    core = 0.88 * r * 0.5 * (around[:-1] + around[1:]) + middle
    builder.skin(tyre, "tyre", within=core[None], finish=MATT)
    for side in (-1.0, 1.0):
        dish = [ring(TYRE_SHARE * r, side * TYRE_M), ring(0.0, side * (TYRE_M + 0.05))]
        builder.skin(dish, "linen", within=middle)
