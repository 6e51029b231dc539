"""The strips of an airplane from its lattice: their places, and by how much its vortices turn the stream at each."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics.airframe_flow import TurnedFlow, body_ends_m, turned_flow
from sim.aerodynamics.lattice_airplane import FIN, TAIL, TAIL_PRESSURE, WING
from sim.aerodynamics.lattice_motion import AILERON, ELEVATOR, MOTION, RUDDER, P, Q, R, U, V, W, wing_downwash
from sim.aerodynamics.lattice_panels import VORTEX
from sim.aerodynamics.strips import BodyPart, Strip, Strips

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.geometry import Airframe, Surface
    from sim.aerodynamics.lattice_panels import Panels
    from sim.aerodynamics.polar import Polar
    from sim.aerodynamics.section_curve import SectionCurve
    from sim.aerodynamics.slipstream import Slipstream

    Numbers = NDArray[np.float64]
    Order = NDArray[np.intp]

WING_STRIPS: Final = 10
"""On one side, of all planes together."""
LEAST_STRIPS, MOST_STRIPS, TAIL_STRIPS, FIN_STRIPS = 4, 8, 2, 2
TIPWARD: Final = 1.5
"""Power by which strips grow narrower towards the tip, where the load falls off."""
BODY_PARTS: Final = 4
SHADOW_DEG: Final = (30.0, 60.0)
"""At a high angle of attack the wake of a tailplane lies between lines so far up from its trailing and its leading edge
(NACA TN 1045, 1946, from memory)."""


class Curves(NamedTuple):
    """Section curves of the planes of the wing in their order, of tailplane and fin."""

    planes: tuple[SectionCurve, ...]
    tailplane: SectionCurve
    fin: SectionCurve


def airplane_strips(
    airframe: Airframe, polar: Polar, slipstream: Slipstream, curves: Curves, *, cg_aft_m: float = 0.0
) -> Strips:
    """Return the strips of an airframe.

    Parameters
    ----------
    airframe, polar : Airframe, Polar
        Geometry about its centre of gravity; lift without angle of attack, drag, and dimensions.
    slipstream : Slipstream
        Of its propeller.
    curves : Curves
        Of the sections.
    cg_aft_m : float
        How far the centre of gravity lies aft of that of `airframe`. [m]

    Notes
    -----
    A strip gathers strips of the lattice: its angle in attached flow is the mean of theirs by area.
    """
    flow, wing, tail = turned_flow(airframe, polar.lift_zero), airframe.wing, airframe.tailplane
    taken = slipstream.recovered_share
    met = (1.0 - 0.5 * taken) / (1.0 - taken) if taken < 1.0 else 1.0
    half = min(max(WING_STRIPS // len(wing.planes), LEAST_STRIPS), MOST_STRIPS)
    edge_m = 0.5 * slipstream.wing_share * polar.area_m2 / sum(plane.chord_m for plane in wing.planes)
    planes = [
        strip
        for number, (plane, curve) in enumerate(zip(wing.planes, curves.planes, strict=True))
        for strip in _gathered(flow, number, half, _Own(plane.name, curve, cg_aft_m, washed_to_m=edge_m, swirled=met))
    ]
    number, share = len(wing.planes), slipstream.tail_share
    level = _gathered(flow, number, TAIL_STRIPS, _Own("tailplane", curves.tailplane, cg_aft_m, share))
    upright = _gathered(
        flow,
        number + 1,
        FIN_STRIPS,
        _Own("fin", curves.fin, cg_aft_m, slipstream.fin_share, swirled=slipstream.fin_above_share, tailplane=tail),
    )
    surfaces_m2 = sum(
        (2.0 if one.mirrored else 1.0) * one.area_m2 * one.curve.drag_zero_lift for one in (*planes, *level, *upright)
    )
    arm_m, height_m = wing.mean("arm_m") - cg_aft_m, wing.mean("height_m") + airframe.wing_height_m
    return Strips(
        wing=tuple(planes),
        tail=(*level, *upright),
        body=_body(airframe, cg_aft_m),
        area_m2=polar.area_m2,
        span_m=polar.span_m,
        tail_arm_m=tail.arm_m - cg_aft_m,
        wing_place_m=(-arm_m, -height_m),
        wake_m=0.5 * wing.gap_m + 0.5 * polar.chord_m,
        parasite_m2=max(polar.drag_zero_lift * polar.area_m2 - surfaces_m2, 0.0),
        lift_max=polar.lift_max,
    )


class _Own(NamedTuple):
    """What the strips of one surface have in common."""

    name: str
    curve: SectionCurve
    cg_aft_m: float
    washed_share: float = 0.0
    washed_to_m: float = 0.0
    swirled: float = 0.0
    tailplane: Surface | None = None


class _Row(NamedTuple):
    """Strips of the lattice that become one: their first panels, widths, chords and areas."""

    first: Order
    width_m: Numbers
    chord_m: Numbers
    area_m2: Numbers

    def mean(self, values: Numbers) -> Numbers:
        """Return the mean of values, one a strip of the lattice, by area."""
        return np.asarray(np.average(values, axis=0, weights=self.area_m2))


def _gathered(solved: TurnedFlow, number: int, count: int, own: _Own) -> list[Strip]:
    """Return the strips of one plane, of its right half where it has two."""
    grid = solved.flow.airplane.grid
    first = np.unique(grid.strip, return_index=True)[1]
    chosen = first[grid.plane[first] == number]
    if solved.flow.airplane.surface[chosen[0]] != FIN:
        chosen = chosen[grid.bound_m[chosen, 1] > 0.0]
    width_m = np.linalg.norm((grid.right_m - grid.left_m)[:, 1:], axis=1)
    rows = []
    for part in _parts(chosen, grid.bound_m[chosen, 1], count):
        chord_m = grid.strip_chord_m[grid.strip[part]]
        rows.append(_Row(part, width_m[part], chord_m, width_m[part] * chord_m))
    return [_strip(solved, row, own) for row in rows]


def _parts(chosen: Order, place_m: Numbers, count: int) -> list[Order]:
    """Return these strips of the lattice in so many groups; those of a half plane are narrower towards the tip."""
    if not place_m.any():
        return np.array_split(chosen, count)
    edges = (1.0 - (1.0 - np.arange(1, count) / count) ** TIPWARD) * place_m.max()
    return np.split(chosen, np.searchsorted(place_m, edges))


def _strip(solved: TurnedFlow, row: _Row, own: _Own) -> Strip:
    """Return one strip of these strips of the lattice."""
    airplane, grid = solved.flow.airplane, solved.flow.airplane.grid
    surface, area_m2 = int(airplane.surface[row.first[0]]), float(row.area_m2.sum())
    chord_m = area_m2 / float(row.width_m.sum())
    normal = row.mean(grid.normal[row.first])
    across = (-float(normal[1]), float(normal[2]))
    leading = grid.bound_m[row.first] - np.outer(VORTEX * grid.row_chord_m[row.first], (1.0, 0.0, 0.0))
    middle = row.mean(leading + np.outer(0.5 * row.chord_m, (1.0, 0.0, 0.0)))
    x, y, z = own.cg_aft_m - float(middle[0]), float(middle[1]), -float(middle[2])
    turn = row.mean(airplane.turn[row.first])
    setting = float(row.mean(grid.incidence_rad[row.first])) + (solved.turn_rad if surface == WING else 0.0)
    of_strip = np.zeros((int(grid.strip.max()) + 1, len(MOTION)))
    np.add.at(of_strip, grid.strip, solved.flow.strength)
    lift = 2.0 * (row.width_m @ of_strip[grid.strip[row.first]]) / (area_m2 * own.curve.lift_slope)
    down = np.zeros(len(MOTION))
    if surface == TAIL:
        down = row.mean(wing_downwash(solved.flow, leading + np.outer(0.75 * row.chord_m, (1.0, 0.0, 0.0))))
    lift, down = (_about_cg(values, own.cg_aft_m) for values in (lift, down))
    lift[R], lift[Q] = lift[R] + y * lift[U], lift[Q] - z * lift[U]
    flow_m = (x - 0.25 * chord_m, y, z)
    washed = own.washed_share if surface != WING else _washed(grid, row, own.washed_to_m)
    return Strip(
        name=own.name,
        area_m2=area_m2,
        chord_m=chord_m,
        force_m=(x + 0.25 * chord_m, y, z),
        flow_m=flow_m,
        across=across,
        setting_rad=setting,
        curve=own.curve,
        turns=tuple(turn.tolist()),
        pressure_share=TAIL_PRESSURE if surface == TAIL else 1.0,
        washed_share=washed,
        swirled_share=own.swirled * (washed if surface == WING else 1.0),
        induced=tuple((_geometric(flow_m, across, setting, turn) - lift - down).tolist()),
        downwash=tuple(down.tolist()) if surface == TAIL else (),
        shielded_share=_shielded(own.tailplane, leading, row) if own.tailplane else 0.0,
        mirrored=surface != FIN,
    )


def _geometric(
    flow_m: tuple[float, float, float], across: tuple[float, float], setting: float, turn: Numbers
) -> Numbers:
    """Return the angle of the undisturbed stream to the line without lift, per unit of each of `MOTION` over speed."""
    (x, y, z), (right, below) = flow_m, across
    found = np.zeros(len(MOTION))
    found[[U, V, W]] = setting, right, below
    found[[P, Q, R]] = below * y - right * z, -below * x, right * x
    found[[ELEVATOR, AILERON, RUDDER]] = turn
    return found


def _about_cg(values: Numbers, aft_m: float) -> Numbers:
    """Return numbers for a unit of each of `MOTION`, that of a point so far aft of the one of the lattice."""
    moved = values.copy()
    moved[R] += aft_m * values[V]
    moved[Q] -= aft_m * values[W]
    return moved


def _washed(grid: Panels, row: _Row, edge_m: float) -> float:
    """Return the part of the width of a strip that lies in the slipstream."""
    left, right = grid.left_m[row.first, 1], grid.right_m[row.first, 1]
    return float(np.clip(edge_m - left, 0.0, right - left).sum() / (right - left).sum())


def _shielded(tail: Surface, leading_m: Numbers, row: _Row) -> float:
    """Return the part of a strip of the fin in the wake of the tailplane at a high angle of attack."""
    high_m = np.maximum(leading_m[:, 2] - tail.height_m, 0.0)
    front_m = tail.arm_m - VORTEX * tail.chord_m
    back, ahead = (high_m / math.tan(math.radians(degrees)) for degrees in SHADOW_DEG)
    start = np.maximum(leading_m[:, 0], front_m + ahead)
    end = np.minimum(leading_m[:, 0] + row.chord_m, front_m + tail.chord_m + back)
    covered = np.where(leading_m[:, 2] > tail.height_m, np.clip((end - start) / row.chord_m, 0.0, 1.0), 0.0)
    return float(row.mean(covered))


def _body(airframe: Airframe, cg_aft_m: float) -> tuple[BodyPart, ...]:
    """Return the parts of the fuselage, deepest and widest in its middle as the ellipsoid of its other loads."""
    nose_m, stern_m = body_ends_m(airframe)
    length_m = stern_m - nose_m
    edges = np.linspace(0.0, 1.0, BODY_PARTS + 1)
    found = []
    for start, end in pairwise(edges.tolist()):
        middle = 0.5 * (start + end)
        across_m = 2.0 * math.sqrt(middle * (1.0 - middle)) * (end - start) * length_m
        place_m = cg_aft_m - nose_m - middle * length_m
        found.append(BodyPart((place_m, 0.0), across_m * airframe.body_depth_m, across_m * airframe.body_width_m))
    return tuple(found)
