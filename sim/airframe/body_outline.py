"""Outlines of fuselage, tail, wheels, ground, cylinders and who is aboard, as far as a few dimensions tell."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, sin, tau
from typing import TYPE_CHECKING

from sim.airframe.projection import SpaceCircle, SpaceLine, box

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.masses import Item
    from sim.airframe.projection import ViewName

FUSELAGE, TAIL, GEAR, GROUND, ENGINE, ABOARD = "fuselage", "tail", "gear", "ground", "engine", "aboard"
HEAD_SHARE = 0.26
"""Diameter of a head over the height of the box of who sits, as drawn: common proportions, no source."""


@dataclass(frozen=True, slots=True)
class Body:
    """A fuselage of straight lines.

    Attributes
    ----------
    nose_m, full_to_m, stern_m : float
        Stations of its nose, of the end of its full depth and width, and of its stern. [m]
    bottom_m, top_m : float
        Waterlines where it has its full depth. [m]
    stern_bottom_m, stern_top_m : float
        Waterlines at its stern. [m]
    width_m : float
        Full width; 0 at the stern. [m]
    """

    nose_m: float
    full_to_m: float
    stern_m: float
    bottom_m: float
    top_m: float
    stern_bottom_m: float
    stern_top_m: float
    width_m: float


@dataclass(frozen=True, slots=True)
class TailSurface:
    """A flat rectangle: tailplane with elevator, or fin with rudder.

    Attributes
    ----------
    quarter_station_m, middle_waterline_m : float
        Its quarter chord, and the middle of its area. [m]
    span_m, chord_m : float
        Span or height, mean chord. [m]
    hinge_share : float
        Distance of the hinge aft of the leading edge over the chord, 0 to 1.
    incidence_rad : float
        Leading edge up positive; 0 for a fin. [rad]
    upright : bool
        Whether it is a fin.
    """

    quarter_station_m: float
    middle_waterline_m: float
    span_m: float
    chord_m: float
    hinge_share: float
    incidence_rad: float = 0.0
    upright: bool = False

    def at(self, share: float, out: float) -> tuple[float, float, float]:
        """Return station, waterline and buttline at a share of the chord, and of half the span outward or up [m]."""
        aft_m = (share - 0.25) * self.chord_m
        station_m = self.quarter_station_m + aft_m * cos(self.incidence_rad)
        waterline_m = self.middle_waterline_m - aft_m * sin(self.incidence_rad)
        reach_m = 0.5 * out * self.span_m
        return (station_m, waterline_m + reach_m, 0.0) if self.upright else (station_m, waterline_m, reach_m)


def fuselage(body: Body) -> tuple[SpaceLine, ...]:
    """Return the outlines of a fuselage in the three views."""
    half_m = 0.5 * body.width_m
    side = (
        (body.nose_m, body.bottom_m, 0.0),
        (body.full_to_m, body.bottom_m, 0.0),
        (body.stern_m, body.stern_bottom_m, 0.0),
        (body.stern_m, body.stern_top_m, 0.0),
        (body.full_to_m, body.top_m, 0.0),
        (body.nose_m, body.top_m, 0.0),
    )
    level_m = 0.5 * (body.bottom_m + body.top_m)
    stern = (body.stern_m, level_m, 0.0)
    right = ((body.nose_m, level_m, half_m), (body.full_to_m, level_m, half_m))
    left = tuple((s, w, -b) for s, w, b in reversed(right))
    across = tuple(
        (body.nose_m, w, b)
        for w, b in ((body.bottom_m, -half_m), (body.bottom_m, half_m), (body.top_m, half_m), (body.top_m, -half_m))
    )
    return (
        SpaceLine(FUSELAGE, side, closed=True, views=("side",)),
        SpaceLine(FUSELAGE, (*right, stern, *left), closed=True, views=("plan",)),
        SpaceLine(FUSELAGE, across, closed=True, views=("front",)),
    )


def tail_surface(surface: TailSurface) -> tuple[SpaceLine, ...]:
    """Return outline and hinge of a tail surface, edge on in the views across it."""
    low, high = -1.0, 1.0
    corners = tuple(surface.at(share, out) for share, out in ((0.0, low), (0.0, high), (1.0, high), (1.0, low)))
    hinge = (surface.at(surface.hinge_share, low), surface.at(surface.hinge_share, high))
    flat: tuple[ViewName, ...] = ("side",) if surface.upright else ("plan",)
    edge_on = (surface.at(0.0, 0.0), surface.at(1.0, 0.0))
    across = (surface.at(0.25, low), surface.at(0.25, high))
    return (
        SpaceLine(TAIL, corners, closed=True, views=flat),
        SpaceLine(TAIL, hinge, "thin", views=flat),
        SpaceLine(TAIL, edge_on, views=("plan",) if surface.upright else ("side",)),
        SpaceLine(TAIL, across, views=("front",)),
    )


def wheel(
    station_m: float, waterline_m: float, buttline_m: float, radius_m: float
) -> Iterator[SpaceLine | SpaceCircle]:
    """Yield a wheel, its disc without thickness, by its contact; a skid or jack is a cross there.

    Parameters
    ----------
    station_m, waterline_m, buttline_m : float
        Of its contact. [m]
    radius_m : float
        0 for a skid or jack. [m]
    """
    axle = (station_m, waterline_m + radius_m, buttline_m)
    if radius_m == 0.0:
        yield from _cross((station_m, waterline_m, buttline_m), 0.04)
        return
    yield SpaceCircle(GEAR, axle, 2.0 * radius_m, "side")
    upright = ((station_m, waterline_m, buttline_m), (station_m, waterline_m + 2.0 * radius_m, buttline_m))
    yield SpaceLine(GEAR, upright, views=("front",))
    level = ((station_m - radius_m, axle[1], buttline_m), (station_m + radius_m, axle[1], buttline_m))
    yield SpaceLine(GEAR, level, "hidden", views=("plan",))


def _cross(place: tuple[float, float, float], reach_m: float) -> Iterator[SpaceLine]:
    s, w, b = place
    yield SpaceLine(GEAR, ((s - reach_m, w, b), (s, w + reach_m, b), (s + reach_m, w, b)), closed=True, views=("side",))
    yield SpaceLine(
        GEAR, ((s, w, b - reach_m), (s, w + reach_m, b), (s, w, b + reach_m)), closed=True, views=("front",)
    )


def cylinders(
    hub: tuple[float, float, float], count: int, *, inner_m: float, outer_m: float, diameter_m: float
) -> Iterator[SpaceLine | SpaceCircle]:
    """Yield the cylinders of a rotary about its shaft, the first straight up, and the circle that their heads sweep.

    Parameters
    ----------
    hub : (station, waterline, buttline)
        Where their axes meet. [m]
    count : int
        Number of cylinders.
    inner_m, outer_m : float
        Radii of their feet and heads. [m]
    diameter_m : float
        Over the fins; at 0 the axes are drawn. [m]
    """
    s, w, b = hub
    yield SpaceCircle(ENGINE, hub, 2.0 * outer_m, "front", "hidden")
    for number in range(count):
        turn = tau * number / count
        away, aside = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
        corners = tuple(
            (
                s,
                w + r * away[0] + 0.5 * side * diameter_m * aside[0],
                b + r * away[1] + 0.5 * side * diameter_m * aside[1],
            )
            for r, side in ((inner_m, -1.0), (outer_m, -1.0), (outer_m, 1.0), (inner_m, 1.0))
        )
        yield SpaceLine(ENGINE, corners, "hidden", closed=True, views=("front",))
    half_m = 0.5 * diameter_m
    for view in ("side", "plan"):
        ends = [(s - half_m, -outer_m), (s - half_m, outer_m), (s + half_m, outer_m), (s + half_m, -outer_m)]
        points = tuple((at, w + r, b) if view == "side" else (at, w, b + r) for at, r in ends)
        yield SpaceLine(ENGINE, points, "hidden", closed=True, views=("side",) if view == "side" else ("plan",))


def boxed(item: Item) -> tuple[SpaceLine, ...]:
    """Return the box that stands for an item; nothing of one without a size."""
    if not (item.length_m and item.height_m and item.width_m):
        return ()
    part = ENGINE if item.moves_with_engine else ABOARD
    middle, size = (item.station_m, item.waterline_m, item.buttline_m), (item.length_m, item.height_m, item.width_m)
    return box(part, middle, size, "hidden")


def seated(item: Item) -> Iterator[SpaceCircle]:
    """Yield the head of who sits in the box of an item, at its top."""
    if item.height_m:
        across_m = HEAD_SHARE * item.height_m
        middle = (item.station_m, item.waterline_m + 0.5 * (item.height_m - across_m), item.buttline_m)
        yield SpaceCircle(ABOARD, middle, across_m, "side", "thin")
        yield SpaceCircle(ABOARD, middle, across_m, "front", "hidden")
