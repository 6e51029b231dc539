"""The gyroscopic couple from Newton's second law for one piece of a spinning rotor."""

from __future__ import annotations

import sympy as sp

from sim.derivation.steps import Derivation, Number, equation, listed, put_in, step

RADIUS, ANGLE, SPIN, PIECE = sp.symbols("rho x Omega m", real=True)
INERTIA, MOMENTUM, PITCH_RATE, YAW_RATE = sp.symbols("I_p h q r", real=True)
NAMES = {INERTIA: "polar_inertia_kg_m2", SPIN: "spin_rad_s", PITCH_RATE: "pitch_rate_rad_s", YAW_RATE: "yaw_rate_rad_s"}

PLACE = sp.Matrix([0, RADIUS * sp.cos(ANGLE), RADIUS * sp.sin(ANGLE)])
VELOCITY = sp.Matrix([SPIN, 0, 0]).cross(PLACE)
TURNING = 2 * sp.Matrix([0, PITCH_RATE, YAW_RATE]).cross(VELOCITY)
PIECE_MOMENT = -PLACE.cross(PIECE * TURNING)
"""Place, velocity and Coriolis acceleration of a piece of the rotor, and the moment that it puts on the airframe."""

_BY_MOMENTUM = {PIECE: MOMENTUM / (SPIN * RADIUS**2)}
PAIR_MOMENT = PIECE_MOMENT.subs(_BY_MOMENTUM).applyfunc(lambda part: sp.simplify(part).rewrite(sp.cos).simplify())
MEAN_MOMENT = sp.simplify(PAIR_MOMENT.integrate((ANGLE, 0, 2 * sp.pi)) / (2 * sp.pi))
"""Moment of two opposite blades, and of an axisymmetric rotor, by their angular momentum h."""
SIZE = MOMENTUM * sp.sqrt(PITCH_RATE**2 + YAW_RATE**2)

STEPS = (
    step(
        "Axes fixed in the airplane: the first forward, the second to the right, the third down. A piece of the "
        "rotor of mass m sits at the radius ρ from the shaft, at the angle x from the right wing, clockwise as seen "
        "from the cockpit.",
        PLACE,
    ),
    step("The rotor spins at Ω, so the piece moves across the shaft with this velocity.", VELOCITY),
    step(
        "Now the airplane pitches at q and yaws at r. The direction of the piece's velocity changes: it has the "
        "Coriolis acceleration 2 ω × v, which lies along the shaft. Terms without Ω are present also with the "
        "engine at rest; they belong to the inertia of the airframe.",
        TURNING,
    ),
    step(
        "The airframe exerts the force m times this acceleration on the piece, and the piece the opposite force on the "
        "airframe (Newton's third law). Its moment on the airframe in roll, pitch and yaw:",
        PIECE_MOMENT,
    ),
    step(
        "Two opposite blades differ by 180° in x, so their moment is that of one piece with the inertia of both. With "
        "the angular momentum h = m ρ² Ω it varies between zero and twice its mean, twice a revolution. In pitch and "
        "in yaw:",
        equation("M", PAIR_MOMENT[1]),
        equation("N", PAIR_MOMENT[2]),
    ),
    step(
        "An axisymmetric rotor, or three and more evenly spaced blades, has the mean over all angles x. In a right "
        "turn (r > 0) a clockwise rotor lowers the nose, in a left turn it raises it; with the nose rising (q > 0) it "
        "yaws the nose right.",
        equation("M", MEAN_MOMENT[1]),
        equation("N", MEAN_MOMENT[2]),
    ),
    step(
        "The magnitude of the couple is the angular momentum times the angular rate of the shaft axis.",
        equation("C", SIZE),
        equation("h", INERTIA * SPIN),
    ),
)


def derive_couple(
    *, polar_inertia_kg_m2: float, spin_rad_s: float, pitch_rate_rad_s: float, yaw_rate_rad_s: float
) -> Derivation:
    """Derive the couple and insert numbers.

    Parameters
    ----------
    polar_inertia_kg_m2 : float
        Of the rotor about its shaft. [kg m²]
    spin_rad_s : float
        Clockwise from the cockpit positive. [rad/s]
    pitch_rate_rad_s, yaw_rate_rad_s : float
        Nose up and nose right positive. [rad/s]
    """
    given = (polar_inertia_kg_m2, spin_rad_s, pitch_rate_rad_s, yaw_rate_rad_s)
    values = dict(zip((INERTIA, SPIN, PITCH_RATE, YAW_RATE), given, strict=True))
    pitch, yaw, size = (
        put_in(part.subs(MOMENTUM, INERTIA * SPIN), values) for part in (MEAN_MOMENT[1], MEAN_MOMENT[2], SIZE)
    )
    return Derivation(
        title="Why is the gyroscopic moment at right angles to the rotation of the airplane?",
        steps=STEPS,
        numbers=listed(values, NAMES),
        results=(Number("M", "pitch_n_m", pitch), Number("N", "yaw_n_m", yaw), Number("C", "couple_n_m", abs(size))),
    )
