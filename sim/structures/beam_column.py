"""Beam-columns: bending of a straight beam under thrust or pull along it and loads across it, exactly.

One expression serves compression, tension and no axial load: the functions c_n(z) = Σ (−z)^k/(n + 2k)! are cosine and
sine of √z, hyperbolic ones of √−z, and powers where z is 0.

    E I v'''' + P v'' = w,   M = E I v'',   Q = E I v''' + P v',   Q' = w

v across the beam and w, its load a length, to the same side; P compression. Q is the load across the undeformed axis.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import factorial
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]

SERIES: Final = 0.5
"""Below this size of z the functions are summed, above it they are cosine and sine: 1e-15 on either side."""
TERMS: Final = 12
_FACTORIALS: Final = tuple(float(factorial(n)) for n in range(5 + 2 * TERMS))


@dataclass(frozen=True, slots=True)
class Patch:
    """A load of constant intensity on part of a span.

    Attributes
    ----------
    start_m, end_m : float
        From the first end of the span. [m]
    load_n_per_m : float
        [N/m]
    """

    start_m: float
    end_m: float
    load_n_per_m: float


@dataclass(frozen=True, slots=True, eq=False)
class Span:
    """Part of a beam between two nodes: how its ends are bound to each other.

    Attributes
    ----------
    stiffness : array, shape (4, 4), or (spans, 4, 4)
        Forces of the nodes on the span for unit deflections: force and moment at the first, then the second end, the
        moment positive in the sense of the slope. [N/m, N, N m]
    fixed : array, shape (4,), or (spans, 4)
        Those forces with both ends clamped in place. [N, N m]
    """

    stiffness: Numbers
    fixed: Numbers


def stumpff(z: Numbers | float) -> tuple[Numbers, Numbers, Numbers, Numbers, Numbers]:
    """Return c0 to c4 of z, number by number.

    Examples
    --------
    >>> [round(float(value), 6) for value in stumpff(0.0)]
    [1.0, 1.0, 0.5, 0.166667, 0.041667]
    """
    at = np.asarray(z, dtype=float)
    small = np.where(np.abs(at) < SERIES, at, 0.0)
    c3, c4 = (_series(n, small) for n in (3, 4))
    c1, c2 = 1.0 - small * c3, 0.5 - small * c4
    series = (1.0 - small * c2, c1, c2, c3, c4)
    if np.all(np.abs(at) < SERIES):
        return series
    large = np.where(np.abs(at) < SERIES, 1.0, at)
    root = np.sqrt(np.abs(large))
    c0 = np.where(large > 0.0, np.cos(root), np.cosh(root))
    c1 = np.where(large > 0.0, np.sin(root), np.sinh(root)) / root
    c2, c3 = (1.0 - c0) / large, (1.0 - c1) / large
    closed = (c0, c1, c2, c3, (0.5 - c2) / large)
    few, many, *rest = (np.where(np.abs(at) < SERIES, one, two) for one, two in zip(series, closed, strict=True))
    return few, many, rest[0], rest[1], rest[2]


def _series(n: int, z: Numbers) -> Numbers:
    total = np.zeros_like(z)
    for k in reversed(range(TERMS)):
        total = 1.0 / _FACTORIALS[n + 2 * k] - z * total
    return total


def _carry(length_m: Numbers | float, stiffness_n_m2: Numbers | float, thrust_n: Numbers | float) -> Numbers:
    """Return how (v, v', M, Q) at one end follow from those at the other, shape (..., 4, 4)."""
    x, e, p = np.asarray(length_m, dtype=float), stiffness_n_m2, thrust_n
    c0, c1, c2, c3, _ = stumpff(p / e * x**2)
    rows = np.zeros((*x.shape, 4, 4))
    rows[..., 0, 0] = rows[..., 3, 3] = 1.0
    rows[..., 0, 1] = rows[..., 2, 3] = x * c1
    rows[..., 0, 2] = rows[..., 1, 3] = x**2 * c2 / e
    rows[..., 0, 3] = x**3 * c3 / e
    rows[..., 1, 1] = rows[..., 2, 2] = c0
    rows[..., 1, 2] = x * c1 / e
    rows[..., 2, 1] = -p * x * c1
    return rows


def _added(places_m: Numbers, stiffness_n_m2: float, thrust_n: float, patches: Sequence[Patch]) -> Numbers:
    """Return what the loads before each place add to (v, v', M, Q) there, shape (places, 4)."""
    if not patches:
        return np.zeros((len(places_m), 4))
    ends, loads = np.array([(one.start_m, one.end_m) for one in patches]), np.array([p.load_n_per_m for p in patches])
    x = np.maximum(places_m[:, None, None] - ends, 0.0)
    _, _, c2, c3, c4 = stumpff(thrust_n / stiffness_n_m2 * x**2)
    parts = np.stack((x**4 * c4 / stiffness_n_m2, x**3 * c3 / stiffness_n_m2, x**2 * c2, x))
    found: Numbers = ((parts[..., 0] - parts[..., 1]) @ loads).T
    return found


def span(length_m: float, stiffness_n_m2: float, thrust_n: float, patches: Sequence[Patch] = ()) -> Span:
    """Return the stiffness of a span and its forces with clamped ends.

    Parameters
    ----------
    length_m, stiffness_n_m2 : float
        Of the span, and E I of its section, above 0. [m, N m²]
    thrust_n : float
        Compression positive. [N]
    patches : sequence of Patch
        Loads across it, each within the span.

    Notes
    -----
    Exact for Bernoulli's beam. Shear deflection is not in it: it adds 2 % to the deflection of a solid spruce spar
    whose bay is 30 times its depth (common practice, no source).

    References
    ----------
    S. P. Timoshenko & J. M. Gere, Theory of Elastic Stability, 2nd ed., chapter 1.

    Examples
    --------
    >>> clamped = span(2.0, 1000.0, 0.0, [Patch(0.0, 2.0, 30.0)])
    >>> [round(float(value), 9) for value in clamped.fixed]
    [-30.0, -10.0, -30.0, 10.0]
    """
    many = spans(np.array([length_m]), np.array([stiffness_n_m2]), np.array([thrust_n]), gathered([patches]))
    return Span(stiffness=many.stiffness[0], fixed=many.fixed[0])


@dataclass(frozen=True, slots=True, eq=False)
class Patches:
    """The patches of several spans.

    Attributes
    ----------
    owner : array of int, shape (patches,)
        Number of the span of each.
    ends_m : array, shape (patches, 2)
        From the first end of the span. [m]
    loads_n_per_m : array, shape (patches,)
        [N/m]
    """

    owner: NDArray[np.intp]
    ends_m: Numbers
    loads_n_per_m: Numbers


def gathered(patches: Sequence[Sequence[Patch]]) -> Patches:
    """Return the patches of several spans in one, those of each span given."""
    rows = [(number, one) for number, own in enumerate(patches) for one in own]
    return Patches(
        owner=np.array([number for number, _ in rows], dtype=np.intp),
        ends_m=np.array([(one.start_m, one.end_m) for _, one in rows]).reshape(-1, 2),
        loads_n_per_m=np.array([one.load_n_per_m for _, one in rows]),
    )


def spans(length_m: Numbers, stiffness_n_m2: Numbers, thrust_n: Numbers, patches: Patches) -> Span:
    """Return several spans at once, as `span` does one.

    Parameters
    ----------
    length_m, stiffness_n_m2, thrust_n : array, shape (spans,)
        As for `span`. [m, N m², N]
    patches : Patches
        Of all of them.
    """
    whole = _carry(length_m, stiffness_n_m2, thrust_n)
    owner, e = patches.owner, stiffness_n_m2[patches.owner][:, None]
    x = np.maximum(length_m[owner][:, None] - patches.ends_m, 0.0)
    _, _, c2, c3, c4 = stumpff(thrust_n[owner][:, None] / e * x**2)
    parts = np.stack((x**4 * c4 / e, x**3 * c3 / e, x**2 * c2, x), axis=-1)
    state = np.zeros((len(length_m), 4))
    np.add.at(state, owner, (parts[:, 0] - parts[:, 1]) * patches.loads_n_per_m[:, None])
    unit = np.broadcast_to(np.eye(2), (len(length_m), 2, 2))
    start = np.linalg.solve(whole[:, :2, 2:], np.concatenate((-whole[:, :2, :2], unit, -state[:, :2, None]), axis=2))
    end = whole[:, 2:, 2:] @ start
    end[:, :, :2] += whole[:, 2:, :2]
    end[:, :, 4] += state[:, 2:]
    # (M, Q) at both ends -> forces of the nodes: Q0, -M0, -Q1, M1
    rows = np.stack((start[:, 1], -start[:, 0], -end[:, 1], end[:, 0]), axis=1)
    return Span(stiffness=rows[:, :, :4], fixed=rows[:, :, 4])


def along(
    stiffness_n_m2: float,
    thrust_n: float,
    patches: Sequence[Patch],
    *,
    start: Sequence[float],
    places_m: Sequence[float],
) -> Numbers:
    """Return deflection, slope, bending moment and Q at places along a span, shape (places, 4).

    Parameters
    ----------
    stiffness_n_m2, thrust_n, patches :
        As for `span`.
    start : sequence of float
        Deflection, slope, bending moment and Q at its first end. [m, rad, N m, N]
    places_m : sequence of float
        From its first end. [m]
    """
    places = np.asarray(places_m, dtype=float)
    carried: Numbers = _carry(places, stiffness_n_m2, thrust_n) @ np.asarray(start, dtype=float)
    return carried + _added(places, stiffness_n_m2, thrust_n, patches)
