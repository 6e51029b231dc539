"""Trim: attitude, controls and power of steady coordinated turns, any number of them at once.

Straight flight is the turn with zero bank. The equations are those of `sim.flight.motion`: Newton's method finds the
state whose rates vanish, with the exact Jacobian by the complex step.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from sim.aerodynamics.forces import bounded_lift
from sim.atmosphere import density_ratio
from sim.flight.many_airplanes import only_of
from sim.flight.momentum_fraction import NO_ROTOR, with_momentum_fraction
from sim.flight.motion import Airplane, Controls, motion
from sim.numerics.newton import solve_batch
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike, NDArray

    from sim.flight.many_airplanes import Selection
    from sim.numerics.number import Number

    Array = NDArray[np.float64]

RESIDUAL: Final = 1e-9
"""A turn is found when no rate is larger. [m/s², rad/s²]"""
MAX_STEP: Final = np.array([0.15, 0.15, 0.5, 0.5, 0.5, 40.0, 1.0])
BLOCK: Final = 512
"""Turns solved together."""
MOMENTUM_FRACTIONS: Final = (NO_ROTOR, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1.0)
MAX_START_RATIO: Final = 1.35
"""Required lift over CLmax from which no thrust replaces the missing lift: such turns are not attempted."""


@dataclass(frozen=True, slots=True)
class Turns:
    """Steady turns, one entry per turn; not-a-number where the wing cannot give the lift.

    Attributes
    ----------
    bank_rad : array
        Right wing down positive. [rad]
    turn_rate_rad_s : array
        Nose right positive. [rad/s]
    load_factor : array
        Specific force upward in body axes, in units of gravity.
    alpha_rad, sideslip_rad, pitch_rad, climb_rad : array
        Angle of attack; wind from the right, nose up and climb positive. [rad]
    elevator_rad, aileron_rad, rudder_rad : array
        Positive makes a negative moment. [rad]
    throttle : array
        Available between 0 and 1; the values needed may lie outside.
    spin_rad_s : array
        Of the engine shaft, clockwise positive. [rad/s]
    lift_ratio : array
        Lift coefficient over CLmax.
    lift_ratio_required : array
        Lift coefficient that weight and bank require without thrust, over CLmax.
    momentum_fraction : array
        1 for a turn that was found. Less where the gyroscopic moment cannot be balanced: the turn reported is then
        that with this fraction of the rotors' angular momentum, which shows the limit reached.
    state : array, shape (14, N)
        As in `sim.flight.motion`, heading north.
    """

    bank_rad: Array
    turn_rate_rad_s: Array
    load_factor: Array
    alpha_rad: Array
    sideslip_rad: Array
    pitch_rad: Array
    climb_rad: Array
    elevator_rad: Array
    aileron_rad: Array
    rudder_rad: Array
    throttle: Array
    spin_rad_s: Array
    lift_ratio: Array
    lift_ratio_required: Array
    momentum_fraction: Array
    state: Array

    @property
    def found(self) -> NDArray[np.bool_]:
        """Whether each turn was found with the full angular momentum."""
        return np.asarray(self.momentum_fraction == 1.0)

    def only_found(self) -> Turns:
        """Return the turns with not-a-number in place of those not found, except for the bank."""
        names = [field.name for field in fields(self) if field.name != "bank_rad"]
        return replace(self, **{name: np.where(self.found, getattr(self, name), np.nan) for name in names})

    def controls(self, index: int) -> Controls:
        """Return the controls of one turn."""
        return Controls(
            *(float(c[index]) for c in (self.elevator_rad, self.aileron_rad, self.rudder_rad, self.throttle))
        )


def steady_turns(
    airplane: Airplane,
    *,
    speed_m_s: ArrayLike,
    bank_rad: ArrayLike,
    altitude_m: float = 0.0,
    throttle: Number | None = None,
    spin_rad_s: float | None = None,
) -> Turns:
    """Return the steady turns at given airspeeds and banks.

    Parameters
    ----------
    airplane : Airplane
        With aerodynamics, engine, propeller and at least one rotor; or one for each turn, of `many_airplanes`.
    speed_m_s, bank_rad : array_like
        Airspeed, greater than 0; bank, right wing down positive, less than a right angle. [m/s, rad]
    altitude_m : float
        [m]
    throttle : float, array or None
        If given, the climb angle follows from it; the air is that of `altitude_m`. One for all, or one a turn.
    spin_rad_s : float or None
        Shaft speed; if given, the climb angle follows from it. With neither given the turn is level. [rad/s]

    Returns
    -------
    Turns
        Without regard to control travel and power; `sim.flight.turn_limits` compares them with both.

    Notes
    -----
    Coordinated: no sideways specific force, ball centred. Newton's method starts from the lift that the bank requires,
    with neutral controls. Turns not found so are approached from that without a rotor by raising the rotors' angular
    momentum in eight steps.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, chapter 7, steady turns.
    """
    speeds, banks = np.broadcast_arrays(np.atleast_1d(np.asarray(speed_m_s, float)), np.asarray(bank_rad, float))
    case = _Case(airplane, altitude_m, throttle, spin_rad_s)
    blocks = [slice(at, at + BLOCK) for at in range(0, speeds.size, BLOCK)]
    found = [_solve(case.only(block), speeds[block], banks[block]) for block in blocks]
    return _described(case, speeds, banks, np.concatenate(found, axis=1))


@dataclass(frozen=True, slots=True)
class _Case:
    airplane: Airplane
    altitude_m: float
    throttle: Number | None
    spin_rad_s: float | None

    def only(self, turns: Selection) -> _Case:
        """Return the case of some of the turns."""
        chosen, one_for_all = only_of(self.airplane, turns), not isinstance(self.throttle, np.ndarray)
        if chosen is self.airplane and one_for_all:
            return self
        throttle: Any = self.throttle if one_for_all else np.asarray(self.throttle)[turns]
        return replace(self, airplane=chosen, throttle=throttle)

    def power(self, x: Number) -> tuple[Number, Number, Number]:
        """Return shaft speed, throttle and climb angle; two of them are the last two unknowns, or one and 0."""
        if self.throttle is not None:
            return x[5], self.throttle, x[6]
        if self.spin_rad_s is not None:
            return self.spin_rad_s, x[6], 0.01 * x[5]
        return x[5], x[6], 0.0


def _solve(case: _Case, speed: Array, bank: Array) -> Array:
    """Return the unknowns of each turn, and in a last row the fraction of angular momentum that they hold for."""
    lift_ratio, start = _start(case, speed, bank)
    x = np.full((len(start) + 1, speed.size), np.nan)
    attempted = np.flatnonzero(lift_ratio < MAX_START_RATIO)
    part = start[:, attempted].copy()
    found = _improved(case.only(attempted), part, speed[attempted], bank[attempted])
    x[:-1, attempted[found]], x[-1, attempted[found]] = part[:, found], 1.0
    rest = attempted[~found]
    part = start[:, rest]
    for fraction in MOMENTUM_FRACTIONS:
        if not rest.size:
            break
        reduced = replace(case, airplane=with_momentum_fraction(case.airplane, fraction))
        found = _improved(reduced.only(rest), part, speed[rest], bank[rest])
        rest, part = rest[found], part[:, found]
        x[:-1, rest], x[-1, rest] = part, fraction
    return x


def _improved(case: _Case, x: Array, speed: Array, bank: Array) -> NDArray[np.bool_]:
    """Improve unknowns in place; return which turns were found."""
    alike = case.only(slice(None)) is case  # of one airplane, the same for every turn
    count, of_these = speed.size, _residual(case)

    def residual(y: Number, turns: NDArray[np.intp]) -> Number:
        nonlocal count, of_these
        if turns.size != count and not alike:  # turns only drop out: as many are the same
            count, of_these = turns.size, _residual(case.only(turns))
        return of_these(y, speed[turns], bank[turns])

    return solve_batch(residual, x, max_step=MAX_STEP, tolerance=RESIDUAL)


def _residual(case: _Case) -> Callable[[Number, Number, Number], Number]:
    """Return (unknowns, speed, bank) -> rates of velocity, angular velocity and shaft speed, all 0 in a steady turn."""
    rates = motion(case.airplane, ARRAY_MATH)
    body = case.airplane.body
    shaft_inertia = sum(rotor.polar_inertia_kg_m2 * rotor.ratio**2 for rotor in case.airplane.rotors)
    shaft = shaft_inertia / body.inertia_roll_kg_m2

    def residual(x: Number, speed: Number, bank: Number) -> Number:
        state, controls = _state(case, x, speed, bank)
        y_dot = rates(state, controls)
        return np.stack([*y_dot[7:13], shaft * y_dot[13]])

    return residual


def _state(case: _Case, x: Number, speed: Number, bank: Number) -> tuple[tuple[Number, ...], Controls]:
    """Return state and controls of the turn with unknowns `x`."""
    alpha, beta = x[0], x[1]
    spin, throttle, climb = case.power(x)
    u, v, w = speed * np.cos(alpha) * np.cos(beta), speed * np.sin(beta), speed * np.sin(alpha) * np.cos(beta)
    sin_bank, cos_bank = np.sin(bank), np.cos(bank)
    across = v * sin_bank + w * cos_bank
    pitch = np.arctan(across / u) + np.arcsin(speed * np.sin(climb) / np.sqrt(u * u + across * across))
    sin_pitch, cos_pitch = np.sin(pitch), np.cos(pitch)
    gravity = case.airplane.gravity_m_s2
    turn = gravity * cos_pitch * sin_bank / (sin_pitch * w + cos_pitch * cos_bank * u)
    half_bank, half_pitch = 0.5 * bank, 0.5 * pitch
    zero = 0.0 * u
    return (
        zero,
        zero,
        -case.altitude_m,
        np.cos(half_bank) * np.cos(half_pitch),
        np.sin(half_bank) * np.cos(half_pitch),
        np.cos(half_bank) * np.sin(half_pitch),
        -np.sin(half_bank) * np.sin(half_pitch),
        u,
        v,
        w,
        -turn * sin_pitch,
        turn * cos_pitch * sin_bank,
        turn * cos_pitch * cos_bank,
        spin + zero,
    ), Controls(x[2], x[3], x[4], throttle)


def _start(case: _Case, speed: Array, bank: Array) -> tuple[Array, Array]:
    """Return the required lift over CLmax, and unknowns with that lift and the thrust equal to its drag."""
    airplane = case.airplane
    polar, propeller = airplane.polar, airplane.propeller
    density = airplane.sea_level_density_kg_m3 * density_ratio(case.altitude_m)
    pressure_area = 0.5 * density * speed**2 * polar.area_m2
    lift = airplane.body.mass_kg * airplane.gravity_m_s2 / (np.cos(bank) * pressure_area)
    ratio = np.minimum(lift / polar.lift_max, 0.98)
    alpha = (ratio * polar.lift_max / (1.0 - ratio**8) ** 0.125 - polar.lift_zero) / airplane.derivatives.lift_alpha
    drag = pressure_area * (polar.drag_zero_lift + polar.induced * lift**2)
    half = 0.5 * speed / propeller.advance_m_rad
    turning = half + np.sqrt(half**2 + drag / (propeller.static_thrust_m4 * density))
    zero = np.zeros_like(speed)
    spin = airplane.engine.rotation / abs(propeller.ratio) * turning
    return lift / polar.lift_max, np.array([alpha, zero, zero, zero, zero, spin, zero + 0.7])


def _described(case: _Case, speed: Array, bank: Array, x: Array) -> Turns:
    """Return the turns with unknowns `x`."""
    rows = np.array(np.broadcast_arrays(*_state(case, x, speed, bank)[0]))
    spin, throttle, climb = (value + 0.0 * speed for value in case.power(x))
    e0, e1, e2, e3, u, v, _, p, q, r = rows[3:13]
    down_z = e0**2 - e1**2 - e2**2 + e3**2
    polar, d = case.airplane.polar, case.airplane.derivatives
    pitch_rate = 0.5 * q * polar.chord_m / speed
    linear = polar.lift_zero + d.lift_alpha * x[0] + d.lift_q * pitch_rate + d.lift_elevator * x[2]
    return Turns(
        bank_rad=np.array(bank),
        turn_rate_rad_s=np.sign(bank) * np.sqrt(p**2 + q**2 + r**2),
        load_factor=down_z + (q * u - p * v) / case.airplane.gravity_m_s2,
        alpha_rad=x[0],
        sideslip_rad=x[1],
        pitch_rad=2.0 * np.arctan(e2 / e0),
        climb_rad=climb,
        elevator_rad=x[2],
        aileron_rad=x[3],
        rudder_rad=x[4],
        throttle=throttle,
        spin_rad_s=spin,
        lift_ratio=bounded_lift(linear, polar.lift_max, np.sqrt) / polar.lift_max,
        lift_ratio_required=_start(case, speed, bank)[0],
        momentum_fraction=x[-1],
        state=rows,
    )
