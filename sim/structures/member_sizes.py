"""What spars, struts and wires are made of: a section and its material, or standard wires."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from sim.structures.cross_section import CrossSection
    from sim.structures.materials import StructuralMaterial
    from sim.structures.sizes import WireSize


class _OfOneSection:
    """What follows from a section and its material, of spars and struts alike."""

    __slots__ = ()
    section: CrossSection
    material: StructuralMaterial

    @property
    def strength_scatter(self) -> float:
        """Standard deviation of its strength over its mean."""
        return self.material.strength_scatter

    @property
    def kg_per_m(self) -> float:
        """Mass a length. [kg/m]."""
        return self.section.area_m2 * self.material.density_kg_m3

    @property
    def axial_n(self) -> float:
        """Young's modulus times area. [N]."""
        return self.material.modulus_pa * self.section.area_m2


@dataclass(frozen=True, slots=True)
class SparSize(_OfOneSection):
    """A spar.

    Attributes
    ----------
    label : str
        In words.
    section : CrossSection
        Constant along it.
    material : StructuralMaterial
        Of all its parts.
    """

    label: str
    section: CrossSection
    material: StructuralMaterial


@dataclass(frozen=True, slots=True)
class StrutSize(_OfOneSection):
    """A strut or compression rib.

    Attributes
    ----------
    section : CrossSection
        Constant along it.
    material : StructuralMaterial
        Of it.
    fixity : float
        Of its ends, 1 hinged to 4 clamped.
    eccentricity_m : float
        Of the load at its ends. [m]
    tube : bool
        Whether it is a round tube, for which there are standard sizes; else it is oval.
    sizes_m : tuple of float
        Outside diameter and wall, or chord and thickness. [m]
    pin_m, plate_m : float or None
        Diameter of the pin at each end, and thickness of all plates that it bears on to one side. [m]
    """

    section: CrossSection
    material: StructuralMaterial
    fixity: float = 1.0
    eccentricity_m: float = 0.0
    tube: bool = False
    sizes_m: tuple[float, float] = (0.0, 0.0)
    pin_m: float | None = None
    plate_m: float | None = None

    @property
    def label(self) -> str:
        """Its material and shape."""
        return f"{self.material.name}, {'tube' if self.tube else 'oval'}"


@dataclass(frozen=True, slots=True)
class WireSet:
    """One wire, or several alike beside each other.

    Attributes
    ----------
    size : WireSize
        Of each.
    count : int
        [1 or more]
    tension_n : float
        Of all together as rigged, on nodes that stay in place. [N]
    pin_m, plate_m : float or None
        As in `StrutSize`. [m]
    """

    size: WireSize
    count: int = 1
    tension_n: float = 0.0
    pin_m: float | None = None
    plate_m: float | None = None

    @property
    def label(self) -> str:
        """Its size in words."""
        return self.size.name if self.count == 1 else f"{self.count} x {self.size.name}"

    @property
    def strength_scatter(self) -> float:
        """Standard deviation of its strength over its mean."""
        return self.size.strength_scatter

    @property
    def kg_per_m(self) -> float:
        """Mass a length. [kg/m]."""
        return self.count * self.size.area_m2 * self.size.density_kg_m3

    @property
    def axial_n(self) -> float:
        """Young's modulus times area. [N]."""
        return self.count * self.size.modulus_pa * self.size.area_m2


MemberSize: TypeAlias = StrutSize | WireSet
