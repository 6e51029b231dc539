"""Every aerodynamic derivative of an airplane from its geometry, with an honest band; given values take precedence.

Coefficients are per radian; rates are made dimensionless by c/2V (pitch) and b/2V (roll, yaw). Drag is not here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from types import MappingProxyType
from typing import TYPE_CHECKING, Literal

from sim.aerodynamics import body, lifting_surface
from sim.aerodynamics.forces import Derivatives
from sim.aerodynamics.geometry import tail_volume

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from sim.aerodynamics.geometry import Airframe, RunningPropeller
    from sim.aerodynamics.polar import Polar
    from sim.airframe.wing import Wing

Origin = Literal["estimated", "given"]
Term = tuple[float, float]
"""A part of a derivative and its error as a fraction of that part."""

TAIL_ERROR = 0.10
"""Of a tail surface's lift slope times the air pressure it meets: in or out of the slipstream."""
DAMPING_ERROR = 0.30
"""Of rate derivatives taken from the tail alone: the Navion's pitch damping comes out half as high again."""
ADVERSE_YAW = -0.15
"""Adverse yaw over 2 CL times roll of the aileron; −.1 to −.2 by span share (Nelson, figure 3.12, Datcom)."""
SECTION_MOMENT_ERROR = 0.6


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
    """

    value: float
    origin: Origin
    band: float


def estimate(airframe: Airframe, polar: Polar, propeller: RunningPropeller, *, lift: float) -> Mapping[str, Derivative]:
    """Return every derivative by name, estimated from geometry.

    Parameters
    ----------
    airframe : Airframe
        Geometry of the airplane.
    polar : Polar
        Its lift and drag, and the dimensions that the derivatives are referred to.
    propeller : RunningPropeller
        Its propeller.
    lift : float
        Lift coefficient in steady flight; the cross derivatives of roll and yaw are proportional to it.

    Returns
    -------
    Mapping of str to Derivative
        ``lift_alpha`` … ``yaw_rudder``; a positive elevator, aileron or rudder makes a negative moment.

    Notes
    -----
    Straight, lightly loaded surfaces at small angles and low Mach number; free of the slipstream. Each part brings
    the known error of its own formula; the band is their root of squares. Tested against the Navion.

    References
    ----------
    Nelson, Flight Stability and Automatic Control, 2nd ed. 1998, chapters 2, 3 and 5; each part in its own module.
    """
    terms = _pitch_terms(airframe, polar, propeller)
    terms |= _side_terms(airframe, polar, propeller, lift) | _control_terms(airframe, polar, lift)
    return MappingProxyType({name: _summed(parts) for name, parts in terms.items()})


def overridden(estimated: Mapping[str, Derivative], given: Mapping[str, float]) -> Mapping[str, Derivative]:
    """Return the derivatives with every given value in the place of its estimate.

    Parameters
    ----------
    estimated : Mapping of str to Derivative
        From `estimate`.
    given : Mapping of str to float
        Values by name, per radian.
    """
    known = {name: Derivative(value, "given", 0.0) for name, value in given.items()}
    return MappingProxyType({name: known.get(name, value) for name, value in estimated.items()})


def values(derivatives: Mapping[str, Derivative]) -> Derivatives:
    """Return the values of all derivatives, without bands."""
    return Derivatives(**{field.name: derivatives[field.name].value for field in fields(Derivatives)})


def _summed(terms: Iterable[Term]) -> Derivative:
    parts = list(terms)
    band = math.hypot(*(value * error for value, error in parts))
    return Derivative(sum(value for value, _ in parts), "estimated", band)


def _pitch_terms(airframe: Airframe, polar: Polar, propeller: RunningPropeller) -> dict[str, list[Term]]:
    """Return the parts of lift and pitching moment with their errors.

    Wing at its arm, tail by its volume in the downwash, body, propeller (Nelson, chapters 2 and 3).
    Rates by the tail alone: −2 a V l/c for pitch rate, times dε/dα for rate of incidence; for the Navion they come out
    half as high again as printed, hence `DAMPING_ERROR`.
    """
    planes, tail, area, chord = airframe.wing, airframe.tailplane, polar.area_m2, polar.chord_m
    wing = lifting_surface.lift_slope(planes.mean("section_slope"), polar.aspect_ratio)
    slope = lifting_surface.lift_slope(tail.section_slope, tail.aspect)
    downwash = lifting_surface.downwash_slope(wing, polar.aspect_ratio)
    volume = tail_volume(tail.area_m2, tail.arm_m, wing_area_m2=area, reference_m=chord)
    lift = slope * tail.area_m2 / area
    arm = tail.arm_m / chord
    met = lift * (1.0 - downwash), math.hypot(TAIL_ERROR, lifting_surface.DOWNWASH_ERROR * downwash / (1.0 - downwash))
    flap = lifting_surface.flap_effectiveness(tail.flap_share), math.hypot(TAIL_ERROR, lifting_surface.FLAP_ERROR)
    disc = propeller.propeller_fin_m2 / area
    lever = planes.mean("arm_m") / chord
    return {
        "lift_alpha": [(wing, lifting_surface.LIFT_SLOPE_ERROR), met, (disc, body.PROPELLER_ERROR)],
        "lift_q": [(2.0 * slope * volume, DAMPING_ERROR)],
        "lift_elevator": [(lift * flap[0], flap[1])],
        "pitch_0": [
            (planes.mean("section_moment"), SECTION_MOMENT_ERROR),
            (-polar.lift_zero * lever, lifting_surface.LIFT_SLOPE_ERROR),
            (slope * volume * downwash * polar.lift_zero / wing, lifting_surface.DOWNWASH_ERROR),
            (-slope * volume * tail.incidence_rad, TAIL_ERROR),
            (-wing * _decalage(planes, chord), lifting_surface.LIFT_SLOPE_ERROR),
        ],
        "pitch_alpha": [
            (-wing * lever, lifting_surface.LIFT_SLOPE_ERROR),
            (-met[0] * arm, met[1]),
            (body.body_moment_volume(airframe.body_length_m, airframe.body_width_m) / (area * chord), body.BODY_ERROR),
            (disc * propeller.propeller_arm_m / chord, body.PROPELLER_ERROR),
        ],
        "pitch_alpha_dot": [(-2.0 * slope * volume * arm * downwash, math.hypot(DAMPING_ERROR, TAIL_ERROR))],
        "pitch_q": [(-2.0 * slope * volume * arm, DAMPING_ERROR)],
        "pitch_elevator": [(-slope * volume * flap[0], flap[1])],
    }


def _decalage(wing: Wing, chord_m: float) -> float:
    """Return the differences of incidence between planes times their arms in mean chords, weighted by area."""
    mean = wing.mean("incidence_rad")
    moments = (plane.area_m2 * (plane.incidence_rad - mean) * plane.arm_m for plane in wing.planes)
    return sum(moments) / (wing.area_m2 * chord_m)


def _side_terms(airframe: Airframe, polar: Polar, propeller: RunningPropeller, lift: float) -> dict[str, list[Term]]:
    """Return the parts of side force, rolling and yawing moment with their errors.

    Fin in the sidewash at its arm and height; wing by strips: roll due to yaw CL/4, yaw due to roll −CL/8, yaw damping
    −CD0/3; body, propeller (Nelson, chapter 3, table of lateral estimates; strips for CD0). For the Navion weathercock
    stability comes out far too small, the small difference of fin and body, and side force half.
    """
    area, span, aspect = polar.area_m2, polar.span_m, polar.aspect_ratio
    wing, fin = airframe.wing, airframe.fin
    slope = lifting_surface.lift_slope(fin.section_slope, fin.aspect) * fin.area_m2 / area
    side = -lifting_surface.sidewash_factor(fin.area_m2, area, aspect) * slope
    error = math.hypot(TAIL_ERROR, lifting_surface.SIDEWASH_ERROR)
    arm, high = fin.arm_m / span, fin.height_m / span
    rolling = lifting_surface.rolling_slope(wing.mean("section_slope"), aspect)
    taper = wing.mean("taper")
    disc = propeller.propeller_fin_m2 / area
    sideways = body.body_side_area(airframe.body_length_m, airframe.body_width_m, airframe.body_depth_m) / area
    turning = body.body_moment_volume(airframe.body_length_m, airframe.body_depth_m) / (area * span)
    nose = propeller.propeller_arm_m / span
    return {
        "side_beta": [(side, error), (-sideways, body.BODY_ERROR), (-disc, body.PROPELLER_ERROR)],
        "side_p": [(2.0 * high * side, error)],
        "side_r": [(-2.0 * arm * side, error), (2.0 * nose * -disc, body.PROPELLER_ERROR)],
        "roll_beta": [
            (
                lifting_surface.dihedral_effect(rolling, wing.mean("dihedral_rad"), taper),
                lifting_surface.DIHEDRAL_ERROR,
            ),
            (lifting_surface.sweep_effect(lift, wing.mean("sweep_rad")), lifting_surface.CROSS_ERROR),
            (high * side, error),
        ],
        "roll_p": [(lifting_surface.roll_damping(rolling, taper), lifting_surface.ROLL_DAMPING_ERROR)],
        "roll_r": [(lift / 4.0, lifting_surface.CROSS_ERROR), (-2.0 * arm * high * side, error)],
        "yaw_beta": [
            (-side * arm, error),
            (-turning, body.BODY_ERROR),
            (-disc * nose, body.PROPELLER_ERROR),
        ],
        "yaw_p": [(-lift / 8.0, lifting_surface.CROSS_ERROR), (-2.0 * high * arm * side, error)],
        "yaw_r": [
            (2.0 * arm * arm * side, math.hypot(error, DAMPING_ERROR)),
            (-polar.drag_zero_lift / 3.0, lifting_surface.CROSS_ERROR),
            (-2.0 * nose * nose * disc, body.PROPELLER_ERROR),
        ],
    }


def _control_terms(airframe: Airframe, polar: Polar, lift: float) -> dict[str, list[Term]]:
    """Return rudder and aileron powers with their errors; adverse yaw 2 K CL times roll (Nelson, chapter 3)."""
    wing, fin = airframe.wing, airframe.fin
    slope = lifting_surface.lift_slope(fin.section_slope, fin.aspect) * fin.area_m2 / polar.area_m2
    rudder = slope * lifting_surface.flap_effectiveness(fin.flap_share)
    error = math.hypot(TAIL_ERROR, lifting_surface.FLAP_ERROR)
    rolling = lifting_surface.rolling_slope(wing.mean("section_slope"), polar.aspect_ratio)
    carrying = sum(plane.area_m2 for plane in wing.planes[: airframe.aileron_planes]) / wing.area_m2
    aileron = carrying * lifting_surface.aileron_power(
        rolling,
        lifting_surface.flap_effectiveness(airframe.aileron_chord_share),
        airframe.aileron_from,
        airframe.aileron_to,
    )
    return {
        "side_rudder": [(rudder, error)],
        "roll_aileron": [(aileron, lifting_surface.AILERON_ERROR)],
        "roll_rudder": [(rudder * fin.height_m / polar.span_m, error)],
        "yaw_aileron": [(2.0 * ADVERSE_YAW * lift * aileron, lifting_surface.CROSS_ERROR)],
        "yaw_rudder": [(-rudder * fin.arm_m / polar.span_m, error)],
    }
