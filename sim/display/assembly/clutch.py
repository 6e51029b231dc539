"""The spring of the slip clutch: soft, so that the screw sets a torque of a few hundredths of a newton metre."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from sim.display.hand_speed import clutch_torque
from sim.display.spring import HALF_MM_M, INDEX_RANGE, SHEAR_MODULUS_PA
from sim.display.spring_wire import WIRES_MM
from sim.display.worst_hand import cam_torque
from sim.units.convert import MM_PER_M

if TYPE_CHECKING:
    from sim.display.display import Display
    from sim.display.search import FoundCam
    from sim.display.spring import Spring

CLUTCH_M = 0.050
"""Outside diameter of the slip clutch. [m]"""
FELT_FRICTION = 0.22
"""Of felt on metal, dry: Shigley, Mechanical Engineering Design, chapter 16, from memory; the builder measures it."""
LOOSE_M = 0.001
"""By which the clutch spring is wider than the shaft. [m]"""
LEAST_COILS = 2.0
PRESSED_M = 0.005
"""By which the clutch spring is pressed at its setting; it can be pressed twice as far. [m]"""


@dataclass(frozen=True, slots=True)
class ClutchSpring:
    """The helical spring of the clutch, closed and ground, as it is ordered and as it is set.

    Attributes
    ----------
    wire_m, coil_m : float
        Wire diameter and mean coil diameter. [m]
    active_coils : float
        Active coils; two more are closed ends.
    free_length_m, set_length_m, solid_length_m : float
        Unloaded, at its setting, and with all coils touching. [m]
    force_n : float
        At its setting. [N]
    """

    wire_m: float
    coil_m: float
    active_coils: float
    free_length_m: float
    set_length_m: float
    solid_length_m: float
    force_n: float

    @property
    def pressed_m(self) -> float:
        """How far it is pressed at its setting. [m]."""
        return self.free_length_m - self.set_length_m

    @property
    def rate_n_per_m(self) -> float:
        """Spring rate. [N/m]."""
        return self.force_n / self.pressed_m


@cache
def crank_slip(display: Display, found: FoundCam, spring: Spring) -> float:
    """Return the torque at the crank shaft at which the clutch is set to slip. [N m]."""
    peak = float(np.max(np.abs(cam_torque(display, found, spring))))
    return float(clutch_torque(display.handle.friction_torque_n_m, peak)) * display.handle.gear


def clutch_spring(slip_n_m: float, bore_m: float, faces_m: tuple[float, float]) -> ClutchSpring:
    """Return the spring that lets two faces of felt slip at a torque.

    Parameters
    ----------
    slip_n_m : float
        Torque. [N m]
    bore_m : float
        Diameter of the shaft. [m]
    faces_m : tuple of float
        Outside diameters of the two discs of felt. [m]

    Notes
    -----
    T = μ F Σ r, r the mean radius of each disc (uniform wear: Shigley, chapter 16); k = G d⁴/(8 D³ n).
    """
    force = slip_n_m / (FELT_FRICTION * sum((wide + bore_m) / 4.0 for wide in faces_m))
    rate = force / PRESSED_M
    for wire_mm in WIRES_MM:
        wire = wire_mm / MM_PER_M
        coil = HALF_MM_M * math.ceil((bore_m + LOOSE_M + wire) / HALF_MM_M - 1e-9)
        coils = SHEAR_MODULUS_PA * wire**4 / (8.0 * coil**3 * rate)
        if coil <= INDEX_RANGE[1] * wire and coils >= LEAST_COILS:
            break
    coils = math.floor(2.0 * coils) / 2.0
    pressed = force * 8.0 * coil**3 * coils / (SHEAR_MODULUS_PA * wire**4)
    solid = (coils + 2.0) * wire
    free = HALF_MM_M * math.ceil((solid + 2.0 * pressed + LOOSE_M) / HALF_MM_M - 1e-9)
    return ClutchSpring(wire, coil, coils, free, free - pressed, solid, force)
