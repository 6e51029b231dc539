"""Outline of a plane in space: planform, root section, spars and ailerons, its edges straight from root to tip."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.projection import SpaceLine, mirrored

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from sim.airframe.layout import PlacedPlane, SparRoom
    from sim.airframe.projection import Place, Stroke
    from sim.airframe.section import Airfoil

WING, SPARS, AILERONS = "wing", "spars", "ailerons"
THINNED = 100
"""Points of either surface of a section, at most about so many."""


def root_chord_m(placed: PlacedPlane) -> float:
    """Return the chord at the plane of symmetry of a plane of straight edges [m]."""
    return 2.0 * placed.plane.chord_m / (1.0 + placed.plane.taper)


def edges_m(placed: PlacedPlane, buttline_m: float) -> tuple[float, float]:
    """Return leading and trailing edge along the root chord from the leading edge there, without sweep [m].

    Parameters
    ----------
    placed : PlacedPlane
        Its quarter-chord line is straight.
    buttline_m : float
        From 0 to half the span. [m]
    """
    root_m = root_chord_m(placed)
    chord_m = root_m * (1.0 - (1.0 - placed.plane.taper) * 2.0 * buttline_m / placed.plane.span_m)
    ahead_m = 0.25 * (root_m - chord_m)
    return ahead_m, ahead_m + chord_m


def section_at(placed: PlacedPlane, section: Airfoil, buttline_m: float) -> tuple[Place, ...]:
    """Return the outline of the section at a buttline, from the trailing edge over the top.

    Parameters
    ----------
    placed, section, buttline_m
        The plane, its section in units of the chord, and where; right positive. [m]
    """
    ahead_m, aft_m = edges_m(placed, buttline_m)
    chord_m, thin = aft_m - ahead_m, max(1, section.upper.shape[1] // THINNED)
    points = [
        *zip(*section.upper[:, ::-thin].tolist(), strict=True),
        *zip(*section.lower[:, ::thin].tolist(), strict=True),
    ]
    return tuple(placed.point(ahead_m + x * chord_m, y * chord_m, buttline_m) for x, y in points)


def plane_lines(placed: PlacedPlane, section: Airfoil, *, below: bool) -> Iterator[SpaceLine]:
    """Yield a plane: planform, front view, root section and, where it is another, tip section.

    Parameters
    ----------
    placed : PlacedPlane
        Where it stands.
    section : Airfoil
        In units of the chord.
    below : bool
        Whether another plane lies over it, which hides it in the plan.
    """
    half_m = 0.5 * placed.plane.span_m
    stroke: Stroke = "hidden" if below else "edge"
    ends = {out_m: edges_m(placed, out_m) for out_m in (0.0, half_m)}
    right = [placed.point(ends[out_m][edge], 0.0, out_m) for edge, out_m in ((0, 0.0), (0, half_m), (1, half_m))]
    trailing = placed.point(ends[0.0][1], 0.0, 0.0)
    left = [(s, w, -b) for s, w, b in right[:0:-1]]
    yield SpaceLine(WING, (*right, trailing, *left), stroke, closed=True, views=("plan",))
    yield SpaceLine(WING, section_at(placed, section, 0.0), closed=True, views=("side",))
    if placed.plane.taper != 1.0:
        yield SpaceLine(WING, section_at(placed, section, half_m), "hidden", closed=True, views=("side",))
    high, low = ([_end(placed, section, out_m, pick) for out_m in (0.0, half_m)] for pick in (max, min))
    corners = [*high, *reversed(low)]
    whole = [*((s, w, -b) for s, w, b in reversed(high)), *corners[1:], *((s, w, -b) for s, w, b in low[1:])]
    yield SpaceLine(WING, tuple(whole), closed=True, views=("front",))


def _end(placed: PlacedPlane, section: Airfoil, buttline_m: float, pick: Callable[..., Place]) -> Place:
    """Return the highest or the lowest point of the section at a buttline."""
    points = section_at(placed, section, buttline_m)
    return pick(points, key=lambda point: point[1])


def spar_lines(placed: PlacedPlane, rooms: Sequence[SparRoom], *, below: bool) -> Iterator[SpaceLine]:
    """Yield the middle of each spar from tip to tip, and its foot and head at the plane of symmetry."""
    half_m = 0.5 * placed.plane.span_m
    for spar in rooms:
        middle_m = 0.5 * (spar.bottom_m + spar.top_m)
        root, tip = (placed.point(spar.from_leading_edge_m, middle_m, out_m) for out_m in (0.0, half_m))
        across = ((tip[0], tip[1], -tip[2]), root, tip)
        yield SpaceLine(SPARS, across, "hidden" if below else "thin", views=("plan",))
        ends = tuple(placed.point(spar.from_leading_edge_m, at_m, 0.0) for at_m in (spar.bottom_m, spar.top_m))
        yield SpaceLine(SPARS, ends, views=("side",))


def aileron_lines(
    placed: PlacedPlane, *, inner: float, outer: float, chord_share: float, below: bool
) -> tuple[SpaceLine, ...]:
    """Return the hinge lines and the ends of the ailerons.

    Parameters
    ----------
    placed : PlacedPlane
        The plane that has them.
    inner, outer : float
        Their ends as shares of the semi-span, 0 to 1.
    chord_share : float
        Their chord over that of the plane, 0 to 1.
    below : bool
        Whether another plane lies over it.
    """
    half_m, points = 0.5 * placed.plane.span_m, list[tuple[float, float]]()
    for share, order in ((inner, (1, 0)), (outer, (0, 1))):
        ahead_m, aft_m = edges_m(placed, share * half_m)
        both = (aft_m - chord_share * (aft_m - ahead_m), aft_m)
        points += [(both[at], share * half_m) for at in order]
    corners = tuple(placed.point(along_m, 0.0, out_m) for along_m, out_m in points)
    return mirrored([SpaceLine(AILERONS, corners, "hidden" if below else "thin", views=("plan",))])
