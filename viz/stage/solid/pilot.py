"""Who sits in it: a cockpit with a padded rim, shoulders, scarf, and a head that turns into the turn."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.solid import MATT

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.live.figure_parts import Figure, Place
    from viz.stage.solid.solid import Builder

HEAD: Final = "head"
COAT, SCARF, BELOW = np.array([[-0.03, 0.0, 0.3], [-0.01, 0.0, 0.13], [0.0, 0.0, 2.0]])
"""Middles of shoulders and scarf from that of the head, and what lies well below a cockpit. [m]"""
SIDES: Final = 8
"""Faces round a head."""
ABOVE_M: Final = 0.2
"""The middle of a head stands at least this far above the decking. [m]"""


def pilots(builder: Builder, figure: Figure) -> None:
    """Add everybody aboard."""
    for place in figure.heads:
        _pilot(builder, figure, place)


def _pilot(builder: Builder, figure: Figure, place: Place) -> None:
    x, y, z = place
    deck = figure.body.top_m
    head = np.array([x, y, min(z, deck - ABOVE_M)])
    _cockpit(builder, np.array([x, y, deck - 0.015]), figure.body.width_m)
    _ball(builder, head + COAT, (0.16, 0.23, 0.16), ["coat"] * 3, nearer=0.1)
    _ball(builder, head + SCARF, (0.1, 0.1, 0.06), ["scarf"] * 2, nearer=0.12)
    builder.hinge(HEAD, head, (0.0, 0.0, 1.0))
    _ball(builder, head, (0.125, 0.108, 0.135), ["leather"] * 4, nearer=0.14, hinge=HEAD)
    _face(builder, head)


def _cockpit(builder: Builder, middle: np.ndarray, width_m: float) -> None:
    angle = np.linspace(0.0, 2.0 * np.pi, 11)
    wide = min(0.27, 0.42 * width_m)
    around = np.stack([0.34 * np.cos(angle), wide * np.sin(angle), np.zeros_like(angle)], axis=-1)
    rim = np.array([middle + around, middle + 0.8 * around])
    below = middle + BELOW
    builder.skin(rim, "leather", within=below, finish=MATT, nearer=0.06)
    hole = np.array([rim[1], np.broadcast_to(middle, rim[1].shape)])
    builder.skin(hole, "inside", within=below, finish=MATT, nearer=0.05)


def _ball(
    builder: Builder,
    middle: np.ndarray,
    radii: tuple[float, float, float],
    roles: Sequence[str],
    *,
    nearer: float,
    hinge: str = "",
) -> None:
    """Add an ellipsoid in bands, a colour each from the top down."""
    turn = np.linspace(0.0, 2.0 * np.pi, SIDES + 1)
    down = np.linspace(0.0, np.pi, len(roles) + 1)[:, None]
    ball = np.stack([np.sin(down) * np.cos(turn), np.sin(down) * np.sin(turn), -np.cos(down) + 0.0 * turn], axis=-1)
    builder.skin(middle + ball * radii, roles, within=middle, finish=MATT, nearer=nearer, hinge=hinge)


def _face(builder: Builder, head: np.ndarray) -> None:
    """Add face and goggles on the front of the head."""
    turn = np.linspace(-0.85, 0.85, 4)
    for low, high, role in ((1.15, 1.5, "goggles"), (1.5, 2.3, "face")):
        down = np.linspace(low, high, 3)[:, None]
        patch = np.stack(
            [np.sin(down) * np.cos(turn), np.sin(down) * np.sin(turn), -np.cos(down) + 0.0 * turn], axis=-1
        )
        rows = head + 1.02 * patch * (0.125, 0.108, 0.135)
        builder.skin(rows, role, within=head, finish=MATT, nearer=0.17, hinge=HEAD)
