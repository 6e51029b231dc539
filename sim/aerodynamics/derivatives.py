"""Every aerodynamic derivative of an airplane from its geometry, with an honest band; given values take precedence.

Coefficients are per radian; rates are made dimensionless by c/2V (pitch) and b/2V (roll, yaw). Drag is not here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal, NamedTuple

import numpy as np

from sim.aerodynamics import body, lifting_surface
from sim.aerodynamics.airframe_flow import airframe_flow, body_ends_m
from sim.aerodynamics.derivative_errors import ERRORS
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
    from sim.aerodynamics.geometry import Airframe, RunningPropeller
    from sim.aerodynamics.polar import Polar

    Numbers = NDArray[np.float64]

Origin = Literal["estimated", "given"]

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
CONTROL_ERRORS: Final = {ELEVATOR: "elevator", AILERON: "aileron", RUDDER: "rudder"}


@dataclass(frozen=True, slots=True)
class Derivative:
    """One derivative.

    Attributes
    ----------
    value : float
        Per radian, or per unit of the dimensionless rate.
    origin : str
        ``estimated`` from geometry or ``given`` in the scenario.
    band : float
        One standard deviation of `value`; 0 where it is given.
    per_lift : float
        Change of `value` for a unit of lift coefficient; 0 for one that does not grow with lift, or is given.
    errors : Mapping of str to float
        Change of `value` as each source of `sim.aerodynamics.derivative_errors` errs by one standard deviation; `band`
        is the root of the sum of their squares.
    """

    value: float
    origin: Origin
    band: float
    per_lift: float = 0.0
    errors: Mapping[str, float] = field(default_factory=dict)

    @property
    def dominated_by(self) -> str | None:
        """Source of the largest part of the band, or None without one."""
        return max(self.errors, key=lambda source: abs(self.errors[source]), default=None)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a derivative.

    Attributes
    ----------
    value, per_lift : float
        As in `Derivative`.
    sources : tuple of str
        What it is proportional to.
    beside : Mapping of str to float
        Further errors of the derivative, absolute.
    """

    value: float
    sources: tuple[str, ...]
    per_lift: float = 0.0
    beside: Mapping[str, float] = field(default_factory=dict)


def estimate(
    airframe: Airframe, polar: Polar, propeller: RunningPropeller, *, lift: float, cg_aft_m: float = 0.0
) -> Mapping[str, Derivative]:
    """Return every derivative by name, estimated from geometry.

    Parameters
    ----------
    airframe : Airframe
        Geometry of the airplane about the centre of gravity that its arms are measured from.
    polar : Polar
        Its lift and drag, and the dimensions that the derivatives are referred to.
    propeller : RunningPropeller
        Its propeller.
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
    Wing, tailplane and fin by a vortex lattice, body and propeller by formulas of their own. Small angles, low Mach
    number, attached flow, free of the slipstream. The wing is turned as a whole until CL without incidence is that of
    `polar`. Pitching moments are those of forces along z: forces along x at their height change Cmα by −2 CL z/c.

    References
    ----------
    `sim.aerodynamics.lattice_motion`, `airframe_flow`, `body`; USAF Datcom, 1978, sections 5.2.2.1 and 5.3.1.1.
    """
    flow = airframe_flow(airframe, polar.lift_zero)
    at = _coefficients(flow, polar, lift=lift, cg_aft_m=cg_aft_m)
    sidewash = _sidewash(airframe, polar)
    parts = {name: _lattice_parts(name, at, flow, sidewash) for name in LATTICE}
    parts |= {"pitch_0": _pitch_0_parts(airframe, at), "pitch_alpha_dot": _lag_parts(airframe, polar, at, flow)}
    parts["yaw_aileron"].append(_adverse_yaw(parts["roll_aileron"], lift))
    for name, part in (*_pitch_parts(polar, propeller, flow), *_side_parts(airframe, polar, propeller, cg_aft_m)):
        parts[name].append(part)
    return MappingProxyType({name: _summed(each) for name, each in parts.items()})


def overridden(estimated: Mapping[str, Derivative], given: Mapping[str, float]) -> Mapping[str, Derivative]:
    """Return the derivatives with every given value in the place of its estimate.

    Parameters
    ----------
    estimated : Mapping of str to Derivative
        From `estimate`.
    given : Mapping of str to float
        Values by name, per radian; they do not grow with lift.
    """
    known = {name: Derivative(value, "given", 0.0) for name, value in given.items()}
    return MappingProxyType({name: known.get(name, value) for name, value in estimated.items()})


def by_source(derivatives: Mapping[str, Derivative], names: Iterable[str] | None = None) -> list[dict[str, float]]:
    """Return what one standard deviation of each source of error changes in the derivatives, a mapping for each source.

    Parameters
    ----------
    derivatives : Mapping of str to Derivative
        From `estimate` or `overridden`.
    names : iterable of str or None
        Derivatives that are asked for; None for all.
    """
    found: dict[str, dict[str, float]] = {}
    for name in derivatives if names is None else names:
        for source, error in derivatives[name].errors.items():
            found.setdefault(source, {})[name] = error
    return list(found.values())


def about_another_cg(
    given: Mapping[str, float], estimated: Mapping[str, Derivative], *, lift_zero: float, aft_share: float
) -> Mapping[str, float]:
    """Return given derivatives, with the pitching moments about a centre of gravity farther aft.

    Parameters
    ----------
    given : Mapping of str to float
        About the centre of gravity that they were measured for, per radian.
    estimated : Mapping of str to Derivative
        From `estimate`; its lift slope serves where none is given.
    lift_zero : float
        Lift coefficient at zero angle of attack.
    aft_share : float
        How far aft the other centre of gravity lies, over the reference chord.

    Notes
    -----
    Lift at the old centre makes a nose-up moment about one behind it: Cm gains CL times the share. Damping and the
    lateral derivatives change by the same share of an arm many times as long, which is left out.
    """
    slope = given.get("lift_alpha", estimated["lift_alpha"].value)
    gain = {"pitch_alpha": slope * aft_share, "pitch_0": lift_zero * aft_share}
    return {name: value + gain.get(name, 0.0) for name, value in given.items()}


def _summed(parts: Iterable[Part]) -> Derivative:
    value, per_lift, errors = 0.0, 0.0, dict[str, float]()
    for part in parts:
        value, per_lift = value + part.value, per_lift + part.per_lift
        for source, error in (
            *((source, part.value * ERRORS[source]) for source in part.sources),
            *part.beside.items(),
        ):
            errors[source] = errors.get(source, 0.0) + error
    return Derivative(value, "estimated", math.hypot(*errors.values()), per_lift, errors)


class _Coefficients(NamedTuple):
    """Coefficients of wing, tailplane and fin by load and motion, and those of pitch without incidence.

    Shape (3, 6, 9); rates are dimensionless, lift counts up, the other loads as in body axes.
    """

    value: Numbers
    per_lift: Numbers
    pitch_0: Numbers


def _coefficients(flow: AirframeFlow, polar: Polar, *, lift: float, cg_aft_m: float) -> _Coefficients:
    span, chord = polar.span_m, polar.chord_m
    length = np.array([1.0, 1.0, -1.0, span, chord, span])
    rate = np.array([1.0, 1.0, 1.0, 2.0 / span, 2.0 / chord, 2.0 / span, 1.0, 1.0, 1.0])
    forms = about_cg_aft(flow.loads, cg_aft_m) * (4.0 / polar.area_m2 / length)[:, None, None] * rate[:, None] * rate
    slope = float(forms[:, Z, U, W].sum())
    alpha = (lift - polar.lift_zero) / slope
    return _Coefficients(forms[..., U] + alpha * forms[..., W], forms[..., W] / slope, 0.5 * forms[:, PITCH, U, U])


def _lattice_parts(name: str, at: _Coefficients, flow: AirframeFlow, sidewash: float) -> list[Part]:
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
        fin, slopes = fin * sidewash, (*slopes[:FIN], slopes[FIN] * sidewash)
    control = (CONTROL_ERRORS[motion],) if motion in CONTROL_ERRORS else ()
    lateral = {"roll_p": "roll_damping", "yaw_p": "roll_to_yaw"}.get(name, "wing_sideways")
    turned = flow.downwash_slope / (1.0 - flow.downwash_slope) if motion == W else 0.0
    return [
        Part(wing, ("wing_lift" if load in (Z, PITCH) else lateral, *control), slopes[WING]),
        Part(tail, ("tail_pressure", *control), slopes[TAIL], {"downwash": -ERRORS["downwash"] * turned * tail}),
        Part(fin, ("fin_lift", *(("sidewash",) if motion == V else ()), *control), slopes[FIN]),
    ]


def _sidewash(airframe: Airframe, polar: Polar) -> float:
    """Return what the body and the wing on it make of sideslip at the fin, with the pressure there."""
    depth_m = math.sqrt(airframe.body_width_m * airframe.body_depth_m)
    lowest_m = min(plane.height_m for plane in airframe.wing.planes) + airframe.wing_height_m
    return lifting_surface.sidewash_factor(
        airframe.fin.area_m2, polar.area_m2, polar.aspect_ratio, below=min(max(-lowest_m / depth_m, -0.5), 0.5)
    )


def _pitch_0_parts(airframe: Airframe, at: _Coefficients) -> list[Part]:
    """Return the parts of the pitching moment without incidence."""
    wing, tail, _ = at.pitch_0.tolist()
    section = airframe.wing.mean("section_moment")
    return [Part(section, ("wing_moment",)), Part(wing, ("wing_lift",)), Part(tail, ("tail_pressure", "downwash"))]


def _lag_parts(airframe: Airframe, polar: Polar, at: _Coefficients, flow: AirframeFlow) -> list[Part]:
    """Return pitch due to the rate of incidence: the tailplane meets the downwash that left the wing a moment ago.

    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, section 5.5 (from memory).
    """
    tail = airframe.tailplane
    turn = float(at.value[TAIL, PITCH, ELEVATOR]) / lifting_surface.flap_effectiveness(tail.flap_share)
    behind = 2.0 * (tail.arm_m - airframe.wing.mean("arm_m")) / polar.chord_m
    return [Part(turn * flow.downwash_slope * behind, ("tail_pressure", "downwash", "lag"))]


def _adverse_yaw(roll: Iterable[Part], lift: float) -> Part:
    """Return the error of adverse yaw: a part of 2 K CL times roll by ailerons, K about .15 (Datcom)."""
    power = sum(part.value for part in roll)
    return Part(0.0, (), 0.0, {"adverse_yaw": ERRORS["adverse_yaw"] * 2.0 * ADVERSE_YAW * lift * power})


def _pitch_parts(polar: Polar, propeller: RunningPropeller, flow: AirframeFlow) -> Iterator[tuple[str, Part]]:
    """Yield the parts of body and propeller in lift and pitch."""
    disc = propeller.propeller_fin_m2 / polar.area_m2
    yield "lift_alpha", Part(disc, ("propeller",))
    yield "pitch_alpha", Part(disc * propeller.propeller_arm_m / polar.chord_m, ("propeller",))
    yield "pitch_alpha", Part(flow.body_moment_m3 / (polar.area_m2 * polar.chord_m), ("body_pitch",))


def _side_parts(
    airframe: Airframe, polar: Polar, propeller: RunningPropeller, cg_aft_m: float
) -> Iterator[tuple[str, Part]]:
    """Yield the parts of body, propeller and profile drag in side force, roll and yaw."""
    area, span = polar.area_m2, polar.span_m
    disc, nose = propeller.propeller_fin_m2 / area, propeller.propeller_arm_m / span
    sideways = body.body_side_area(airframe.body_length_m, airframe.body_width_m, airframe.body_depth_m) / area
    whole = body.body_moment_volume(airframe.body_length_m, airframe.body_depth_m) / (area * span)
    turning = body.body_yaw_volume(
        airframe.body_length_m,
        airframe.body_width_m,
        airframe.body_depth_m,
        nose_m=cg_aft_m - body_ends_m(airframe)[0],
    ) / (area * span)
    yield "side_beta", Part(-sideways, ("body_side",))
    yield "side_beta", Part(-disc, ("propeller",))
    yield "side_r", Part(-2.0 * nose * disc, ("propeller",))
    yield "roll_beta", Part(body.wing_height_effect(airframe, span), ("wing_height",))
    yield "yaw_beta", Part(-turning, (), beside={"body_yaw": -ERRORS["body_yaw"] * whole})
    yield "yaw_beta", Part(-disc * nose, ("propeller",))
    yield "yaw_r", Part(-2.0 * nose * nose * disc, ("propeller",))
    yield "yaw_r", Part(-polar.drag_zero_lift / 3.0, ("profile_drag",))
