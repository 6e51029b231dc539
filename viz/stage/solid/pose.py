"""A solid in a pose: its places and its faces, with the parts that are hinged turned."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

    Numbers = NDArray[np.float64]


class Pose(NamedTuple):
    """Corners of faces, each once [m], and middles [m] and unit normals of the faces, in body axes, shape (n, 3)."""

    places: Numbers
    middles: Numbers
    normals: Numbers


class Turning(NamedTuple):
    """What turns about hinges, of all points of a pose in one array: places, then middles, then normals.

    A point that turns by an angle is at the middle of its circle, plus `aside` times the cosine of the angle, plus
    `across` times the sine. `which` numbers the name of its hinge.
    """

    names: tuple[str, ...]
    rows: NDArray[np.intp]
    which: NDArray[np.intp]
    middle: Numbers
    aside: Numbers
    across: Numbers

    def turned(self, rest: Numbers, angles: Mapping[str, float]) -> Numbers:
        """Return all points of a pose from those at rest, turned right-handed [rad]."""
        angle = np.array([angles.get(name, 0.0) for name in self.names])
        if not angle.any():
            return rest
        points = rest.copy()
        cosine, sine = np.cos(angle)[self.which, None], np.sin(angle)[self.which, None]
        points[self.rows] = self.middle + cosine * self.aside + sine * self.across
        return points


def turning(axes: Mapping[str, tuple[Numbers, Numbers]], rest: Pose, hinge: tuple[ArrayLike, ArrayLike]) -> Turning:
    """Return what turns.

    Parameters
    ----------
    axes : mapping of (array, array)
        Origin [m] and axis of each hinge by its name.
    rest : Pose
        With nothing turned.
    hinge : two arrays of int
        Number of the hinge of each place and of each face, negative for none.
    """
    of_place, of_face = (np.asarray(each, dtype=np.intp) for each in hinge)
    of_row = np.concatenate([of_place, of_face, of_face])
    rows = np.flatnonzero(of_row >= 0)
    which = of_row[rows]
    origins = np.array([origin for origin, _ in axes.values()]).reshape(-1, 3)[which]
    along = np.array([axis / np.linalg.norm(axis) for _, axis in axes.values()]).reshape(-1, 3)[which]
    origins[rows >= len(of_place) + len(of_face)] = 0.0
    out = np.concatenate(rest)[rows] - origins
    held = np.einsum("ij,ij->i", out, along)[:, None] * along
    return Turning(tuple(axes), rows, which, origins + held, out - held, np.cross(along, out))
