"""The gyroscopic couple from Newton's second law for one piece of a spinning rotor."""

from __future__ import annotations

from functools import cache

import sympy as sp

from sim.derivation.steps import Derivation, Number, Step, listed, put_in, step

RADIUS, ANGLE, SPIN, PIECE = sp.symbols("rho x Omega m", real=True)
INERTIA, MOMENTUM, PITCH_RATE, YAW_RATE = sp.symbols("I_p h q r", real=True)
NAMES = {INERTIA: "polar_inertia_kg_m2", SPIN: "spin_rad_s", PITCH_RATE: "pitch_rate_rad_s", YAW_RATE: "yaw_rate_rad_s"}


def moment_of_piece() -> tuple[sp.Matrix, sp.Matrix, sp.Matrix, sp.Matrix]:
    """Return place, velocity, Coriolis acceleration and the moment on the airframe of one piece of the rotor."""
    place = sp.Matrix([0, RADIUS * sp.cos(ANGLE), RADIUS * sp.sin(ANGLE)])
    velocity = sp.Matrix([SPIN, 0, 0]).cross(place)
    turning = 2 * sp.Matrix([0, PITCH_RATE, YAW_RATE]).cross(velocity)
    return place, velocity, turning, -place.cross(PIECE * turning)


@cache
def mean_moment() -> sp.Matrix:
    """Return the moment of an evenly round rotor on the airframe, in terms of its spin momentum h."""
    *_, moment = moment_of_piece()
    mean = moment.applyfunc(lambda part: sp.integrate(part, (ANGLE, 0, 2 * sp.pi)) / (2 * sp.pi))
    return mean.subs(PIECE, MOMENTUM / (SPIN * RADIUS**2)).applyfunc(sp.simplify)


def derive_couple(
    *, polar_inertia_kg_m2: float, spin_rad_s: float, pitch_rate_rad_s: float, yaw_rate_rad_s: float
) -> Derivation:
    """Derive the couple and put numbers in.

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
    answers = [put_in(part.subs(MOMENTUM, INERTIA * SPIN), values) for part in mean_moment()[1:]]
    return Derivation(
        title="Why does a spinning rotor push the nose sideways of where it is swung?",
        steps=_steps(),
        numbers=listed(values, NAMES),
        results=(
            Number("M", "pitch_n_m", answers[0]),
            Number("N", "yaw_n_m", answers[1]),
            Number("C", "couple_n_m", (answers[0] ** 2 + answers[1] ** 2) ** 0.5),
        ),
    )


@cache
def _steps() -> tuple[Step, ...]:
    place, velocity, turning, moment = moment_of_piece()
    mean = mean_moment()
    pieces = {PIECE: MOMENTUM / (SPIN * RADIUS**2)}
    blade = [sp.simplify(part.subs(pieces)).rewrite(sp.cos).simplify() for part in moment[1:]]
    m, n, c = sp.symbols("M N C")
    return (
        step(
            "Axes fixed in the airplane: x forward, y to the right wing, z down. A piece of the rotor of mass m "
            "sits at radius ρ from the shaft, turned by the angle x from the right wing, clockwise from the "
            "cockpit.",
            place,
        ),
        step("The rotor spins at Ω, so the piece moves across the shaft with this velocity.", velocity),
        step(
            "Now the airplane pitches at q and yaws at r. The piece is carried into a new direction while it "
            "moves: it needs the Coriolis acceleration 2 ω × v, which lies along the shaft. All that does not "
            "hold Ω is there in an engine at rest as well and belongs to the airframe's own inertia.",
            turning,
        ),
        step(
            "The airframe must push the piece with m times that, and is pushed back as hard (Newton's third law). "
            "The moment on the airframe about roll, pitch and yaw:",
            moment,
        ),
        step(
            "Two opposite blades have the same x but for half a turn, so their moment is that of one piece with "
            "the inertia of both. With the spin momentum h = m ρ² Ω it swings between nothing and twice its "
            "mean, twice a turn, about pitch and about yaw:",
            *(sp.Eq(left, right, evaluate=False) for left, right in zip((m, n), blade, strict=True)),
        ),
        step(
            "A rotor that is even all round, or three and more evenly spaced blades, has the mean over all "
            "angles x. In a right turn (r > 0) a clockwise rotor lowers the nose, in a left turn it lifts it; "
            "pulling the nose up (q > 0) swings it right.",
            sp.Eq(m, mean[1], evaluate=False),
            sp.Eq(n, mean[2], evaluate=False),
        ),
        step(
            "The size of the couple is spin momentum times the rate at which the shaft is swung.",
            sp.Eq(c, MOMENTUM * sp.sqrt(PITCH_RATE**2 + YAW_RATE**2), evaluate=False),
            sp.Eq(MOMENTUM, INERTIA * SPIN, evaluate=False),
        ),
    )
