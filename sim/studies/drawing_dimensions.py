"""Dimensions of a drawing, each by the key of the scenario that says it."""

from __future__ import annotations

from itertools import pairwise
from math import cos, dist, sin
from typing import TYPE_CHECKING

from sim.airframe.plane_outline import edges_m, root_chord_m
from sim.model.plausibility.supports import APART_M
from sim.studies.drawing_answer import DrawnDimension
from sim.studies.drawing_outline import ground_waterline_m

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.layout import PlacedPlane
    from sim.airframe.projection import Flat
    from sim.model.model import Model
    from sim.studies.drawing_frame import DrawnFrame


def dimensions(model: Model, frame: DrawnFrame) -> Iterator[DrawnDimension]:
    """Yield every dimension of plan, side and front view."""
    yield from _planes(model, frame)
    yield from _stack(frame)
    yield from _tail(frame)
    yield from _body(model, frame)
    yield from _propeller(model, frame)
    yield from _wheels(model, frame)


def _planes(model: Model, frame: DrawnFrame) -> Iterator[DrawnDimension]:
    """Yield span and chord of the top plane, and of others where they differ."""
    seen = set[tuple[str, float]]()
    nominal, planes = model.wing.nominal, frame.layout.planes
    for placed in reversed(planes):
        plane = placed.plane
        for what, size_m in (("span", plane.span_m), ("chord", plane.chord_m)):
            if (what, size_m) in seen:
                continue
            seen.add((what, size_m))
            own = size_m != getattr(nominal, f"{what}_m")
            key = f"wing.plane.{plane.name}.{what}" if own else f"wing.{what}"
            name = f"{what}, {plane.name} plane" if own or _differ(planes, what) else what
            yield from _span(placed, name, key) if what == "span" else _chord(placed, name, key)


def _differ(planes: Sequence[PlacedPlane], what: str) -> bool:
    return len({getattr(placed.plane, f"{what}_m") for placed in planes}) > 1


def _span(placed: PlacedPlane, name: str, key: str) -> Iterator[DrawnDimension]:
    half_m = 0.5 * placed.plane.span_m
    station_m = placed.point(edges_m(placed, half_m)[0], 0.0, half_m)[0]
    yield DrawnDimension(name, key, "plan", 2.0 * half_m, ((-half_m, station_m), (half_m, station_m)), "below")


def _chord(placed: PlacedPlane, name: str, key: str) -> Iterator[DrawnDimension]:
    """Yield the chord along the root section; of a tapered plane root and tip chord, for its mean chord is neither."""
    root_m = root_chord_m(placed)
    ends = placed.point(0.0, 0.0, 0.0)[:2], placed.point(root_m, 0.0, 0.0)[:2]
    if placed.plane.taper == 1.0:
        yield DrawnDimension(name, key, "side", root_m, ends)
        return
    yield DrawnDimension(f"root {name}", "", "side", root_m, ends)
    half_m = 0.5 * placed.plane.span_m
    fore_m, aft_m = edges_m(placed, half_m)
    tip = placed.point(fore_m, 0.0, half_m)[:2], placed.point(aft_m, 0.0, half_m)[:2]
    yield DrawnDimension(f"tip {name}", "", "side", aft_m - fore_m, tip)


def _stack(frame: DrawnFrame) -> Iterator[DrawnDimension]:
    """Yield gap and stagger of each plane over the one below."""
    pairs = list(pairwise(frame.layout.planes))
    for lower, upper in pairs:
        low, high = ((placed.leading_edge_station_m, placed.leading_edge_waterline_m) for placed in (lower, upper))
        whose = f", {upper.plane.name} over {lower.plane.name}" if len(pairs) > 1 else ""
        yield DrawnDimension(f"gap{whose}", "wing.gap", "side", high[1] - low[1], ((high[0], low[1]), high), "left")
        stagger_m = low[0] - high[0]
        if stagger_m:
            key = "wing.stagger" if stagger_m > 0.0 else ""
            yield DrawnDimension(f"stagger{whose}", key, "side", abs(stagger_m), (high, low), "below")


def _tail(frame: DrawnFrame) -> Iterator[DrawnDimension]:
    tail, fin = frame.tailplane, frame.fin
    half_m, aft_m = 0.5 * tail.span_m, tail.at(1.0, 0.0)[0]
    yield DrawnDimension(
        "tailplane span", "tailplane.span", "plan", tail.span_m, ((-half_m, aft_m), (half_m, aft_m)), "above"
    )
    ends = tail.at(0.0, 0.0)[:2], tail.at(1.0, 0.0)[:2]
    yield DrawnDimension("tailplane chord", "tailplane.chord", "side", tail.chord_m, ends)
    foot, head = (fin.at(1.0, out)[:2] for out in (-1.0, 1.0))
    yield DrawnDimension("fin height", "fin.height", "side", fin.span_m, (foot, head), "right")
    ahead = fin.at(0.0, 1.0)[:2]
    yield DrawnDimension("fin chord", "fin.chord", "side", fin.chord_m, (ahead, head))


def _body(model: Model, frame: DrawnFrame) -> Iterator[DrawnDimension]:
    body, half_m = frame.body, 0.5 * frame.body.width_m
    length_m, depth_m = model.airframe.body_length_m, model.airframe.body_depth_m
    nose, stern = (body.nose_m, body.bottom_m), (body.stern_m, body.stern_bottom_m)
    yield DrawnDimension("fuselage length", "fuselage.length", "side", length_m, (nose, stern), "below")
    deep = ((body.nose_m, body.bottom_m), (body.nose_m, body.top_m))
    yield DrawnDimension("fuselage depth", "fuselage.depth", "side", depth_m, deep, "left")
    wide = ((-half_m, body.bottom_m), (half_m, body.bottom_m))
    yield DrawnDimension("fuselage width", "fuselage.width", "front", body.width_m, wide, "below")
    fore_m = min(_foremost(frame))
    aft_m = max(body.stern_m, frame.fin.at(1.0, 0.0)[0], frame.tailplane.at(1.0, 0.0)[0])
    low_m = frame.stance.waterline_m if frame.stance else body.bottom_m
    ends = ((fore_m, low_m), (aft_m, low_m))
    yield DrawnDimension("overall length", "", "side", aft_m - fore_m, ends, "below")


def _foremost(frame: DrawnFrame) -> Iterator[float]:
    """Yield stations of what stands foremost."""
    yield frame.body.nose_m
    yield from (placed.leading_edge_station_m for placed in frame.layout.planes)
    if frame.disc:
        yield from (frame.disc.tip(up)[0] for up in (-1.0, 0.0, 1.0))


def _propeller(model: Model, frame: DrawnFrame) -> Iterator[DrawnDimension]:
    disc = frame.disc
    if disc is None:
        return
    half_m = 0.5 * disc.diameter_m
    ends = ((-half_m, disc.waterline_m), (half_m, disc.waterline_m))
    key = f"powerplant.{frame.powerplant}.propeller.diameter"
    yield DrawnDimension("propeller diameter", key, "front", disc.diameter_m, ends, "below")
    found = model.propeller_clearance(frame.powerplant)
    if found is None or frame.stance is None:
        return
    lowest = disc.tip(-1.0)
    level = (lowest[0], frame.stance.waterline_m)
    yield DrawnDimension("clearance, level", "", "side", found.level_clearance_m, (level, lowest), "left")
    if found.standing_clearance_m is not None:
        pitch_rad, above_m = frame.stance.pitch_rad, found.standing_clearance_m
        foot = (lowest[0] + above_m * sin(pitch_rad), lowest[1] - above_m * cos(pitch_rad))
        yield DrawnDimension("clearance, on all wheels", "", "side", above_m, (foot, lowest))


def _wheels(model: Model, frame: DrawnFrame) -> Iterator[DrawnDimension]:
    """Yield track, distance of main wheels and third support, wheel radius, and height over all."""
    stands = frame.stance
    if stands is None:
        return
    main = [one for one in model.wheels if abs(one.buttline_m) > APART_M]
    third = next(one for one in model.wheels if one not in main)
    left, right = (pick(main, key=lambda one: one.buttline_m) for pick in (min, max))
    ends = ((-right.buttline_m, right.waterline_m), (-left.buttline_m, left.waterline_m))
    yield DrawnDimension("wheel track", "", "front", right.buttline_m - left.buttline_m, ends, "below")
    first, last = sorted(((stands.station_m, stands.waterline_m), (third.station_m, third.waterline_m)))
    yield DrawnDimension("wheelbase", "", "side", last[0] - first[0], (first, last), "below")
    if stands.radius_m:
        contact = (stands.station_m, stands.waterline_m)
        axle = (stands.station_m, stands.waterline_m + stands.radius_m)
        key = f"weighing.support.{stands.wheel}.radius"
        yield DrawnDimension("wheel radius", key, "side", stands.radius_m, (contact, axle))
    top: Flat = max(_tops(frame), key=lambda place: place[1])
    ground = (top[0], ground_waterline_m(frame, top[0], 0.0))
    yield DrawnDimension("height, level", "", "side", dist(top, ground), (ground, top), "right")


def _tops(frame: DrawnFrame) -> Iterator[Flat]:
    """Yield what may stand highest."""
    yield frame.fin.at(1.0, 1.0)[:2]
    yield (frame.body.nose_m, frame.body.top_m)
    if frame.disc:
        yield frame.disc.tip(1.0)
    for placed in frame.layout.planes:
        half_m = 0.5 * placed.plane.span_m
        yield max(
            (placed.point(along_m, 0.0, out_m)[:2] for out_m in (0.0, half_m) for along_m in edges_m(placed, out_m)),
            key=lambda place: place[1],
        )
