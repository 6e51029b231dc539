"""The modes of small motions about steady flight: exact Jacobian, roots, and names by participation.

Eight states: u, w, q, θ of the longitudinal group, v, p, r, φ of the lateral one. Position and heading change
nothing in steady flight, and the shaft is taken to keep its speed.
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
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Matrix = NDArray[np.float64]

STATES: Final = ("u", "w", "q", "theta", "v", "p", "r", "phi")
LONGITUDINAL: Final = slice(0, 4)
LATERAL: Final = slice(4, 8)
_WHO: Final = {
    "short period": ("w", "q"),
    "phugoid": ("u", "theta"),
    "Dutch roll": ("v", "r"),
    "roll": ("p",),
    "spiral": ("phi",),
}
"""The modes of an ordinary airplane and the states that take part in each."""
_PLACES: Final = (
    ("short period", "short period"),
    ("phugoid", "phugoid"),
    ("Dutch roll", "Dutch roll"),
    ("roll", "spiral"),
)
"""The places of its eight roots, two by two: a pair takes two that stand together, real roots take any."""
_STEP = 1e-30


@dataclass(frozen=True, slots=True)
class Mode:
    """One mode: a real root or a pair.

    Attributes
    ----------
    name : str
        By the states that take part in it.
    real_per_s : float
        Real part of the root, negative where the mode dies out. [1/s]
    imag_rad_s : float
        Imaginary part of a pair, at least 0. [rad/s]
    damping_ratio : float or None
        Of a pair; of a real root none.
    natural_frequency_rad_s : float or None
        Of a pair. [rad/s]
    time_to_half_s, time_to_double_s : float or None
        The one that applies; neither for a neutral mode. [s]
    coupling_share : float
        How much of the mode lies in the states of the other group, 0 where the groups are apart.
    """

    name: str
    real_per_s: float
    imag_rad_s: float
    damping_ratio: float | None
    natural_frequency_rad_s: float | None
    time_to_half_s: float | None
    time_to_double_s: float | None
    coupling_share: float


def system_matrix(airplane: Airplane, state: Sequence[float], controls: Controls) -> Matrix:
    """Return the matrix A of the small motions ẋ = A x about a steady state, controls and shaft speed held.

    Parameters
    ----------
    airplane : Airplane
    state : sequence of 14 floats
        As in `sim.flight.motion`; its attitude may have any heading.
    controls : Controls
        Held.

    Returns
    -------
    array, shape (8, 8)
        Rows and columns in the order of `STATES`. [m/s, rad/s, rad]

    Notes
    -----
    Exact to rounding: the right-hand side is analytic, and a step of 1e-30 along the imaginary axis loses no digits.

    References
    ----------
    Squire & Trapp, SIAM Review 40, 1998 (complex step); Etkin & Reid, 3rd ed. 1996, section 4.9 for the matrix.
    """
    rates = motion(airplane, ARRAY_MATH)
    point = np.array([float(x) for x in state])
    e0, e1, e2, e3 = point[3:7]
    bank = math.atan2(2.0 * (e0 * e1 + e2 * e3), e0**2 - e1**2 - e2**2 + e3**2)
    pitch = math.asin(max(-1.0, min(1.0, 2.0 * (e0 * e2 - e3 * e1))))
    u, v, w, p, q, r, spin = point[7:]
    x = np.repeat(np.array([u, w, q, pitch, v, p, r, bank], complex)[:, None], 8, axis=1)
    x[np.arange(8), np.arange(8)] += 1j * _STEP
    u, w, q, pitch, v, p, r, bank = x
    half_b, half_p, zero = 0.5 * bank, 0.5 * pitch, 0.0 * u
    turned = (
        np.cos(half_b) * np.cos(half_p),
        np.sin(half_b) * np.cos(half_p),
        np.cos(half_b) * np.sin(half_p),
        -np.sin(half_b) * np.sin(half_p),
    )
    got = rates((zero, zero, zero + point[2], *turned, u, v, w, p, q, r, spin + zero), controls)
    pitch_dot = q * np.cos(bank) - r * np.sin(bank)
    bank_dot = p + np.tan(pitch) * (q * np.sin(bank) + r * np.cos(bank))
    return np.array([got[7], got[9], got[11], pitch_dot, got[8], got[10], got[12], bank_dot]).imag / _STEP


def participation(matrix: Matrix) -> tuple[NDArray[np.complex128], Matrix]:
    """Return the roots of a matrix and how much each state takes part in each of them.

    Parameters
    ----------
    matrix : array, shape (n, n)
        Of a system ẋ = A x.

    Returns
    -------
    tuple of arrays, shapes (n,) and (n, n)
        Roots; shares with a row a state and a column a root, each column adding up to 1.

    Notes
    -----
    The share is the size of right times left eigenvector, which no choice of units changes.

    References
    ----------
    Pérez-Arriaga, Verghese & Schweppe, IEEE Trans. PAS-101, 1982.
    """
    roots, right = np.linalg.eig(matrix)
    left = np.linalg.inv(right).T
    share = np.abs(right * left)
    return roots, share / share.sum(axis=0)


def modes(matrix: Matrix) -> tuple[Mode, ...]:
    """Return the modes of an 8-state matrix, longitudinal ones first, each named by who takes part in it.

    Parameters
    ----------
    matrix : array, shape (8, 8)
        From `system_matrix`.

    Notes
    -----
    The eight roots take the eight places of an ordinary airplane so that the sum of their shares there is greatest; a
    pair takes two places that belong together. Two real roots may so bear one name, and a pair ``roll and spiral``.
    """
    roots, share = participation(matrix)
    upper = [i for i in range(8) if roots[i].imag >= 0.0]
    names = _named(roots[upper], share[:, upper])
    found = [_mode(name, complex(roots[i]), share[:, i]) for name, i in zip(names, upper, strict=True)]
    return tuple(sorted(found, key=lambda mode: (_ORDER.index(mode.name), abs(mode.real_per_s))))


_ORDER: Final = ("short period", "phugoid", "Dutch roll", "roll", "roll and spiral", "spiral")


def _named(roots: NDArray[np.complex128], share: Matrix) -> list[str]:
    """Return a name for each root, the lower ones of pairs left out."""
    from scipy.optimize import linear_sum_assignment

    worth = {name: share[[STATES.index(state) for state in who]].sum(axis=0) for name, who in _WHO.items()}
    pairs, reals = ([i for i in range(len(roots)) if (roots[i].imag > 0.0) == up] for up in (True, False))
    best, names = -1.0, [""] * len(roots)
    for places in permutations(_PLACES, len(pairs)):
        left = [name for place in _PLACES if place not in places for name in place]
        value = np.array([[worth[name][i] for name in left] for i in reals]).reshape(len(reals), len(left))
        rows, seats = linear_sum_assignment(value, maximize=True)
        total = sum(worth[name][i] for i, place in zip(pairs, places, strict=True) for name in place)
        total += value[rows, seats].sum()
        if total > best:
            best = total
            taken = {i: " and ".join(dict.fromkeys(place)) for i, place in zip(pairs, places, strict=True)}
            taken |= {reals[row]: left[seat] for row, seat in zip(rows, seats, strict=True)}
            names = [taken[i] for i in range(len(roots))]
    return names


def _mode(name: str, root: complex, share: Matrix) -> Mode:
    pair = root.imag > 0.0
    size = abs(root)
    lateral = float(share[LATERAL].sum())
    growing = math.log(2.0) / root.real if root.real else math.inf
    return Mode(
        name=name,
        real_per_s=root.real,
        imag_rad_s=root.imag,
        damping_ratio=-root.real / size if pair else None,
        natural_frequency_rad_s=size if pair else None,
        time_to_half_s=-growing if growing < 0.0 else None,
        time_to_double_s=growing if 0.0 < growing < math.inf else None,
        coupling_share=lateral if name.startswith(("short period", "phugoid")) else 1.0 - lateral,
    )
