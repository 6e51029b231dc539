"""Slider-crank kinematics of a rotary engine, whose cylinders turn about a fixed crank, and of a fixed engine.

Both have the same triangle: shaft axis O, crankpin P at the crank radius, piston pin Q on the cylinder's
axis. θ is the angle of the cylinder from the crankpin, whichever of the two turns. Every rod is taken as central
(its big end on the crankpin's axis); with a master rod the other pins are some millimetres off.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from sim.numerics.number import Number


def piston_radius(angle_rad: ArrayLike, *, crank_radius_m: float, rod_length_m: float) -> NDArray[np.float64]:
    """Return the distance of the piston pin from the shaft axis, ρ(θ) = a cos θ + sqrt(l² − a² sin² θ).

    Parameters
    ----------
    angle_rad : array_like
        Angle θ of the cylinder from the crankpin, any shape. [rad]
    crank_radius_m : float
        Half the stroke; 0 to less than the rod length. [m]
    rod_length_m : float
        Between the centres of the rod's bearings. [m]

    Returns
    -------
    ndarray
        Same shape. [m]

    Examples
    --------
    >>> float(piston_radius(0.0, crank_radius_m=0.08, rod_length_m=0.30))
    0.38
    """
    angle = np.asarray(angle_rad, dtype=float)
    return np.asarray(pin_radius(angle, np, crank_radius_m=crank_radius_m, rod_length_m=rod_length_m))


def pin_radius(angle_rad: Number, functions: Any, *, crank_radius_m: float, rod_length_m: float) -> Number:  # noqa: ANN401
    """Return what `piston_radius` does, with functions that have `sqrt`, `sin` and `cos` of one kind of number [m]."""
    across_m = crank_radius_m * functions.sin(angle_rad)
    return crank_radius_m * functions.cos(angle_rad) + functions.sqrt(rod_length_m**2 - across_m * across_m)


def rod_angle(angle_rad: ArrayLike, *, crank_radius_m: float, rod_length_m: float) -> NDArray[np.float64]:
    """Return the angle ψ of the rod from the line from shaft to crankpin, θ + asin(a sin θ / l), same shape [rad].

    In a rotary this is the rotation of the rod in space; its mean rate is the engine's speed.
    """
    angle = np.asarray(angle_rad, dtype=float)
    return np.asarray(angle + np.arcsin(crank_radius_m * np.sin(angle) / rod_length_m))


def _rod_rate_ratio(angle_rad: NDArray[np.float64], crank_radius_m: float, rod_length_m: float) -> NDArray[np.float64]:
    """Return dψ/dθ of a rotary's rod."""
    return 1.0 + crank_radius_m * np.cos(angle_rad) / np.sqrt(
        rod_length_m**2 - (crank_radius_m * np.sin(angle_rad)) ** 2
    )


@dataclass(frozen=True, slots=True)
class Reciprocating:
    """Pistons and rods of an engine with evenly spaced cylinders.

    Attributes
    ----------
    cylinders : int
        Number of cylinders, at least 1.
    crank_radius_m, rod_length_m : float
        Half the stroke, and the rod between its bearings, which is longer. [m]
    piston_mass_kg, rod_mass_kg : float
        Of one piston with pin and rings, and of one rod. [kg]
    rod_centre_share : float
        Mass centre of the rod from the crankpin, as a fraction of its length, 0 to 1.
    rod_gyration_radius_m : float
        Radius of gyration of the rod about its mass centre. [m]
    """

    cylinders: int
    crank_radius_m: float
    rod_length_m: float
    piston_mass_kg: float
    rod_mass_kg: float
    rod_centre_share: float
    rod_gyration_radius_m: float

    def spaced(self, angle_rad: ArrayLike) -> NDArray[np.float64]:
        """Return the angles of all cylinders at engine angles of any shape, on a new last axis [rad]."""
        pitch_rad = 2.0 * np.pi / self.cylinders
        return np.asarray(np.asarray(angle_rad, dtype=float)[..., None] + pitch_rad * np.arange(self.cylinders))


def rotary_piston_inertia(engine: Reciprocating, angle_rad: ArrayLike) -> NDArray[np.float64]:
    """Return the angular momentum of a rotary's pistons per rad/s of the engine, at engine angles of any shape [kg m²].

    Each piston revolves at the engine's speed at its own radius: m ρ²(θ), summed over the cylinders. A piston's own
    inertia about its pin is neglected: under 2 % of the pistons' and 0.2 % of the engine's.
    """
    angles = engine.spaced(angle_rad)
    radius_m = piston_radius(angles, crank_radius_m=engine.crank_radius_m, rod_length_m=engine.rod_length_m)
    return np.asarray(engine.piston_mass_kg * (radius_m**2).sum(axis=-1))


def rotary_rod_inertia(engine: Reciprocating, angle_rad: ArrayLike) -> NDArray[np.float64]:
    """Return the angular momentum about the shaft axis of a rotary's rods per rad/s of the engine [kg m²].

    A rod turns about the fixed crankpin at dψ/dt: (m (c² + a c cos ψ) + I) dψ/dθ with c its mass centre from the
    pin and I its own inertia; summed over the cylinders. Engine angles of any shape, result the same.
    """
    angles = engine.spaced(angle_rad)
    crank_m, length_m = engine.crank_radius_m, engine.rod_length_m
    turned = rod_angle(angles, crank_radius_m=crank_m, rod_length_m=length_m)
    centre_m = engine.rod_centre_share * length_m
    squared_m2 = centre_m**2 + crank_m * centre_m * np.cos(turned) + engine.rod_gyration_radius_m**2
    return np.asarray(engine.rod_mass_kg * (squared_m2 * _rod_rate_ratio(angles, crank_m, length_m)).sum(axis=-1))


@dataclass(frozen=True, slots=True)
class Momentum:
    """Angular momentum of pistons or rods per rad/s of the engine.

    Attributes
    ----------
    mean_kg_m2 : float
        Mean over a revolution; the gyroscopic couple depends on it. [kg m²]
    ripple_kg_m2 : float
        Half the difference of largest and smallest within a revolution: a torsional excitation of the mount. [kg m²]
    """

    mean_kg_m2: float
    ripple_kg_m2: float


def rotary_pistons(engine: Reciprocating) -> Momentum:
    """Return mean and ripple of the piston momentum of a rotary.

    Notes
    -----
    Exact: the mean of ρ² over a revolution is l², as if each piston revolved about the crankpin. The sum over n evenly
    spaced cylinders is even about θ = 0 and about θ = π/n and monotonic between, so its extremes are there. For four,
    six, eight, … cylinders the ripple is zero; for an odd number it decreases with a high power of the crank radius
    over the rod length.
    """
    mean = engine.cylinders * engine.piston_mass_kg * engine.rod_length_m**2
    return Momentum(mean, _half_swing(rotary_piston_inertia(engine, [0.0, np.pi / engine.cylinders])))


def rotary_rods(engine: Reciprocating) -> Momentum:
    """Return mean and ripple of the rod momentum of a rotary; the mean is exactly that about the crankpin."""
    centre_m = engine.rod_centre_share * engine.rod_length_m
    mean = engine.cylinders * engine.rod_mass_kg * (centre_m**2 + engine.rod_gyration_radius_m**2)
    return Momentum(mean, _half_swing(rotary_rod_inertia(engine, [0.0, np.pi / engine.cylinders])))


def fixed_rods(engine: Reciprocating) -> float:
    """Return the mean angular momentum of a fixed engine's rods per rad/s of its crankshaft [kg m²].

    Exactly m (1 − c/l) a² each: the part of the rod's mass attributed to the crankpin. The pistons move along lines
    through the shaft axis and have none.
    """
    return engine.cylinders * engine.rod_mass_kg * (1.0 - engine.rod_centre_share) * engine.crank_radius_m**2


def _half_swing(values: NDArray[np.float64]) -> float:
    return float(values.max() - values.min()) / 2.0


@dataclass(frozen=True, slots=True)
class PinPositions:
    """Positions of crankpins and piston pins in the plane of the disc, as seen from the cockpit.

    Attributes
    ----------
    crankpins_m, pistons_m : ndarray, shape (cylinders, 2)
        Points (right, up) from the shaft axis. [m]
    """

    crankpins_m: NDArray[np.float64]
    pistons_m: NDArray[np.float64]


def rotary_position(
    shaft_angle_rad: float, *, cylinders: int, crank_radius_m: float, rod_length_m: float
) -> PinPositions:
    """Return crankpin and piston pins of a rotary whose fixed crankpin points straight up.

    Parameters
    ----------
    shaft_angle_rad : float
        Angle of cylinder 1 from straight up, clockwise from the cockpit positive. [rad]
    """
    axes = shaft_angle_rad + 2.0 * np.pi / cylinders * np.arange(cylinders)
    return fixed_position(
        0.0,
        cylinder_axes_rad=axes,
        throws_rad=np.zeros(cylinders),
        crank_radius_m=crank_radius_m,
        rod_length_m=rod_length_m,
    )


def fixed_position(
    crank_angle_rad: float,
    *,
    cylinder_axes_rad: ArrayLike,
    throws_rad: ArrayLike,
    crank_radius_m: float,
    rod_length_m: float,
) -> PinPositions:
    """Return crankpins and piston pins of an engine with fixed cylinders.

    Parameters
    ----------
    crank_angle_rad : float
        Crankshaft, clockwise from the cockpit positive, from straight up. [rad]
    cylinder_axes_rad, throws_rad : array_like, shape (cylinders,)
        Direction of each cylinder, and angle of its throw on the crankshaft; a flat engine has axes at ±π/2. [rad]
    """
    axes = np.asarray(cylinder_axes_rad, dtype=float)
    throws = crank_angle_rad + np.asarray(throws_rad, dtype=float)
    radius_m = piston_radius(axes - throws, crank_radius_m=crank_radius_m, rod_length_m=rod_length_m)
    return PinPositions(crank_radius_m * _direction(throws), radius_m[:, None] * _direction(axes))


def _direction(angle_rad: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return unit vectors (right, up) at clockwise angles from straight up."""
    return np.stack([np.sin(angle_rad), np.cos(angle_rad)], axis=-1)
