"""How an airplane lies in its slipstream: parts of wing, tailplane and fin in the tube behind its propeller."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.aerodynamics.derivative_errors import ERRORS
from sim.aerodynamics.slipstream import Slipstream, tube
from sim.propulsion.disc import Disc

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.aerodynamics.derivative import Derivative
    from sim.aerodynamics.geometry import Airframe
    from sim.aerodynamics.polar import Polar
    from sim.aerodynamics.tail_parts import TailParts
    from sim.model.powerplant import Powerplant

JET_LIFT: Final = 1.0
"""Growth of the lift of a wing across a narrow jet over that of a strip whose upwash stays: 1 for a jet as narrow as
the chord, 2 for a wide one at a fixed angle (Smelt & Davies, R. & M. 1788, 1937, from memory)."""
RECOVERED: Final = 0.5
"""Part of the swirl that a wing in the tube takes out of it, ± `SWIRL_ERROR` (common practice, no source)."""
SLIPSTREAM_ERROR: Final = 0.25
"""Standard deviation of the immersed parts over themselves: the tube bends with the flow, and is no sharp cylinder."""
SWIRL_ERROR: Final = 0.25
"""Standard deviation of the recovered part."""
IMMERSED: Final = {
    "tail_angle_m2": ("pitch_alpha", ("tail_pressure",)),
    "tail_rate_m2": ("pitch_q", ("tail_pressure",)),
    "tail_stream_m2": ("pitch_0", ("tail_pressure", "downwash")),
    "tail_setting_m2": ("pitch_0", ("tail_pressure",)),
    "elevator_m2": ("pitch_elevator", ("tail_pressure", "elevator")),
    "fin_angle_m2": ("yaw_beta", ("fin_lift", "sidewash")),
    "fin_rate_m2": ("yaw_r", ("fin_lift",)),
    "fin_roll_m3": ("yaw_p", ("fin_lift",)),
    "rudder_m2": ("yaw_rudder", ("fin_lift", "rudder")),
}
"""Number of the slipstream -> the derivative that it is a part of, and what that part is proportional to."""


def propeller_disc(powerplant: Powerplant) -> Disc:
    """Return the place of a propeller, for a powerplant with its arms from the centre of gravity."""
    arm_m = powerplant.propeller.arm_m
    return Disc(arm_m, arm_m * math.tan(powerplant.shaft_tilt_rad) - powerplant.thrust_arm_m, 1.0)


def slipstream(
    airframe: Airframe, polar: Polar, powerplant: Powerplant, *, parts: TailParts, lift: float, cg_aft_m: float
) -> Slipstream:
    """Return how an airplane lies in its slipstream.

    Parameters
    ----------
    airframe, polar : Airframe, Polar
        Geometry, and lift and drag.
    powerplant : Powerplant
        With its arms from the centre of gravity.
    parts : TailParts
        What tailplane and fin give of the derivatives.
    lift : float
        Lift coefficient of the level flight whose thrust contracts the tube; its radius is kept at other thrusts, where
        it changes by up to a sixth.
    cg_aft_m : float
        How far the centre of gravity lies aft of the one that the airframe's arms are measured from. [m]

    Notes
    -----
    The tube lies along the body from the middle of the disc. Behind the disc by x its speed has grown by ½ (1 + x/√(x²
    + R²)) of the whole gain, which counts as a smaller immersed part; swirl is there behind the disc alone.

    References
    ----------
    McCormick, Aerodynamics of V/STOL Flight, 1967, chapter 4, growth of the speed behind a disc (from memory).
    """
    disc, around = propeller_disc(powerplant), _tube(polar, powerplant, lift)
    tail, fin = airframe.tailplane, airframe.fin
    ahead_m = disc.arm_m - cg_aft_m
    wet = _wing_in_tube(airframe, disc, around, ahead_m)
    edge_m = around.edge_m(1.0)
    low_m, high_m = (
        min(max(fin.height_m + half * fin.span_m - disc.height_m, -edge_m), edge_m) for half in (-0.5, 0.5)
    )
    above_m = max(high_m, 0.0) - max(low_m, 0.0) + min(low_m, 0.0) - min(high_m, 0.0)
    tail_m, fin_m = tail.arm_m - cg_aft_m, fin.arm_m - cg_aft_m
    per_pitch, per_yaw = polar.area_m2 * polar.chord_m / tail_m, polar.area_m2 * polar.span_m / fin_m
    whole_m2, planes = sum(wet), airframe.wing.planes
    return Slipstream(
        disc_m2=math.pi * around.radius_m**2,
        wing_share=JET_LIFT * whole_m2 / polar.area_m2,
        wing_arm_m=sum(one * plane.arm_m for one, plane in zip(wet, planes, strict=True)) / (whole_m2 or 1.0)
        - cg_aft_m,
        tail_share=around.grown(ahead_m + tail.arm_m)
        * _width_m(tail.span_m, tail.height_m - disc.height_m, edge_m)
        / tail.span_m,
        tail_arm_m=tail_m,
        tail_angle_m2=-parts.pitch_alpha * per_pitch,
        tail_rate_m2=-0.5 * parts.pitch_q * per_pitch * polar.chord_m / tail_m,
        tail_stream_m2=-parts.pitch_stream * per_pitch,
        tail_setting_m2=-parts.pitch_setting * per_pitch,
        elevator_m2=-parts.pitch_elevator * per_pitch,
        fin_share=around.grown(ahead_m + fin.arm_m) * (high_m - low_m) / fin.span_m,
        fin_above_share=above_m / fin.span_m if ahead_m + fin.arm_m > 0.0 else 0.0,
        fin_arm_m=fin_m,
        fin_height_m=disc.height_m + 0.5 * (low_m + high_m),
        fin_angle_m2=parts.yaw_beta * per_yaw,
        fin_rate_m2=-0.5 * parts.yaw_r * per_yaw * polar.span_m / fin_m,
        fin_roll_m3=0.5 * parts.yaw_p * per_yaw * polar.span_m,
        rudder_m2=-parts.yaw_rudder * per_yaw,
        recovered_share=RECOVERED if whole_m2 and ahead_m + airframe.wing.mean("arm_m") > 0.0 else 0.0,
    )


def immersed_errors(
    slip: Slipstream, polar: Polar, derivatives: Mapping[str, Derivative]
) -> dict[str, dict[str, float]]:
    """Return what each source of error of the derivatives changes in the numbers of the slipstream, over themselves.

    Parameters
    ----------
    slip, polar : Slipstream, Polar
        Of one airplane.
    derivatives : Mapping of str to Derivative
        Of the same; a given one does not err, nor does its part.

    Notes
    -----
    With the sources of `sim.aerodynamics.derivative_errors`, so that the part in the tube errs as the part outside.
    """
    found = {
        number: {source: ERRORS[source] for source in sources}
        for number, (name, sources) in IMMERSED.items()
        if derivatives[name].origin == "estimated"
    }
    if "tail_angle_m2" in found and slip.tail_angle_m2:
        part = -slip.tail_angle_m2 * slip.tail_arm_m / (polar.area_m2 * polar.chord_m)
        found["tail_angle_m2"]["downwash"] = derivatives["pitch_alpha"].errors["downwash"] / part
    return found


class _Contraction(NamedTuple):
    """A tube by radius of the disc, speed through it, and gain of speed far behind, both over that of flight."""

    radius_m: float
    through: float
    gain: float

    def grown(self, behind_m: float) -> float:
        """Return the part of the gain that the tube has so far behind the disc."""
        return 0.5 * (1.0 + behind_m / math.hypot(behind_m, self.radius_m))

    def edge_m(self, grown: float) -> float:
        """Return its radius where it has that part of the gain. [m]."""
        return self.radius_m * math.sqrt(self.through / (1.0 + grown * self.gain))


def _tube(polar: Polar, powerplant: Powerplant, lift: float) -> _Contraction:
    """Return the tube of level flight."""
    radius_m = 0.5 * powerplant.propeller.diameter_m
    drag_m2 = (polar.drag_zero_lift + polar.induced * lift**2) * polar.area_m2
    behind = tube(1.0, 0.5 * drag_m2 / (math.pi * radius_m**2), 1.0, math.sqrt)
    return _Contraction(radius_m, behind.through, behind.gain)


def _wing_in_tube(airframe: Airframe, disc: Disc, around: _Contraction, ahead_m: float) -> list[float]:
    """Return the area of each plane in the tube, times the part of the gain that it has there. [m²]."""
    found = []
    for plane in airframe.wing.planes:
        grown = around.grown(ahead_m + plane.arm_m)
        above_m = plane.height_m + airframe.wing_height_m - disc.height_m
        found.append(grown * plane.chord_m * _width_m(plane.span_m, above_m, around.edge_m(grown)))
    return found


def _width_m(span_m: float, above_m: float, edge_m: float) -> float:
    """Return the span in a tube of a surface that lies above its middle. [m]."""
    return min(span_m, 2.0 * math.sqrt(max(edge_m**2 - above_m**2, 0.0)))
