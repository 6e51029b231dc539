"""The drag polar of an airplane from its parts: drag without lift, and span efficiency."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.numerics.uncertain import Uncertain, total

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.aerodynamics.drag_parts import FuselageShape, PartDrag
    from sim.aerodynamics.drag_section import SectionPolar
    from sim.aerodynamics.drag_wing import CellLift

BODY_RISE = {"flat-sided": Uncertain(1.5, 0.6), "streamline": Uncertain(0.75, 0.35)}
"""Rise of 1/e for a unit of frontal area of the fuselage over the area of the wing (Perkins & Hage, Airplane
Performance, Stability and Control, after Wood; from memory)."""
OTHER_RISE = Uncertain(0.05, 0.05)
"""Rise of 1/e by tail and other parts (same source)."""
INDUCED_BAND = 0.02
"""Of the induced drag of the lattice, over that drag: its panels, and tips that are not square."""


@dataclass(frozen=True, slots=True)
class SpanEfficiency:
    """Where the drag that grows with lift comes from; each over lift coefficient squared.

    Attributes
    ----------
    induced_drag_rise : Uncertain
        Induced drag of the planes together.
    profile_drag_rise : Uncertain
        Profile drag of the planes, each at its own lift.
    other_drag_rise : Uncertain
        Fuselage, tail and the rest.
    span_efficiency : Uncertain
        Of the equivalent monoplane.
    """

    induced_drag_rise: Uncertain
    profile_drag_rise: Uncertain
    other_drag_rise: Uncertain
    span_efficiency: Uncertain


def span_efficiency(
    cell: CellLift,
    sections: Sequence[SectionPolar],
    *,
    span_m: float,
    aspect_ratio: float,
    frontal_area_m2: float,
    shape: FuselageShape,
) -> SpanEfficiency:
    """Return Oswald's span efficiency of the equivalent monoplane.

    Parameters
    ----------
    cell : CellLift
        The planes in the lattice.
    sections : sequence of SectionPolar
        Section of each plane.
    span_m, aspect_ratio : float
        Largest span; aspect ratio of the equivalent monoplane. [m, 1]
    frontal_area_m2 : float
        Of the fuselage. [m²]
    shape : {"flat-sided", "streamline"}
        Of the fuselage.
    """
    area_m2 = sum(cell.area_m2)
    induced = cell.induced_factor * area_m2 / (math.pi * span_m**2)
    own = zip(cell.area_m2, cell.share, sections, strict=True)
    profile = total(section.rise * (share**2 * area_m2 / plane_m2) for plane_m2, share, section in own)
    ideal = 1.0 / (math.pi * aspect_ratio)
    other = (BODY_RISE[shape] * (frontal_area_m2 / area_m2) + OTHER_RISE) * ideal
    rise = total((Uncertain(induced, INDUCED_BAND * induced), profile, other))
    efficiency = ideal / rise.value
    return SpanEfficiency(
        induced_drag_rise=Uncertain(induced, INDUCED_BAND * induced),
        profile_drag_rise=profile,
        other_drag_rise=other,
        span_efficiency=Uncertain(efficiency, efficiency * rise.relative),
    )


@dataclass(frozen=True, slots=True)
class ZeroLiftDrag:
    """Drag without lift, part by part.

    Attributes
    ----------
    parts : tuple of PartDrag
        Wing, fuselage, tail, then the rest.
    whole_interference : Uncertain
        Of the whole airplane: junctions, gaps, small things; a factor on the sum.
    drag_zero_lift : Uncertain
        On the area of the wing.
    """

    parts: tuple[PartDrag, ...]
    whole_interference: Uncertain
    drag_zero_lift: Uncertain

    def variance_shares(self) -> tuple[float, ...]:
        """Return the share of each part in the variance, and last that of the interference of the whole.

        Parts of one kind share the error of its coefficient: each has its part of what they come to together.
        """
        factor, kinds = self.whole_interference, _by_kind(self.parts)
        own = [part.drag_area_band_m2 * kinds[_key(part)].band * factor.value**2 for part in self.parts]
        own.append((sum(one.value for one in kinds.values()) * factor.band) ** 2)
        whole = sum(own)
        return tuple(variance / whole if whole else 0.0 for variance in own)


def zero_lift_drag(parts: Sequence[PartDrag], whole_interference: Uncertain, *, area_m2: float) -> ZeroLiftDrag:
    """Return the drag coefficient of all parts together without lift.

    Parameters
    ----------
    parts : sequence of PartDrag
        Those of one kind share its error, others are independent.
    whole_interference : Uncertain
        Factor on their sum.
    area_m2 : float
        Of the wing. [m²]
    """
    whole = total(_by_kind(parts).values()) * whole_interference * (1.0 / area_m2)
    return ZeroLiftDrag(tuple(parts), whole_interference, whole)


def _key(part: PartDrag) -> str:
    return part.kind if part.part_coefficient is not None else part.name


def _by_kind(parts: Sequence[PartDrag]) -> dict[str, Uncertain]:
    """Return the drag area of each kind, whose parts err together; of given ones each by itself. [m²]."""
    found: dict[str, Uncertain] = {}
    for part in parts:
        before = found.get(_key(part), Uncertain(0.0))
        found[_key(part)] = Uncertain(before.value + part.drag_area_m2, before.band + part.drag_area_band_m2)
    return found
