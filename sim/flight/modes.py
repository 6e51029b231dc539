"""Modes of small motions about steady flight: exact Jacobian, eigenvalues, and names by participation.

Eight states: u, w, q, θ of the longitudinal group and v, p, r, φ of the lateral group. Position and heading have no
influence in steady flight, and the shaft speed is taken as constant: thrust then falls faster with airspeed than at a
fixed throttle, where the shaft follows within a second, and damps the phugoid more, by .01 to .04 per second.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import permutations
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.flight.motion import Airplane, Controls, motion
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    Matrix = NDArray[np.float64]

STATES: Final = ("u", "w", "q", "theta", "v", "p", "r", "phi")
LATERAL: Final = slice(4, 8)
_PARTICIPANTS: Final = {
    "short period": ("w", "q"),
    "phugoid": ("u", "theta"),
    "Dutch roll": ("v", "r"),
    "roll": ("p",),
    "spiral": ("phi",),
}
"""The modes of a conventional airplane and the states that dominate each."""
_PAIRS: Final = (
    ("short period", "short period"),
    ("phugoid", "phugoid"),
    ("Dutch roll", "Dutch roll"),
    ("roll", "spiral"),
)
"""The modes by pairs: a complex pair of eigenvalues takes one of these, real eigenvalues take any single modes."""
_LEAST_SHARE: Final = 0.1
"""Participation of its states below which a root has not the name that is left for it."""
_COMPLEX_STEP: Final = 1e-30


@dataclass(frozen=True, slots=True)
class Mode:
    """One mode: a real eigenvalue or a complex pair.

    Attributes
    ----------
    name : str
        After the states that participate most.
    real_per_s : float
        Real part of the eigenvalue, negative where the mode decays. [1/s]
    imag_rad_s : float
        Imaginary part of a pair, at least 0. [rad/s]
    damping_ratio : float or None
        None for a real eigenvalue.
    natural_frequency_rad_s : float or None
        None for a real eigenvalue. [rad/s]
    time_to_half_s, time_to_double_s : float or None
        The one that applies; neither for a neutral mode. [s]
    coupling_share : float
        Participation of the states of the other group, 0 where the groups are uncoupled.
    """

    name: str
    real_per_s: float
    imag_rad_s: float
    damping_ratio: float | None
    natural_frequency_rad_s: float | None
    time_to_half_s: float | None
    time_to_double_s: float | None
    coupling_share: float


def system_matrix(
    airplane: Airplane, state: Sequence[float], controls: Controls | Callable[[Number], Controls]
) -> Matrix:
    """Return the matrix A of small motions ẋ = A x about a steady state, at constant shaft speed.

    Parameters
    ----------
    airplane : Airplane
    state : sequence of 14 floats
        As in `sim.flight.motion`, with any heading.
    controls : Controls or function
        Constant, or those that a state takes, as controls that float.

    Returns
    -------
    array, shape (8, 8)
        Rows and columns in the order of `STATES`. [m/s, rad/s, rad]
    """
    matrix: Matrix = system_matrices(airplane, np.array([[float(x)] for x in state]), controls)[0]
    return matrix


def system_matrices(airplane: Airplane, state: Matrix, controls: Controls | Callable[[Number], Controls]) -> Matrix:
    """Return the matrices of `system_matrix` for many steady states, of one airplane or of one airplane each.

    Parameters
    ----------
    airplane : Airplane
        Its numbers may be arrays with one entry a state: see `sim.flight.many_airplanes`.
    state : array, shape (14, N)
        As in `sim.flight.motion`, with any heading.
    controls : Controls or function
        Numbers, or arrays of shape (N,); or the function of the state that gives them.

    Returns
    -------
    array, shape (N, 8, 8)
        Rows and columns in the order of `STATES`. [m/s, rad/s, rad]

    Notes
    -----
    Exact to rounding: the right-hand side is analytic, and a step of 1e-30 along the imaginary axis causes no
    cancellation.

    References
    ----------
    Squire & Trapp, SIAM Review 40, 1998 (complex step); Etkin & Reid, 3rd ed. 1996, section 4.9 for the matrix.
    """
    rates = motion(airplane, ARRAY_MATH)
    _, _, down, e0, e1, e2, e3, u, v, w, p, q, r, spin = state
    bank = np.arctan2(2.0 * (e0 * e1 + e2 * e3), e0**2 - e1**2 - e2**2 + e3**2)
    pitch = np.arcsin(np.clip(2.0 * (e0 * e2 - e3 * e1), -1.0, 1.0))
    x = np.repeat(np.array([u, w, q, pitch, v, p, r, bank], complex)[:, None], 8, axis=1)
    x[np.arange(8), np.arange(8)] += 1j * _COMPLEX_STEP
    u, w, q, pitch, v, p, r, bank = x
    half_b, half_p, zero = 0.5 * bank, 0.5 * pitch, 0.0 * u
    attitude = (
        np.cos(half_b) * np.cos(half_p),
        np.sin(half_b) * np.cos(half_p),
        np.cos(half_b) * np.sin(half_p),
        -np.sin(half_b) * np.sin(half_p),
    )
    moved = (zero, zero, zero + down, *attitude, u, v, w, p, q, r, spin + zero)
    y_dot = rates(moved, controls if isinstance(controls, Controls) else controls(moved))
    pitch_dot = q * np.cos(bank) - r * np.sin(bank)
    bank_dot = p + np.tan(pitch) * (q * np.sin(bank) + r * np.cos(bank))
    rows = np.array([*y_dot[7:12:2], pitch_dot, *y_dot[8:13:2], bank_dot]).imag / _COMPLEX_STEP
    matrices: Matrix = np.moveaxis(rows, -1, 0)
    return matrices


def participation(matrix: Matrix) -> tuple[NDArray[np.complex128], Matrix]:
    """Return the eigenvalues of a matrix and the participation of each state in each of them.

    Parameters
    ----------
    matrix : array, shape (n, n)
        Of a system ẋ = A x.

    Returns
    -------
    tuple of arrays, shapes (n,) and (n, n)
        Eigenvalues; participation factors, one row per state and one column per eigenvalue, each column summing to 1.

    Notes
    -----
    The factor is the magnitude of right times left eigenvector, which does not depend on the units of the states.

    References
    ----------
    Pérez-Arriaga, Verghese & Schweppe, IEEE Trans. PAS-101, 1982.
    """
    eigenvalues, right = np.linalg.eig(matrix)
    left = np.linalg.inv(right).T
    factors = np.abs(right * left)
    return eigenvalues, factors / factors.sum(axis=0)


def modes(matrix: Matrix) -> tuple[Mode, ...]:
    """Return the modes of an 8-state matrix, longitudinal ones first, each named after the states that participate.

    Parameters
    ----------
    matrix : array, shape (8, 8)
        From `system_matrix`.

    Notes
    -----
    The eight eigenvalues are assigned to the eight modes of a conventional airplane so that the sum of the
    participation of each mode's states is greatest; a complex pair takes two modes that belong together. Two real
    eigenvalues may therefore have the same name, and a pair may be named ``roll and spiral``. Where roots of several
    modes mix, as roll damping and short period of some airplanes in a turn, a name may be left for a root in which its
    states do not move: that root is named after those that do, and nothing bears the name.
    """
    eigenvalues, factors = participation(matrix)
    upper = [i for i in range(8) if eigenvalues[i].imag >= 0.0]
    names = _names(eigenvalues[upper], factors[:, upper])
    found = [_mode(name, complex(eigenvalues[i]), factors[:, i]) for name, i in zip(names, upper, strict=True)]
    return tuple(sorted(found, key=lambda mode: (_ORDER.index(mode.name), abs(mode.real_per_s))))


_ORDER: Final = ("short period", "phugoid", "Dutch roll", "roll", "roll and spiral", "spiral")


def _names(eigenvalues: NDArray[np.complex128], factors: Matrix) -> list[str]:
    """Return a name for each eigenvalue with an imaginary part of at least 0."""
    fit = {name: factors[[STATES.index(x) for x in states]].sum(axis=0) for name, states in _PARTICIPANTS.items()}
    pairs, reals = ([i for i, x in enumerate(eigenvalues) if (x.imag > 0.0) == is_pair] for is_pair in (True, False))
    best, names = -1.0, [""] * len(eigenvalues)
    for taken in permutations(_PAIRS, len(pairs)):
        single = [name for pair in _PAIRS if pair not in taken for name in pair]
        value = np.array([[fit[name][i] for name in single] for i in reals]).reshape(len(reals), len(single))
        columns = _best_columns(value)
        total = sum(fit[name][i] for i, pair in zip(pairs, taken, strict=True) for name in pair)
        total += value[range(len(reals)), columns].sum()
        if total > best:
            best = total
            named = {i: " and ".join(dict.fromkeys(pair)) for i, pair in zip(pairs, taken, strict=True)}
            named |= {real: single[column] for real, column in zip(reals, columns, strict=True)}
            names = [named[i] for i in range(len(eigenvalues))]
    return [_as_it_moves(name, {mode: float(fit[mode][i]) for mode in fit}) for i, name in enumerate(names)]


def _as_it_moves(name: str, shares: dict[str, float]) -> str:
    """Return a name without the modes whose states do not take part, or that of the mode whose states do most."""
    moving = [part for part in name.split(" and ") if shares[part] >= _LEAST_SHARE]
    return " and ".join(moving) or max(shares, key=lambda mode: shares[mode])


def _best_columns(value: Matrix) -> NDArray[np.intp]:
    """Return the column of each row of a square matrix, none taken twice, so that the sum of the values is greatest.

    Every order is tried: two rows are usual, eight the most, and `scipy.optimize` takes longer to load than a study.
    """
    orders = np.array([*permutations(range(len(value)))], dtype=np.intp)
    best: NDArray[np.intp] = orders[value[range(len(value)), orders].sum(axis=1).argmax()]
    return best


def _mode(name: str, eigenvalue: complex, factors: Matrix) -> Mode:
    pair = eigenvalue.imag > 0.0
    frequency = abs(eigenvalue)
    lateral = float(factors[LATERAL].sum())
    doubling_s = math.log(2.0) / eigenvalue.real if eigenvalue.real else math.inf
    return Mode(
        name=name,
        real_per_s=eigenvalue.real,
        imag_rad_s=eigenvalue.imag,
        damping_ratio=-eigenvalue.real / frequency if pair else None,
        natural_frequency_rad_s=frequency if pair else None,
        time_to_half_s=-doubling_s if doubling_s < 0.0 else None,
        time_to_double_s=doubling_s if 0.0 < doubling_s < math.inf else None,
        coupling_share=lateral if name.startswith(("short period", "phugoid")) else 1.0 - lateral,
    )
