"""Air loads and weight of the planes of a wing, strip by strip, in straight flight at any load factor."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, sin
from typing import TYPE_CHECKING

import numpy as np

from sim.atmosphere import GRAVITY_M_S2
from sim.structures.spar_loads import StripLoads

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.airframe.wing import Plane

    Numbers = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class PlaneLift:
    """Lift of one plane.

    Attributes
    ----------
    spanwise_m, width_m : array, shape (strips,)
        Buttline and width of the strips, from the left tip. [m]
    lift_n_per_m : array, shape (strips,)
        Lift over width, across the stream. [N/m]
    moment_change : array, shape (strips,), or float
        Added to the moment coefficient of the section: of ailerons.
    """

    spanwise_m: Numbers
    width_m: Numbers
    lift_n_per_m: Numbers
    moment_change: Numbers | float = 0.0


@dataclass(frozen=True, slots=True)
class PlaneCondition:
    """What bears on a plane besides its lift.

    Attributes
    ----------
    pressure_pa : float
        Dynamic pressure. [Pa]
    alpha_rad : float
        Angle of attack of the x axis. [rad]
    induced_over_lift : float
        Drag due to lift over lift.
    plane_drag : float
        Drag coefficient without lift.
    kg_per_m2 : float
        Mass of the plane over its area. [kg/m²]
    wing_cg : float
        Its centre of gravity, fraction of the chord.
    inertia_factor : float
        Its weight times this bears on it, downwards.
    left_share, right_share : float
        Factor on the air load of each side.
    roll_rad_s2 : float
        Angular acceleration in roll, right wing down positive: its inertia bears on the plane. [rad/s²]
    """

    pressure_pa: float
    alpha_rad: float
    induced_over_lift: float
    plane_drag: float
    kg_per_m2: float
    wing_cg: float
    inertia_factor: float
    left_share: float = 1.0
    right_share: float = 1.0
    roll_rad_s2: float = 0.0


def plane_strips(plane: Plane, lift: PlaneLift, at: PlaneCondition) -> StripLoads:
    """Return the loads of the strips of a plane, lift and drag turned into the axes of the airplane.

    Parameters
    ----------
    plane : Plane
        Its dimensions and the moment of its section.
    lift : PlaneLift
        Along its span.
    at : PlaneCondition
        Of the flight.

    Notes
    -----
    Lift of attached flow bears at the quarter chord, the moment of the section about it with the square of the local
    chord. Weight bears at its fraction of the mean chord.
    """
    edges = np.concatenate(([0.0], np.cumsum(lift.width_m))) - 0.5 * float(lift.width_m.sum())
    out = np.abs(lift.spanwise_m) / (0.5 * plane.span_m)
    chord = 2.0 * plane.chord_m * (1.0 - out * (1.0 - plane.taper)) / (1.0 + plane.taper)
    share = np.where(lift.spanwise_m < 0.0, at.left_share, at.right_share)
    lifted = share * lift.lift_n_per_m
    drag = at.induced_over_lift * lifted + share * at.plane_drag * at.pressure_pa * chord
    down_m_s2 = GRAVITY_M_S2 * at.inertia_factor - at.roll_rad_s2 * lift.spanwise_m
    weight = at.kg_per_m2 * down_m_s2 * chord * plane.area_m2 / float(chord @ lift.width_m)
    c, s = cos(at.alpha_rad), sin(at.alpha_rad)
    moment = share * at.pressure_pa * (plane.section_moment + lift.moment_change) * chord**2
    return StripLoads(
        edges_m=edges,
        up_n_per_m=lifted * c + drag * s - weight,
        aft_n_per_m=drag * c - lifted * s,
        nose_up_n=moment + weight * (at.wing_cg - 0.25) * plane.chord_m,
    )
