"""The cam's outline as a closed polygon within a stated chordal error."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from sim.display.cam_profile import Follower, RollerPath, roller_path
from sim.display.schedule import Schedule, lift_fraction

if TYPE_CHECKING:
    from sim.display.cam_profile import ComplexArray
    from sim.display.rise_laws import FloatArray

_FINE = 801


def path_at(
    schedule: Schedule, follower: Follower, angle_rad: FloatArray, *, lift_m: float, base_radius_m: float
) -> RollerPath:
    """Return the pitch curve of the whole cam at the given cam angles. [rad]."""
    lift, velocity, acceleration = lift_fraction(schedule, angle_rad)
    motion_m = (lift_m * lift, lift_m * velocity, lift_m * acceleration)
    return roller_path(follower, base_radius_m, angle_rad, motion_m)


def cut_angles(
    schedule: Schedule,
    follower: Follower,
    *,
    lift_m: float,
    base_radius_m: float,
    chord_error_m: float,
    inset_m: float,
) -> FloatArray:
    """Return the cam angles of the corners for one turn, spaced by the chordal error. [rad].

    Parameters
    ----------
    schedule : Schedule
        Law, lobes and dwells.
    follower : Follower
        Slide or arm.
    lift_m, base_radius_m : float
        Full lift, and radius with the follower down. [m]
    chord_error_m : float
        Largest distance between a chord and the curve. [m]
    inset_m : float
        Offset of the polygon inward from the pitch curve: the roller's radius for the outline, roller less cutter for
        the cutter's path. [m]

    Notes
    -----
    The chordal error of a chord of length l on a curve of curvature κ is l² κ/8; the corners are spaced so that all
    chords have the same. Where the curve is nearly straight, chords are as long as on ten times the base circle.
    """
    turns = np.append(schedule.breaks(), schedule.breaks()[0] + 2.0 * np.pi)
    pieces: list[FloatArray] = []
    for start, end in pairwise(turns):
        fine = np.linspace(start, end, _FINE)
        inside = np.clip(fine, start + 1e-9, end - 1e-9).astype(np.float64)
        path = path_at(schedule, follower, inside, lift_m=lift_m, base_radius_m=base_radius_m)
        left = 1.0 - inset_m * path.curvature_per_m
        curvature = np.maximum(np.abs(path.curvature_per_m / left), 0.1 / base_radius_m)
        density = path.arc_rate_m * np.abs(left) * np.sqrt(curvature / (8.0 * 0.8 * chord_error_m))
        count = np.concatenate([[0.0], np.cumsum((density[1:] + density[:-1]) / 2.0 * np.diff(fine))])
        cuts = max(4, int(np.ceil(count[-1])))
        even = count[-1] * np.arange(cuts, dtype=np.float64) / cuts
        pieces.append(np.array(np.interp(even, count, fine), dtype=np.float64))
    return np.concatenate(pieces)


def points(curve: ComplexArray) -> FloatArray:
    """Return a curve as rows of x and y, anticlockwise. [m]."""
    rows: FloatArray = np.stack([curve.real, curve.imag], axis=-1).astype(np.float64)[::-1]
    return rows


def area(corners: FloatArray) -> float:
    """Return the area of a polygon, anticlockwise positive. [m²].

    Examples
    --------
    >>> area(np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 1.0], [0.0, 1.0]]))
    2.0
    """
    x, y = corners.T
    return float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) / 2.0)
