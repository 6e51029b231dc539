"""The level turn with the ball centred, and the rotor's moment in it, from the forces across the airplane."""

from __future__ import annotations

import sympy as sp

from sim.derivation.couple import MEAN_MOMENT, MOMENTUM, PITCH_RATE, YAW_RATE
from sim.derivation.steps import Derivation, Number, equation, listed, put_in, step

GRAVITY, BANK, ATTITUDE, TURN_RATE = sp.symbols("g phi theta omega", real=True)
FORWARD, SIDEWAYS, DOWNWARD, ROLL_RATE = sp.symbols("u v w p", real=True)
NAMES = {
    FORWARD: "forward_m_s",
    SIDEWAYS: "sideways_m_s",
    DOWNWARD: "downward_m_s",
    BANK: "bank_rad",
    ATTITUDE: "attitude_rad",
    MOMENTUM: "angular_momentum_kg_m2_s",
    GRAVITY: "gravity_m_s2",
}

TO_BODY = sp.Matrix(
    [
        [sp.cos(ATTITUDE), 0, -sp.sin(ATTITUDE)],
        [sp.sin(BANK) * sp.sin(ATTITUDE), sp.cos(BANK), sp.sin(BANK) * sp.cos(ATTITUDE)],
        [sp.cos(BANK) * sp.sin(ATTITUDE), -sp.sin(BANK), sp.cos(BANK) * sp.cos(ATTITUDE)],
    ]
)
"""Level axes, nose ahead and z down, into body axes: nose up by θ, then the right wing down by φ."""
WEIGHT = TO_BODY * sp.Matrix([0, 0, GRAVITY])
RATES = TO_BODY * sp.Matrix([0, 0, TURN_RATE])
ACROSS = YAW_RATE * FORWARD - ROLL_RATE * DOWNWARD
"""Acceleration along the right wing in steady flight, the y part of ω × V."""
_SWUNG = {ROLL_RATE: RATES[0], PITCH_RATE: RATES[1], YAW_RATE: RATES[2]}
RATE = sp.simplify(sp.solve(sp.Eq(ACROSS.subs(_SWUNG), WEIGHT[1]), TURN_RATE)[0])
LOAD = (WEIGHT[2] + (PITCH_RATE * FORWARD - ROLL_RATE * SIDEWAYS).subs(_SWUNG)) / GRAVITY
PITCH, YAW = (part.subs(_SWUNG) for part in (MEAN_MOMENT[1], MEAN_MOMENT[2]))

STEPS = (
    step(
        "Ball centred: there is no lateral specific force. The component of weight along the right wing alone gives "
        "the lateral acceleration; at bank φ and pitch attitude θ it is",
        equation("a_y", WEIGHT[1]),
    ),
    step(
        "The heading changes about the vertical at ω. In body axes this is a roll, a pitch and a yaw rate; with the "
        "nose on the horizon there is no roll rate.",
        *(sp.Eq(rate, part, evaluate=False) for rate, part in _SWUNG.items()),
    ),
    step(
        "In steady flight with the velocity u forward, v to the right and w down in body axes, the acceleration along "
        "the right wing is the y component of ω × V.",
        equation("a_y", ACROSS),
    ),
    step("Insert the rates and solve for the rate of turn.", sp.Eq(TURN_RATE, RATE, evaluate=False)),
    step(
        "With the nose on the horizon and no angle of attack this is the usual formula, with V for u.",
        sp.Eq(TURN_RATE, sp.simplify(RATE.subs({ATTITUDE: 0, DOWNWARD: 0})), evaluate=False),
    ),
    step(
        "The load factor is the lift normal to the wing over the weight: it carries the normal component of the weight "
        "and gives the airplane the normal component of its acceleration.",
        equation("n", LOAD),
    ),
    step(
        "Insert the rates into the couple of a rotor, M = −h r and N = h q. The elevator must balance M and the rudder "
        "N; M changes sign with the direction of the turn, N does not.",
        equation("M", PITCH),
        equation("N", YAW),
    ),
)


def derive_turn(
    *,
    velocity_m_s: tuple[float, float, float],
    bank_rad: float,
    attitude_rad: float,
    angular_momentum_kg_m2_s: float,
    gravity_m_s2: float,
) -> Derivation:
    """Derive turn rate, load factor and the rotor's couple in a steady turn; insert numbers.

    Parameters
    ----------
    velocity_m_s : tuple of float
        Ahead, to the right and down through the airplane's own axes. [m/s]
    bank_rad, attitude_rad : float
        Right wing down and nose up positive. [rad]
    angular_momentum_kg_m2_s : float
        Of all rotors along the shaft, clockwise from the cockpit positive. [kg m²/s]
    gravity_m_s2 : float
        [m/s²]
    """
    symbols = (FORWARD, SIDEWAYS, DOWNWARD, BANK, ATTITUDE, MOMENTUM, GRAVITY)
    given = (*velocity_m_s, bank_rad, attitude_rad, angular_momentum_kg_m2_s, gravity_m_s2)
    values = dict(zip(symbols, given, strict=True))
    outcomes = (
        ("omega", "turn_rate_deg_s", RATE * 180 / sp.pi),
        ("n", "load_factor", LOAD.subs(TURN_RATE, RATE)),
        ("M", "pitch_n_m", PITCH.subs(TURN_RATE, RATE)),
        ("N", "yaw_n_m", YAW.subs(TURN_RATE, RATE)),
    )
    return Derivation(
        title="What moment does the rotor exert in a turn?",
        steps=STEPS,
        numbers=listed(values, NAMES),
        results=tuple(Number(symbol, name, put_in(formula, values)) for symbol, name, formula in outcomes),
    )
