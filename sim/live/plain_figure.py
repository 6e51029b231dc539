"""The airplane as a picture shows it where its scenario places no wing: common proportions about what every one has."""

from __future__ import annotations

from itertools import pairwise
from math import tan
from typing import TYPE_CHECKING, Final

from sim.live.figure_parts import (
    BodyFigure,
    Figure,
    Place,
    Rod,
    SurfaceFigure,
    WheelFigure,
    WingFigure,
)
from sim.model.drawn_model import TurningCylinders

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.model.model import Model
    from sim.model.powerplant import Powerplant

SECTION: Final = (
    (0.0, 0.0, 0.0),
    (0.05, 0.05, -0.018),
    (0.22, 0.086, 0.002),
    (0.5, 0.074, 0.012),
    (0.75, 0.04, 0.009),
    (1.0, 0.0, 0.0),
)
"""Share of the chord and heights of both surfaces over it: a cambered section of the period, no source."""
STRUT_SHARE, CABANE_M, SPAR_SHARES = 0.72, 0.5, (0.13, 0.64)
"""Struts stand out at this share of the semi-span, the cabane this far apart, both at these shares of the chord."""
WHEEL_M, TRACK_SHARE, LEG_M = 0.34, 0.18, 0.75
"""Radius of a wheel, track over span, axle below the fuselage [m]: common practice, no source."""
CYLINDERS: Final = TurningCylinders(9, 0.21, 0.5, 0.15)
"""Of a rotary engine that the scenario does not describe: common proportions."""


def plain_figure(model: Model, rotary: Powerplant) -> Figure:
    """Return the figure of an airplane in common proportions; arguments as for `sim.live.figure.figure`."""
    wing, frame = model.wing, model.airframe
    body = _body(model)
    wings = tuple(_wings(model, body))
    tail, fin = frame.tailplane, frame.fin
    aft_m = tail.arm_m - wing.nominal.arm_m
    return Figure(
        wings=wings,
        section=SECTION,
        aileron_from=frame.aileron_from,
        aileron_to=frame.aileron_to,
        aileron_chord_share=frame.aileron_chord_share,
        body=body,
        tailplane=SurfaceFigure(
            (-aft_m, 0.0, body.stern_top_m), tail.span_m, tail.chord_m, 1.0 - tail.flap_share, tail.incidence_rad
        ),
        fin=SurfaceFigure(
            (-fin.arm_m + wing.nominal.arm_m, 0.0, body.stern_top_m - 0.5 * fin.span_m),
            fin.span_m,
            fin.chord_m,
            1.0 - fin.flap_share,
            0.0,
        ),
        struts=tuple(_both_sides(_struts(wings, body))),
        wires=(),
        wheels=tuple(_wheels(wing.nominal.span_m, wing.nominal.chord_m, body)),
        hub=(body.nose_m + 0.1, 0.0, 0.0),
        disc_radius_m=0.5 * rotary.propeller.diameter_m,
        cylinders=model.turning_cylinders(rotary.name) or CYLINDERS,
        heads=((body.full_to_m + 0.35, 0.0, body.top_m - 0.24),),
        span_m=wing.nominal.span_m,
    )


def _body(model: Model) -> BodyFigure:
    frame = model.airframe
    stern_m = -(frame.tailplane.arm_m - model.wing.nominal.arm_m + 0.6 * frame.tailplane.chord_m)
    nose_m = max(stern_m + frame.body_length_m, 0.6 * model.wing.nominal.chord_m)
    half_m = 0.5 * frame.body_depth_m
    return BodyFigure(
        nose_m=nose_m,
        full_to_m=nose_m - 0.45 * frame.body_length_m,
        stern_m=stern_m,
        top_m=-half_m,
        bottom_m=half_m,
        stern_top_m=-0.5 * half_m,
        stern_bottom_m=-0.1 * half_m,
        width_m=frame.body_width_m,
    )


def _wings(model: Model, body: BodyFigure) -> Iterator[WingFigure]:
    """Yield each plane, the lowest first, its quarter chord at the centre of gravity."""
    wing, frame = model.wing, model.airframe
    count, one = len(wing.planes), wing.nominal
    for number in range(count):
        height_m = -frame.wing_height_m if count == 1 else 0.84 * body.bottom_m - wing.gap_m * number
        ahead_m = wing.stagger_m * (number / (count - 1) - 0.5) if count > 1 else 0.0
        front_m, half_m = ahead_m + 0.3 * one.chord_m, 0.5 * one.span_m
        tip = (front_m, half_m, height_m - tan(one.dihedral_rad) * half_m)
        carries = number >= count - frame.aileron_planes
        yield WingFigure((front_m, 0.0, height_m), tip, one.chord_m, 1.0, 0.0, carries)


def _struts(wings: Sequence[WingFigure], body: BodyFigure) -> Iterator[Rod]:
    """Yield the struts of the right side: between the planes, the cabane, and the lift struts of a single high one."""
    half_m, top = 0.5 * body.width_m, wings[-1]
    for low, high in pairwise(wings):
        for share in SPAR_SHARES:
            yield _on(low, STRUT_SHARE, share), _on(high, STRUT_SHARE, share)
    if top.root[2] < body.top_m:
        for share in SPAR_SHARES:
            foot = (top.root[0] - share * top.root_chord, 0.9 * half_m, 0.8 * body.top_m)
            yield foot, _on(top, CABANE_M / top.tip[1], share)
            if len(wings) == 1:
                yield (foot[0], 0.9 * half_m, 0.8 * body.bottom_m), _on(top, 0.56, share)


def _on(wing: WingFigure, out: float, share: float) -> Place:
    """Return the place on a plane at a share of the semi-span and of the chord."""
    x, y, z = (root + out * (tip - root) for root, tip in zip(wing.root, wing.tip, strict=True))
    return x - share * (wing.root_chord + out * (wing.tip_chord - wing.root_chord)), y, z


def _both_sides(rods: Iterator[Rod]) -> Iterator[Rod]:
    for one, other in rods:
        yield one, other
        yield (one[0], -one[1], one[2]), (other[0], -other[1], other[2])


def _wheels(span_m: float, chord_m: float, body: BodyFigure) -> Iterator[WheelFigure]:
    for side in (-1.0, 1.0):
        axle = (0.2 * chord_m, side * 0.5 * TRACK_SHARE * span_m, body.bottom_m + LEG_M)
        yield WheelFigure(axle, WHEEL_M)
    yield WheelFigure((body.stern_m + 0.4, 0.0, body.stern_bottom_m + 0.45), 0.0)
