"""Layout: the spars that fit into the wing section, and the planes where they stand on the airplane."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, sin, tan
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.units.text import in_both

if TYPE_CHECKING:
    from sim.airframe.section import Airfoil
    from sim.airframe.wing import Plane, Wing

FACES = 9
"""Places across a spar at which the room for it is taken."""


@dataclass(frozen=True, slots=True)
class Spar:
    """A spar to be fitted into the section.

    Attributes
    ----------
    name : str
        ``front`` or ``rear``.
    fraction : float
        Its middle, as a share of the chord.
    width_m : float
        Along the chord. [m]
    cap_m : float
        Thickness of the rib cap above and below it. [m]
    cover_m : float
        Thickness of the cover: ply, fabric and tape. [m]
    """

    name: str
    fraction: float
    width_m: float
    cap_m: float = 0.0
    cover_m: float = 0.0


@dataclass(frozen=True, slots=True)
class SparRoom:
    """What the section leaves for a spar.

    Attributes
    ----------
    name : str
        Which spar.
    fraction : float
        Its middle, as a share of the chord.
    from_leading_edge_m : float
        Its middle along the chord. [m]
    section_depth_m : float
        Depth of the section at its middle. [m]
    spar_depth_m : float
        Deepest rectangular spar that fits under caps and covers over its whole width. [m]
    bottom_m, top_m : float
        Its lower and upper face above the chord line. [m]
    """

    name: str
    fraction: float
    from_leading_edge_m: float
    section_depth_m: float
    spar_depth_m: float
    bottom_m: float
    top_m: float


def spar_room(section: Airfoil, chord_m: float, spar: Spar) -> SparRoom:
    """Return the deepest rectangular spar that fits, its faces square to the chord line.

    Parameters
    ----------
    section : Airfoil
        In units of the chord.
    chord_m : float
        [m]
    spar : Spar
        Where and how wide.

    Raises
    ------
    NoAnswerError
        When caps and covers leave nothing.
    """
    half = 0.5 * spar.width_m / chord_m
    places = [spar.fraction + half * (2.0 * k / (FACES - 1) - 1.0) for k in range(FACES)]
    heights = [section.heights(place) for place in places]
    taken = spar.cap_m + spar.cover_m
    top = min(upper for upper, _ in heights) * chord_m - taken
    bottom = max(lower for _, lower in heights) * chord_m + taken
    depth = section.depth(spar.fraction) * chord_m
    if top <= bottom:
        message = (
            f"no {spar.name} spar fits at {100.0 * spar.fraction:.3g} % of the chord: the section is "
            f"{in_both('spar_depth_m', depth)} deep there, and caps and covers take "
            f"{in_both('spar_depth_m', 2.0 * taken)}; "
            "move the spar to where the section is deeper or make it narrower"
        )
        raise NoAnswerError(message)
    return SparRoom(spar.name, spar.fraction, spar.fraction * chord_m, depth, top - bottom, bottom, top)


@dataclass(frozen=True, slots=True)
class PlacedPlane:
    """One plane of the wing where it stands at the middle of the airplane.

    Attributes
    ----------
    plane : Plane
        Its dimensions.
    leading_edge_station_m, leading_edge_waterline_m : float
        At the middle of the airplane, the plane carried through. [m]
    """

    plane: Plane
    leading_edge_station_m: float
    leading_edge_waterline_m: float

    def point(self, along_m: float, above_m: float, buttline_m: float) -> tuple[float, float, float]:
        """Return station, waterline and buttline of a point of the section [m].

        Parameters
        ----------
        along_m, above_m : float
            Along the chord from the leading edge, and above the chord line. [m]
        buttline_m : float
            How far out. [m]
        """
        plane = self.plane
        c, s = cos(plane.incidence_rad), sin(plane.incidence_rad)
        station = self.leading_edge_station_m + along_m * c + above_m * s + buttline_m * tan(plane.sweep_rad)
        waterline = self.leading_edge_waterline_m - along_m * s + above_m * c + buttline_m * tan(plane.dihedral_rad)
        return station, waterline, buttline_m


def placed(wing: Wing, station_m: float, waterline_m: float) -> tuple[PlacedPlane, ...]:
    """Return the planes from the lowest up: stagger places each leading edge ahead of the one below, gap above it.

    Parameters
    ----------
    wing : Wing
        Its planes.
    station_m, waterline_m : float
        Leading edge of the lowest plane at the middle of the airplane. [m]
    """
    return tuple(
        PlacedPlane(plane, station_m - number * wing.stagger_m, waterline_m + number * wing.gap_m)
        for number, plane in enumerate(reversed(wing.planes))
    )
