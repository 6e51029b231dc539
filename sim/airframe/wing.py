"""Geometry of a wing of one or more planes, as aerodynamics, mean chord, layout and viewer need it."""

from __future__ import annotations

from dataclasses import dataclass, replace


@dataclass(frozen=True, slots=True)
class Plane:
    """One plane of a wing, such as the upper or the lower one of a biplane.

    Attributes
    ----------
    span_m, chord_m : float
        From tip to tip; mean chord. [m]
    height_m : float
        Above any fixed level; only differences between planes count. [m]
    arm_m : float
        From the centre of gravity to the quarter chord, aft positive. [m]
    dihedral_rad, sweep_rad : float
        Tips up positive; quarter-chord line, tips aft positive. [rad]
    incidence_rad : float
        Chord to the body's x axis, leading edge up positive. [rad]
    taper : float
        Tip chord over root chord, 0 to 1.
    section_slope : float
        Lift slope of the section in plane flow. [1/rad]
    section_moment : float
        Moment coefficient of the section about its quarter chord, nose up positive; 0 without camber.
    name : str
        ``upper``, ``middle`` or a number, ``lower``.
    """

    span_m: float
    chord_m: float
    height_m: float = 0.0
    arm_m: float = 0.0
    dihedral_rad: float = 0.0
    sweep_rad: float = 0.0
    incidence_rad: float = 0.0
    taper: float = 1.0
    section_slope: float = 5.73
    section_moment: float = -0.05
    name: str = "upper"

    @property
    def area_m2(self) -> float:
        """Span times mean chord. [m²]."""
        return self.span_m * self.chord_m


@dataclass(frozen=True, slots=True)
class Wing:
    """The planes of a wing.

    Attributes
    ----------
    planes : tuple of Plane
        From the top one down, at least one.
    nominal : Plane
        Dimensions of every plane for which no other is given, at the mean height and arm of the planes.
    """

    planes: tuple[Plane, ...]
    nominal: Plane

    @property
    def area_m2(self) -> float:
        """Area of all planes. [m²]."""
        return sum(plane.area_m2 for plane in self.planes)

    @property
    def span_m(self) -> float:
        """Largest span. [m]."""
        return max(plane.span_m for plane in self.planes)

    @property
    def gap_m(self) -> float:
        """Vertical distance from plane to plane, 0 for a monoplane. [m]."""
        return self.planes[0].height_m - self.planes[1].height_m if len(self.planes) > 1 else 0.0

    @property
    def stagger_m(self) -> float:
        """Distance of each plane ahead of the one below, 0 for a monoplane. [m]."""
        return self.planes[1].arm_m - self.planes[0].arm_m if len(self.planes) > 1 else 0.0

    def mean(self, name: str) -> float:
        """Return the mean of an attribute of the planes, weighted by area; in that attribute's unit."""
        return sum(plane.area_m2 * float(getattr(plane, name)) for plane in self.planes) / self.area_m2

    def rearranged(self, *, gap_m: float, stagger_m: float) -> Wing:
        """Return the same planes farther apart or farther ahead of one another, about the same mean place.

        Parameters
        ----------
        gap_m, stagger_m : float
            From each plane to the one below: down, and aft; negative stagger has the upper plane behind. [m]
        """
        moved = tuple(
            replace(plane, height_m=-number * gap_m, arm_m=number * stagger_m)
            for number, plane in enumerate(self.planes)
        )
        found = replace(self, planes=moved)
        up_m, aft_m = (self.mean(name) - found.mean(name) for name in ("height_m", "arm_m"))
        planes = tuple(replace(one, height_m=one.height_m + up_m, arm_m=one.arm_m + aft_m) for one in moved)
        return replace(self, planes=planes)
