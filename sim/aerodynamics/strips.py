"""Strips of a whole airplane: what each needs to find its own angle of attack and its own loads, past the stall too.

A strip is a part of one half of a plane or of the tailplane, or a part of the fin. Strips of wing and tailplane stand
for two, mirrored in the plane of symmetry. Body axes from the centre of gravity.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.aerodynamics.section_curve import SectionCurve
    from sim.numerics.number import Number

    Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Strip:
    """One strip, and its mirror image where `mirrored`.

    Attributes
    ----------
    name : str
        Of its plane; ``tailplane`` or ``fin``.
    curve : SectionCurve
        Lift, drag and moment at every angle.
    area_m2, chord_m : float
        Area, and mean chord. [m², m]
    force_m, flow_m : tuple of float
        Quarter chord, where its force acts, and three quarters, where the stream meets it; right side. [m]
    across : tuple of float
        Components along y and z of the normal against which lift acts: (0, 1) of a level wing, (1, 0) of a fin.
    setting_rad : float
        Angle of the line without lift to the x axis. [rad]
    turns : tuple of float
        Turn of that line for a unit of elevator, aileron and rudder, on the right.
    induced : tuple of float
        Angle by which the vortices of its own surface turn the stream down there in attached flow, for a unit of each
        of `sim.aerodynamics.lattice_motion.MOTION` over the speed; right side.
    downwash : tuple of float
        Likewise by the planes of the wing, where it is no part of them; else empty.
    pressure_share : float
        Dynamic pressure there over that of flight.
    washed_share, swirled_share : float
        Part of the slipstream's gain of speed that it meets along, and of the speed round the shaft across; right side.
    shielded_share : float
        Part of it that lies in the wake of the tailplane at a high angle of attack.
    mirrored : bool
        Whether there is one on the left too.
    """

    name: str
    curve: SectionCurve
    area_m2: float
    chord_m: float
    force_m: Place
    flow_m: Place
    across: tuple[float, float]
    setting_rad: float = 0.0
    turns: Place = (0.0, 0.0, 0.0)
    induced: tuple[float, ...] = (0.0,) * 9
    downwash: tuple[float, ...] = ()
    pressure_share: float = 1.0
    washed_share: float = 0.0
    swirled_share: float = 0.0
    shielded_share: float = 0.0
    mirrored: bool = True


@dataclass(frozen=True, slots=True)
class BodyPart:
    """A length of the fuselage, which a stream across it drags.

    Attributes
    ----------
    place_m : tuple of float
        Along x and z. [m]
    side_m2, plan_m2 : float
        Area seen from the side and from above. [m²]
    """

    place_m: tuple[float, float]
    side_m2: float
    plan_m2: float


@dataclass(frozen=True, slots=True)
class Strips:
    """All strips of an airplane, with the dimensions of its wing.

    Attributes
    ----------
    wing, tail : tuple of Strip
        Of the planes; of tailplane and fin, in the wake of the wing.
    body : tuple of BodyPart
        The fuselage from nose to stern.
    area_m2, span_m : float
        Of the wing. [m², m]
    tail_arm_m : float
        From the centre of gravity aft to the tailplane. [m]
    wing_place_m : tuple of float
        Along x and z, mean of the planes. [m]
    wake_m : float
        Half depth of the wake of the stalled wing at the tail. [m]
    parasite_m2 : float
        Drag over dynamic pressure of all but the strips. [m²]
    lift_max : float
        Greatest lift coefficient that they reach in trim; with another one the sections are scaled; 0: they
        stay as they are.
    """

    wing: tuple[Strip, ...]
    tail: tuple[Strip, ...]
    body: tuple[BodyPart, ...]
    area_m2: float
    span_m: float
    tail_arm_m: float
    wing_place_m: tuple[float, float]
    wake_m: float
    parasite_m2: float
    lift_max: float = 0.0


def scaled(strips: Strips, size: Number) -> Strips:
    """Return the strips with the largest lifts of the sections of their wing times a number, up and down.

    The number may be an array with one entry an airplane.
    """
    wing = tuple(
        replace(
            one,
            curve=replace(one.curve, lift_max=size * one.curve.lift_max, lift_min=size * one.curve.lift_min),
        )
        for one in strips.wing
    )
    return replace(strips, wing=wing)


def sized(strips: Strips, lift_max: Number) -> Strips:
    """Return the strips scaled to the greatest lift coefficient of an airplane in trim, or of many; see `Strips`."""
    return scaled(strips, lift_max / strips.lift_max) if strips.lift_max else strips
