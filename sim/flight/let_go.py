"""Steady flight with the pedals, or stick and pedals, let go: the turn, sideslip and climb to which it balances."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.aerodynamics.forces import bounded_lift
from sim.flight.control_forces import ControlForces, control_forces
from sim.flight.motion import Controls, motion
from sim.flight.turn_limits import MAX_LIFT_RATIO
from sim.numerics.newton import solve_batch
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.control_system import ControlSystem
    from sim.flight.motion import Airplane
    from sim.flight.trim import Turns
    from sim.numerics.number import Number

RESIDUAL: Final = 1e-9
"""A flight is found when no rate, and no force over `FORCE_N`, is larger. [m/s², rad/s²]"""
FORCE_N: Final = 100.0
MAX_STEP: Final = np.array([0.15, 0.15, 0.5, 0.5, 0.5, 8.0, 0.3, 0.2, 0.2, 40.0])
"""Of incidence, sideslip, elevator, aileron, rudder, airspeed, bank, rate of turn, pitch and shaft speed."""
STEPS: Final = 16
"""In which the hand gives way, from what it holds in level flight to what it keeps: each starts from the one before."""
STEEPEST_RAD: Final = 1.4
"""Of bank, beyond which a flight is not called steady any more."""


def let_go(
    airplane: Airplane, system: ControlSystem, level: Turns, keeps: ControlForces, *, hands: bool
) -> Turns | None:
    """Return the steady flight at the throttle of level flight in which the pilot holds certain forces alone.

    Parameters
    ----------
    airplane : Airplane
        Of that flight.
    system : ControlSystem
        Between surfaces and pilot.
    level : Turns
        One steady level flight, wings level.
    keeps : ControlForces
        What he still holds [N]: 0 of what is let go. Without `hands` that of the pedals alone counts.
    hands : bool
        Whether the stick is let go too; otherwise it keeps airspeed and the wings level.

    Returns
    -------
    Turns or None
        In a helix, up or down, at the air density of level flight; None where the forces can be reduced only in part,
        for the wing stalls, the bank becomes too steep or nothing balances any more.

    Notes
    -----
    The hand gives way in `STEPS`: of several such flights that is found to which this leads. Whether the airplane
    stays there is another question: see the modes with the controls free. Without friction, and with hinge moments
    linear in incidence and deflection.
    """
    held = control_forces(airplane, system, level)
    x = np.concatenate(
        [
            [level.alpha_rad, level.sideslip_rad, level.elevator_rad, level.aileron_rad, level.rudder_rad],
            [np.sqrt(sum(speed**2 for speed in level.state[7:10])), level.bank_rad, 0.0 * level.bank_rad],
            [level.pitch_rad, level.spin_rad_s],
        ]
    )
    begun = x.copy()
    for share in np.arange(1, STEPS + 1) / STEPS:
        wanted = ControlForces(*(old + share * (new - old) for old, new in zip(held, keeps, strict=True)))
        residual = _residual(airplane, system, level, _conditions(wanted, begun, hands=hands))
        solved = solve_batch(residual, x, max_step=MAX_STEP, tolerance=RESIDUAL)
        if not solved[0] or abs(x[6, 0]) > STEEPEST_RAD:
            return None
        if _flown(airplane, level, x).lift_ratio[0] > MAX_LIFT_RATIO:
            return None
    return _flown(airplane, level, x)


def _conditions(
    wanted: ControlForces, begun: Number, *, hands: bool
) -> Callable[[Number, ControlForces], list[Number]]:
    """Return what must vanish beside the rates: forces less those wanted, or changes of airspeed and bank."""

    def beside(x: Number, forces: ControlForces) -> list[Number]:
        stick, side, pedal = ((force - want) / FORCE_N for force, want in zip(forces, wanted, strict=True))
        return [stick, side, pedal] if hands else [x[5] - begun[5], x[6] - begun[6], pedal]

    return beside


def _residual(
    airplane: Airplane, system: ControlSystem, level: Turns, beside: Callable[[Number, ControlForces], list[Number]]
) -> Callable[[Number, Number], Number]:
    rates = motion(airplane, ARRAY_MATH)
    shaft = (
        sum(rotor.polar_inertia_kg_m2 * rotor.ratio**2 for rotor in airplane.rotors) / airplane.body.inertia_roll_kg_m2
    )

    def residual(x: Number, _: Number) -> Number:
        found = _flown(airplane, level, x)
        controls = Controls(found.elevator_rad, found.aileron_rad, found.rudder_rad, found.throttle)
        y_dot = rates(tuple(found.state), controls)
        return np.stack([*y_dot[7:13], shaft * y_dot[13], *beside(x, control_forces(airplane, system, found))])

    return residual


def _flown(airplane: Airplane, level: Turns, x: Number) -> Turns:
    """Return the flight with unknowns `x`, in the order of `MAX_STEP`."""
    alpha, beta, elevator, aileron, rudder, speed, bank, turn, pitch, spin = x
    u, v, w = speed * np.cos(alpha) * np.cos(beta), speed * np.sin(beta), speed * np.sin(alpha) * np.cos(beta)
    p, q, r = -turn * np.sin(pitch), turn * np.cos(pitch) * np.sin(bank), turn * np.cos(pitch) * np.cos(bank)
    zero, half_b, half_p = 0.0 * speed, 0.5 * bank, 0.5 * pitch
    attitude = (
        np.cos(half_b) * np.cos(half_p),
        np.sin(half_b) * np.cos(half_p),
        np.cos(half_b) * np.sin(half_p),
        -np.sin(half_b) * np.sin(half_p),
    )
    down_z = np.cos(bank) * np.cos(pitch)
    up = u * np.sin(pitch) - v * np.sin(bank) * np.cos(pitch) - w * down_z
    polar, d = airplane.polar, airplane.derivatives
    linear = (
        polar.lift_zero + d.lift_alpha * alpha + d.lift_q * 0.5 * q * polar.chord_m / speed + d.lift_elevator * elevator
    )
    return replace(
        level,
        bank_rad=bank,
        turn_rate_rad_s=turn,
        load_factor=down_z + (q * u - p * v) / airplane.gravity_m_s2,
        alpha_rad=alpha,
        sideslip_rad=beta,
        pitch_rad=pitch,
        climb_rad=np.arcsin(up / speed),
        elevator_rad=elevator,
        aileron_rad=aileron,
        rudder_rad=rudder,
        throttle=level.throttle + zero,
        spin_rad_s=spin,
        lift_ratio=bounded_lift(linear, polar.lift_max, np.sqrt) / polar.lift_max,
        state=np.array([zero, zero, level.state[2] + zero, *attitude, u, v, w, p, q, r, spin]),
    )
