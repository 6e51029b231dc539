"""The whole airplane as a solid."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from viz.stage.solid.body import body, plain_body
from viz.stage.solid.bracing import bracing, wheels
from viz.stage.solid.engine import engine
from viz.stage.solid.pilot import pilots
from viz.stage.solid.solid import Builder
from viz.stage.solid.tail import tail
from viz.stage.solid.wing import plain_wing, wing

if TYPE_CHECKING:
    from sim.live.figure_parts import Figure
    from viz.stage.solid.solid import Solid


@lru_cache(maxsize=4)
def airplane(figure: Figure) -> Solid:
    """Return the solid of an airplane in body axes from its centre of gravity: x forward, y right, z down [m]."""
    builder = Builder()
    for number, one in enumerate(figure.wings):
        wing(builder, figure, one, number)
    body(builder, figure)
    engine(builder, figure)
    tail(builder, figure)
    bracing(builder, figure)
    wheels(builder, figure)
    pilots(builder, figure)
    return builder.solid()


@lru_cache(maxsize=4)
def ghost(figure: Figure) -> Solid:
    """Return a plainer solid of it for a ghost, whose outline alone is seen: no ribs, no engine, no pilot."""
    builder = Builder(whole_rods=True)
    for one in figure.wings:
        plain_wing(builder, figure, one)
    plain_body(builder, figure)
    tail(builder, figure)
    bracing(builder, figure)
    wheels(builder, figure, plain=True)
    return builder.solid()
