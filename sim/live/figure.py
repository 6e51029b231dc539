"""The airplane as a picture shows it, where the scenario has its layout: wings, body, tail, bracing, wheels, seats.

Body axes from the loaded centre of gravity: x forward, y right, z down [m].
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from sim.airframe.body_outline import HEAD_SHARE
from sim.airframe.plane_outline import edges_m
from sim.errors import WhirlgateError
from sim.live.figure_parts import BodyFigure, Figure, Place, Rod, SurfaceFigure, WheelFigure, WingFigure
from sim.live.plain_figure import plain_figure
from sim.studies.drawing_frame import SITTING, drawn_frame
from sim.studies.drawing_outline import cg_waterline_m

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.body_outline import TailSurface
    from sim.airframe.layout import PlacedPlane
    from sim.model.model import Model
    from sim.model.powerplant import Powerplant
    from sim.studies.drawing_frame import DrawnFrame

CHORD_SHARES: Final = (0.0, 0.07, 0.4, 1.0)
"""Where the section is drawn."""


def figure(model: Model, rotary: Powerplant) -> Figure:
    """Return the figure of an airplane.

    Parameters
    ----------
    model : Model
        Whose layout and section are drawn where the scenario has them; else wings, tail and body stand in common
        proportions about the arms and spans that every scenario has.
    rotary : Powerplant
        The engine in it.
    """
    plain = plain_figure(model, rotary)
    try:
        frame = drawn_frame(model, rotary.name)
    except WhirlgateError:
        return plain
    return replace(plain, **_placed(model, frame))


class _Turned:
    """From stations, waterlines and buttlines to body axes."""

    def __init__(self, frame: DrawnFrame) -> None:
        self.station_m = 0.0 if frame.cg_station_m is None else frame.cg_station_m
        self.waterline_m = cg_waterline_m(frame)

    def __call__(self, place: Place) -> Place:
        station_m, waterline_m, buttline_m = place
        return self.station_m - station_m, buttline_m, self.waterline_m - waterline_m


def _placed(model: Model, frame: DrawnFrame) -> dict[str, Any]:
    """Return the parts of a figure that a frame of a drawing places."""
    turned, airframe = _Turned(frame), model.airframe
    planes = frame.layout.planes
    carrying = len(planes) - airframe.aileron_planes
    axles = [
        WheelFigure(turned((one.station_m, one.waterline_m + one.radius_m, one.buttline_m)), one.radius_m)
        for one in model.wheels
    ]
    found: dict[str, Any] = {
        "wings": tuple(_wing(placed, turned, aileron=number >= carrying) for number, placed in enumerate(planes)),
        "section": tuple((share, *frame.layout.section.heights(share)) for share in CHORD_SHARES),
        "body": _body(frame, turned),
        "tailplane": _surface(frame.tailplane, turned),
        "fin": _surface(frame.fin, turned),
        "struts": tuple(_rods(frame, turned, wire=False)),
        "wires": tuple(_rods(frame, turned, wire=True)),
    }
    if any(one.radius_m for one in axles):
        found["wheels"] = tuple(axles)
    if frame.disc:
        found["hub"] = turned((frame.disc.station_m, frame.disc.waterline_m, 0.0))
    heads = tuple(
        turned((one.station_m, one.waterline_m + 0.5 * (1.0 - HEAD_SHARE) * one.height_m, one.buttline_m))
        for one in frame.items
        if one.group in SITTING and one.height_m
    )
    return found | ({"heads": heads} if heads else {})


def _wing(placed: PlacedPlane, turned: _Turned, *, aileron: bool) -> WingFigure:
    half_m = 0.5 * placed.plane.span_m
    root_m, tip_m = (edges_m(placed, out_m)[0] for out_m in (0.0, half_m))
    return WingFigure(
        turned(placed.point(root_m, 0.0, 0.0)),
        turned(placed.point(tip_m, 0.0, half_m)),
        placed.plane.chord_m,
        placed.plane.taper,
        placed.plane.incidence_rad,
        aileron,
    )


def _body(frame: DrawnFrame, turned: _Turned) -> BodyFigure:
    body = frame.body
    (nose_m, _, top_m), (full_m, _, bottom_m) = (
        turned(place) for place in ((body.nose_m, body.top_m, 0.0), (body.full_to_m, body.bottom_m, 0.0))
    )
    stern_m, _, stern_top_m = turned((body.stern_m, body.stern_top_m, 0.0))
    stern_bottom_m = turned((0.0, body.stern_bottom_m, 0.0))[2]
    return BodyFigure(nose_m, full_m, stern_m, top_m, bottom_m, stern_top_m, stern_bottom_m, body.width_m)


def _surface(surface: TailSurface, turned: _Turned) -> SurfaceFigure:
    return SurfaceFigure(
        turned(surface.at(0.25, 0.0)),
        surface.span_m,
        surface.chord_m,
        surface.hinge_share,
        surface.incidence_rad,
    )


def _rods(frame: DrawnFrame, turned: _Turned, *, wire: bool) -> Iterator[Rod]:
    """Yield struts or wires of both sides."""
    nodes = {node.name: (node.station_m, node.waterline_m, node.buttline_m) for node in frame.fitted.nodes}
    for member in frame.fitted.members:
        if member.kind.endswith("wire") == wire:
            (s, w, b), across = nodes[member.to_node], -1.0 if member.to_left else 1.0
            one, other = turned(nodes[member.from_node]), turned((s, w, across * b))
            yield one, other
            yield (one[0], -one[1], one[2]), (other[0], -other[1], other[2])
