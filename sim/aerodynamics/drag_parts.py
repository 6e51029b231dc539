"""Drag area of one part of an airplane, without lift: surfaces, fuselage, and parts that do not lift."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from sim.aerodynamics.drag_friction import friction
from sim.numerics.uncertain import Uncertain

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.drag_kinds import DragKind

FuselageShape = Literal["flat-sided", "streamline"]
BODY_FACTOR = {"flat-sided": Uncertain(1.4, 0.3), "streamline": Uncertain(1.0, 0.12)}
"""On the friction of a body of revolution: edges, laps and flat sides (common practice, no source)."""
WETTED_SHARE = 0.75
"""Wetted area of a fuselage over that of the box round it without its ends (common practice, no source)."""
TAIL_GAPS = Uncertain(1.2, 0.1)
"""On the profile drag of tail surfaces: hinge gaps, horns and brace fittings (common practice, no source)."""
TAIL_THICKNESS = 0.08
"""Of a braced tail surface over its chord where nothing says it (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class PartDrag:
    """Drag of one part of the airplane without lift.

    Attributes
    ----------
    name, kind : str
        As the user calls it, and what it is.
    count : int
        How many of them.
    area_m2 : float or None
        That the coefficient is on, of all of them; None where the drag area was given. [m²]
    part_coefficient : float or None
        On that area, of the part alone.
    interference : float
        Drag in place over that of the part alone.
    drag_area_m2, drag_area_band_m2 : float
        Drag over dynamic pressure in place, and one standard deviation. [m²]
    """

    name: str
    kind: str
    count: int
    area_m2: float | None
    part_coefficient: float | None
    interference: float
    drag_area_m2: float
    drag_area_band_m2: float

    @property
    def drag_area(self) -> Uncertain:
        """Drag over dynamic pressure, with its deviation. [m²]."""
        return Uncertain(self.drag_area_m2, self.drag_area_band_m2)


def part_drag(
    name: str,
    kind: str,
    count: int,
    *,
    area_m2: Uncertain,
    part_coefficient: Uncertain,
    interference: Uncertain,
) -> PartDrag:
    """Return the drag of one or several alike.

    Parameters
    ----------
    name, kind : str
        As in `PartDrag`.
    count : int
        How many, 1 or more.
    area_m2 : Uncertain
        Of one of them. [m²]
    part_coefficient, interference : Uncertain
        On that area; factor on it. The same for all of them, so that their errors do not average out.
    """
    found = area_m2 * part_coefficient * interference * float(count)
    return PartDrag(
        name=name,
        kind=kind,
        count=count,
        area_m2=area_m2.value * count,
        part_coefficient=part_coefficient.value,
        interference=interference.value,
        drag_area_m2=found.value,
        drag_area_band_m2=found.band,
    )


def given_drag(name: str, kind: str, count: int, *, drag_area_m2: Uncertain, interference: Uncertain) -> PartDrag:
    """Return the drag of a part whose drag area is given. [m²]."""
    found = drag_area_m2 * interference * float(count)
    return PartDrag(name, kind, count, None, None, interference.value, found.value, found.band)


def kind_area_m2(kind: DragKind, sides_m: Mapping[str, Uncertain]) -> Uncertain:
    """Return the area that the coefficient of a kind is on. [m²].

    Parameters
    ----------
    kind : DragKind
        One of `sim.aerodynamics.drag_kinds.KINDS`.
    sides_m : Mapping of str to Uncertain
        Each of its sides; of a disc the diameter. [m]
    """
    if len(kind.sides) == 1:  # one length, squared: its error counts twice
        side = sides_m[kind.sides[0]]
        return Uncertain(side.value**2, 2.0 * side.value * side.band) * kind.area_factor
    first, second = (sides_m[side] for side in kind.sides)
    return first * second * kind.area_factor


def fuselage_drag(
    *, length_m: float, width_m: float, depth_m: float, shape: FuselageShape, speed_per_viscosity_per_m: float
) -> PartDrag:
    """Return the drag of a bare fuselage without cowl, cockpit and fittings: friction all turbulent, times form.

    Parameters
    ----------
    length_m, width_m, depth_m : float
        Largest dimensions. [m]
    shape : {"flat-sided", "streamline"}
        Flat-sided with edges, or round and smooth.
    speed_per_viscosity_per_m : float
        Speed over kinematic viscosity. [1/m]

    References
    ----------
    Form factor 1 + 60/f³ + f/400 for the fineness f: Raymer, Aircraft Design (from memory).
    """
    frontal_m2 = width_m * depth_m
    fineness = length_m / math.sqrt(4.0 / math.pi * frontal_m2)
    form = 1.0 + 60.0 / fineness**3 + fineness / 400.0
    wetted_m2 = WETTED_SHARE * 2.0 * (width_m + depth_m) * length_m
    coefficient = BODY_FACTOR[shape] * (friction(length_m * speed_per_viscosity_per_m) * form)
    return part_drag(
        "fuselage", shape, 1, area_m2=Uncertain(wetted_m2), part_coefficient=coefficient, interference=Uncertain(1.0)
    )


def tail_drag(name: str, *, area_m2: float, chord_m: float, speed_per_viscosity_per_m: float) -> PartDrag:
    """Return the profile drag of a tail surface without load, all turbulent.

    Parameters
    ----------
    name : str
        ``tailplane`` or ``fin``.
    area_m2, chord_m : float
        With the movable part. [m², m]
    speed_per_viscosity_per_m : float
        Speed over kinematic viscosity. [1/m]
    """
    thick = TAIL_THICKNESS
    alone = 2.0 * friction(chord_m * speed_per_viscosity_per_m) * (1.0 + 2.0 * thick + 60.0 * thick**4)
    return part_drag(
        name,
        "tail surface",
        1,
        area_m2=Uncertain(area_m2),
        part_coefficient=Uncertain(alone, 0.1 * alone),
        interference=TAIL_GAPS,
    )
