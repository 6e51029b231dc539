"""The view over the cowl: where the nose, the propeller and the line of fire of the gun scene fall on a picture."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final, NamedTuple

import numpy as np

from viz.stage.gun_states import blurred, crossing, guns, told_of
from viz.stage.scenes.arcs import way
from viz.stage.scenes.camera import Camera
from viz.stage.solid.cam import chain_m, roller_m
from viz.stage.solid.gun_nose import CAM_X, CUT_X, MUZZLE_X, cowl_radius_m
from viz.stage.solid.parts import ring

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.live.figure_parts import Figure
    from viz.stage.gun_states import Crossing
    from viz.stage.shapes import Point, Rect
    from viz.stage.snapshot import BladesView

    Numbers = NDArray[np.float64]

TARGET: Final = np.array([-0.30, 0.0, 0.0])
EYE: Final = TARGET + 5.7 * np.array([-0.74, -0.66, -0.36]) / math.sqrt(0.74**2 + 0.66**2 + 0.36**2)
REACH: Final = 1.1
"""Radius of what is drawn about the disc, over that of the propeller."""
NOWHERE: Final = -99.0
CAMS_M: Final = 0.14, -0.38
"""How far forward the cams of two guns stand of where a single one does: that of the gun on the right first. [m]"""


@dataclass(frozen=True, slots=True, eq=False)
class OverCowl:
    """The view of one gun line on one rectangle; that of a second gun has the same camera.

    Attributes
    ----------
    camera : Camera
        In the axes of `viz.stage.solid.gun_nose`.
    figure : Figure
        Airplane without wings, whose shadows would fall elsewhere.
    sense : float
        +1 for a propeller that turns clockwise seen from behind, −1 for one that does not.
    bore_rad : float
        Where the line of fire is about the shaft, clockwise from straight up. [rad]
    bore_m, disc_m, cowl_m : float
        Its distance from the shaft, and radii of propeller and cowl. [m]
    cam_m : float
        How far forward the gun's cam stands of where that of a single gun does. [m]
    """

    camera: Camera
    figure: Figure
    sense: float
    bore_rad: float
    bore_m: float
    disc_m: float
    cowl_m: float
    cam_m: float = 0.0

    @property
    def line_yz_m(self) -> tuple[float, float]:
        """Line of fire, right of the shaft and below it [m]."""
        return self.bore_m * math.sin(self.bore_rad), -self.bore_m * math.cos(self.bore_rad)

    def turn_rad(self, propeller_rad: float) -> float:
        """Return how far the propeller has turned about x from blade 1 straight up, at a propeller angle [rad]."""
        return self.bore_rad + self.sense * propeller_rad

    def flat(self, points_m: Numbers) -> tuple[Point, ...]:
        """Return where points fall on the window, shape (n, 3)."""
        found = self.camera.project(self.camera.seen(points_m))
        return tuple((x, y) for x, y in found.tolist())

    def on_line(self, x_m: float) -> Point:
        """Return where a place on the line of fire falls, by its distance ahead of the disc [m]."""
        return self.flat(np.array([[x_m, *self.line_yz_m]]))[0]

    def on_disc(self, radius_m: float, angle_rad: float) -> Point:
        """Return where a place on the disc falls, by its angle clockwise from straight up."""
        return self.flat(ring(0.0, radius_m, np.array([angle_rad])))[0]

    def roller(self, lift: float) -> Point:
        """Return where the roller of the follower falls, raised by a share of the cam's lift."""
        return self.flat(roller_m(lift)[None] + np.array([self.cam_m, 0.0, 0.0]))[0]

    @property
    def bare_shaft(self) -> Point:
        """Return where the shaft falls on which the cam stands."""
        return self.flat(np.array([[CAM_X + self.cam_m, 0.0, 0.0]]))[0]

    def chain(self, lift: float) -> tuple[Point, ...]:
        """Return where roller, knee, trip and muzzle fall, the cam raised by a share of its lift."""
        places = chain_m(*self.line_yz_m, self.cowl_m, lift)
        places[:2, 0] += self.cam_m
        return self.flat(places)

    @property
    def bulkhead(self) -> Point:
        """Return where the fuselage is closed again behind the cut, on its left side."""
        return self.flat(np.array([[CUT_X[1], -0.9 * self.cowl_m, 0.0]]))[0]

    @property
    def muzzle(self) -> Point:
        """Return where the muzzle falls."""
        return self.on_line(MUZZLE_X)


class SeenGun(NamedTuple):
    """A gun, where it falls on the picture, and how its rounds and the blades meet."""

    view: BladesView
    over: OverCowl
    meets: Crossing


def seen_guns(view: BladesView, gear: str, figure: Figure, rect: Rect) -> tuple[SeenGun, ...]:
    """Return every gun; where the blades are a blur it is not seen how a round meets them."""
    overs = lines_of_fire(view, figure, rect)
    return tuple(
        SeenGun(each, over, "none" if blurred(each) else crossing(each, gear))
        for each, over in zip(guns(view), overs, strict=True)
    )


def told(seen: tuple[SeenGun, ...], view: BladesView, gear: str) -> SeenGun:
    """Return the gun of which cam and ghost are told."""
    of = told_of(view, gear)
    return next(gun for gun in seen if gun.view is of)


def over_cowl(view: BladesView, figure: Figure, rect: Rect) -> OverCowl:
    """Return the view of the first gun line; both fill a rectangle."""
    return lines_of_fire(view, figure, rect)[0]


def lines_of_fire(view: BladesView, figure: Figure, rect: Rect) -> tuple[OverCowl, ...]:
    """Return the view of every gun line, the first gun's first, that together fill a rectangle."""
    sense = way(view.gun.line.rotation)
    bores = tuple((sense * each.gun.line.bore_turn_rad, each.bore_radius_m) for each in guns(view))
    return _over(rect, figure, sense, bores, disc_m=view.disc_radius_m)


@lru_cache(maxsize=8)
def _over(
    rect: Rect, figure: Figure, sense: float, bores: tuple[tuple[float, float], ...], *, disc_m: float
) -> tuple[OverCowl, ...]:
    body = replace(figure.body, nose_m=NOWHERE + 2.0, full_to_m=NOWHERE + 1.0, stern_m=NOWHERE)
    bare = replace(figure, wings=(), body=body)
    camera = _camera(rect, bores, disc_m)
    cowl_m = cowl_radius_m(figure.cylinders.outer_radius_m, min(bore_m for _, bore_m in bores))
    right_first = sorted(bores, key=lambda bore: -math.sin(bore[0]) * bore[1])
    return tuple(
        OverCowl(camera, bare, sense, *bore, disc_m, cowl_m, CAMS_M[right_first.index(bore)] if bores[1:] else 0.0)
        for bore in bores
    )


def _camera(rect: Rect, bores: tuple[tuple[float, float], ...], disc_m: float) -> Camera:
    sight = (TARGET - EYE) / np.linalg.norm(TARGET - EYE)
    right = np.cross([0.0, 0.0, 1.0], sight)
    right /= np.linalg.norm(right)
    basis = np.stack([sight, right, np.cross(sight, right)])
    eye = TARGET + (EYE - TARGET) * disc_m / 1.295
    rough = Camera(basis, eye, 1.0, (0.0, 0.0), rect)
    rim = ring(0.0, REACH * disc_m, np.linspace(0.0, math.tau, 60))
    rears = [[-2.2, bore_m * math.sin(bore), -bore_m * math.cos(bore) - 0.1] for bore, bore_m in bores]
    seen = rough.project(rough.seen(np.concatenate([rim, rears, [[-2.3, 0.0, 0.5]]])))
    low, high = seen.min(axis=0), seen.max(axis=0)
    focal = min(rect.w / (high[0] - low[0]), rect.h / (high[1] - low[1]))
    middle = 0.5 * (low + high)
    centre = (rect.center[0] - focal * middle[0], rect.center[1] - focal * middle[1])
    return Camera(basis, eye, float(focal), (float(centre[0]), float(centre[1])), rect)
