"""What of a solid is seen from a camera: posed, turned, culled, lit and sorted, all faces at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.shapes import Facets, Keyline, Outline
from viz.stage.solid.light import SUN, light, sunlit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.scenes.camera import Camera
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

UP: Final = np.array([0.0, 0.0, -1.0])
ROD_LIGHT: Final = 0.55, 0.45
"""Brightness of rods out of the sun, and what the sun high above adds."""
THINNEST_PX: Final = 0.9
KEYLINE: Final = 0.42
TAPE: Final = 1.25
"""Light of a silhouette and of a tape over that of their face: told apart from what lies behind whatever its colour."""


def seen(
    solid: Solid,
    figure: Figure,
    camera: Camera,
    *,
    turn: Numbers,
    place_m: Numbers | None = None,
    angles: Mapping[str, float] | None = None,
) -> Facets:
    """Return the faces and rods of a solid that a camera sees, the farthest first.

    Parameters
    ----------
    solid : Solid
        Of an airplane.
    figure : Figure
        That it is the solid of, for its shadows.
    camera : Camera
        Which sees it.
    turn : array, shape (3, 3)
        From body axes to north, east, down.
    place_m : array, shape (3,), optional
        Where it is, from the place that the camera is told from; there, where not given. [m]
    angles : mapping, optional
        How far parts are turned about their hinges. [rad]
    """
    away = np.zeros(3) if place_m is None else place_m
    pose = solid.posed(angles or {})
    eye, sun = (camera.eye_m - away) @ turn, SUN @ turn
    to_eye = eye - pose.middles
    front = np.flatnonzero((np.einsum("ij,ij->i", pose.normals, to_eye) > 0.0) & (eye[0] > solid.ahead_of))
    to_eye = to_eye[front]
    far = np.sqrt(np.einsum("ij,ij->i", to_eye, to_eye))
    given, glint = light(
        solid.finish[front],
        normals=pose.normals[front],
        to_eye=to_eye / far[:, None],
        sun=sun,
        up=UP @ turn,
        lit=sunlit(figure, pose.middles[front], sun),
    )
    flat = camera.project(camera.seen(pose.places @ turn.T + away))
    rods = camera.seen(solid.rods.reshape(-1, 3) @ turn.T + away)
    ends = camera.project(rods).reshape(-1, 2, 2)
    widths = np.maximum(solid.rod_width * camera.focal_px / rods[::2, 0], THINNEST_PX)
    rod_far = np.linalg.norm(eye - solid.rods.mean(axis=1), axis=1) - 0.02
    order = np.argsort(-np.concatenate([far - solid.nearer[front], rod_far]), kind="stable")
    bright = ROD_LIGHT[0] + ROD_LIGHT[1] * max(0.0, -float(sun[2]))
    return Facets(
        order,
        flat[solid.place[front]],
        solid.roles,
        np.concatenate([solid.role[front], solid.rod_role]),
        np.concatenate([given, np.full((len(ends), 3), bright)]),
        glint,
        _keylines(solid, front, flat, order),
        ends,
        widths,
    )


def _keylines(solid: Solid, front: NDArray[np.intp], flat: Numbers, order: NDArray[np.intp]) -> Keyline:
    """Return the edges where a face that is seen meets none that is seen, dark, and tapes between two that are."""
    edges = solid.edges
    number = np.full(len(solid.role), -1)
    number[front] = np.arange(len(front))
    one, other = number[edges.faces].T
    both = (one >= 0) & (other >= 0)
    dark = ((one >= 0) | (other >= 0)) & (edges.rim | ~both)
    drawn = np.flatnonzero(dark | (edges.taped & both))
    rank = np.empty(len(order), dtype=np.intp)
    rank[order] = np.arange(len(order))
    ranks = np.where(number[edges.faces[drawn]] >= 0, rank[number[edges.faces[drawn]]], -1)
    owner = np.where(ranks[:, 0] >= ranks[:, 1], one[drawn], other[drawn])
    return Keyline(owner, flat[edges.ends[drawn]], np.where(dark[drawn], KEYLINE, TAPE))


def outline(
    solid: Solid, camera: Camera, role: str, *, turn: Numbers, place_m: Numbers, angles: Mapping[str, float]
) -> Outline:
    """Return the silhouette of a solid; arguments as for `seen`."""
    flat = camera.project(camera.seen(solid.posed(angles).places @ turn.T + place_m))
    faces = flat[solid.place]
    across, down = faces[:, 2] - faces[:, 0], faces[:, 3] - faces[:, 1]
    front = across[:, 0] * down[:, 1] - across[:, 1] * down[:, 0] < 0.0
    one, other = front[solid.edges.faces].T
    edge = np.flatnonzero((one != other) | (solid.edges.rim & one))
    thick = solid.rods[solid.rod_width > 0.02].reshape(-1, 3)
    rods = camera.project(camera.seen(thick @ turn.T + place_m)).reshape(-1, 2, 2)
    return Outline(np.concatenate([flat[solid.edges.ends[edge]], rods]), role)
