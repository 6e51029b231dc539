"""Engines for the viewer: places of crankpins and pistons at a shaft angle, and the angular momentum."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.rotor.cylinders import PinPositions, fixed_position, rotary_position

if TYPE_CHECKING:
    from sim.model.powerplant import EngineKind
    from sim.propulsion.blade_geometry import Blade

Points = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class EngineSetup:
    """An engine as the viewer draws it.

    Attributes
    ----------
    kind : str
        ``rotary``: the cylinders turn about a fixed crank; ``fixed``: the crank turns between flat cylinders.
    cylinders : int
        Their number.
    crank_radius_m, rod_length_m : float
        Half the stroke, and the rod between its eyes; the rod is the longer. [m]
    spin_rad_s : float
        Cruise speed of the shaft, clockwise from the cockpit positive. [rad/s]
    full_speed_rad_s : float
        Largest size of the speed. [rad/s]
    polar_inertia_kg_m2 : float
        Angular momentum of engine and propeller per rad/s of the shaft. [kg m²]
    turning_mass_kg : float
        Mass of what turns with the shaft, propeller included; not a number where only inertias are known. [kg]
    blade : Blade
        Of its propeller.
    disc_radius_m : float
        From the axis to the tips of the propeller. [m]
    """

    kind: EngineKind
    cylinders: int
    crank_radius_m: float
    rod_length_m: float
    spin_rad_s: float
    full_speed_rad_s: float
    polar_inertia_kg_m2: float
    turning_mass_kg: float
    blade: Blade
    disc_radius_m: float


@dataclass(frozen=True, slots=True)
class EnginePicture:
    """One engine at one shaft angle, in the plane of the disc as seen from the cockpit: right and up positive.

    Attributes
    ----------
    setup : EngineSetup
        The engine.
    shaft_rad : float
        Angle of what turns, from straight up, clockwise positive. [rad]
    cylinder_axes_rad : tuple of float
        Direction of each cylinder, from straight up, clockwise positive. [rad]
    crankpins_m, pistons_m : tuple
        Points (right, up) from the shaft axis, a cylinder each. [m]
    spin_rad_s : float
        Speed of the shaft, clockwise from the cockpit positive. [rad/s]
    angular_momentum_kg_m2_s : float
        Of engine and propeller along the shaft, clockwise positive. [kg m²/s]
    """

    setup: EngineSetup
    shaft_rad: float
    cylinder_axes_rad: tuple[float, ...]
    crankpins_m: Points
    pistons_m: Points
    spin_rad_s: float
    angular_momentum_kg_m2_s: float


def engine_picture(setup: EngineSetup, shaft_rad: float, spin_rad_s: float) -> EnginePicture:
    """Return the engine at a shaft angle, turning at a speed; both clockwise from the cockpit positive [rad, rad/s]."""
    axes = _cylinder_axes(setup, shaft_rad)
    position = _position(setup, shaft_rad, axes)
    return EnginePicture(
        setup=setup,
        shaft_rad=shaft_rad,
        cylinder_axes_rad=tuple(axes),
        crankpins_m=tuple((x, y) for x, y in position.crankpins_m.tolist()),
        pistons_m=tuple((x, y) for x, y in position.pistons_m.tolist()),
        spin_rad_s=spin_rad_s,
        angular_momentum_kg_m2_s=setup.polar_inertia_kg_m2 * spin_rad_s,
    )


def _cylinder_axes(setup: EngineSetup, shaft_rad: float) -> list[float]:
    if setup.kind == "rotary":
        return [shaft_rad + 2.0 * np.pi * index / setup.cylinders for index in range(setup.cylinders)]
    return [np.pi / 2.0 if index % 2 == 0 else -np.pi / 2.0 for index in range(setup.cylinders)]


def _position(setup: EngineSetup, shaft_rad: float, axes: list[float]) -> PinPositions:
    if setup.kind == "rotary":
        return rotary_position(
            shaft_rad,
            cylinders=setup.cylinders,
            crank_radius_m=setup.crank_radius_m,
            rod_length_m=setup.rod_length_m,
        )
    return fixed_position(
        shaft_rad,
        cylinder_axes_rad=axes,
        throws_rad=[np.pi * ((index + 1) // 2 % 2) for index in range(setup.cylinders)],
        crank_radius_m=setup.crank_radius_m,
        rod_length_m=setup.rod_length_m,
    )
