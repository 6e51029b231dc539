"""Stations marked over the side view of a drawing, and buttlines over its front view."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from sim.airframe.body_outline import HEAD_SHARE
from sim.model.plausibility.supports import APART_M
from sim.studies.drawing_answer import MarkedPlace
from sim.studies.drawing_outline import cg_waterline_m

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.drawn_model import Wheel
    from sim.model.model import Model
    from sim.studies.drawing_frame import DrawnFrame

FITTED = ("root", "cabane")
"""Kinds of nodes at which a spar has its station over the fuselage."""


def places(model: Model, frame: DrawnFrame) -> Iterator[MarkedPlace]:
    """Yield every marked place, of each view from the least station or buttline on."""
    yield from sorted(_stations(model, frame), key=lambda one: one.station_m)
    yield from sorted(_buttlines(model, frame), key=lambda one: one.buttline_m)


def _side(name: str, key: str, station_m: float, waterline_m: float) -> MarkedPlace:
    return MarkedPlace(name, key, "side", station_m, waterline_m, 0.0)


def _station_m(wheel: Wheel) -> float:
    return wheel.station_m


def _stations(model: Model, frame: DrawnFrame) -> Iterator[MarkedPlace]:
    body = frame.body
    yield _side("datum", "", 0.0, body.top_m)
    yield from _engine(model, frame)
    for placed in frame.layout.planes:
        lowest = placed is frame.layout.planes[0]
        name = f"{placed.plane.name} leading edge" if len(frame.layout.planes) > 1 else "leading edge"
        at = placed.leading_edge_station_m, placed.leading_edge_waterline_m
        yield _side(name, "layout.leading_edge" if lowest else "", *at)
    for node in frame.fitted.nodes:
        if node.kind in FITTED:
            name = node.name.removesuffix(f" {node.kind}")
            yield _side(f"{name} spar", "", node.station_m, node.waterline_m)
    yield from _gravity(model, frame)
    for item in frame.items:
        if not item.moves_with_engine:
            high_m = 0.5 * item.height_m * (1.0 - HEAD_SHARE)
            key = "" if item.move_m else f"item.{item.name}.station"
            yield _side(item.name, key, item.station_m, item.waterline_m + high_m)
    for station_m, wheels in groupby(sorted(model.wheels, key=_station_m), key=_station_m):
        first, *others = wheels
        name = f"{' and '.join(one.name for one in (first, *others))} support{'s' if others else ''}"
        yield _side(name, f"weighing.support.{first.name}.station", station_m, first.waterline_m)
    for name, surface in (("tailplane", frame.tailplane), ("fin", frame.fin)):
        yield _side(f"{name} quarter chord", "", *surface.at(0.25, 0.0)[:2])


def _engine(model: Model, frame: DrawnFrame) -> Iterator[MarkedPlace]:
    """Yield propeller, engine and firewall; one that is moved from where its key has it has no key."""
    moved = model.engine_move_m(frame.powerplant) != 0.0
    if frame.disc:
        key = "" if moved else f"powerplant.{frame.powerplant}.propeller.station"
        yield _side("propeller", key, frame.disc.station_m, frame.disc.waterline_m)
    if frame.disc and frame.engine_station_m is not None:
        key = "" if moved else f"powerplant.{frame.powerplant}.station"
        yield _side("engine CG", key, frame.engine_station_m, frame.disc.waterline_m)
    if model.firewall_station_m is not None:
        yield _side("firewall", "mount.firewall", model.firewall_station_m, frame.body.top_m)


def _gravity(model: Model, frame: DrawnFrame) -> Iterator[MarkedPlace]:
    """Yield the loaded centre of gravity, its limits and the ends of all loadings."""
    level_m = cg_waterline_m(frame)
    if frame.cg_station_m is not None:
        yield _side("CG, loaded", "", frame.cg_station_m, level_m)
    if not model.can_balance(frame.powerplant):
        return
    chord, limits = model.mean_chord, model.limits
    first, last = model.cg_range(frame.powerplant)
    for name, share in (
        ("forward CG limit", limits.forward_limit),
        ("aft CG limit", limits.aft_limit),
        ("foremost CG", first),
        ("aftmost CG", last),
    ):
        yield _side(name, "", chord.station_m(share), level_m)


def _buttlines(model: Model, frame: DrawnFrame) -> Iterator[MarkedPlace]:
    """Yield fittings of the top plane, and the wheels, on the right side."""
    for key, kind in (("root", "root"), ("cabane", "cabane")):
        node = next((node for node in reversed(frame.fitted.nodes) if node.kind == kind), None)
        if node:
            yield MarkedPlace(
                f"{key} fittings", f"layout.{key}_buttline", "front", node.station_m, node.waterline_m, node.buttline_m
            )
    top = frame.layout.planes[-1].plane.name
    heads = {
        node.buttline_m: node
        for node in reversed(frame.fitted.nodes)
        if node.kind in {"strut head", "lift strut"} and node.name.startswith(f"{top} ")
    }
    outermost_m = max(heads, default=0.0)
    for buttline_m, node in heads.items():
        name, key = ("struts", "layout.strut_buttline") if buttline_m == outermost_m else ("inner struts", "")
        yield MarkedPlace(name, key, "front", node.station_m, node.waterline_m, buttline_m)
    for one in model.wheels:
        if one.buttline_m > APART_M:
            key = f"weighing.support.{one.name}.buttline"
            yield MarkedPlace(f"{one.name} support", key, "front", one.station_m, one.waterline_m, one.buttline_m)
