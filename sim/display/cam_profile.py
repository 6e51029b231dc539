"""The pitch curve of a cam with a roller follower, and its pressure angle.

The cam turns anticlockwise as drawn; every curve is given in axes fixed to the cam as complex numbers x + i y, and
is traversed clockwise as the cam angle grows.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.display.rise_laws import FloatArray

    ComplexArray = NDArray[np.complexfloating[Any, Any]]

FollowerKind = Literal["translating", "swinging"]


@dataclass(frozen=True, slots=True)
class Follower:
    """A roller on a slide or on an arm.

    Attributes
    ----------
    kind : str
        ``translating`` on a slide along y, or ``swinging`` on an arm about a pivot on the x axis.
    roller_radius_m : float
        Radius of the roller. [m]
    offset_m : float
        Distance of the slide's line from the cam's centre, positive to the right; 0 is in line. [m]
    arm_m, pivot_m : float
        Swinging only: pivot to roller centre, and pivot to cam centre. [m]
    """

    kind: FollowerKind
    roller_radius_m: float
    offset_m: float = 0.0
    arm_m: float = 0.0
    pivot_m: float = 0.0


@dataclass(frozen=True, slots=True)
class RollerPath:
    """The pitch curve, point by point; arrays of any shape.

    Attributes
    ----------
    centre_m : array of complex
        Roller centre in the cam's axes. [m]
    normal : array of complex
        Unit normal of the pitch curve there, pointing away from the cam.
    arc_rate_m : array
        Arc length of the pitch curve per radian of cam. [m]
    curvature_per_m : array
        Curvature of the pitch curve, positive where it is convex. [1/m]
    pressure_angle_rad : array
        Angle between the force of the cam and the direction in which the roller can move, signed. [rad]
    """

    centre_m: ComplexArray
    normal: ComplexArray
    arc_rate_m: FloatArray
    curvature_per_m: FloatArray
    pressure_angle_rad: FloatArray


def rest_angle(follower: Follower, base_radius_m: float | FloatArray) -> FloatArray:
    """Return the angle at the pivot between arm and line of centres while the roller is on the base circle. [rad].

    It is not-a-number where arm, pivot distance and base circle form no triangle: such a cam fails every check.
    """
    prime_m = np.asarray(base_radius_m) + follower.roller_radius_m
    cosine = (follower.pivot_m**2 + follower.arm_m**2 - prime_m**2) / (2.0 * follower.pivot_m * follower.arm_m)
    reached = np.abs(cosine) < 1.0
    return np.where(reached, np.arccos(np.where(reached, cosine, 0.0)), np.nan)


def _in_machine(
    follower: Follower, base_radius_m: float | FloatArray, motion_m: tuple[FloatArray, FloatArray, FloatArray]
) -> tuple[ComplexArray, ComplexArray, ComplexArray, ComplexArray]:
    """Return roller centre, its first two derivatives by cam angle and its direction of rise, in fixed axes.

    The direction is a complex number of size 1, one for all angles of a slide.
    """
    lift, velocity, acceleration = motion_m
    if follower.kind == "translating":
        square = (np.asarray(base_radius_m) + follower.roller_radius_m) ** 2 - follower.offset_m**2
        rest = np.sqrt(np.where(square > 0.0, square, np.nan))
        upward: ComplexArray = np.full(1, 1j)
        centre: ComplexArray = follower.offset_m + 1j * (rest + lift)
        return centre, 1j * velocity, 1j * acceleration, upward
    arm = follower.arm_m
    swung = np.exp(-1j * (rest_angle(follower, base_radius_m) + lift / arm))
    second = (1j * acceleration / arm + (velocity / arm) ** 2) * arm * swung
    return follower.pivot_m - arm * swung, 1j * velocity * swung, second, 1j * swung


def roller_path(
    follower: Follower,
    base_radius_m: float | FloatArray,
    angle_rad: FloatArray,
    motion_m: tuple[FloatArray, FloatArray, FloatArray],
) -> RollerPath:
    """Return the pitch curve of a cam.

    Parameters
    ----------
    follower : Follower
        Slide or arm.
    base_radius_m : float or array
        Radius of the cam where the follower is down. [m]
    angle_rad : array
        Cam angle. [rad]
    motion_m : tuple of array
        Lift of the roller along its own path at that angle, and its first and second derivative by the angle. [m]

    Notes
    -----
    Slide: tan φ = (s' − e)/(s + √((Rb + Rr)² − e²)). Arm: tan φ = (a + s' − c cos ψ)/(c sin ψ) with ψ the angle at
    the pivot between arm and line of centres. The code takes both from the tangent; the tests check it against these
    formulas.

    References
    ----------
    Norton, Design of Machinery, chapter 8.
    """
    centre, velocity, acceleration, rising = _in_machine(follower, base_radius_m, motion_m)
    turned = np.exp(-1j * angle_rad)
    tangent = velocity - 1j * centre
    length = np.abs(tangent)
    with np.errstate(invalid="ignore", divide="ignore"):
        normal = 1j * tangent / length
        curved = -np.imag(np.conj(tangent) * (acceleration - 2j * velocity - centre)) / length**3
        pressure_angle = np.angle(normal * np.conj(rising))
    return RollerPath(
        centre_m=centre * turned,
        normal=normal * turned,
        arc_rate_m=length,
        curvature_per_m=curved,
        pressure_angle_rad=pressure_angle,
    )


def profile(path: RollerPath, roller_radius_m: float) -> ComplexArray:
    """Return the cam's outline: the pitch curve offset inward by the roller's radius. [m]."""
    return path.centre_m - roller_radius_m * path.normal


def cutter_path(path: RollerPath, roller_radius_m: float, cutter_radius_m: float) -> ComplexArray:
    """Return the path of a cutter's centre: the outline offset outward by the cutter's radius. [m]."""
    return path.centre_m + (cutter_radius_m - roller_radius_m) * path.normal


def roller_speed(path: RollerPath, roller_radius_m: float, cam_rad_s: float) -> FloatArray:
    """Return the speed of the roller about its pin while it rolls without slip. [rad/s]."""
    return cam_rad_s * (path.arc_rate_m / roller_radius_m - 1.0)


def switch_error(lift_m: float, velocity_peak: float, rise_rad: float, error_m: float) -> float:
    """Return the cam angle by which a lamp switch set `error_m` too high or too low is late or early. [rad].

    The switch changes over at half lift, where the slope of every law of this package is largest.
    """
    slope = lift_m * velocity_peak / rise_rad
    return error_m / slope if slope > 0.0 else math.inf
