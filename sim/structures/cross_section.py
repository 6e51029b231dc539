"""Cross sections of spars and struts: area, moments of inertia, fibres and shear."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi


@dataclass(frozen=True, slots=True)
class CrossSection:
    """A doubly symmetric cross section.

    Attributes
    ----------
    area_m2 : float
        [m²]
    inertia_m4 : float
        Second moment of area in bending up and down. [m⁴]
    side_inertia_m4 : float
        In bending to the side, of a spar fore and aft. [m⁴]
    fibre_m, side_fibre_m : float
        From the middle to the outermost fibre, up and down and to the side. [m]
    shear_area_m2 : float
        Shear force over the greatest shear stress. [m²]
    built_up : bool
        Whether it has flanges and webs, which let wood bear less in bending than a solid section.
    """

    area_m2: float
    inertia_m4: float
    side_inertia_m4: float
    fibre_m: float
    side_fibre_m: float
    shear_area_m2: float
    built_up: bool = False

    @property
    def least_inertia_m4(self) -> float:
        """The smaller moment of inertia. [m⁴]."""
        return min(self.inertia_m4, self.side_inertia_m4)

    @property
    def least_fibre_m(self) -> float:
        """The outermost fibre in bending about the axis of the smaller moment of inertia. [m]."""
        return self.fibre_m if self.inertia_m4 <= self.side_inertia_m4 else self.side_fibre_m


def rectangle(width_m: float, depth_m: float) -> CrossSection:
    """Return a solid rectangle, `depth_m` high. [m]."""
    area = width_m * depth_m
    return CrossSection(
        area_m2=area,
        inertia_m4=area * depth_m**2 / 12.0,
        side_inertia_m4=area * width_m**2 / 12.0,
        fibre_m=0.5 * depth_m,
        side_fibre_m=0.5 * width_m,
        shear_area_m2=area / 1.5,
    )


def flanged(width_m: float, depth_m: float, *, flange_m: float, web_m: float, webs: int) -> CrossSection:
    """Return a box (two webs, one on each side) or an I (one in the middle): flanges between or beside thin webs.

    Parameters
    ----------
    width_m, depth_m : float
        Over all. [m]
    flange_m : float
        Depth of each flange, at most half of the depth. [m]
    web_m : float
        Thickness of one web; the webs together are at most as thick as the section is wide. [m]
    webs : int
        2 for a box, 1 for an I.
    """
    gap, webs_m = depth_m - 2.0 * flange_m, webs * web_m
    empty = width_m - webs_m
    inertia = (width_m * depth_m**3 - empty * gap**3) / 12.0
    flanges = 2.0 * flange_m * width_m**3 / 12.0
    apart = 0.5 * (width_m - web_m) if webs == 2 else 0.0
    side = flanges + gap * webs * (web_m**3 / 12.0 + web_m * apart**2)
    first = width_m * flange_m * 0.5 * (depth_m - flange_m) + webs_m * gap**2 / 8.0
    return CrossSection(
        area_m2=width_m * depth_m - empty * gap,
        inertia_m4=inertia,
        side_inertia_m4=side,
        fibre_m=0.5 * depth_m,
        side_fibre_m=0.5 * width_m,
        shear_area_m2=inertia * webs_m / first,
        built_up=True,
    )


def tube(diameter_m: float, wall_m: float) -> CrossSection:
    """Return a round tube, or a rod where the wall is half the outside diameter. [m]."""
    inner = diameter_m - 2.0 * wall_m
    area = pi * (diameter_m - wall_m) * wall_m
    inertia = pi * (diameter_m**4 - inner**4) / 64.0
    first = (diameter_m**3 - inner**3) / 12.0
    return CrossSection(
        area_m2=area,
        inertia_m4=inertia,
        side_inertia_m4=inertia,
        fibre_m=0.5 * diameter_m,
        side_fibre_m=0.5 * diameter_m,
        shear_area_m2=inertia * 2.0 * wall_m / first,
    )


def ellipse(chord_m: float, thickness_m: float) -> CrossSection:
    """Return a solid ellipse, which stands for the streamlined section of a wooden strut. [m]."""
    area = 0.25 * pi * chord_m * thickness_m
    return CrossSection(
        area_m2=area,
        inertia_m4=area * thickness_m**2 / 16.0,
        side_inertia_m4=area * chord_m**2 / 16.0,
        fibre_m=0.5 * thickness_m,
        side_fibre_m=0.5 * chord_m,
        shear_area_m2=0.75 * area,
    )
