"""One strip in the stream: its own velocity, its effective angle of attack, and its coefficients there."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

from sim.aerodynamics.forces import SPEED_FLOOR_M_S
from sim.aerodynamics.section_curve import section_coefficients

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.aerodynamics.slipstream import Wash
    from sim.aerodynamics.strips import Strip
    from sim.numerics.number import MathFunctions, Number


class Motion(NamedTuple):
    """Velocity [m/s], rates [rad/s], and the same over the speed that tips and tail meet; controls. [rad]."""

    u: Number
    v: Number
    w: Number
    p: Number
    q: Number
    r: Number
    over_speed: tuple[Number, ...]
    controls: Number


class Met(NamedTuple):
    """What a strip meets on one side.

    Velocity against its normal and along x [m/s]; angle of its line without lift to the x axis, and by which its own
    vortices and those of the wing turn the stream down in attached flow [rad].
    """

    normal: Number
    along: Number
    line: Number
    own: Number
    of_wing: Number


class Stream(NamedTuple):
    """Stream at a strip on one side.

    What it meets; its speed [m/s]; angle of attached flow to the line without lift [rad]; and the lift there over that
    of attached flow.
    """

    met: Met
    speed: Number
    linear: Number
    attached: Number


class StripState(NamedTuple):
    """Velocity and coefficients of a strip on one side.

    Velocity against its normal and along x, and its size [m/s]; effective angle to the line without lift [rad]; lift,
    drag and moment; lift and drag of attached flow.
    """

    normal: Number
    along: Number
    speed: Number
    effective: Number
    lift: Number
    drag: Number
    moment: Number
    lift_attached: Number
    drag_attached: Number


def strip_streams(strip: Strip, functions: MathFunctions = math) -> Callable[[Motion, Wash], tuple[Stream, ...]]:
    """Return the function (motion, slipstream) -> stream on the right and, where it has a mirror image, on the left.

    Parameters
    ----------
    strip : Strip
    functions : module
        Source of `sqrt` and `atan`.

    Notes
    -----
    Lift over that of attached flow is (1 + x⁸)^(−1/8), x the angle of attached flow over that of the largest lift, both
    from the middle of the attached range.
    """
    sqrt, curve = functions.sqrt, strip.curve
    top, bottom = curve.lift_max / curve.lift_slope, curve.lift_min / curve.lift_slope
    middle, per_half = 0.5 * (top + bottom), 2.0 / (top - bottom)

    def stream(met: Met) -> Stream:
        speed = sqrt(met.normal * met.normal + met.along * met.along + SPEED_FLOOR_M_S**2)
        geometric = 2.0 * functions.atan(met.normal / (met.along + speed)) + met.line
        linear = geometric - met.own - met.of_wing
        ratio = (linear - middle) * per_half
        second = ratio * ratio
        fourth = second * second
        return Stream(met, speed, linear, 1.0 / sqrt(sqrt(sqrt(1.0 + fourth * fourth))))

    def streams(now: Motion, wash: Wash) -> tuple[Stream, ...]:
        return tuple(stream(met) for met in _met(strip, now, wash))

    return streams


def strip_state(strip: Strip, functions: MathFunctions = math) -> Callable[[Stream, Number, Number], StripState]:
    """Return the function (stream, lift of its own surface and of the wing over those of attached flow) -> state.

    Parameters
    ----------
    strip : Strip
    functions : module
        Source of `sqrt` and `atan`.

    Notes
    -----
    Angles by which vortices turn the stream shrink as the lift does of the surface that sheds them.
    """
    section, curve = section_coefficients(strip.curve, functions), strip.curve

    def state(stream: Stream, of_surface: Number, of_wing: Number) -> StripState:
        (normal, along, line, own, downwash), speed, linear, _ = stream
        down = of_surface * own + of_wing * downwash
        sine, cosine = _turned(normal / speed, along / speed, line - down + curve.zero_lift_rad, functions.sqrt)
        lift, drag, moment = section((sine, cosine))
        straight = curve.lift_slope * linear
        return StripState(
            normal=normal,
            along=along,
            speed=speed,
            effective=linear + own + downwash - down,
            lift=lift,
            drag=drag + lift * down,
            moment=moment,
            lift_attached=straight,
            drag_attached=curve.drag_zero_lift + straight * (own + downwash),
        )

    return state


def _turned(sine: Number, cosine: Number, more: Number, sqrt: Callable[[Number], Number]) -> tuple[Number, Number]:
    """Return sine and cosine of an angle that is larger by a small one, to its fifth power."""
    tangent = more + (1.0 / 3.0) * more * more * more
    scale = 1.0 / sqrt(1.0 + tangent * tangent)
    return (sine + cosine * tangent) * scale, (cosine - sine * tangent) * scale


def _met(strip: Strip, now: Motion, wash: Wash) -> tuple[Met, ...]:
    """Return what a strip meets on the right, and on the left where it has a mirror image."""
    (_, y, z), (x3, y3, z3), (right, below) = strip.force_m, strip.flow_m, strip.across
    by_elevator, by_aileron, by_rudder = strip.turns
    elevator, aileron, rudder = now.controls[:3]
    level = below * (now.w - x3 * now.q)
    skew = right * (now.v + x3 * now.r - z3 * now.p) + (below * y3) * now.p - strip.swirled_share * wash.around
    ahead, turning = now.u + z * now.q + strip.washed_share * wash.gain, y * now.r
    own, own_odd = _angle(strip.induced, now)
    of_wing, of_wing_odd = _angle(strip.downwash or (0.0,) * 9, now)
    even = (level, ahead, strip.setting_rad + by_elevator * elevator, own, of_wing)
    odd = (skew, -turning, by_aileron * aileron + by_rudder * rudder, own_odd, of_wing_odd)
    on_right = Met(*(a + b for a, b in zip(even, odd, strict=True)))
    return (on_right, Met(*(a - b for a, b in zip(even, odd, strict=True)))) if strip.mirrored else (on_right,)


def _angle(induced: tuple[float, ...], now: Motion) -> tuple[Number, Number]:
    """Return the induced angle that is the same on both sides, and that which has the other sign on the left."""
    u, v, w, p, q, r = now.over_speed
    elevator, aileron, rudder = now.controls[:3]
    by_u, by_v, by_w, by_p, by_q, by_r, by_elevator, by_aileron, by_rudder = induced
    even = by_u * u + by_w * w + by_q * q + by_elevator * elevator
    return even, by_v * v + by_p * p + by_r * r + by_aileron * aileron + by_rudder * rudder
