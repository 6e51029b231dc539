"""Faces and rods of a solid, gathered by skins between rows of points; parts of it turn about hinges."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from viz.stage.solid.pose import Pose, Turning, turning

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import ArrayLike, NDArray

    Numbers = NDArray[np.float64]

FABRIC, METAL, MATT, BARE = range(4)
"""Finishes: cloth that lets a low sun through, metal that glints, what does neither, and what no light changes."""
NO_HINGE = -1
ALIKE_M = 1e-3
"""Corners nearer than this are one where edges are looked for [m]."""


class Edges(NamedTuple):
    """Edges of a solid: ends as places, the faces beside it (the same twice at a rim), whether a rim, whether taped."""

    ends: NDArray[np.intp]
    faces: NDArray[np.intp]
    rim: NDArray[np.bool_]
    taped: NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Solid:
    """A solid in body axes: x forward, y right, z down [m].

    Attributes
    ----------
    points : array, shape (m + 2 n, 3)
        Places of corners, each once, middles of faces, and their normals, outward; with nothing turned. [m]
    place : array of int, shape (n, 4)
        Places of the corners of each face, in order round it.
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
    turning : Turning
        What turns about hinges.
    edges : Edges
        Where two faces meet, and rims.
    """

    points: Numbers
    place: NDArray[np.intp]
    roles: tuple[str, ...]
    role: NDArray[np.intp]
    finish: NDArray[np.intp]
    nearer: Numbers
    ahead_of: Numbers
    rods: Numbers
    rod_role: NDArray[np.intp]
    rod_width: Numbers
    turning: Turning
    edges: Edges

    def posed(self, angles: Mapping[str, float]) -> Pose:
        """Return it with parts turned about their hinges, right-handed [rad]."""
        places, faces = len(self.points) - 2 * len(self.role), len(self.role)
        points = self.turning.turned(self.points, angles)
        return Pose(points[:places], points[places : places + faces], points[places + faces :])


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
    """Return the normal of each face from its corners, shape (n, 4, 3), of unit length, zero where it has no area."""
    found = np.cross(corners[:, 2] - corners[:, 0], corners[:, 3] - corners[:, 1])
    return np.asarray(found / np.maximum(np.linalg.norm(found, axis=1), 1e-12)[:, None])


class Builder:
    """Gathers skins and rods; the rods whole, where their order among the faces does not matter."""

    def __init__(self, *, whole_rods: bool = False) -> None:
        self._whole_rods = whole_rods
        self._taped: list[NDArray[np.bool_]] = []
        self._corners: list[Numbers] = []
        self._role: list[NDArray[np.intp]] = []
        self._finish: list[NDArray[np.intp]] = []
        self._nearer: list[Numbers] = []
        self._ahead_of: list[Numbers] = []
        self._rods: list[tuple[Numbers, int, float]] = []
        self._roles: dict[str, int] = {}
        self._hinged: list[NDArray[np.intp]] = []
        self._axes: dict[str, tuple[Numbers, Numbers]] = {}

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
        taped: Sequence[bool] | NDArray[np.bool_] | None = None,
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
        taped : sequence of n bool, optional
            Rows along which a tape runs.
        """
        grid = np.asarray(rows, dtype=float)
        faces = np.stack([grid[:-1, :-1], grid[:-1, 1:], grid[1:, 1:], grid[1:, :-1]], axis=2)
        across = faces.shape[1]
        inside = np.broadcast_to(np.asarray(within, dtype=float), (*faces.shape[:2], 3)).reshape(-1, 3)
        faces = faces.reshape(-1, 4, 3)
        away = np.einsum("ij,ij->i", normals(faces), faces.mean(axis=1) - inside) < 0.0
        faces[away] = faces[away, ::-1]
        tapes = np.zeros((len(faces), 4), dtype=bool)
        if taped is not None:
            tapes[:, 0], tapes[:, 2] = (np.repeat(row, across) for row in (taped[:-1], taped[1:]))
        tapes[away] = tapes[away][:, [2, 1, 0, 3]]  # an edge is from its corner to the next, which turn round as well
        self._taped.append(tapes)
        names = [roles] * (len(grid) - 1) if isinstance(roles, str) else list(roles)
        numbers = [self._roles.setdefault(name, len(self._roles)) for name in names]
        self._hinged.append(np.full(len(faces), list(self._axes).index(hinge) if hinge else NO_HINGE))
        self._corners.append(faces.reshape(-1, 3))
        self._role.append(np.repeat(numbers, across))
        self._finish.append(np.full(len(faces), finish))
        self._nearer.append(np.full(len(faces), nearer))
        self._ahead_of.append(np.full(len(faces), ahead_of))

    def rod(self, start: ArrayLike, end: ArrayLike, role: str, *, width_m: float, pieces: int = 1) -> None:
        """Add a rod, cut into pieces."""
        share = np.linspace(0.0, 1.0, (1 if self._whole_rods else pieces) + 1)[:, None]
        chain = np.asarray(start, dtype=float) * (1.0 - share) + np.asarray(end, dtype=float) * share
        number = self._roles.setdefault(role, len(self._roles))
        self._rods.append((np.stack([chain[:-1], chain[1:]], axis=1), number, width_m))

    def solid(self) -> Solid:
        """Return what was gathered."""
        corners, hinged = np.concatenate(self._corners), np.concatenate(self._hinged)
        kinds = np.concatenate([corners, np.repeat(hinged, 4)[:, None]], axis=1)
        unique, place = np.unique(kinds, axis=0, return_inverse=True)
        places, place = unique[:, :3], place.reshape(-1, 4)
        faces = places[place]
        rest = Pose(places, faces.mean(axis=1), normals(faces))
        rods = [piece for piece, _, _ in self._rods]
        counts = [len(piece) for piece in rods]
        return Solid(
            np.concatenate(rest),
            place,
            tuple(self._roles),
            np.concatenate(self._role),
            np.concatenate(self._finish),
            np.concatenate(self._nearer),
            np.concatenate(self._ahead_of),
            np.concatenate(rods) if rods else np.empty((0, 2, 3)),
            np.repeat([number for _, number, _ in self._rods], counts).astype(np.intp),
            np.repeat([width for _, _, width in self._rods], counts).astype(float),
            turning(self._axes, rest, (unique[:, 3], hinged)),
            _edges(places, place, np.concatenate(self._taped)),
        )


def _edges(places: Numbers, place: NDArray[np.intp], taped: NDArray[np.bool_]) -> Edges:
    """Return every edge once, places nearly at one spot being one; what more than two faces share is no edge."""
    _, spot = np.unique(np.round(places / ALIKE_M).astype(np.int64), axis=0, return_inverse=True)
    start, end = place.ravel(), np.roll(place, -1, axis=1).ravel()
    ends = np.sort(spot.ravel()[np.stack([start, end], axis=1)], axis=1)
    real = np.flatnonzero(ends[:, 0] != ends[:, 1])
    start, end, ends = start[real], end[real], ends[real]
    _, first, which, count = np.unique(ends, axis=0, return_index=True, return_inverse=True, return_counts=True)
    order = np.argsort(which.ravel(), kind="stable")
    last = order[np.cumsum(count) - 1]
    tape = np.bincount(which.ravel(), taped.ravel()[real]) > 0.0
    kept = count <= 2
    first, last, count = first[kept], last[kept], count[kept]
    faces = np.stack([real[first] // 4, real[last] // 4], axis=1)
    return Edges(np.stack([start[first], end[first]], axis=1), faces, count == 1, tape[kept])
