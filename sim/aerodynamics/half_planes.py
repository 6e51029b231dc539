"""The strips of a wing in one motion: each by its own angle, in a stream turned by what its half plane still lifts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from sim.aerodynamics.strip_flow import strip_state, strip_streams

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from sim.aerodynamics.slipstream import Wash
    from sim.aerodynamics.strip_flow import Motion, Stream, StripState
    from sim.aerodynamics.strips import Strip, Strips
    from sim.numerics.number import MathFunctions, Number


class StripFlow(NamedTuple):
    """One strip of the wing in a motion.

    Attributes
    ----------
    strip : Strip
    states : tuple of StripState
        Right and, where it has a mirror image, left.
    attached : tuple of number
        Lift over that of attached flow by the strip's own angle, on the same sides.
    """

    strip: Strip
    states: tuple[StripState, ...]
    attached: tuple[Number, ...]


def wing_flow(strips: Strips, functions: MathFunctions = math) -> Callable[[Motion, Wash], Iterator[StripFlow]]:
    """Return the function (motion, slipstream) -> `StripFlow` of each strip of the wing, plane by plane.

    Parameters
    ----------
    strips : Strips
    functions : module
        Source of `sqrt` and `atan`.

    Notes
    -----
    The vortices that turn the stream at a strip are shed by its neighbours too. They shrink as the lift does of the
    half of its plane: by the mean, by area, of the lift over that of attached flow. A tip whose neighbours have
    stalled loses the downwash that kept it attached. What the other planes turn is counted as if it shrank alike.
    """
    planes = [
        [(one, strip_streams(one, functions), strip_state(one, functions)) for one in strips.wing if one.name == name]
        for name in dict.fromkeys(strip.name for strip in strips.wing)
    ]

    def flow(now: Motion, wash: Wash) -> Iterator[StripFlow]:
        for plane in planes:  # one after the other: fewer numbers are in use at a time in what is traced
            met = [streams(now, wash) for _, streams, _ in plane]
            halves = _lifting([strip for strip, _, _ in plane], met)
            for (strip, _, state), sides in zip(plane, met, strict=True):
                states = tuple(state(side, half, 0.0) for side, half in zip(sides, halves, strict=False))
                yield StripFlow(strip, states, tuple(side.attached for side in sides))

    return flow


def _lifting(plane: Sequence[Strip], met: Sequence[Sequence[Stream]]) -> list[Number]:
    """Return of the right and of the left half of a plane the mean lift over that of attached flow."""
    area_m2 = sum(strip.area_m2 for strip in plane)
    halves: list[Number] = [0.0] * len(met[0])
    for strip, sides in zip(plane, met, strict=True):
        share = strip.area_m2 / area_m2
        halves = [half + share * side.attached for half, side in zip(halves, sides, strict=True)]
    return halves
