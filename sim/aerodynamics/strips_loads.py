"""Air loads past the stall: the linear model while the flow is attached, strips with section curves where it is not."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, NamedTuple

from sim.aerodynamics.forces import SPEED_FLOOR_M_S, AirLoads
from sim.aerodynamics.half_planes import wing_flow
from sim.aerodynamics.strip_flow import Motion, strip_state, strip_streams

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.aerodynamics.slipstream import Wash
    from sim.aerodynamics.strip_flow import StripState
    from sim.aerodynamics.strips import BodyPart, Strip, Strips
    from sim.numerics.number import MathFunctions, Number

FADE_RAD: Final = 0.52
"""Angle of the stream at tips and tail to the x axis at which half is left of what the linear model has beside the
strips: beyond every stall, where derivatives mean nothing."""
CROSS_DRAG: Final = 1.0
"""Drag of a fuselage in a stream across it, on the area that meets it; .6 round to 1.3 with edges (common practice)."""
WAKE_LOSS: Final = 0.4
"""Largest loss of dynamic pressure in the wake of a stalled wing three chords behind it (USAF Datcom 4.4.1, with a
section drag of .3, from memory)."""
SHADOW: Final = 0.1
"""Sine of the angle of attack over which the wake of the tailplane comes to lie on the fin."""


class Kept(NamedTuple):
    """Parts of loads that count: of the linear model, and of a strip's own dynamic pressure in the wakes."""

    linear: Number
    pressure: Number


def strip_loads(
    strips: Strips, functions: MathFunctions = math, *, alone: bool = False
) -> Callable[[Number, Number, AirLoads, Wash], AirLoads]:
    """Return the function ((u, v, w, p, q, r), controls, linear loads, air and slipstream) -> `AirLoads`.

    Parameters
    ----------
    strips : Strips
    functions : module
        Source of `sqrt` and `atan`.
    alone : bool
        Whether strips, fuselage and parts give all loads, and nothing is left of the linear ones.

    Notes
    -----
    Linear loads are those of `sim.aerodynamics.forces.air_loads` with lift unbounded, and of the slipstream. With C the
    coefficients of a strip at its effective angle and C' those of attached flow at the same place, the loads are f
    (linear − Σ C') + Σ C, and 1 − f times the drag of fuselage and parts. While the flow is attached C is C' and the
    linear model is left as it is, whatever was measured of it. f is .996 at 15° and .04 at 45°. Each strip
    has its own velocity, of the rotation and the slipstream as well; its effective angle is the geometric one less that
    by which the vortices turn the stream, which shrinks as the lift of its half plane does. A force of a strip lies
    across its own stream or against it, so that strips take energy out, whatever the motion.
    """
    wing = wing_flow(strips, functions)
    tail = [(strip, strip_streams(strip, functions), strip_state(strip, functions)) for strip in strips.tail]
    both_m2 = 2.0 * sum(strip.area_m2 for strip in strips.wing)

    def loads(motion: Number, controls: Number, linear: AirLoads, wash: Wash) -> AirLoads:
        now = strip_motion(strips, functions, motion, controls)
        fade: Number = 0.0 if alone else _fade(now)
        total: list[Number] = [0.0] * 6
        lifting: Number = 0.0
        for strip, found, attached in wing(now, wash):
            _add(total, strip, found, Kept(fade, 1.0))
            lifting = lifting + (strip.area_m2 / both_m2) * sum(attached)
        for strip, streams, state in tail:
            sides = [state(one, one.attached, lifting) for one in streams(now, wash)]
            _add(total, strip, sides, Kept(fade, _pressure(strips, strip, now, functions)(lifting, fade)))
        rest = _rest(strips, functions, now)
        half = 0.5 * wash.density
        x, y, z, roll, pitch, yaw = (
            fade * one + half * (own + (1.0 - fade) * other)
            for one, own, other in zip(linear[:6], total, rest, strict=True)
        )
        return AirLoads(x, y, z, roll, pitch, yaw, fade * linear.pitch_per_alpha_dot, linear.lift_per_speed)

    return loads


def strip_motion(strips: Strips, functions: MathFunctions, motion: Number, controls: Number) -> Motion:
    """Return (u, v, w, p, q, r) and controls as `sim.aerodynamics.strip_flow.strip_streams` takes them."""
    u, v, w, p, q, r = motion
    rates = (0.5 * strips.span_m) ** 2 * (p * p + r * r) + strips.tail_arm_m**2 * (q * q)
    per_speed = 1.0 / functions.sqrt(u * u + v * v + w * w + rates + SPEED_FLOOR_M_S**2)
    return Motion(u, v, w, p, q, r, tuple(one * per_speed for one in motion), controls)


def _fade(now: Motion) -> Number:
    """Return what is left of the linear model: 1 along x, and by the eighth power of the angle less."""
    turned = (1.0 - now.over_speed[0]) * (2.0 / FADE_RAD**2)
    second = turned * turned
    return 1.0 / (1.0 + second * second)


def _add(total: list[Number], strip: Strip, found: Sequence[StripState], kept: Kept) -> None:
    """Add forces and moments of a strip and its mirror image, over half the density."""
    (x, y, z), (right, below) = strip.force_m, strip.across
    ahead, against, turning = zip(*(_forces(strip, one, kept) for one in found), strict=True)
    fx, fn, moment = sum(ahead), sum(against), sum(turning)
    dx, dn, twist = (one[0] - one[1] if strip.mirrored else one[0] for one in (ahead, against, turning))
    more = (
        fx,
        right * dn,
        below * fn,
        (y * below - z * right) * dn,
        z * fx - (x * below) * fn + below * moment,
        (x * right) * dn - y * dx - right * twist,
    )
    total[:] = [one + other for one, other in zip(total, more, strict=True)]


def _forces(strip: Strip, state: StripState, kept: Kept) -> tuple[Number, Number, Number]:
    """Return force along x and along the normal, and moment nose up, over half the density, less the attached ones."""
    pressed = (strip.pressure_share * strip.area_m2) * state.speed
    lift = kept.pressure * state.lift - kept.linear * state.lift_attached
    drag = kept.pressure * state.drag - kept.linear * state.drag_attached
    moment = kept.pressure * state.moment - kept.linear * strip.curve.moment
    return (
        pressed * (lift * state.normal - drag * state.along),
        -(pressed * (lift * state.along + drag * state.normal)),
        pressed * strip.chord_m * state.speed * moment,
    )


def _pressure(
    strips: Strips, strip: Strip, now: Motion, functions: MathFunctions
) -> Callable[[Number, Number], Number]:
    """Return the function (share of attached lift, of linear loads) -> dynamic pressure left in the wakes ahead."""
    x, z = strips.wing_place_m
    along, alpha = now.over_speed[0], now.over_speed[2]
    off = ((strip.force_m[2] - z) * along - (strip.force_m[0] - x) * alpha) * (1.0 / strips.wake_m)

    def left(lifting: Number, fade: Number) -> Number:
        kept = 1.0 - WAKE_LOSS * (1.0 - lifting) / (1.0 + off * off)
        if not strip.shielded_share:
            return kept
        up = alpha / functions.sqrt(alpha * alpha + SHADOW**2)
        return kept * (1.0 - (0.5 * strip.shielded_share) * (1.0 - fade) * (1.0 + up))

    return left


def _rest(strips: Strips, functions: MathFunctions, now: Motion) -> list[Number]:
    """Return the drag of fuselage and parts over half the density: along the stream, and of what crosses the body."""
    speed = functions.sqrt(now.u * now.u + now.v * now.v + now.w * now.w + SPEED_FLOOR_M_S**2)
    parasite = -strips.parasite_m2 * speed
    total: list[Number] = [parasite * now.u, parasite * now.v, parasite * now.w, 0.0, 0.0, 0.0]
    for part in strips.body:
        more = _across(part, functions, now)
        total = [one + other for one, other in zip(total, more, strict=True)]
    return total


def _across(part: BodyPart, functions: MathFunctions, now: Motion) -> tuple[Number, ...]:
    x, z = part.place_m
    side, down = now.v + x * now.r - z * now.p, now.w - x * now.q
    pressed = -CROSS_DRAG * functions.sqrt(side * side + down * down + SPEED_FLOOR_M_S**2)
    right, below = part.side_m2 * pressed * side, part.plan_m2 * pressed * down
    return 0.0, right, below, -z * right, -x * below, x * right
