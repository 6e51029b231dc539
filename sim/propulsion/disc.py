"""A propeller whose disc the air meets across: force in its plane and moment across the shaft."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.propulsion.propeller_slopes import propeller_slopes

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import MathFunctions, Number
    from sim.propulsion.engine_propeller import Engine, Propeller

DISC_ERROR: Final = 0.30
"""Standard deviation of the loads of a disc at incidence over themselves: blade elements without swirl of their own
wake, and the upwash of the wing left out (from comparison with the projected side area of Ribner, NACA TR 820)."""


@dataclass(frozen=True, slots=True)
class Disc:
    """Where the propeller turns.

    Attributes
    ----------
    arm_m, height_m : float
        From the centre of gravity forward and up to its centre. [m]
    share : float
        Its loads across the shaft over those of `disc_loads`: 1, or 0 for none; drawn for bands.
    """

    arm_m: float = 0.0
    height_m: float = 0.0
    share: float = 0.0


class DiscLoads(NamedTuple):
    """Force [N] and moment [N m] about the centre of gravity in body axes."""

    x: Number
    y: Number
    z: Number
    roll: Number
    pitch: Number
    yaw: Number


def disc_loads(
    engine: Engine, propeller: Propeller, disc: Disc, tilt_rad: float, *, functions: MathFunctions = math
) -> Callable[[Number, Number, Number], DiscLoads]:
    """Return the function ((u, v, w, p, q, r), spin, density) -> `DiscLoads` beside thrust and torque.

    Parameters
    ----------
    engine, propeller : Engine, Propeller
        From `sim.propulsion.engine_propeller`.
    disc : Disc
        Its place.
    tilt_rad : float
        Of the shaft, nose up positive. [rad]
    functions : module
        Source of `sqrt`.

    Notes
    -----
    A velocity c across the shaft adds c sin ψ to the speed of a blade at the angle ψ from it. Thrust and torque of a
    blade, taken at 0.7 R, follow with the slopes of the whole propeller at constant airspeed. Averaged over a turn a
    propeller that turns clockwise, its nose up, feels the moment ½ c dT/dΩ to the left, and the force ½ c (dQ/dΩ)/r²
    against c. The velocity is that at the disc, with the airplane's rates. Three blades or more, or two averaged.

    References
    ----------
    Glauert, R. & M. 642, 1919; Ribner, NACA TR 820, 1945 (both from memory).
    """
    slopes = propeller_slopes(engine, propeller, functions)
    ahead, down = math.cos(tilt_rad), math.sin(tilt_rad)
    low_m, half = -disc.height_m, 0.5 * disc.share
    per_square = half / propeller.station_m**2

    def loads(motion: Number, spin: Number, density: Number) -> DiscLoads:
        u, v, w, p, q, r = motion
        right = v + disc.arm_m * r - low_m * p
        across = down * (u + low_m * q) + ahead * (w - disc.arm_m * q)
        slope = slopes((spin, ahead * u - down * w), density)
        stiff, turned = per_square * slope.torque, half * slope.thrust
        side, normal = -stiff * right, -stiff * across
        x, z, swing = down * normal, ahead * normal, -turned * across
        return DiscLoads(
            x=x,
            y=side,
            z=z,
            roll=down * swing - low_m * side,
            pitch=-turned * right + low_m * x - disc.arm_m * z,
            yaw=ahead * swing + disc.arm_m * side,
        )

    return loads
