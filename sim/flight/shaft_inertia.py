"""Sums of the rotors' inertia, and what roll and yaw accelerate against while the shaft is free to turn."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from sim.flight.motion import Airplane
    from sim.numerics.number import Number


class RotorSums(NamedTuple):
    """Sums of the rotors' polar inertia times their gear ratio to the powers 0, 1 and 2 [kg m²]."""

    polar: Number
    coupling: Number
    shaft: Number


def rotor_sums(airplane: Airplane) -> RotorSums:
    """Return the sums over all that turns with the shaft; zeros without rotors."""
    return RotorSums(*(sum(one.polar_inertia_kg_m2 * one.ratio**n for one in airplane.rotors) for n in (0, 1, 2)))


def free_shaft_inertias_kg_m2(airplane: Airplane) -> tuple[Number, Number, Number]:
    """Return the elements xx, xz and zz of the matrix that roll and yaw accelerate against [kg m²]."""
    body, sx, sz = airplane.body, math.cos(airplane.shaft_tilt_rad), -math.sin(airplane.shaft_tilt_rad)
    rotors = rotor_sums(airplane)
    reduced = rotors.polar - (rotors.coupling * rotors.coupling / rotors.shaft if airplane.rotors else 0.0)
    xx, xz, zz = body.inertia_roll_kg_m2, -body.inertia_product_kg_m2, body.inertia_yaw_kg_m2
    return xx + reduced * sx * sx, xz + reduced * sx * sz, zz + reduced * sz * sz
