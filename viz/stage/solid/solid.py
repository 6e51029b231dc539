"""Faces and rods of a solid, gathered by skins between rows of points; parts of it turn about hinges."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import ArrayLike, NDArray

    Numbers = NDArray[np.float64]

FABRIC, METAL, MATT, BARE = range(4)
"""Finishes: cloth that lets a low sun through, metal that glints, what does neither, and what no light changes."""
ALIKE_M = 1e-3
"""Corners nearer than this are one where edges are looked for [m]."""


class Edges(NamedTuple):
    """Edges of a solid: ends as corners, the faces beside it (the same twice at a rim), and whether it is a rim."""

    ends: NDArray[np.intp]
    faces: NDArray[np.intp]
    rim: NDArray[np.bool_]


class Hinge(NamedTuple):
    """Corners that turn together, about an axis through a place."""

    corners: NDArray[np.intp]
    origin: Numbers
    axis: Numbers


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A solid in body axes: x forward, y right, z down [m].

    Attributes
    ----------
    corners : array, shape (4 n, 3)
        Of face k those from 4 k on, in order round it; its normal points outward.
    roles : tuple of str
        Names of colours.
    role : array of int, shape (n)
        Of each face.
    finish : array of int, shape (n)
        Of each face.
    nearer : array, shape (n)
        By how much a face is taken for nearer than its middle is, so that what is set into another shows. [m]
    ahead_of : array, shape (n)
        x of which an eye must be ahead to see it, as what lies in a cowl; minus infinity for most. [m]
    rods : array, shape (m, 2, 3)
        Struts and wires, cut into pieces so that each sorts among the faces. [m]
    rod_role : array of int, shape (m)
        Of each rod.
    rod_width : array, shape (m)
        [m]
    hinges : mapping of Hinge
        By name.
    edges : Edges
        Where two faces meet, and rims.
    """

    corners: Numbers
    roles: tuple[str, ...]
    role: NDArray[np.intp]
    finish: NDArray[np.intp]
    nearer: Numbers
    ahead_of: Numbers
    rods: Numbers
    rod_role: NDArray[np.intp]
    rod_width: Numbers
    hinges: Mapping[str, Hinge]
    edges: Edges

    def posed(self, angles: Mapping[str, float]) -> Numbers:
        """Return the corners with parts turned about their hinges, right-handed [rad]."""
        corners = self.corners
        for name, angle in angles.items():
            hinge = self.hinges.get(name)
            if hinge is not None and angle:
                corners = corners.copy() if corners is self.corners else corners
                turn = about(hinge.axis, angle)
                corners[hinge.corners] = (corners[hinge.corners] - hinge.origin) @ turn.T + hinge.origin
        return corners


def about(axis: ArrayLike, angle: float) -> Numbers:
    """Return the matrix of a right-handed turn about an axis [rad]."""
    x, y, z = np.asarray(axis, dtype=float).tolist()
    size, sine, cosine = math.hypot(x, y, z), math.sin(angle), math.cos(angle)
    x, y, z, rest = x / size, y / size, z / size, 1.0 - cosine
    return np.array(
        [
            [cosine + rest * x * x, rest * x * y - sine * z, rest * x * z + sine * y],
            [rest * x * y + sine * z, cosine + rest * y * y, rest * y * z - sine * x],
            [rest * x * z - sine * y, rest * y * z + sine * x, cosine + rest * z * z],
        ]
    )


def normals(corners: Numbers) -> Numbers:
    """Return the normal of each face from its corners, shape (n, 4, 3), of unit length."""
    found = outward(corners)
    return np.asarray(found / np.maximum(np.sqrt(np.einsum("ij,ij->i", found, found)), 1e-12)[:, None])


def outward(corners: Numbers) -> Numbers:
    """Return what points out of each face from its corners, shape (n, 4, 3), twice as long as its area [m²]."""
    (ax, ay, az), (bx, by, bz) = ((corners[:, far] - corners[:, near]).T for near, far in ((0, 2), (1, 3)))
    return np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx], axis=1)


class Builder:
    """Gathers skins and rods."""

    def __init__(self) -> None:
        self._corners: list[Numbers] = []
        self._role: list[NDArray[np.intp]] = []
        self._finish: list[NDArray[np.intp]] = []
        self._nearer: list[Numbers] = []
        self._ahead_of: list[Numbers] = []
        self._rods: list[tuple[Numbers, int, float]] = []
        self._roles: dict[str, int] = {}
        self._hinged: dict[str, list[NDArray[np.intp]]] = {}
        self._axes: dict[str, tuple[Numbers, Numbers]] = {}
        self._count = 0

    def hinge(self, name: str, origin: ArrayLike, axis: ArrayLike) -> None:
        """Name a hinge that skins may turn about."""
        self._axes[name] = np.asarray(origin, dtype=float), np.asarray(axis, dtype=float)

    def skin(
        self,
        rows: ArrayLike,
        roles: str | Sequence[str],
        *,
        within: ArrayLike,
        finish: int = FABRIC,
        nearer: float = 0.0,
        ahead_of: float = -np.inf,
        hinge: str = "",
    ) -> None:
        """Add the faces between rows of points.

        Parameters
        ----------
        rows : array, shape (n, m, 3)
            Row after row. [m]
        roles : str or sequence of n - 1 str
            Colour of all faces, or of those between two rows.
        within : array, shape (3,) or (n - 1, m - 1, 3)
            A place inside, from which faces look away. [m]
        finish : int
            `FABRIC`, `METAL`, `MATT` or `BARE`.
        nearer, ahead_of : float
            See `Solid`. [m]
        hinge : str
            What it turns about.
        """
        grid = np.asarray(rows, dtype=float)
        faces = np.stack([grid[:-1, :-1], grid[:-1, 1:], grid[1:, 1:], grid[1:, :-1]], axis=2)
        across = faces.shape[1]
        inside = np.broadcast_to(np.asarray(within, dtype=float), (*faces.shape[:2], 3)).reshape(-1, 3)
        faces = faces.reshape(-1, 4, 3)
        away = np.einsum("ij,ij->i", normals(faces), faces.mean(axis=1) - inside) < 0.0
        faces[away] = faces[away, ::-1]
        names = [roles] * (len(grid) - 1) if isinstance(roles, str) else list(roles)
        numbers = [self._roles.setdefault(name, len(self._roles)) for name in names]
        if hinge:
            first = 4 * self._count
            self._hinged.setdefault(hinge, []).append(np.arange(first, first + 4 * len(faces)))
        self._count += len(faces)
        self._corners.append(faces.reshape(-1, 3))
        self._role.append(np.repeat(numbers, across))
        self._finish.append(np.full(len(faces), finish))
        self._nearer.append(np.full(len(faces), nearer))
        self._ahead_of.append(np.full(len(faces), ahead_of))

    def rod(self, start: ArrayLike, end: ArrayLike, role: str, *, width_m: float, pieces: int = 1) -> None:
        """Add a rod, cut into pieces."""
        share = np.linspace(0.0, 1.0, pieces + 1)[:, None]
        chain = np.asarray(start, dtype=float) * (1.0 - share) + np.asarray(end, dtype=float) * share
        number = self._roles.setdefault(role, len(self._roles))
        self._rods.append((np.stack([chain[:-1], chain[1:]], axis=1), number, width_m))

    def solid(self) -> Solid:
        """Return what was gathered."""
        corners = np.concatenate(self._corners)
        rods = [piece for piece, _, _ in self._rods]
        counts = [len(piece) for piece in rods]
        return Solid(
            corners,
            tuple(self._roles),
            np.concatenate(self._role),
            np.concatenate(self._finish),
            np.concatenate(self._nearer),
            np.concatenate(self._ahead_of),
            np.concatenate(rods) if rods else np.empty((0, 2, 3)),
            np.repeat([number for _, number, _ in self._rods], counts).astype(np.intp),
            np.repeat([width for _, _, width in self._rods], counts).astype(float),
            {name: Hinge(np.concatenate(found), *self._axes[name]) for name, found in self._hinged.items()},
            _edges(corners),
        )


def _edges(corners: Numbers) -> Edges:
    """Return every edge once, corners at one place being one; what more than two faces share is no edge."""
    _, place = np.unique(np.round(corners / ALIKE_M).astype(np.int64), axis=0, return_inverse=True)
    first = np.arange(len(corners))
    second = first + 1 - 4 * (first % 4 == 3)
    ends = np.sort(np.stack([place.ravel()[first], place.ravel()[second]], axis=1), axis=1)
    real = ends[:, 0] != ends[:, 1]
    first, second, ends = first[real], second[real], ends[real]
    _, start, which, count = np.unique(ends, axis=0, return_index=True, return_inverse=True, return_counts=True)
    order = np.argsort(which.ravel(), kind="stable")
    last = order[np.cumsum(count) - 1]
    kept = count <= 2
    start, last, count = start[kept], last[kept], count[kept]
    faces = np.stack([first[start] // 4, first[last] // 4], axis=1)
    return Edges(np.stack([first[start], second[start]], axis=1), faces, count == 1)
