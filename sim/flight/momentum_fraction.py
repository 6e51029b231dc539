"""The same airplane with less angular momentum in its rotors, and the same engine and thrust."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from sim.propulsion.engine_propeller import Rotor

if TYPE_CHECKING:
    from sim.flight.motion import Airplane

NO_ROTOR: Final = 1e-9
"""Fraction of the rotors' angular momentum that has no effect, and with which the shaft speed is still determined."""


def with_momentum_fraction(airplane: Airplane, fraction: float) -> Airplane:
    """Return the airplane with its rotors' angular momentum multiplied by a fraction greater than 0.

    Each rotor is replaced by one of less inertia, geared up to the same kinetic energy, so that shaft and propeller
    respond as before.
    """
    rotors = tuple(Rotor(fraction**2 * rotor.polar_inertia_kg_m2, rotor.ratio / fraction) for rotor in airplane.rotors)
    return replace(airplane, rotors=rotors)
