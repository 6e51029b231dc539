"""Planes as a user writes them, ``span 6 m, chord 1 m, height 1 m``, and what is wrong with them together."""

from __future__ import annotations

import math
from itertools import combinations
from typing import TYPE_CHECKING

from sim.aerodynamics.lattice_panels import THIN_AEROFOIL, LiftingPlane
from sim.errors import Fault, InputError, refuse
from sim.units.parsing import Allowed
from sim.units.pieces import read_pieces

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

MOST_PLANES = 10
LEAST_GAP = 0.2
"""Between planes that stand over each other, in chords of the larger: nearer ones a lattice of few rows mixes up."""
SECTION_SLOPE = Allowed("1", least=2.0, most=8.0, example="5.7")
FAR_M = 100.0
"""Most of a span, a height or a distance ahead. [m]"""

PIECES = {
    "span": Allowed("m", above=0.0, most=FAR_M, example="28 ft"),
    "chord": Allowed("m", above=0.0, most=FAR_M, example="4 ft 6 in"),
    "taper": Allowed("1", least=0.0, most=1.0, example="0.6"),
    "sweep": Allowed("rad", least=math.radians(-60.0), most=math.radians(60.0), example="5 °"),
    "dihedral": Allowed("rad", least=math.radians(-30.0), most=math.radians(30.0), example="3 °"),
    "incidence": Allowed("rad", least=math.radians(-20.0), most=math.radians(20.0), example="2 °"),
    "height": Allowed("m", least=-FAR_M, most=FAR_M, example="4 ft 9 in"),
    "ahead": Allowed("m", least=-FAR_M, most=FAR_M, example="1 ft 6 in"),
    "section slope": SECTION_SLOPE,
}
FIELDS = {
    "span": "span_m",
    "chord": "chord_m",
    "sweep": "sweep_rad",
    "dihedral": "dihedral_rad",
    "incidence": "incidence_rad",
    "height": "height_m",
    "ahead": "stagger_m",
    "section slope": "section_slope",
}
"""Name in the text -> field of `LiftingPlane`, where they differ."""
POINT = {name: Allowed("m", least=-FAR_M, most=FAR_M, example="12 ft") for name in "xyz"}


def asked(
    planes: Sequence[str], at: str | None, section_slope: float | None, *, two_dimensional: bool
) -> tuple[tuple[LiftingPlane, ...], tuple[float, float, float] | None]:
    """Return the planes, in two dimensions straight and of a unit of span, and the point of the downwash.

    Raises
    ------
    InputError
        With every fault of every plane and of the point, or of two planes that touch.
    """
    faults = list(_count_faults(planes))
    found: list[LiftingPlane] = []
    point = None
    try:
        point = None if at is None else _point(at, two_dimensional)
    except InputError as error:
        faults.extend(error.faults)
    for number, one in enumerate(planes, 1):
        try:
            found.append(_plane(one, f"planes {number}", section_slope, two_dimensional))
        except InputError as error:
            faults.extend(error.faults)
    faults.extend(() if faults else _touching(found))
    if faults:
        raise InputError(faults)
    return tuple(found), point


def _point(given: str, two_dimensional: bool) -> tuple[float, float, float]:
    """Return the point aft of the datum, right of it and above it. [m]."""
    if two_dimensional:
        refuse("at", "cannot be used with `two_dimensional`")
    found = {"y": 0.0, "z": 0.0, **read_pieces(given, POINT, key="at")}
    if "x" not in found:
        refuse("at x", f'is missing, as in "x {POINT["x"].example}"')
    return found["x"], found["y"], found["z"]


def _count_faults(given: Sequence[str]) -> Iterator[Fault]:
    if not given:
        yield Fault("planes", 'is missing; each plane as in "span 28 ft, chord 4 ft 6 in"')
    if len(given) > MOST_PLANES:
        yield Fault("planes", f'can be given {MOST_PLANES} times at most, got "{len(given)}"')


def _plane(text: str, key: str, section_slope: float | None, two_dimensional: bool) -> LiftingPlane:
    found = {FIELDS.get(name, name): value for name, value in read_pieces(text, PIECES, key=key).items()}
    found = {"section_slope": THIN_AEROFOIL if section_slope is None else section_slope} | found
    if two_dimensional:
        found |= {"span_m": 1.0, "taper": 1.0, "sweep_rad": 0.0, "dihedral_rad": 0.0}
    missing = [name for name in ("span", "chord") if FIELDS[name] not in found]
    if missing:
        faults = (Fault(f"{key} {name}", f'is missing, as in "{name} {PIECES[name].example}"') for name in missing)
        raise InputError(faults)
    return LiftingPlane(**found)


def _touching(planes: Sequence[LiftingPlane]) -> Iterator[Fault]:
    for (first, one), (second, other) in combinations(enumerate(planes, 1), 2):
        least = LEAST_GAP * max(one.chord_m, other.chord_m)
        gaps = [gap for gap in _gaps(one, other) if gap is not None]
        if gaps and (min(gaps) < 0.0 < max(gaps) or min(map(abs, gaps)) < least * (1.0 - 1e-9)):
            limit = f"a gap of at least {LEAST_GAP:g} of the larger chord to plane {first}, over which it stands"
            yield Fault(f"planes {second} height", f"must leave {limit}")


def _gaps(one: LiftingPlane, other: LiftingPlane) -> Iterator[float | None]:
    """Yield the height of one over the other at the root and at the nearer tip, None where they stand clear in plan."""
    common = min(one.span_m, other.span_m)
    for place in (0.0, common):
        share, other_share = place / one.span_m, place / other.span_m
        front, other_front = one.leading_edge_at_m(share), other.leading_edge_at_m(other_share)
        clear = front + one.chord_at_m(share) <= other_front or other_front + other.chord_at_m(other_share) <= front
        yield None if clear else one.height_at_m(share) - other.height_at_m(other_share)
