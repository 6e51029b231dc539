"""Lines and circles of a drawing: wing and bracing, body, tail, engine on its mount, wheels, centre of gravity."""

from __future__ import annotations

from math import cos, sin
from typing import TYPE_CHECKING

from sim.airframe.body_outline import GROUND, boxed, cylinders, fuselage, seated, tail_surface, wheel
from sim.airframe.plane_outline import aileron_lines, plane_lines, spar_lines
from sim.airframe.projection import SpaceCircle, SpaceLine, mirrored
from sim.studies.drawing_frame import SITTING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.projection import Place, ViewName
    from sim.model.model import Model
    from sim.studies.drawing_frame import DrawnFrame

    Drawn = SpaceLine | SpaceCircle

STRUTS, WIRES, MOUNT, FIREWALL, PROPELLER, CG, DATUM = (
    "struts",
    "wires",
    "mount",
    "firewall",
    "propeller",
    "centre of gravity",
    "datum",
)
CG_M = 0.07
"""Radius of the mark of a centre of gravity. [m]"""
GROUND_SHARE = 0.08
"""Of the length of the airplane, by which the ground runs on before and behind its wheels."""


def outline(model: Model, frame: DrawnFrame) -> tuple[list[SpaceLine], list[SpaceCircle]]:
    """Return every line and every circle of a drawing."""
    drawn = [
        *_wing(model, frame),
        *_bracing(frame),
        *fuselage(frame.body),
        *tail_surface(frame.tailplane),
        *tail_surface(frame.fin),
        *_engine(model, frame),
        *_aboard(frame),
        *_ground(model, frame),
        *_references(model, frame),
    ]
    lines = [one for one in drawn if isinstance(one, SpaceLine)]
    return lines, [one for one in drawn if isinstance(one, SpaceCircle)]


def _wing(model: Model, frame: DrawnFrame) -> Iterator[SpaceLine]:
    planes, airframe = frame.layout.planes, model.airframe
    for number, (placed, rooms) in enumerate(zip(planes, frame.rooms, strict=True)):
        below = number < len(planes) - 1
        yield from plane_lines(placed, frame.layout.section, below=below)
        yield from spar_lines(placed, rooms, below=below)
        if number >= len(planes) - airframe.aileron_planes:
            yield from aileron_lines(
                placed,
                inner=airframe.aileron_from,
                outer=airframe.aileron_to,
                chord_share=airframe.aileron_chord_share,
                below=below,
            )


def _bracing(frame: DrawnFrame) -> tuple[SpaceLine, ...]:
    """Return struts and wires from pin to pin; wires are left out of the plan, where they cross everything."""
    nodes = {node.name: (node.station_m, node.waterline_m, node.buttline_m) for node in frame.fitted.nodes}
    found = []
    for member in frame.fitted.members:
        (s, w, b), wire = nodes[member.to_node], member.kind.endswith("wire")
        ends = (nodes[member.from_node], (s, w, -b if member.to_left else b))
        views: tuple[ViewName, ...] = ("side", "front") if wire else ("plan", "side", "front")
        found.append(SpaceLine(WIRES if wire else STRUTS, ends, "thin" if wire else "edge", views=views))
    return mirrored(found)


def _engine(model: Model, frame: DrawnFrame) -> Iterator[Drawn]:
    """Yield firewall, mount, cylinders, engine and propeller."""
    station_m, body = model.firewall_station_m, frame.body
    if station_m is not None:
        half_m = 0.5 * body.width_m
        ends = ((station_m, body.bottom_m, 0.0), (station_m, body.top_m, 0.0))
        yield SpaceLine(FIREWALL, ends, views=("side",))
        middle_m = 0.5 * (body.bottom_m + body.top_m)
        across = ((station_m, middle_m, -half_m), (station_m, middle_m, half_m))
        yield SpaceLine(FIREWALL, across, "thin", views=("plan",))
    if frame.disc is None:
        return
    yield from _mount(model, frame)
    if frame.engine_station_m is not None:
        hub = (frame.engine_station_m, frame.disc.waterline_m, 0.0)
        yield from _cg_mark("engine", hub)
        turning = model.turning_cylinders(frame.powerplant)
        if turning:
            yield from cylinders(
                hub,
                turning.cylinders,
                inner_m=turning.inner_radius_m,
                outer_m=turning.outer_radius_m,
                diameter_m=turning.diameter_m,
            )
    disc, reach_m = frame.disc, 0.5 * frame.disc.diameter_m
    low, high = ((*disc.tip(up), 0.0) for up in (-1.0, 1.0))
    hub = (disc.station_m, disc.waterline_m, 0.0)
    yield SpaceLine(PROPELLER, (low, high), views=("side",))
    yield SpaceLine(PROPELLER, ((*hub[:2], -reach_m), (*hub[:2], reach_m)), views=("plan",))
    yield SpaceCircle(PROPELLER, hub, disc.diameter_m, "front", "thin")


def _mount(model: Model, frame: DrawnFrame) -> Iterator[SpaceLine]:
    """Yield the tubes of the mount, the lugs of the engine where it stands."""
    station_m = model.firewall_station_m
    if station_m is None:
        return
    move_m = model.engine_move_m(frame.powerplant)
    places = {}
    for node in model.mount.nodes if model.mount.powerplant == frame.powerplant else ():
        ahead_m, right_m, down_m = node.place_m
        moved_m = move_m if node.held == "engine" else 0.0
        places[node.name] = (station_m - ahead_m + moved_m, model.thrust_line_m - down_m, right_m)
    if places:
        for tube in model.mount.tubes:
            yield SpaceLine(MOUNT, (places[tube.start], places[tube.end]), views=("plan", "side"))


def _aboard(frame: DrawnFrame) -> Iterator[Drawn]:
    for item in frame.items:
        yield from boxed(item)
        if item.group in SITTING:
            yield from seated(item)


def _ground(model: Model, frame: DrawnFrame) -> Iterator[Drawn]:
    """Yield wheels and, where the airplane stands on them, the ground level and on all wheels."""
    for one in model.wheels:
        yield from wheel(one.station_m, one.waterline_m, one.buttline_m, one.radius_m)
    if frame.stance is None:
        return
    stands, body = frame.stance, frame.body
    more_m = GROUND_SHARE * (body.stern_m - body.nose_m)
    ends_m = (min(body.nose_m, 0.0) - more_m, frame.fin.at(1.0, 0.0)[0] + more_m)
    for pitch_rad in (0.0, stands.pitch_rad):
        points = [(at_m, ground_waterline_m(frame, at_m, pitch_rad), 0.0) for at_m in ends_m]
        yield SpaceLine(GROUND, tuple(points), "edge" if pitch_rad == 0.0 else "centre", views=("side",))
    wide_m = 0.5 * model.airframe.wing.span_m
    level_m = ground_waterline_m(frame, stands.station_m, 0.0)
    yield SpaceLine(
        GROUND, ((stands.station_m, level_m, -wide_m), (stands.station_m, level_m, wide_m)), views=("front",)
    )


def ground_waterline_m(frame: DrawnFrame, station_m: float, pitch_rad: float) -> float:
    """Return the waterline of the ground at a station, with the airplane at an attitude [m].

    Parameters
    ----------
    frame : DrawnFrame
        Of an airplane on wheels.
    station_m : float
        [m]
    pitch_rad : float
        Nose up positive. [rad]
    """
    stands = frame.stance
    if stands is None:
        return 0.0
    aft_m = station_m - stands.station_m
    up_m = (aft_m * sin(pitch_rad) - stands.radius_m) / cos(pitch_rad)
    return stands.waterline_m + stands.radius_m + up_m


def _references(model: Model, frame: DrawnFrame) -> Iterator[Drawn]:
    """Yield datum, thrust line, mean chord with its limits, and the loaded centre of gravity."""
    body, tops = frame.body, [placed.leading_edge_waterline_m for placed in frame.layout.planes]
    ends = ((0.0, body.bottom_m, 0.0), (0.0, max(body.top_m, *tops), 0.0))
    yield SpaceLine(DATUM, ends, "centre", views=("side",))
    half_m = 0.5 * frame.tailplane.span_m
    yield SpaceLine(DATUM, ((0.0, body.top_m, -half_m), (0.0, body.top_m, half_m)), "centre", views=("plan",))
    aft_m = frame.fin.at(1.0, 0.0)[0]
    yield SpaceLine(DATUM, ((body.nose_m, body.top_m, 0.0), (aft_m, body.top_m, 0.0)), "centre", views=("plan",))
    if frame.disc:
        disc = frame.disc
        start = disc.station_m - 0.1 * disc.diameter_m
        end = frame.engine_station_m if frame.engine_station_m is not None else disc.station_m
        line = tuple(
            (at_m, disc.waterline_m - (at_m - disc.station_m) * sin(disc.tilt_rad) / cos(disc.tilt_rad), 0.0)
            for at_m in (start, end + 0.2 * disc.diameter_m)
        )
        yield SpaceLine(PROPELLER, line, "centre", views=("side",))
    if frame.cg_station_m is not None:
        level_m = cg_waterline_m(frame)
        yield from _cg_mark(CG, (frame.cg_station_m, level_m, 0.0))
        yield from _ranges(model, frame, level_m)


def cg_waterline_m(frame: DrawnFrame) -> float:
    """Return the waterline at which the centre of gravity is drawn: its own, or the middle of the body [m]."""
    if frame.cg_waterline_m is not None:
        return frame.cg_waterline_m
    return 0.5 * (frame.body.bottom_m + frame.body.top_m)


def _ranges(model: Model, frame: DrawnFrame, level_m: float) -> Iterator[SpaceLine]:
    """Yield the limits of the centre of gravity as a bracket, and the range of all loadings as a bar within."""
    if not model.can_balance(frame.powerplant):
        return
    chord, limits = model.mean_chord, model.limits
    fore_m, aft_m = chord.station_m(limits.forward_limit), chord.station_m(limits.aft_limit)
    tick_m = 1.6 * CG_M
    bracket: tuple[Place, ...] = (
        (fore_m, level_m + tick_m, 0.0),
        (fore_m, level_m - tick_m, 0.0),
        (aft_m, level_m - tick_m, 0.0),
        (aft_m, level_m + tick_m, 0.0),
    )
    yield SpaceLine(CG, bracket, views=("side",))
    first, last = (chord.station_m(share) for share in model.cg_range(frame.powerplant))
    yield SpaceLine(CG, ((first, level_m, 0.0), (last, level_m, 0.0)), "edge", views=("side",))


def _cg_mark(part: str, place: Place) -> Iterator[Drawn]:
    """Yield a centre of gravity: a circle with a cross in the side view."""
    s, w, b = place
    yield SpaceCircle(part, place, 2.0 * CG_M, "side", "thin")
    yield SpaceLine(part, ((s - CG_M, w, b), (s + CG_M, w, b)), "thin", views=("side",))
    yield SpaceLine(part, ((s, w - CG_M, b), (s, w + CG_M, b)), "thin", views=("side",))
