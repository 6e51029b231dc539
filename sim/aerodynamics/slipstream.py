"""What the propeller's slipstream adds to the air loads: faster air at inner wing, tail and fin, and its swirl."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.aerodynamics.forces import SPEED_FLOOR_M_S
from sim.aerodynamics.tail_loads import fin_side, tail_lift

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import MathFunctions, Number

SMOOTHING: Final = 0.01
"""Keeps the speed in the tube real behind a windmill; at rest the pressure of the tube is .25 % too high by it."""
SWIRL_BOUND: Final = 0.1
"""Part of torque over ρ A R whose square root is the least speed through the disc that carries swirl away."""
THIN_AIR_KG_M3: Final = 1e-12
"""Added to the density so that without air nothing is divided by 0."""


@dataclass(frozen=True, slots=True)
class Slipstream:
    """How an airplane lies in the tube of air behind its propeller; without numbers not at all.

    Attributes
    ----------
    disc_m2 : float
        Area of the propeller disc, above 0. [m²]
    wing_share, wing_arm_m : float
        Growth of the lift for a relative growth of the speed far behind, and from the centre of gravity aft to where it
        acts. [1, m]
    tail_share, fin_share, fin_above_share : float
        Parts of tailplane and fin in the tube; of the fin what is above the shaft less what is below.
    tail_arm_m, fin_arm_m, fin_height_m : float
        From the centre of gravity aft to their forces, and up to that of the fin in the tube. [m]
    tail_angle_m2, tail_rate_m2, elevator_m2 : float
        Lift of the whole tailplane over dynamic pressure for a unit of angle of attack, of the angle that pitching
        makes there, and of elevator, up positive. [m²/rad]
    tail_stream_m2, tail_setting_m2 : float
        Likewise without angle of attack: by the wing's downwash, and by its own setting. [m²]
    fin_angle_m2, fin_rate_m2, rudder_m2 : float
        Likewise the fin's side force, leftward positive but for the rudder's, for sideslip, yawing and rudder. [m²/rad]
    fin_roll_m3 : float
        Leftward side force of the whole fin over ½ρV for a unit of roll rate. [m³/rad]
    recovered_share : float
        Part of the propeller's torque that the wing takes back out of the tube, 0 to 1.
    """

    disc_m2: float = 1.0
    wing_share: float = 0.0
    wing_arm_m: float = 0.0
    tail_share: float = 0.0
    tail_arm_m: float = 0.0
    tail_angle_m2: float = 0.0
    tail_rate_m2: float = 0.0
    tail_stream_m2: float = 0.0
    tail_setting_m2: float = 0.0
    elevator_m2: float = 0.0
    fin_share: float = 0.0
    fin_above_share: float = 0.0
    fin_arm_m: float = 0.0
    fin_height_m: float = 0.0
    fin_angle_m2: float = 0.0
    fin_rate_m2: float = 0.0
    fin_roll_m3: float = 0.0
    rudder_m2: float = 0.0
    recovered_share: float = 0.0


class Drive(NamedTuple):
    """What makes the slipstream and what it meets.

    Thrust [N]; the air's torque on the propeller, clockwise positive [N m]; lift over airspeed [N s/m].
    """

    thrust: Number
    torque: Number
    lift_per_speed: Number


class Tube(NamedTuple):
    """Far behind the disc: gain of speed over flight [m/s] and of its square [m²/s²]; speed at the disc [m/s]."""

    gain: Number
    gain_square: Number
    through: Number


class SlipstreamLoads(NamedTuple):
    """Force [N] and moment [N m] about the centre of gravity in body axes, beside those without slipstream."""

    x: Number
    y: Number
    z: Number
    roll: Number
    pitch: Number
    yaw: Number


def tube(speed: Number, thrust: Number, air_kg_m: Number, sqrt: Callable[[Number], Number]) -> Tube:
    """Return the tube behind an actuator disc.

    Parameters
    ----------
    speed : float
        Airspeed, above 0. [m/s]
    thrust : float
        Negative in a windmill. [N]
    air_kg_m : float
        Density times area of the disc. [kg/m]
    sqrt : function
        Square root.

    Notes
    -----
    Momentum theory: pressure grows by thrust over area. Where that would be more than there is, behind a windmill, the
    stream smoothly slows down instead. Without thrust both gains are exactly 0.

    References
    ----------
    Glauert, The Elements of Aerofoil and Airscrew Theory, 2nd ed. 1947, chapter XV (from memory).

    Examples
    --------
    >>> round(tube(30.0, 2000.0, 1.225 * 5.0, math.sqrt).gain, 1)
    9.4
    """
    square = speed * speed
    rise = 2.0 * thrust / air_kg_m
    whole = square + rise
    root = sqrt(whole * whole + SMOOTHING * rise * rise)
    gain_square = 0.5 * rise * (1.0 + (square + whole + SMOOTHING * rise) / (root + square))
    gain = gain_square / (sqrt(square + gain_square) + speed)
    return Tube(gain, gain_square, speed + 0.5 * gain)


def swirl(speed: Number, behind: Tube, torque: Number, disc_m2: float) -> Callable[[MathFunctions, Number], Number]:
    """Return the function (functions, air_kg_m) -> speed round the shaft in the far tube, clockwise positive [m/s].

    Parameters
    ----------
    speed : float
        Airspeed. [m/s]
    behind : Tube
        Of `tube`.
    torque : float
        Left in the tube, clockwise positive. [N m]
    disc_m2 : float
        Area of the disc. [m²]

    Notes
    -----
    The same at every radius of the contracted tube, about as measured (common practice, no source): the moment of
    momentum that passes in a second, ρ A V_disc u ⅔ R, is the torque.
    """
    radius_m = math.sqrt(disc_m2 / math.pi)

    def around(functions: MathFunctions, air_kg_m: Number) -> Number:
        sqrt = functions.sqrt
        given = torque / (air_kg_m * radius_m)
        through = behind.through * behind.through
        carried = sqrt(sqrt(through * through + SWIRL_BOUND**2 * given * given))
        return 1.5 * given / carried * sqrt((speed + behind.gain) / behind.through)

    return around


class Wash(NamedTuple):
    """Density [kg/m³], and in the slipstream far behind gain of speed and speed round the shaft, clockwise [m/s]."""

    density: Number
    gain: Number = 0.0
    around: Number = 0.0


def wash(slipstream: Slipstream, functions: MathFunctions = math) -> Callable[[Number, Number, Number, Number], Wash]:
    """Return the function ((u, v, w, p, q, r), density, thrust, torque) -> `Wash`."""
    slip, sqrt = slipstream, functions.sqrt

    def behind(motion: Number, density: Number, thrust: Number, torque: Number) -> Wash:
        u, v, w = motion[:3]
        speed = sqrt(u * u + v * v + w * w + SPEED_FLOOR_M_S**2)
        air = slip.disc_m2 * (density + THIN_AIR_KG_M3)
        found = tube(speed, thrust, air, sqrt)
        around = swirl(speed, found, (1.0 - slip.recovered_share) * torque, slip.disc_m2)(functions, air)
        return Wash(density, found.gain, around)

    return behind


def slipstream_loads(
    slipstream: Slipstream, functions: MathFunctions = math
) -> Callable[[Number, Number, Number, Drive], SlipstreamLoads]:
    """Return the function ((u, v, w, p, q, r), density, controls, `Drive`) -> `SlipstreamLoads`.

    Parameters
    ----------
    slipstream : Slipstream
    functions : module
        Source of `sqrt`: `math`, `cmath`, `sympy` or `sim.numerics.number.ARRAY_MATH`.

    Notes
    -----
    In the tube the velocity across the airplane stays and that along it grows: forces due to angle of attack, sideslip
    and rates grow with the speed, those of controls and setting with its square, and a rudder works at rest. The tube
    is there at once and lies along the body; what drags in it is not counted. A tail's lift due to the rate of
    incidence stays: the delay is shorter as the speed is greater.
    """
    slip, sqrt, streams = slipstream, functions.sqrt, stream_at_tail(slipstream, functions)

    def loads(motion: Number, density: Number, controls: Number, drive: Drive) -> SlipstreamLoads:
        u, v, w, p, q, r = motion
        speed = sqrt(u * u + v * v + w * w + SPEED_FLOOR_M_S**2)
        at = streams(speed, density, drive)
        more = slip.wing_share * drive.lift_per_speed * at.gain / speed
        lifted = slip.tail_share * tail_lift(slip, (speed, w, q), controls[0], (at.along, at.full))
        side = slip.fin_share * fin_side(slip, (v, p, r), controls[2], (at.along, at.full)) + at.swirl_n
        return SlipstreamLoads(
            x=more * w,
            y=side,
            z=-more * u - lifted,
            roll=slip.recovered_share * drive.torque + slip.fin_height_m * side,
            pitch=-slip.wing_arm_m * more * u - slip.tail_arm_m * lifted,
            yaw=-slip.fin_arm_m * side,
        )

    return loads


class StreamAtTail(NamedTuple):
    """What the tube has more than the air outside.

    Gain of speed [m/s]; half the density times it [kg/(m² s)]; gain of dynamic pressure [Pa]; side force of the fin by
    swirl, right positive [N].
    """

    gain: Number
    along: Number
    full: Number
    swirl_n: Number


def stream_at_tail(
    slipstream: Slipstream, functions: MathFunctions = math
) -> Callable[[Number, Number, Drive], StreamAtTail]:
    """Return the function (airspeed, density, `Drive`) -> `StreamAtTail`.

    Parameters
    ----------
    slipstream : Slipstream
    functions : module
        Source of `sqrt`, as in `slipstream_loads`.
    """
    slip = slipstream

    def at(speed: Number, density: Number, drive: Drive) -> StreamAtTail:
        air = slip.disc_m2 * (density + THIN_AIR_KG_M3)
        behind = tube(speed, drive.thrust, air, functions.sqrt)
        around = swirl(speed, behind, (1.0 - slip.recovered_share) * drive.torque, slip.disc_m2)(functions, air)
        return StreamAtTail(
            gain=behind.gain,
            along=0.5 * density * behind.gain,
            full=0.5 * density * behind.gain_square,
            swirl_n=0.5 * density * (speed + behind.gain) * slip.fin_above_share * slip.fin_rate_m2 * around,
        )

    return at
