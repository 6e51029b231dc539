"""The drive of the display: force at a crank, energy of the propeller, a motor with a slip clutch."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

DriveKind = Literal["crank", "motor"]

CLUTCH_FACTOR = 1.5
"""Setting of a slip clutch over the largest torque of a turn (common practice)."""


@dataclass(frozen=True, slots=True)
class DisplayPropeller:
    """The scaled propeller that visitors see turning.

    Attributes
    ----------
    diameter_m : float
        Tip circle. [m]
    mass_kg : float
        All blades and hub. [kg]
    top_speed_rad_s : float
        Highest speed. [rad/s]
    """

    diameter_m: float
    mass_kg: float
    top_speed_rad_s: float

    @property
    def polar_inertia_kg_m2(self) -> float:
        """Slender blades of constant section, m R²/3. [kg m²]."""
        return self.mass_kg * (self.diameter_m / 2.0) ** 2 / 3.0

    @property
    def tip_speed_m_s(self) -> float:
        """Speed of a blade tip at top speed. [m/s]."""
        return self.top_speed_rad_s * self.diameter_m / 2.0

    @property
    def kinetic_energy_j(self) -> float:
        """Energy of the propeller at top speed. [J]."""
        return self.polar_inertia_kg_m2 * self.top_speed_rad_s**2 / 2.0


@dataclass(frozen=True, slots=True)
class Handle:
    """A hand crank or a geared motor.

    Attributes
    ----------
    kind : str
        ``crank`` or ``motor``.
    crank_radius_m : float
        Shaft to grip. [m]
    gear : float
        Turns of the propeller per turn of crank or motor.
    axis_height_m : float
        Crank shaft above the floor. [m]
    friction_torque_n_m : float
        Bearings, at the propeller shaft. [N m]
    most_force_n : float
        Largest force the builder allows at the grip. [N]
    """

    kind: DriveKind
    crank_radius_m: float
    gear: float
    axis_height_m: float
    friction_torque_n_m: float
    most_force_n: float


@dataclass(frozen=True, slots=True)
class Drive:
    """What hand or motor has to give, and what the propeller stores.

    Attributes
    ----------
    shaft_torque_n_m : float
        Largest torque at the propeller shaft. [N m]
    torque_n_m : float
        Largest torque at crank or motor. [N m]
    crank_force_n : float
        Largest force at the grip. [N]
    speed_fluctuation : float
        Speed fluctuation of the propeller over a lobe at top speed and constant torque, over the mean.
    clutch_n_m : float
        Torque at the propeller shaft at which a slip clutch must slip. [N m]
    tip_force_n : float
        Force of a blade tip at which the clutch slips. [N]
    tip_speed_m_s, kinetic_energy_j : float
        Speed of a blade tip, and energy of the propeller, at top speed. [m/s], [J]
    motor_power_w : float
        Power of a motor at top speed and largest torque. [W]
    """

    shaft_torque_n_m: float
    torque_n_m: float
    crank_force_n: float
    speed_fluctuation: float
    clutch_n_m: float
    tip_force_n: float
    tip_speed_m_s: float
    kinetic_energy_j: float
    motor_power_w: float


def drive(
    propeller: DisplayPropeller, handle: Handle, *, cam_torque_n_m: float, cam_ratio: float, rise_energy_j: float
) -> Drive:
    """Return torque, force and power that turn the display.

    Parameters
    ----------
    propeller, handle : DisplayPropeller, Handle
        What is turned, and by what.
    cam_torque_n_m : float
        Largest torque on the cam. [N m]
    cam_ratio : float
        Turns of the cam per turn of the propeller.
    rise_energy_j : float
        Energy a rise puts into the spring, given back on the fall. [J]

    Notes
    -----
    Gears are taken as free of loss; their loss belongs to the friction torque. The propeller acts as a flywheel: the
    speed fluctuation is the energy of a rise over I ω².
    """
    shaft = handle.friction_torque_n_m + cam_ratio * cam_torque_n_m
    radius = propeller.diameter_m / 2.0
    clutch = CLUTCH_FACTOR * shaft
    return Drive(
        shaft_torque_n_m=shaft,
        torque_n_m=shaft * handle.gear,
        crank_force_n=shaft * handle.gear / handle.crank_radius_m,
        speed_fluctuation=rise_energy_j / (2.0 * propeller.kinetic_energy_j),
        clutch_n_m=clutch,
        tip_force_n=clutch / radius,
        tip_speed_m_s=propeller.tip_speed_m_s,
        kinetic_energy_j=propeller.kinetic_energy_j,
        motor_power_w=shaft * propeller.top_speed_rad_s,
    )


def flashes_per_turn(openings: int, gear: float) -> float:
    """Return the number of flashes of the lamp in one turn of crank or motor."""
    return openings * gear


def crank_speed(propeller_rad_s: float, gear: float) -> float:
    """Return the speed of crank or motor at a propeller speed. [rad/s].

    Examples
    --------
    >>> crank_speed(6.0, 2.0)
    3.0
    """
    return propeller_rad_s / gear
