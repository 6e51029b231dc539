"""Gyroscopic couple: the moment of a rotor on the airframe when its shaft changes direction."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

import numpy as np

from sim.answer import Answer
from sim.frames import Effect, nose_effect

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from sim.numerics.number import Number


@dataclass(frozen=True, slots=True)
class Couple(Answer):
    """Gyroscopic couple of a rotor at given pitch and yaw rates.

    Attributes
    ----------
    angular_momentum_kg_m2_s : float
        Angular momentum along the shaft, clockwise from the cockpit positive. [kg m²/s]
    precession_rad_s : float
        Magnitude of the angular velocity of the shaft's direction. [rad/s]
    couple_n_m : float
        Magnitude of the couple, mean over a propeller revolution. [N m]
    peak_couple_n_m : float
        Largest couple within a revolution: twice the mean for two blades, otherwise the mean. [N m]
    pitch_n_m, yaw_n_m : float
        Mean moment on the airframe, nose up and nose right positive. [N m]
    effect : str
        The larger of the two in words.
    """

    angular_momentum_kg_m2_s: float
    precession_rad_s: float
    couple_n_m: float
    peak_couple_n_m: float
    pitch_n_m: float
    yaw_n_m: float
    effect: Effect


def couple(
    angular_momentum_kg_m2_s: float, *, pitch_rate_rad_s: float, yaw_rate_rad_s: float, blades: int = 3
) -> Couple:
    """Return the couple −ω × h of a rotor with its shaft along the airplane's x axis.

    Parameters
    ----------
    angular_momentum_kg_m2_s : float
        Angular momentum h, clockwise from the cockpit positive. [kg m²/s]
    pitch_rate_rad_s : float
        Nose up positive. [rad/s]
    yaw_rate_rad_s : float
        Nose right positive. [rad/s]
    blades : int
        Blades of the propeller. With one or two the couple varies between zero and twice the mean, twice per
        revolution; with three or more evenly spaced blades it is constant. The whole of h is taken to vary, the bound
        that EASA CS-23 AMC 23.371 uses; the part of a rotary's evenly spaced cylinders is constant in fact.

    Notes
    -----
    Right turn, clockwise rotor: nose down. Left turn: nose up. Nose pulled up: nose swings right.

    References
    ----------
    Etkin & Reid, Dynamics of Flight, section 4.6; Bevan, The Theory of Machines, chapter 2, for two blades.

    Examples
    --------
    >>> couple(200.0, pitch_rate_rad_s=0.0, yaw_rate_rad_s=0.5).pitch_n_m
    -100.0
    """
    pitch_n_m, yaw_n_m = gyroscopic_moment(angular_momentum_kg_m2_s, pitch_rate_rad_s, yaw_rate_rad_s)
    mean_n_m = hypot(pitch_n_m, yaw_n_m)
    return Couple(
        angular_momentum_kg_m2_s=angular_momentum_kg_m2_s,
        precession_rad_s=hypot(pitch_rate_rad_s, yaw_rate_rad_s),
        couple_n_m=mean_n_m,
        peak_couple_n_m=mean_n_m * (2.0 if blades <= 2 else 1.0),
        pitch_n_m=pitch_n_m,
        yaw_n_m=yaw_n_m,
        effect=nose_effect(pitch_n_m, yaw_n_m),
    )


def gyroscopic_moment(
    angular_momentum_kg_m2_s: Number, pitch_rate_rad_s: Number, yaw_rate_rad_s: Number
) -> tuple[Number, Number]:
    """Return the moment −ω × h on the airframe, nose up and nose right positive, of numbers or arrays [N m].

    Parameters
    ----------
    angular_momentum_kg_m2_s : float or array
        Along the shaft, clockwise from the cockpit positive. [kg m²/s]
    pitch_rate_rad_s, yaw_rate_rad_s : float or array
        Nose up and nose right positive. [rad/s]
    """
    return 0.0 - angular_momentum_kg_m2_s * yaw_rate_rad_s, angular_momentum_kg_m2_s * pitch_rate_rad_s


def two_blade_factors(blade_angle_rad: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return the couple of a two-blade propeller at a blade angle, relative to its mean.

    Parameters
    ----------
    blade_angle_rad : array_like
        Angle x of a blade from the plane in which the shaft turns, any shape. [rad]

    Returns
    -------
    tuple of ndarray
        1 − cos 2x about the axis of the mean couple, −sin 2x about the axis a quarter turn clockwise from it
        as seen from the cockpit (yaw where the mean is in pitch); same shape.

    References
    ----------
    Bevan, The Theory of Machines, chapter 2, Example 13.
    """
    double = 2.0 * np.asarray(blade_angle_rad, dtype=float)
    return 1.0 - np.cos(double), -np.sin(double)
