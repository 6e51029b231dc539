"""The modes: coupling of pitch and yaw by a rotor, and the eigenvalues of the whole linearised airplane."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import sympy as sp

from sim.derivation.couple import MEAN_MOMENT, MOMENTUM, PITCH_RATE, YAW_RATE
from sim.derivation.steps import Derivation, Number, equation, listed, put_in, step
from sim.flight.motion import Airplane, Controls, motion

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

PITCH_INERTIA, YAW_INERTIA, ROOT, PITCH_DAMPING, YAW_DAMPING = sp.symbols("J_y J_z lambda M_q N_r", real=True)
NAMES = {
    MOMENTUM: "angular_momentum_kg_m2_s",
    PITCH_INERTIA: "inertia_pitch_kg_m2",
    YAW_INERTIA: "inertia_yaw_kg_m2",
}
PUSHED = sp.Matrix([MEAN_MOMENT[1] / PITCH_INERTIA, MEAN_MOMENT[2] / YAW_INERTIA])
FREE = PUSHED.jacobian([PITCH_RATE, YAW_RATE])
DAMPED = FREE + sp.diag(PITCH_DAMPING, YAW_DAMPING)
NUTATION = sp.sqrt(FREE.det())
EPSILON = sp.Symbol("epsilon")

STEPS = (
    step(
        "Without aerodynamic forces and weight only the rotor's moment remains: −h r in pitch and h q in yaw, each "
        "divided by the moment of inertia.",
        *(equation(left, right) for left, right in zip(("q'", "r'"), PUSHED, strict=True)),
    ),
    step(
        "Both vary as exp(λ t), where λ is an eigenvalue of the matrix of these two equations.",
        sp.Eq((FREE - ROOT * sp.eye(2)).det(), 0, evaluate=False),
    ),
    step(
        "The eigenvalues are an undamped pair: the nose describes an ellipse, the nutation, at this rate, which is "
        "proportional to the angular momentum.",
        equation("omega_n", NUTATION),
    ),
    step(
        "Now add the aerodynamic damping in pitch and in yaw. The sum of the eigenvalues is the trace of the matrix; "
        "the rotor has no term on the diagonal, so it shifts damping from one motion to another and adds none.",
        equation("A", DAMPED),
        equation("trace", DAMPED.trace()),
        equation("det", DAMPED.det()),
    ),
    step(
        "The whole airplane has eight such equations, for u, w, q, θ and v, p, r, φ. Each equation of motion is "
        "differentiated with respect to each state in steady flight; the eigenvalues of that matrix are the modes. "
        "The rotor's terms couple the first four states with the last four. The results list one of each complex pair, "
        "the highest frequency first; whirlgate modes names them."
    ),
)


def derive_modes(
    airplane: Airplane, state: Sequence[float], controls: Controls, *, angular_momentum_kg_m2_s: float
) -> Derivation:
    """Derive the nutation and the roots about a steady flight; insert numbers.

    Parameters
    ----------
    airplane : Airplane
        As flown.
    state : sequence of 14 floats
        Of the steady flight, heading north.
    controls : Controls
        Held.
    angular_momentum_kg_m2_s : float
        Of its rotors at that shaft speed, clockwise from the cockpit positive. [kg m²/s]
    """
    given = (angular_momentum_kg_m2_s, airplane.body.inertia_pitch_kg_m2, airplane.body.inertia_yaw_kg_m2)
    values = dict(zip((MOMENTUM, PITCH_INERTIA, YAW_INERTIA), given, strict=True))
    roots = np.linalg.eigvals(differentiated(airplane, state, controls))
    kept = sorted(
        (root for root in roots.astype(complex) if root.imag >= 0.0), key=lambda root: (-root.imag, root.real)
    )
    nutation = Number("omega_n", "nutation_rad_s", abs(put_in(sp.Abs(NUTATION), values)))
    pairs = (
        (Number(f"lambda_{i}", "real_per_s", float(root.real)), Number(f"lambda_{i}", "imag_rad_s", float(root.imag)))
        for i, root in enumerate(kept, 1)
    )
    return Derivation(
        title="How does the rotor couple the motions of the airplane?",
        steps=STEPS,
        numbers=listed(values, NAMES),
        results=(nutation, *(number for pair in pairs for number in pair)),
    )


def differentiated(airplane: Airplane, state: Sequence[float], controls: Controls) -> NDArray[np.float64]:
    """Return the matrix of the small motions, rows and columns u, w, q, θ, v, p, r, φ, differentiated by symbols.

    Parameters
    ----------
    airplane : Airplane
        As flown.
    state : sequence of 14 floats
        Of the steady flight, heading north.
    controls : Controls
        Held.
    """
    rates = motion(airplane, sp)
    columns = []
    for moved in range(8):
        u, w, q, pitch, v, p, r, bank = _moved(state, moved)
        half_b, half_p = bank / 2, pitch / 2
        turned = (
            sp.cos(half_b) * sp.cos(half_p),
            sp.sin(half_b) * sp.cos(half_p),
            sp.cos(half_b) * sp.sin(half_p),
            -sp.sin(half_b) * sp.sin(half_p),
        )
        got = rates((0, 0, state[2], *turned, u, v, w, p, q, r, state[13]), controls)
        pitch_dot = q * sp.cos(bank) - r * sp.sin(bank)
        bank_dot = p + sp.tan(pitch) * (q * sp.sin(bank) + r * sp.cos(bank))
        lines = (got[7], got[9], got[11], pitch_dot, got[8], got[10], got[12], bank_dot)
        columns.append([float(sp.diff(line, EPSILON).subs(EPSILON, 0)) for line in lines])
    return np.array(columns).T


def _moved(state: Sequence[float], moved: int) -> list[sp.Expr]:
    """Return u, w, q, θ, v, p, r, φ of the state, the one at `moved` displaced by a symbol."""
    e0, e1, e2, e3, u, v, w, p, q, r = (float(x) for x in state[3:13])
    bank = np.arctan2(2.0 * (e0 * e1 + e2 * e3), e0**2 - e1**2 - e2**2 + e3**2)
    pitch = np.arcsin(2.0 * (e0 * e2 - e3 * e1))
    point = [sp.Float(x) for x in (u, w, q, pitch, v, p, r, bank)]
    point[moved] += EPSILON
    return point
