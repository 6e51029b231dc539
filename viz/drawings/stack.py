"""The stack on a shaft: how far each face stands from the front of the base, written over or below a section."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.data import Fastener
from sim.display.assembly.order import PIN
from sim.units.convert import mm
from viz.drawings.lengths import dimension_text, units_of
from viz.drawings.marks import DIMENSION_LETTER_MM, Note, Stroke, box_of
from viz.drawings.placing import LABEL_MM, spread

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from shapely.geometry.base import BaseGeometry

    from sim.display.assembly.data import Assembly, Part
    from viz.drawings.marks import Mark

    Piece = Part | Fastener

NEAR_MM = 30.0
"""How far from its axis a part still belongs to the stack of a shaft. [mm]"""
RISE_MM = 5.0
"""Over which the lines lead from the faces to their words. [mm]"""


def faces(
    assembly: Assembly, cut: Mapping[int, BaseGeometry], axes_m: Iterable[float], *, above: bool
) -> Iterator[tuple[float, float]]:
    """Yield every place along shafts where a part on one ends, and the end of the part up or down there. [mm].

    Parameters
    ----------
    assembly : Assembly
        The display.
    cut : mapping of int to geometry
        Number of a piece -> what the section cuts of it, along the shaft and up. [mm]
    axes_m : iterable of float
        Heights of the shafts. [m]
    above : bool
        Whether the upper ends are asked for, not the lower ones.
    """
    found: dict[float, float] = {}
    near = [(mm(axis) - NEAR_MM, mm(axis) + NEAR_MM) for axis in axes_m]
    for number, area in cut.items():
        each = assembly.pieces[number]
        left, low, right, high = area.bounds
        if (
            isinstance(each, Fastener)
            or each.name == PIN
            or not any(low <= top and high >= bottom for bottom, top in near)
        ):
            continue
        for end in (round(left, 2), round(right, 2)):
            level = high if above else low
            found[end] = min(found.get(end, level), level) if above else max(found.get(end, level), level)
    yield from sorted(found.items())


def ordinates(
    assembly: Assembly, ends: Sequence[tuple[float, float]], scale: float, drawn: Sequence[Mark], *, above: bool
) -> Iterator[Mark]:
    """Yield a line from each face to its distance from the front of the base, beyond everything drawn; ISO 129-1."""
    _, low, _, high = box_of(drawn)
    sense, edge = (1.0, high) if above else (-1.0, low)
    places = spread([scale * at for at, _ in ends], LABEL_MM)
    for (at, level), across in zip(ends, places, strict=True):
        x, first, last = scale * at, edge + sense * 1.5, edge + sense * (1.5 + RISE_MM)
        yield Stroke([(x, scale * level), (x, first), (across, last), (across, last + sense)], "leader")
        text = dimension_text(at, units_of(assembly.hardware)) if abs(at) > 1e-3 else "0"
        anchor = "start" if above else "end"
        yield Note(text, (across, last + 2.0 * sense), "thin", DIMENSION_LETTER_MM, anchor, turned_deg=90.0)  # type: ignore[arg-type]
