"""Gyroscopic couple of a rotor whose shaft is swung round: the moment it puts on the airframe."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

import numpy as np

from sim.answer import Answer
from sim.frames import Effect, nose_effect

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray


@dataclass(frozen=True, slots=True)
class Couple(Answer):
    """What a spinning rotor does to the airframe at given pitch and yaw rates.

    Attributes
    ----------
    angular_momentum_kg_m2_s : float
        Spin momentum along the shaft, clockwise from the cockpit positive. [kg m²/s]
    precession_rad_s : float
        Size of the rate at which the shaft is swung round. [rad/s]
    couple_n_m : float
        Size of the couple, mean over a turn of the propeller. [N m]
    peak_couple_n_m : float
        Largest couple within a turn: twice the mean for two blades, else the mean. [N m]
    pitch_n_m, yaw_n_m : float
        Mean moment on the airframe, nose up and nose right positive. [N m]
    effect : str
        The larger of the two in the pilot's words.
    """

    angular_momentum_kg_m2_s: float
    precession_rad_s: float
    couple_n_m: float
    peak_couple_n_m: float
    pitch_n_m: float
    yaw_n_m: float
    effect: Effect


def couple(spin_momentum_kg_m2_s: float, *, pitch_rate_rad_s: float, yaw_rate_rad_s: float, blades: int = 3) -> Couple:
    """Return the couple −ω × h of a rotor with its shaft along the airplane's x axis.

    Parameters
    ----------
    spin_momentum_kg_m2_s : float
        Spin momentum h, clockwise from the cockpit positive. [kg m²/s]
    pitch_rate_rad_s : float
        Nose up positive. [rad/s]
    yaw_rate_rad_s : float
        Nose right positive. [rad/s]
    blades : int
        Blades of the propeller. One or two make the couple pulse between nothing and twice the mean twice a turn;
        three or more evenly spaced blades make it steady. The whole of h is taken to pulse, which is the bound
        that EASA CS-23 AMC 23.371 uses; a rotary's evenly spaced cylinders make its own share steady.

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
    pitch_n_m = 0.0 - spin_momentum_kg_m2_s * yaw_rate_rad_s
    yaw_n_m = spin_momentum_kg_m2_s * pitch_rate_rad_s
    mean_n_m = hypot(pitch_n_m, yaw_n_m)
    return Couple(
        angular_momentum_kg_m2_s=spin_momentum_kg_m2_s,
        precession_rad_s=hypot(pitch_rate_rad_s, yaw_rate_rad_s),
        couple_n_m=mean_n_m,
        peak_couple_n_m=mean_n_m * (2.0 if blades <= 2 else 1.0),
        pitch_n_m=pitch_n_m,
        yaw_n_m=yaw_n_m,
        effect=nose_effect(pitch_n_m, yaw_n_m),
    )


def two_blade_factors(blade_angle_rad: ArrayLike) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return how the mean couple of a two-blade propeller is multiplied at a blade angle.

    Parameters
    ----------
    blade_angle_rad : array_like
        Angle x of a blade from the plane in which the shaft is swung, any shape. [rad]

    Returns
    -------
    tuple of ndarray
        1 − cos 2x for the axis of the mean couple, −sin 2x for the axis across it, a quarter turn clockwise from it
        as seen from the cockpit (yaw where the mean is in pitch); same shape.

    References
    ----------
    Bevan, The Theory of Machines, chapter 2, Example 13.
    """
    double = 2.0 * np.asarray(blade_angle_rad, dtype=float)
    return 1.0 - np.cos(double), -np.sin(double)
