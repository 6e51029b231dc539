"""Parts of an airplane as a picture shows them, in body axes from the centre of gravity: x forward, z down [m]."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.model.drawn_model import TurningCylinders

Place = tuple[float, float, float]
Rod = tuple[Place, Place]


@dataclass(frozen=True, slots=True)
class WingFigure:
    """One plane of the wing, straight from root to tip.

    Attributes
    ----------
    root, tip : (x, y, z)
        Leading edge in the plane of symmetry and at the right tip. [m]
    chord_m, taper : float
        Mean chord [m], and the chord at the tip over that at the root.
    incidence_rad : float
        Leading edge up positive. [rad]
    aileron : bool
        Whether it has ailerons.
    """

    root: Place
    tip: Place
    chord_m: float
    taper: float
    incidence_rad: float
    aileron: bool

    @property
    def root_chord(self) -> float:
        """Chord in the plane of symmetry [m]."""
        return 2.0 * self.chord_m / (1.0 + self.taper)

    @property
    def tip_chord(self) -> float:
        """Chord at the tip [m]."""
        return self.taper * self.root_chord


@dataclass(frozen=True, slots=True)
class BodyFigure:
    """The fuselage: x of its nose, of the end of its full depth and of its stern, z of its top and bottom [m]."""

    nose_m: float
    full_to_m: float
    stern_m: float
    top_m: float
    bottom_m: float
    stern_top_m: float
    stern_bottom_m: float
    width_m: float


@dataclass(frozen=True, slots=True)
class SurfaceFigure:
    """Tailplane with elevator or fin with rudder: a plate with a hinge.

    Attributes
    ----------
    quarter : (x, y, z)
        Quarter chord in the middle of the area. [m]
    span_m, chord_m : float
        Span or height, mean chord. [m]
    hinge_share : float
        Distance of the hinge aft of the leading edge over the chord.
    incidence_rad : float
        Leading edge up positive. [rad]
    """

    quarter: Place
    span_m: float
    chord_m: float
    hinge_share: float
    incidence_rad: float


@dataclass(frozen=True, slots=True)
class WheelFigure:
    """A wheel by its axle, or a skid by its foot where the radius is 0 [m]."""

    axle: Place
    radius_m: float


@dataclass(frozen=True, slots=True)
class Figure:
    """Everything that a picture of the airplane shows.

    Attributes
    ----------
    wings : tuple of WingFigure
        The lowest first.
    section : tuple of (share, upper, lower)
        Of the chord from the leading edge, and heights of both surfaces over it.
    aileron_from, aileron_to, aileron_chord_share : float
        Shares of the semi-span and of the chord.
    body, tailplane, fin
        Fuselage and tail.
    struts, wires : tuple of (place, place)
        From pin to pin, on both sides.
    wheels : tuple of WheelFigure
        With the skid.
    hub : (x, y, z)
        Of the propeller. [m]
    disc_radius_m : float
        Of the propeller. [m]
    cylinders : TurningCylinders
        Of the rotary engine.
    heads : tuple of (x, y, z)
        Middle of the head of each who sits in it. [m]
    span_m : float
        Of the widest plane. [m]
    """

    wings: tuple[WingFigure, ...]
    section: tuple[Place, ...]
    aileron_from: float
    aileron_to: float
    aileron_chord_share: float
    body: BodyFigure
    tailplane: SurfaceFigure
    fin: SurfaceFigure
    struts: tuple[Rod, ...]
    wires: tuple[Rod, ...]
    wheels: tuple[WheelFigure, ...]
    hub: Place
    disc_radius_m: float
    cylinders: TurningCylinders
    heads: tuple[Place, ...]
    span_m: float
