"""Faces and struts of a solid, and what of them is seen from a camera: turned, lit, culled and sorted, all at once."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from viz.stage.shapes import Line, Polygon, Shape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from viz.stage.scenes.camera import Camera

    Place = tuple[float, float, float]

SUN = np.array([-0.35, -0.45, -0.82]) / math.sqrt(0.35**2 + 0.45**2 + 0.82**2)
"""Where the light comes from, as a direction north, east, down."""
SHADOW, LIT = 0.5, 0.55
"""Brightness of a face turned away from the light, and what full light adds."""


@dataclass(frozen=True, slots=True)
class Mesh:
    """Corners, faces of four corners each with normal and role, and struts of two corners."""

    corners_m: NDArray[np.float64]
    faces: NDArray[np.intp]
    normals: NDArray[np.float64]
    roles: tuple[str, ...]
    struts: NDArray[np.intp]


class Builder:
    """Gathers faces and struts, corners given in order clockwise as seen from outside."""

    def __init__(self) -> None:
        self._corners: list[Place] = []
        self._faces: list[list[int]] = []
        self._roles: list[str] = []
        self._struts: list[list[int]] = []

    def _add(self, corners: Sequence[Place]) -> list[int]:
        first = len(self._corners)
        self._corners.extend(corners)
        return list(range(first, first + len(corners)))

    def face(self, corners: Sequence[Place], role: str) -> None:
        """Add a face of four corners, seen from one side."""
        self._faces.append(self._add(corners))
        self._roles.append(role)

    def plate(self, corners: Sequence[Place], role: str) -> None:
        """Add a thin plate of four corners, seen from both sides."""
        self.face(corners, role)
        self.face(list(reversed(corners)), role)

    def slab(self, inner: Sequence[Place], outer: Sequence[Place], right: bool, *, end: bool) -> None:
        """Add a wing panel between two sections of front top, back top, back bottom, front bottom."""
        roles = ("wing", "wing", "wing_under", "wing")
        for step, role in enumerate(roles):
            other = (step + 1) % 4
            corners = [inner[step], outer[step], outer[other], inner[other]]
            self.face(corners if right else list(reversed(corners)), role)
        if end:
            tip = [outer[0], outer[3], outer[2], outer[1]]
            self.face(tip if right else list(reversed(tip)), "wing")

    def strut(self, one: Place, other: Place) -> None:
        """Add a strut."""
        self._struts.append(self._add([one, other]))

    def mesh(self) -> Mesh:
        """Return what was gathered, with the normals worked out."""
        corners, faces = np.array(self._corners), np.array(self._faces)
        at = corners[faces]
        normals = np.cross(at[:, 3] - at[:, 1], at[:, 2] - at[:, 0])
        normals /= np.linalg.norm(normals, axis=1, keepdims=True)
        return Mesh(corners, faces, normals, tuple(self._roles), np.array(self._struts))


def seen(mesh: Mesh, camera: Camera, turn: NDArray[np.float64], strut_px: float) -> list[Shape]:
    """Return the shapes of a solid turned by the matrix body to earth, farthest first.

    Faces that look away are left out; what stays is sorted by its depth and lit by the sun.
    """
    points = camera.seen(mesh.corners_m @ turn.T)
    flat = camera.project(points)
    at = flat[mesh.faces]
    across, down = at[:, 2] - at[:, 0], at[:, 3] - at[:, 1]
    front = np.flatnonzero(across[:, 0] * down[:, 1] - across[:, 1] * down[:, 0] > 0.0)
    depth = points[:, 0]
    depths = np.concatenate([depth[mesh.faces[front]].mean(axis=1), depth[mesh.struts].mean(axis=1)])
    light = SHADOW + LIT * np.clip(mesh.normals[front] @ (turn.T @ SUN), 0.0, 1.0)
    corners, shades, ends = at[front].tolist(), light.tolist(), flat[mesh.struts].tolist()
    kinds = front.tolist()
    shapes: list[Shape] = []
    for place in np.argsort(-depths).tolist():
        if place < len(kinds):
            shapes.append(Polygon(corners[place], mesh.roles[kinds[place]], shades[place]))
        else:
            shapes.append(Line(ends[place - len(kinds)], "strut", strut_px, smooth=False))
    return shapes
