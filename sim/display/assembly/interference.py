"""Proof that nothing meets anything else, at every angle of propeller and lead plate and at every lift.

Parts are prisms along z. Two of them can only meet where their extents along z overlap; what is then left is plane
geometry, and each motion has its own proof:

* What turns all the way round sweeps a ring, from its least to its greatest distance from its axis. The ring, and what
  is connected and stands still, meet exactly when their ranges of distance overlap.
* What swings or is lifted moves a point at distance r by at most r times the angle. A gap larger than that for half an
  interval is a gap in the whole of it; otherwise the interval is halved.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from shapely import Point, Polygon, affinity, prepare

from sim.display.assembly.contacts import astray, joined, running

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sim.display.assembly.data import Assembly, Fastener, GroupName, Part, Slab

GAP_M = 0.0002
"""Least gap between parts that move against each other and have no fit. [m]"""
SHRINK_M = 2e-5
"""Overlap that counts as contact: chords in place of arcs leave less. [m]"""
FINEST_M = 1e-5
"""Motion below which an interval is not halved any more. [m]"""
ROTORS = ("propeller", "cam", "crank")


@dataclass(frozen=True, slots=True)
class Clash:
    """Two parts that meet, or come nearer than they may.

    Attributes
    ----------
    first, second : str
        Their names.
    least_gap_m : float
        Least gap found, negative or 0 where they overlap. [m]
    """

    first: str
    second: str
    least_gap_m: float


@dataclass(frozen=True, slots=True)
class Motion:
    """How far lead plate and follower move.

    Attributes
    ----------
    swing_rad : float
        Swing of the lead plate, clockwise. [rad]
    lift_m : float
        Lift of the roller. [m]
    up_m : tuple of float
        Direction in which a slide is lifted, at no lead; (0, 0) for an arm.
    pivot_m : tuple of float
        Pivot of an arm at no lead. [m]
    arm_m : float
        Length of an arm, 0 for a slide. [m]
    """

    swing_rad: float
    lift_m: float
    up_m: tuple[float, float]
    pivot_m: tuple[float, float]
    arm_m: float

    def lifted(self, shape: Polygon, lift_m: float) -> Polygon:
        """Return a shape of the follower at a lift."""
        if self.arm_m:
            return affinity.rotate(shape, -lift_m / self.arm_m, origin=self.pivot_m, use_radians=True)
        return affinity.translate(shape, self.up_m[0] * lift_m, self.up_m[1] * lift_m)

    def speed(self, shape: Polygon) -> float:
        """Return how far a point of the follower moves at most in a unit of lift."""
        return _reach(shape, self.pivot_m) / self.arm_m if self.arm_m else 1.0


@dataclass(frozen=True, slots=True, eq=False)
class _Body:
    name: str
    group: GroupName
    each: Part | Fastener
    shape: Polygon
    slab: Slab


def shape_of(slab: Slab, each: Part | Fastener) -> Polygon:
    """Return a slab of a part in its place as a polygon; of the outline of an undercut cam its hull."""
    shape = Polygon(slab.outline_m, slab.openings_m)
    if not shape.is_valid:
        from scipy.spatial import ConvexHull

        shape = Polygon(slab.outline_m[ConvexHull(slab.outline_m).vertices], slab.openings_m)
    turn = getattr(each, "placed_rad", 0.0)
    if turn:
        shape = affinity.rotate(shape, turn, origin=(0.0, 0.0), use_radians=True)
    return affinity.translate(shape, each.x_m, each.y_m)


@dataclass(frozen=True, slots=True)
class _Moves:
    """What moves, and how."""

    axes: dict[GroupName, tuple[float, float]]
    motion: Motion
    cam_gap: Callable[[Polygon], float]


def clashes(
    assembly: Assembly, motion: Motion, cam_gap: Callable[[Polygon], float], of: Part | Fastener | None = None
) -> tuple[Clash, ...]:
    """Return every pair of parts that meet somewhere, or come nearer than `GAP_M` while they move.

    Parameters
    ----------
    assembly : Assembly
        The display.
    motion : Motion
        How far lead plate and follower move.
    cam_gap : callable
        Returns the least gap over a turn between the cam and a shape that moves with the follower. [m]
    of : Part, Fastener or None
        What it is asked about, None for everything.
    """
    pieces: list[Part | Fastener] = [*assembly.parts, *assembly.fasteners]
    bodies = [_Body(each.name, each.group, each, shape_of(slab, each), slab) for each in pieces for slab in each.slabs]
    moves = _Moves({group.name: group.axis_m for group in assembly.groups}, motion, cam_gap)
    found: dict[tuple[str, str], float] = {}
    for first, second in _near(bodies):
        if of is not None and first.each is not of and second.each is not of:
            continue
        gap = _gap(first, second, moves)
        if gap is not None:
            names = (first.name, second.name)
            found[names] = min(gap, found.get(names, math.inf))
    lost = ((screw.name, screw.joins[0]) for screw in _asked(assembly, of) if astray(screw, assembly.parts))
    return tuple(Clash(*names, gap) for names, gap in (found | dict.fromkeys(lost, 0.0)).items())


def _asked(assembly: Assembly, of: Part | Fastener | None) -> tuple[Fastener, ...]:
    return assembly.fasteners if of is None else tuple(screw for screw in assembly.fasteners if screw is of)


def _near(bodies: list[_Body]) -> Iterator[tuple[_Body, _Body]]:
    """Yield pairs of different parts that overlap along z, or nearly do while they move against each other."""
    bodies = sorted(bodies, key=lambda body: body.slab.z_from_m)
    for index, first in enumerate(bodies):
        for second in bodies[index + 1 :]:
            if second.slab.z_from_m > first.slab.z_to_m + GAP_M:
                break
            if first.each is second.each:
                continue
            apart = second.slab.z_from_m - first.slab.z_to_m
            spare = -1e-6 if first.group == second.group or running(first.each, second.each) else GAP_M - 1e-6
            if apart < spare:
                yield first, second


def _gap(first: _Body, second: _Body, moves: _Moves) -> float | None:
    """Return the gap of a pair where it is too small, None where it is not."""
    if joined(first.each, second.each, first.slab, second.slab):
        return None
    if first.group == second.group:
        return _overlap(first.shape, second.shape)
    if running(first.each, second.each):
        return None
    if first.group in ROTORS and second.group in ROTORS:
        return _rotors(first, second, moves.axes)
    if second.group in ROTORS:
        first, second = second, first
    if first.group in ROTORS:
        return _swept(first, second, moves)
    return _swung(first, second, moves.motion)


def _overlap(first: Polygon, second: Polygon) -> float | None:
    if first.distance(second) > 0.0:
        return None
    inner = first.buffer(-SHRINK_M).intersection(second)
    return -math.sqrt(inner.area) if inner.area > 0.0 else None


def _reach(shape: Polygon, axis: tuple[float, float]) -> float:
    corners = np.asarray(shape.exterior.coords) - np.array(axis)
    return float(np.max(np.hypot(*corners.T)))


def _ring(shape: Polygon, axis: tuple[float, float]) -> tuple[float, float]:
    """Return least and greatest distance of a shape from an axis."""
    return shape.distance(Point(axis)), _reach(shape, axis)


def _apart(first: tuple[float, float], second: tuple[float, float]) -> float:
    """Return the gap between two ranges, negative where they overlap."""
    return max(second[0] - first[1], first[0] - second[1])


def _rotors(first: _Body, second: _Body, axes: dict[GroupName, tuple[float, float]]) -> float | None:
    """Return the gap between the circles that two parts on different axes sweep."""
    here, there = axes[first.group], axes[second.group]
    gap = math.dist(here, there) - _reach(first.shape, here) - _reach(second.shape, there)
    return None if gap >= GAP_M else gap


def _swept(rotor: _Body, other: _Body, moves: _Moves) -> float | None:
    """Return the gap between the ring of a rotor and what stands, swings or is lifted."""
    axis, motion = moves.axes[rotor.group], moves.motion
    ring = _ring(rotor.shape, axis)
    if other.group == "fixed":
        gap = _apart(ring, _ring(other.shape, axis))
        return None if gap >= GAP_M else gap
    if rotor.name == "cam" and other.group == "follower":
        gap = moves.cam_gap(other.shape)
        return None if gap >= GAP_M else gap

    def at(lead: float, lift: float) -> float:
        shape = motion.lifted(other.shape, lift) if lift else other.shape
        shape = affinity.rotate(shape, -lead, origin=(0.0, 0.0), use_radians=True) if lead else shape
        return _apart(ring, _ring(shape, axis))

    own = axis == (0.0, 0.0)
    swing = 0.0 if own else motion.swing_rad
    lift = motion.lift_m if other.group == "follower" else 0.0
    return _least(at, (swing, _reach(other.shape, (0.0, 0.0))), (lift, motion.speed(other.shape)))


def _swung(first: _Body, second: _Body, motion: Motion) -> float | None:
    """Return the gap between parts that stand, swing or are lifted."""
    if second.group == "fixed" or (second.group == "lead plate" and first.group == "follower"):
        first, second = second, first
    prepare(first.shape)
    lift = motion.lift_m if second.group == "follower" else 0.0
    swing = motion.swing_rad if first.group == "fixed" else 0.0
    if swing and _apart(_ring(first.shape, (0.0, 0.0)), _ring(second.shape, (0.0, 0.0))) >= GAP_M + lift * motion.speed(
        second.shape
    ):
        return None

    def at(lead: float, height: float) -> float:
        shape = motion.lifted(second.shape, height) if height else second.shape
        shape = affinity.rotate(shape, -lead, origin=(0.0, 0.0), use_radians=True) if lead else shape
        return float(first.shape.distance(shape))

    return _least(at, (swing, _reach(second.shape, (0.0, 0.0))), (lift, motion.speed(second.shape)))


def _least(at: Callable[[float, float], float], lead: tuple[float, float], lift: tuple[float, float]) -> float | None:
    """Return a gap that is too small, None where every lead and lift is proven to leave one that is not.

    Each of the two is given by its range, from 0, and by the greatest motion in a unit of it.
    """
    waiting = [(0.0, lead[0], 0.0, lift[0])]
    while waiting:
        low, high, down, up = waiting.pop()
        gap = at((low + high) / 2.0, (down + up) / 2.0)
        swings, lifts = (high - low) / 2.0 * lead[1], (up - down) / 2.0 * lift[1]
        if gap < GAP_M - FINEST_M:
            return gap
        if gap - swings - lifts >= GAP_M - FINEST_M or swings + lifts < FINEST_M:
            continue
        if swings >= lifts:
            middle = (low + high) / 2.0
            waiting += [(low, middle, down, up), (middle, high, down, up)]
        else:
            middle = (down + up) / 2.0
            waiting += [(low, high, down, middle), (low, high, middle, up)]
    return None
