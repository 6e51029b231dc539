"""Greatest lift of the airplane: from its sections, planform, planes, fuselage and the load of its tail."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.numerics.uncertain import Uncertain

if TYPE_CHECKING:
    from sim.aerodynamics.drag_wing import FirstStall

SURFACE = Uncertain(0.93, 0.04)
"""Largest lift of a section as built over that of a smooth one: a rough nose takes 11 to 14 % (Selig, Maughmer and
Somers, J. Aircraft 32, 1995, at a Reynolds number of 2.6e6); fabric and paint take about half of it."""
CARRIED_OVER = Uncertain(0.8, 0.2)
"""Lift of the part of a plane in the fuselage over that of the plane beside it (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class LiftMax:
    """Greatest lift, from the section to the airplane in trim.

    Attributes
    ----------
    section_lift_max : Uncertain
        Largest lift of the section, smooth; with several planes their mean by area.
    surface_factor : Uncertain
        For the surface as built; 1 where the section's data are given.
    planform_factor : Uncertain
        Lift of the wing over that of all its sections at their largest: between the stall of the first strip and that
        of the last.
    first_plane : str
        The plane that stalls first.
    first_span_share : float
        Where along its semi-span, 0 at the root, in semi-spans of the widest plane.
    fuselage_factor : Uncertain
        Loss where the fuselage covers the wing.
    trim_lift : float
        Lift coefficient of the tail in trim, on the area of the wing.
    lift_max : Uncertain
        Of the airplane.
    """

    section_lift_max: Uncertain
    surface_factor: Uncertain
    planform_factor: Uncertain
    first_plane: str
    first_span_share: float
    fuselage_factor: Uncertain
    trim_lift: float
    lift_max: Uncertain


def planform_factor(stall: FirstStall) -> Uncertain:
    """Return the lift of a wing over that of all its sections at their largest.

    Notes
    -----
    In the middle between the stall of the first strip and that of every strip, evenly likely from one to the other: a
    rectangular wing of aspect ratio 6 has .93 ± .04, where wings and sections of NACA Reports 460 and 824 have .95 to
    .97 (from memory). Two like planes a chord apart lose some 4 % beside one.
    """
    first = stall.lift_first / stall.lift_all
    return Uncertain(0.5 * (1.0 + first), 0.5 * (1.0 - first) / math.sqrt(3.0))


def fuselage_factor(covered_share: float) -> Uncertain:
    """Return the lift of a wing whose fuselage covers a share of its area over that without a fuselage."""
    return Uncertain(
        1.0 - covered_share * (1.0 - CARRIED_OVER.value),
        covered_share * CARRIED_OVER.band,
    )


def trim_lift(wing_lift: float, *, moment_chords: float, arm_m: float, chord_m: float, tail_arm_m: float) -> float:
    """Return the lift of the tail in trim, on the area of the wing, downwards negative.

    Parameters
    ----------
    wing_lift : float
        Lift coefficient of the wing.
    moment_chords : float
        Moment coefficient of the wing about its quarter chord, nose up positive.
    arm_m, chord_m, tail_arm_m : float
        From the centre of gravity to the quarter chord, aft positive; mean chord; from the centre of gravity to the
        tail, aft positive, not 0. [m]
    """
    return (moment_chords * chord_m - wing_lift * arm_m) / tail_arm_m
