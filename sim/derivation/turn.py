"""The level turn with the ball centred, and what the rotor adds to it, from the balance of forces."""

from __future__ import annotations

import sympy as sp

from sim.derivation.couple import MOMENTUM, PITCH_RATE, YAW_RATE, mean_moment
from sim.derivation.steps import Derivation, Number, listed, put_in, step

LIFT, MASS, GRAVITY, BANK, SPEED, TURN_RATE = sp.symbols("L m g phi V omega", real=True)
NAMES = {
    GRAVITY: "gravity_m_s2",
    BANK: "bank_rad",
    SPEED: "speed_m_s",
    MOMENTUM: "angular_momentum_kg_m2_s",
}


def derive_turn(
    *, speed_m_s: float, bank_rad: float, angular_momentum_kg_m2_s: float, gravity_m_s2: float
) -> Derivation:
    """Derive turn rate, load factor and the rotor's couple in a level turn, nose on the horizon; put numbers in.

    Parameters
    ----------
    speed_m_s : float
        True airspeed. [m/s]
    bank_rad : float
        Right wing down positive; between −π/2 and π/2. [rad]
    angular_momentum_kg_m2_s : float
        Of all rotors along the shaft, clockwise from the cockpit positive. [kg m²/s]
    gravity_m_s2 : float
        [m/s²]
    """
    up = sp.Eq(LIFT * sp.cos(BANK), MASS * GRAVITY)
    inward = sp.Eq(LIFT * sp.sin(BANK), MASS * SPEED * TURN_RATE)
    lift = sp.solve(up, LIFT)[0]
    rate = sp.simplify(sp.solve(inward.subs(LIFT, lift), TURN_RATE)[0])
    to_body = sp.Matrix([[1, 0, 0], [0, sp.cos(BANK), sp.sin(BANK)], [0, -sp.sin(BANK), sp.cos(BANK)]])
    body_rates = to_body * sp.Matrix([0, 0, TURN_RATE])
    swung = {PITCH_RATE: body_rates[1], YAW_RATE: body_rates[2]}
    pitch, yaw = (sp.simplify(part.subs(swung).subs(TURN_RATE, rate)) for part in mean_moment()[1:])
    values = {SPEED: speed_m_s, BANK: bank_rad, MOMENTUM: angular_momentum_kg_m2_s, GRAVITY: gravity_m_s2}
    n, m, nn = sp.symbols("n M N")
    return Derivation(
        title="What does the rotor do to the nose in a level turn?",
        steps=(
            step(
                "Level turn, ball centred: the lift L stands square to the wings, banked by φ. Upward it carries the "
                "weight; inward it bends the path.",
                up,
                inward,
            ),
            step("The lift is the weight times the load factor n.", sp.Eq(n, lift / (MASS * GRAVITY), evaluate=False)),
            step("Divide the second by the first: the rate at which the heading swings.", sp.Eq(TURN_RATE, rate)),
            step(
                "The heading swings about the vertical. Seen from an airplane banked by φ with its nose on the horizon "
                "that is no roll, a part nose up and a part nose to the side of the turn.",
                sp.Eq(PITCH_RATE, body_rates[1], evaluate=False),
                sp.Eq(YAW_RATE, body_rates[2], evaluate=False),
            ),
            step(
                "Put these rates into the couple of a rotor, M = −h r and N = h q. The elevator must hold M, the "
                "rudder must hold N; M changes its sign with the side of the turn, N does not.",
                sp.Eq(m, pitch, evaluate=False),
                sp.Eq(nn, yaw, evaluate=False),
            ),
        ),
        numbers=listed(values, NAMES),
        results=(
            Number("omega", "turn_rate_rad_s", put_in(rate, values)),
            Number("n", "load_factor", put_in(1 / sp.cos(BANK), values)),
            Number("M", "pitch_n_m", put_in(pitch, values)),
            Number("N", "yaw_n_m", put_in(yaw, values)),
        ),
    )
