"""What the flow about an airframe comes to, solved once: loads of its lattice, downwash, and the body in it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics.body import apparent_mass_factor
from sim.aerodynamics.lattice_airplane import airplane_lattice
from sim.aerodynamics.lattice_motion import (
    MOTION,
    W,
    lattice_flow,
    lattice_system,
    lift_without_alpha,
    surface_loads,
    wing_downwash,
)
from sim.aerodynamics.span_loads import surface_spans

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.lattice_motion import LatticeFlow, LatticeSystem
    from sim.aerodynamics.span_loads import SurfaceSpan

    Numbers = NDArray[np.float64]

KEPT: Final = 256
"""Airframes whose flow is remembered: a sweep over engines, weights or speeds solves the lattice once."""
SOLVED: Final = 4
"""Airframes whose solved lattice is kept, 1 MB each, for the next question about the same one."""
BODY_STATIONS: Final = 24


@dataclass(frozen=True, slots=True, eq=False)
class AirframeFlow:
    """Loads of an airframe as quadratic forms, about the centre of gravity that its arms are measured from.

    Attributes
    ----------
    loads : array, shape (3, 6, 9, 9)
        Of wing, tailplane and fin: see `sim.aerodynamics.lattice_motion.surface_loads`.
    spans : tuple of SurfaceSpan
        Lift along the planes of the wing, then along the tailplane, with the downwash there.
    body_moment_m3 : float
        Pitching moment of the body over dynamic pressure for a unit of angle of attack, nose up positive. [m³/rad]
    """

    loads: Numbers
    spans: tuple[SurfaceSpan, ...]
    body_moment_m3: float

    @property
    def downwash_slope(self) -> float:
        """Mean angle that the stream turns down at the tailplane for a unit of angle of attack."""
        return self.spans[-1].mean_downwash(np.eye(1, len(MOTION), W)[0])


@lru_cache(maxsize=KEPT)
def airframe_flow(airframe: Airframe, lift_zero: float) -> AirframeFlow:
    """Return the flow about an airframe; of one that was asked for before, the same again.

    Parameters
    ----------
    airframe : Airframe
        Geometry about its centre of gravity.
    lift_zero : float
        Lift coefficient without angle of attack, on the area of its wing.
    """
    flow = turned_flow(airframe, lift_zero).flow
    loads = surface_loads(flow)
    loads.setflags(write=False)
    return AirframeFlow(loads=loads, spans=surface_spans(flow), body_moment_m3=body_moment(airframe, flow))


class TurnedFlow(NamedTuple):
    """Circulation of every panel, and the angle by which the wing was turned as a whole for its lift. [rad]."""

    flow: LatticeFlow
    turn_rad: float


def turned_flow(airframe: Airframe, lift_zero: float) -> TurnedFlow:
    """Return the circulation of the lattice of an airframe with a lift coefficient without angle of attack."""
    system = _system(airframe)
    present, each = lift_without_alpha(system)
    turn_rad = (lift_zero - present) / each
    return TurnedFlow(lattice_flow(system, turn_rad), turn_rad)


def lift_at_zero(airframe: Airframe, zero_lift_rad: float) -> float:
    """Return the lift coefficient with the x axis along the flow, tailplane included, on the area of the wing.

    Parameters
    ----------
    airframe : Airframe
        Its planes stand at their incidences.
    zero_lift_rad : float
        Angle of attack of the section without lift, negative with camber. [rad]
    """
    present, each = lift_without_alpha(_system(airframe))
    return present - zero_lift_rad * each


@lru_cache(maxsize=SOLVED)
def _system(airframe: Airframe) -> LatticeSystem:
    return lattice_system(airplane_lattice(airframe))


def body_ends_m(airframe: Airframe) -> tuple[float, float]:
    """Return the ends of the body aft of the centre of gravity: its stern is at the hinge of the rudder. [m]."""
    fin = airframe.fin
    stern_m = fin.arm_m + (1.0 - fin.flap_share - 0.25) * fin.chord_m
    return stern_m - airframe.body_length_m, stern_m


def body_moment(airframe: Airframe, flow: LatticeFlow) -> float:
    """Return the pitching moment of the body over dynamic pressure for a unit of angle of attack. [m³/rad].

    Parameters
    ----------
    airframe : Airframe
        With the body, an ellipsoid of its length and width.
    flow : LatticeFlow
        Of its lattice, whose wing turns the stream up ahead of itself and down behind.

    Notes
    -----
    Strip theory: π/2 (k2 − k1) ∫ width² (1 + upwash) dx, Munk's moment of the ellipsoid where there is no wing. Between
    the edges of a wing the stream follows it. Known error ±30 %.

    References
    ----------
    Multhopp, NACA TM 1036, 1942; Munk, NACA TR 184, 1924 (both from memory).
    """
    nose_m, stern_m = body_ends_m(airframe)
    along = (np.arange(BODY_STATIONS) + 0.5) / BODY_STATIONS
    points = np.zeros((BODY_STATIONS, 3))
    points[:, 0] = nose_m + along * (stern_m - nose_m)
    upwash = np.clip(1.0 - wing_downwash(flow, points)[:, W], 0.0, 2.0)
    square_m2 = airframe.body_width_m**2 * 4.0 * along * (1.0 - along)
    factor = apparent_mass_factor(airframe.body_length_m / airframe.body_width_m)
    return float(0.5 * math.pi * factor * (square_m2 * upwash).sum() * airframe.body_length_m / BODY_STATIONS)
