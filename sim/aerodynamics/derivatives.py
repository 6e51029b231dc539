"""Every aerodynamic derivative of an airplane from its geometry, with an honest band.

Coefficients are per radian; rates are made dimensionless by c/2V (pitch) and b/2V (roll, yaw). Drag is not here.
"""

from __future__ import annotations

import math
from dataclasses import fields
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from sim.aerodynamics import body, lifting_surface
from sim.aerodynamics.airframe_flow import airframe_flow, body_ends_m
from sim.aerodynamics.derivative import Part, summed
from sim.aerodynamics.derivative_errors import ERRORS
from sim.aerodynamics.forces import Derivatives
from sim.aerodynamics.lattice_airplane import FIN, TAIL, WING
from sim.aerodynamics.lattice_motion import (
    AILERON,
    ELEVATOR,
    PITCH,
    ROLL,
    RUDDER,
    YAW,
    P,
    Q,
    R,
    U,
    V,
    W,
    Y,
    Z,
    about_cg_aft,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from numpy.typing import NDArray

    from sim.aerodynamics.airframe_flow import AirframeFlow
    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar

    Numbers = NDArray[np.float64]

ADVERSE_YAW: Final = -0.15
"""Yaw over 2 CL times roll of ailerons as measured, −.1 to −.2 by their span (Datcom; Nelson, 2nd ed., figure 3.12)."""
LATTICE: Final = {
    "lift_alpha": (Z, W),
    "lift_q": (Z, Q),
    "lift_elevator": (Z, ELEVATOR),
    "pitch_alpha": (PITCH, W),
    "pitch_q": (PITCH, Q),
    "pitch_elevator": (PITCH, ELEVATOR),
    "side_beta": (Y, V),
    "side_p": (Y, P),
    "side_r": (Y, R),
    "side_rudder": (Y, RUDDER),
    "roll_beta": (ROLL, V),
    "roll_p": (ROLL, P),
    "roll_r": (ROLL, R),
    "roll_aileron": (ROLL, AILERON),
    "roll_rudder": (ROLL, RUDDER),
    "yaw_beta": (YAW, V),
    "yaw_p": (YAW, P),
    "yaw_r": (YAW, R),
    "yaw_aileron": (YAW, AILERON),
    "yaw_rudder": (YAW, RUDDER),
}
"""Load and motion of each derivative that the lattice gives."""
GROWING: Final = ("side_p", "side_r", "roll_beta", "roll_r", "yaw_beta", "yaw_p", "yaw_r", "yaw_aileron")
"""Derivatives that are linear in the lift coefficient."""
ORDER: Final = tuple(one.name for one in fields(Derivatives) if not one.name.endswith("_per_lift"))
CONTROL_ERRORS: Final = {ELEVATOR: "elevator", AILERON: "aileron", RUDDER: "rudder"}


def estimate(airframe: Airframe, polar: Polar, *, lift: float, cg_aft_m: float = 0.0) -> Mapping[str, Derivative]:
    """Return every derivative by name, estimated from geometry.

    Parameters
    ----------
    airframe : Airframe
        Geometry of the airplane about the centre of gravity that its arms are measured from.
    polar : Polar
        Its lift and drag, and the dimensions that the derivatives are referred to.
    lift : float
        Lift coefficient in steady flight, at which the values are.
    cg_aft_m : float
        How far the centre of gravity lies aft of that of `airframe`. [m]

    Returns
    -------
    Mapping of str to Derivative
        ``lift_alpha`` … ``yaw_rudder``; a positive elevator, aileron or rudder makes a negative moment.

    Notes
    -----
    Wing, tailplane and fin by a vortex lattice, the body by formulas of its own. Small angles, low Mach number,
    attached flow, power off: no propeller, and nothing in its slipstream. The wing is turned as a whole until CL
    without incidence is that of `polar`. Pitching moments are those of forces along z: forces along x at their height
    change Cmα by −2 CL z/c.

    References
    ----------
    `sim.aerodynamics.lattice_motion`, `airframe_flow`, `body`; USAF Datcom, 1978, sections 5.2.2.1 and 5.3.1.1.
    """
    flow = airframe_flow(airframe, polar.lift_zero)
    at = coefficients(flow, polar, lift=lift, cg_aft_m=cg_aft_m)
    beside = sidewash(airframe, polar)
    parts = {name: _lattice_parts(name, at, flow, beside) for name in LATTICE}
    parts |= {"pitch_0": _pitch_0_parts(airframe, at), "pitch_alpha_dot": _lag_parts(airframe, polar, at, flow)}
    parts["yaw_aileron"].append(_adverse_yaw(parts["roll_aileron"], lift))
    for name, part in (*_pitch_parts(polar, flow), *_side_parts(airframe, polar, cg_aft_m)):
        parts[name].append(part)
    return MappingProxyType({name: summed(parts[name]) for name in ORDER})


class Coefficients(NamedTuple):
    """Coefficients of wing, tailplane and fin by load and motion, and those of pitch without incidence.

    Shape (3, 6, 9); rates are dimensionless, lift counts up, the other loads as in body axes.
    """

    value: Numbers
    per_lift: Numbers
    pitch_0: Numbers


def coefficients(flow: AirframeFlow, polar: Polar, *, lift: float, cg_aft_m: float) -> Coefficients:
    """Return the coefficients of a flow at a lift coefficient, about a centre of gravity so far aft [m]."""
    span, chord = polar.span_m, polar.chord_m
    length = np.array([1.0, 1.0, -1.0, span, chord, span])
    rate = np.array([1.0, 1.0, 1.0, 2.0 / span, 2.0 / chord, 2.0 / span, 1.0, 1.0, 1.0])
    forms = about_cg_aft(flow.loads, cg_aft_m) * (4.0 / polar.area_m2 / length)[:, None, None] * rate[:, None] * rate
    slope = float(forms[:, Z, U, W].sum())
    alpha = (lift - polar.lift_zero) / slope
    return Coefficients(forms[..., U] + alpha * forms[..., W], forms[..., W] / slope, 0.5 * forms[:, PITCH, U, U])


def _lattice_parts(name: str, at: Coefficients, flow: AirframeFlow, beside: float) -> list[Part]:
    """Return the parts of wing, tailplane and fin.

    Lift due to pitch rate is the tailplane's, as in published sets: the wing's is mostly taken back as incidence lags,
    and the equations of motion have no lift due to the rate of incidence.
    """
    load, motion = LATTICE[name]
    growing = name in GROWING
    wing, tail, fin = at.value[:, load, motion].tolist()
    if name == "lift_q":
        wing = 0.0
    slopes = tuple(at.per_lift[:, load, motion].tolist()) if growing else (0.0, 0.0, 0.0)
    if motion == V:
        fin, slopes = fin * beside, (*slopes[:FIN], slopes[FIN] * beside)
    control = (CONTROL_ERRORS[motion],) if motion in CONTROL_ERRORS else ()
    lateral = {"roll_p": "roll_damping", "yaw_p": "roll_to_yaw"}.get(name, "wing_sideways")
    turned = flow.downwash_slope / (1.0 - flow.downwash_slope) if motion == W else 0.0
    return [
        Part(wing, ("wing_lift" if load in (Z, PITCH) else lateral, *control), slopes[WING]),
        Part(tail, ("tail_pressure", *control), slopes[TAIL], {"downwash": -ERRORS["downwash"] * turned * tail}),
        Part(fin, ("fin_lift", *(("sidewash",) if motion == V else ()), *control), slopes[FIN]),
    ]


def sidewash(airframe: Airframe, polar: Polar) -> float:
    """Return what the body and the wing on it make of sideslip at the fin, with the pressure there."""
    depth_m = math.sqrt(airframe.body_width_m * airframe.body_depth_m)
    lowest_m = min(plane.height_m for plane in airframe.wing.planes) + airframe.wing_height_m
    return lifting_surface.sidewash_factor(
        airframe.fin.area_m2, polar.area_m2, polar.aspect_ratio, below=min(max(-lowest_m / depth_m, -0.5), 0.5)
    )


def _pitch_0_parts(airframe: Airframe, at: Coefficients) -> list[Part]:
    """Return the parts of the pitching moment without incidence."""
    wing, tail, _ = at.pitch_0.tolist()
    section = airframe.wing.mean("section_moment")
    return [Part(section, ("wing_moment",)), Part(wing, ("wing_lift",)), Part(tail, ("tail_pressure", "downwash"))]


def pitch_by_tail_setting(airframe: Airframe, at: Coefficients) -> float:
    """Return the pitching moment for a unit of the whole tailplane's turn: that of the elevator without its loss."""
    return float(at.value[TAIL, PITCH, ELEVATOR]) / lifting_surface.flap_effectiveness(airframe.tailplane.flap_share)


def _lag_parts(airframe: Airframe, polar: Polar, at: Coefficients, flow: AirframeFlow) -> list[Part]:
    """Return pitch due to the rate of incidence: the tailplane meets the downwash that left the wing a moment ago.

    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, section 5.5 (from memory).
    """
    behind = 2.0 * (airframe.tailplane.arm_m - airframe.wing.mean("arm_m")) / polar.chord_m
    return [
        Part(pitch_by_tail_setting(airframe, at) * flow.downwash_slope * behind, ("tail_pressure", "downwash", "lag"))
    ]


def _adverse_yaw(roll: Iterable[Part], lift: float) -> Part:
    """Return the error of adverse yaw: a part of 2 K CL times roll by ailerons, K about .15 (Datcom)."""
    power = sum(part.value for part in roll)
    return Part(0.0, (), 0.0, {"adverse_yaw": ERRORS["adverse_yaw"] * 2.0 * ADVERSE_YAW * lift * power})


def _pitch_parts(polar: Polar, flow: AirframeFlow) -> Iterator[tuple[str, Part]]:
    """Yield the part of the body in pitch."""
    yield "pitch_alpha", Part(flow.body_moment_m3 / (polar.area_m2 * polar.chord_m), ("body_pitch",))


def _side_parts(airframe: Airframe, polar: Polar, cg_aft_m: float) -> Iterator[tuple[str, Part]]:
    """Yield the parts of body and profile drag in side force, roll and yaw."""
    area, span = polar.area_m2, polar.span_m
    sideways = body.body_side_area(airframe.body_length_m, airframe.body_width_m, airframe.body_depth_m) / area
    whole = body.body_moment_volume(airframe.body_length_m, airframe.body_depth_m) / (area * span)
    turning = body.body_yaw_volume(
        airframe.body_length_m,
        airframe.body_width_m,
        airframe.body_depth_m,
        nose_m=cg_aft_m - body_ends_m(airframe)[0],
    ) / (area * span)
    yield "side_beta", Part(-sideways, ("body_side",))
    yield "roll_beta", Part(body.wing_height_effect(airframe, span), ("wing_height",))
    yield "yaw_beta", Part(-turning, (), beside={"body_yaw": -ERRORS["body_yaw"] * whole})
    yield "yaw_r", Part(-polar.drag_zero_lift / 3.0, ("profile_drag",))
