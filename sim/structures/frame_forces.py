"""What a loaded frame bears: axial loads, beams along their spans, movements and reactions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class SpanForces:
    """A span of a beam under its load.

    Attributes
    ----------
    beam : str
        Whose it is.
    number : int
        Which span, from 0.
    thrust_n : float
        Compression positive. [N]
    places_m : array, shape (N,)
        From the first end. [m]
    up, side : array, shape (N, 4)
        Deflection, slope, bending moment and shear there, in both planes. [m, rad, N m, N]
    """

    beam: str
    number: int
    thrust_n: float
    places_m: Numbers
    up: Numbers
    side: Numbers


@dataclass(frozen=True, slots=True, eq=False)
class FrameForces:
    """A loaded frame.

    Attributes
    ----------
    bars_n : dict of float
        Axial load of each bar, tension positive; 0 of a wire that is slack. [N]
    spans : tuple of SpanForces
        Of every beam, in its order.
    moved_m : dict of array
        Movement of each node. [m]
    reactions_n : dict of array
        Force of the ground on each node that is held. [N]
    """

    bars_n: dict[str, float]
    spans: tuple[SpanForces, ...]
    moved_m: dict[str, Numbers]
    reactions_n: dict[str, Numbers]
