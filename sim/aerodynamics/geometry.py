"""Geometry that the derivatives are estimated from: wing, tail surfaces, fuselage."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.airframe.wing import Wing


@dataclass(frozen=True, slots=True)
class Surface:
    """A tail surface: tailplane with elevator, or fin with rudder.

    Attributes
    ----------
    span_m, chord_m : float
        Span or height, and mean chord, fixed and movable part together. [m]
    arm_m : float
        From the centre of gravity to its quarter chord, aft positive. [m]
    height_m : float
        From the centre of gravity up to its centre of area. [m]
    incidence_rad : float
        To the body's x axis, leading edge up positive; 0 for a fin. [rad]
    flap_share : float
        Chord of the movable part over the whole chord, 0 to 1.
    section_slope : float
        Lift slope of the section in plane flow. [1 per rad]
    """

    span_m: float
    chord_m: float
    arm_m: float
    height_m: float
    incidence_rad: float
    flap_share: float
    section_slope: float = 5.73

    @property
    def area_m2(self) -> float:
        """Span times mean chord. [m²]."""
        return self.span_m * self.chord_m


@dataclass(frozen=True, slots=True)
class Airframe:
    """Geometry of an airplane without its powerplant.

    Attributes
    ----------
    wing : Wing
        Planes with their sections.
    tailplane, fin : Surface
        With elevator and rudder.
    aileron_from, aileron_to : float
        Inner and outer end as shares of the semi-span, 0 to 1.
    aileron_chord_share : float
        Aileron chord over wing chord, 0 to 1.
    aileron_planes : int
        How many planes carry ailerons, counted from the first.
    body_length_m, body_width_m, body_depth_m : float
        Fuselage. [m]
    wing_height_m : float
        From the centre of gravity up to the level that the planes' heights count from. [m]
    """

    wing: Wing
    tailplane: Surface
    fin: Surface
    aileron_from: float
    aileron_to: float
    aileron_chord_share: float
    aileron_planes: int
    body_length_m: float
    body_width_m: float
    body_depth_m: float
    wing_height_m: float = 0.0
