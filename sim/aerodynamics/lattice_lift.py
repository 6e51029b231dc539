"""What several planes lift, together and each, from the lift of their panels: of a lattice and in plane flow alike."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Order = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class PlaneLift:
    """What one plane bears, on its own area; of a plane of infinite span, on its chord.

    Attributes
    ----------
    lift_slope_per_rad : float
        [1/rad]
    share : float
        Of the lift that angle of attack adds.
    lift_at_zero : float
        Lift coefficient with the datum along the stream.
    aerodynamic_centre_m : float
        Aft of the datum. [m]
    """

    lift_slope_per_rad: float
    share: float
    lift_at_zero: float
    aerodynamic_centre_m: float


@dataclass(frozen=True, slots=True)
class PlanesLift:
    """What all planes bear, on the sum of their areas; of planes of infinite span, on the sum of their chords.

    Attributes
    ----------
    lift_slope_per_rad : float
        [1/rad]
    lift_at_zero : float
        Lift coefficient with the datum along the stream.
    aerodynamic_centre_m : float
        Aft of the datum. [m]
    planes : tuple of PlaneLift
        In the order given.
    """

    lift_slope_per_rad: float
    lift_at_zero: float
    aerodynamic_centre_m: float
    planes: tuple[PlaneLift, ...]


def planes_lift(plane: Order, place_m: Numbers, alpha: Numbers, at_zero: Numbers, *, sizes: Numbers) -> PlanesLift:
    """Return the lift of all planes and of each.

    Parameters
    ----------
    plane : array of int, shape (panels,)
        Number of each panel's plane, from 0.
    place_m : array, shape (panels,)
        Of its bound vortex, aft of the datum. [m]
    alpha, at_zero : array, shape (panels,)
        Its lift over dynamic pressure for a unit of angle of attack, and with the datum along the stream.
        [m²/rad, m²; of planes of infinite span m/rad, m]
    sizes : array, shape (planes,)
        Area of each plane, or its chord where the span is infinite. [m², m]
    """
    lifts, starts, moments = (np.bincount(plane, weights=each) for each in (alpha, at_zero, alpha * place_m))
    each = np.column_stack((lifts / sizes, lifts / lifts.sum(), starts / sizes, moments / lifts))
    whole = float(sizes.sum())
    return PlanesLift(
        lift_slope_per_rad=float(lifts.sum()) / whole,
        lift_at_zero=float(starts.sum()) / whole,
        aerodynamic_centre_m=float(moments.sum() / lifts.sum()),
        planes=tuple(PlaneLift(*row) for row in each.tolist()),
    )
