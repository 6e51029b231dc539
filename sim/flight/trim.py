"""The steady, ball-centred turn: which attitude, controls and power hold it, for any number of turns at once.

Straight flight is the turn with no bank. The equations are those of `sim.flight.motion` and no others: Newton's
method looks for the state whose rates vanish, its Jacobian taken exactly by the complex step.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING

import numpy as np

from sim.aerodynamics.forces import bounded_lift
from sim.atmosphere import density_ratio
from sim.flight.motion import Airplane, Controls, motion
from sim.numerics.newton import solve_batch
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.engine_propeller import Rotor

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike, NDArray

    from sim.numerics.number import Number

    Rows = NDArray[np.float64]

RESIDUAL = 1e-9
"""A turn is found when no rate is larger. [m/s², rad/s²]"""
MAX_STEP = np.array([0.15, 0.15, 0.5, 0.5, 0.5, 40.0, 1.0])
BLOCK = 512
"""Turns solved together: their rows stay in the cache."""
NO_ROTOR = 1e-9
"""Share of the rotors' inertia that counts as none and still lets the shaft find its speed."""
SPIN_SHARES = (NO_ROTOR, 0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1.0)
HOPELESS = 1.35
"""Share of CLmax at which no thrust makes up for the lift that is missing: such turns are not looked for."""


@dataclass(frozen=True, slots=True)
class Turns:
    """Steady turns, one entry of each array a turn; not-a-number where the wing has not the lift for one.

    Attributes
    ----------
    bank_rad : array
        Right wing down positive. [rad]
    turn_rate_rad_s : array
        Nose right positive. [rad/s]
    load_factor : array
        Across the wing.
    alpha_rad, sideslip_rad, pitch_rad, climb_rad : array
        Incidence; wind from the right positive; nose up and climb positive. [rad]
    elevator_rad, aileron_rad, rudder_rad : array
        Positive makes a negative moment. [rad]
    throttle : array
        0 to 1 can be had.
    spin_rad_s : array
        Of the engine shaft, clockwise positive. [rad/s]
    lift_share : array
        Lift coefficient over the greatest.
    lift_asked : array
        Lift coefficient over the greatest that weight and bank ask for, without thrust.
    spin_share : array
        1 for a turn that was found. Less where the couple of the spin leaves no balance: what is told then is the
        turn with this share of the spin momentum, which shows what runs out.
    state : array, shape (14, N)
        As in `sim.flight.motion`, heading north.
    """

    bank_rad: Rows
    turn_rate_rad_s: Rows
    load_factor: Rows
    alpha_rad: Rows
    sideslip_rad: Rows
    pitch_rad: Rows
    climb_rad: Rows
    elevator_rad: Rows
    aileron_rad: Rows
    rudder_rad: Rows
    throttle: Rows
    spin_rad_s: Rows
    lift_share: Rows
    lift_asked: Rows
    spin_share: Rows
    state: Rows

    @property
    def found(self) -> NDArray[np.bool_]:
        """Which of them are turns of the airplane as it is."""
        return np.asarray(self.spin_share == 1.0)

    def only_found(self) -> Turns:
        """Return the same with not-a-number for every turn that was not found, but for its bank."""
        told = [field.name for field in fields(self) if field.name != "bank_rad"]
        return replace(self, **{name: np.where(self.found, getattr(self, name), np.nan) for name in told})

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
    throttle: float | None = None,
    spin_rad_s: float | None = None,
) -> Turns:
    """Return the steady turns at given airspeeds and banks.

    Parameters
    ----------
    airplane : Airplane
        With wing, derivatives, engine, propeller and at least one rotor.
    speed_m_s, bank_rad : array_like
        Airspeed, greater than 0; bank, right wing down positive, less than a right angle. [m/s, rad]
    altitude_m : float
        [m]
    throttle : float or None
        Given, the airplane climbs or sinks as this throttle has it; the air is that of `altitude_m` throughout.
    spin_rad_s : float or None
        Given, it climbs or sinks as this shaft speed [rad/s] has it. With neither given the turn is level.

    Returns
    -------
    Turns
        Also those that no travel and no engine reaches; `sim.flight.control_travel` says which.

    Notes
    -----
    Ball centred: no sideways specific force, so the bank is that felt by the pilot. Newton starts at the lift that
    the bank asks for, controls central; turns it does not find so are reached from the rotor-free one by raising the
    spin momentum in eight steps.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, 3rd ed. 1996, chapter 7, steady turns.
    """
    speeds, banks = np.broadcast_arrays(np.atleast_1d(np.asarray(speed_m_s, float)), np.asarray(bank_rad, float))
    case = _Case(airplane, altitude_m, throttle, spin_rad_s)
    blocks = range(0, speeds.size, BLOCK)
    found = [_solve(case, speeds[at : at + BLOCK], banks[at : at + BLOCK]) for at in blocks]
    return _described(case, speeds, banks, np.concatenate(found, axis=1))


def with_spin_share(airplane: Airplane, share: float) -> Airplane:
    """Return the airplane with its rotors' spin momentum multiplied by `share`, more than 0.

    Each rotor becomes a lighter one geared up, with the same energy: the shaft is as slow to change its speed, and
    the propeller pulls as before.
    """
    rotors = tuple(Rotor(share**2 * rotor.polar_inertia_kg_m2, rotor.ratio / share) for rotor in airplane.rotors)
    return replace(airplane, rotors=rotors)


@dataclass(frozen=True, slots=True)
class _Case:
    airplane: Airplane
    altitude_m: float
    throttle: float | None
    spin_rad_s: float | None

    def power(self, x: Number) -> tuple[Number, Number, Number]:
        """Return spin, throttle and climb of the unknowns' last two rows."""
        if self.throttle is not None:
            return x[5], self.throttle, x[6]
        if self.spin_rad_s is not None:
            return self.spin_rad_s, x[6], 0.01 * x[5]
        return x[5], x[6], 0.0


def _solve(case: _Case, speed: Rows, bank: Rows) -> Rows:
    """Return the unknowns of each turn, and in a last row the share of the spin momentum that they hold for."""
    lift_share, start = _start(case, speed, bank)
    x = np.full((len(start) + 1, speed.size), np.nan)
    hopeful = np.flatnonzero(lift_share < HOPELESS)
    part = start[:, hopeful].copy()
    good = _improved(case, part, speed[hopeful], bank[hopeful])
    x[:-1, hopeful[good]], x[-1, hopeful[good]] = part[:, good], 1.0
    lost = hopeful[~good]
    part = start[:, lost]
    for share in SPIN_SHARES:
        if not lost.size:
            break
        thinned = replace(case, airplane=with_spin_share(case.airplane, share))
        good = _improved(thinned, part, speed[lost], bank[lost])
        lost, part = lost[good], part[:, good]
        x[:-1, lost], x[-1, lost] = part, share
    return x


def _improved(case: _Case, x: Rows, speed: Rows, bank: Rows) -> NDArray[np.bool_]:
    """Improve unknowns in place; return which turns were found."""
    residual = _residual(case)
    return solve_batch(
        lambda y, which: residual(y, speed[which], bank[which]), x, max_step=MAX_STEP, tolerance=RESIDUAL
    )


def _residual(case: _Case) -> Callable[[Number, Number, Number], Number]:
    """Return (unknowns, speed, bank) -> rates of velocity, turning and shaft, all 0 in a steady turn."""
    rates = motion(case.airplane, ARRAY_MATH)
    body = case.airplane.body
    turned = sum(rotor.polar_inertia_kg_m2 * rotor.ratio**2 for rotor in case.airplane.rotors)
    shaft = turned / body.inertia_roll_kg_m2

    def residual(x: Number, speed: Number, bank: Number) -> Number:
        state, controls = _state(case, x, speed, bank)
        got = rates(state, controls)
        return np.stack([*got[7:13], shaft * got[13]])

    return residual


def _state(case: _Case, x: Number, speed: Number, bank: Number) -> tuple[tuple[Number, ...], Controls]:
    """Return state and controls of the turn with incidence, sideslip, controls, spin and throttle `x`."""
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


def _start(case: _Case, speed: Rows, bank: Rows) -> tuple[Rows, Rows]:
    """Return the share of CLmax that the bank asks for, and unknowns with that lift and the thrust for its drag."""
    airplane = case.airplane
    polar, propeller = airplane.polar, airplane.propeller
    density = airplane.sea_level_density_kg_m3 * density_ratio(case.altitude_m)
    pressure_area = 0.5 * density * speed**2 * polar.area_m2
    lift = airplane.body.mass_kg * airplane.gravity_m_s2 / (np.cos(bank) * pressure_area)
    share = np.minimum(lift / polar.lift_max, 0.98)
    alpha = (share * polar.lift_max / (1.0 - share**8) ** 0.125 - polar.lift_zero) / airplane.derivatives.lift_alpha
    drag = pressure_area * (polar.drag_zero_lift + polar.induced * lift**2)
    half = 0.5 * speed / propeller.advance_m_rad
    turning = half + np.sqrt(half**2 + drag / (propeller.thrust_m4 * density))
    zero = np.zeros_like(speed)
    spin = airplane.engine.rotation / abs(propeller.ratio) * turning
    return lift / polar.lift_max, np.array([alpha, zero, zero, zero, zero, spin, zero + 0.7])


def _described(case: _Case, speed: Rows, bank: Rows, x: Rows) -> Turns:
    """Return what is asked about the turns with unknowns `x`."""
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
        lift_share=bounded_lift(linear, polar.lift_max, np.sqrt) / polar.lift_max,
        lift_asked=_start(case, speed, bank)[0],
        spin_share=x[-1],
        state=rows,
    )
