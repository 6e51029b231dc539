"""An engine on elastic isolators: how far it moves under a load, and the natural frequencies of its six motions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.errors import NoAnswerError
from sim.structures.rigid import rigid_motion

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Vector = tuple[float, float, float]

MOTIONS: Final = ("fore and aft", "sideways", "up and down", "roll", "pitch", "yaw")
LOOSE: Final = 1e-9
"""Isolators whose least stiffness is below this share of their greatest, by their own spread, let the engine turn."""


@dataclass(frozen=True, slots=True)
class Isolators:
    """Elastic isolators between engine and mount, all alike.

    Attributes
    ----------
    places_m : tuple of tuple
        Of each: forward, right, down from the point where the shaft axis meets the firewall. [m]
    stiffness_n_per_m : tuple of float
        Of each: fore and aft, sideways, up and down; above 0. [N/m]
    """

    places_m: tuple[Vector, ...]
    stiffness_n_per_m: Vector


@dataclass(frozen=True, slots=True)
class EngineMovement:
    """How far an engine moves on its isolators.

    Attributes
    ----------
    engine_shift_m : tuple of float
        Of the origin: forward, right, down. [m]
    engine_turn_rad : tuple of float
        Right wing down, nose up, nose right. [rad]
    """

    engine_shift_m: Vector
    engine_turn_rad: Vector

    def at(self, place_m: Vector) -> Vector:
        """Return how far a point of the engine moves: forward, right, down [m]."""
        x, y, z = (rigid_motion(place_m) @ [*self.engine_shift_m, *self.engine_turn_rad]).tolist()
        return x, y, z


@dataclass(frozen=True, slots=True)
class EngineMode:
    """One free vibration of an engine on its isolators.

    Attributes
    ----------
    natural_rad_s : float
        Natural frequency, undamped. [rad/s]
    name : str
        The motion about the centre of mass that holds most of its energy.
    motion_share : float
        The part of the energy that it holds.
    """

    natural_rad_s: float
    name: str
    motion_share: float


def stiffness(isolators: Isolators, origin_m: Vector = (0.0, 0.0, 0.0)) -> NDArray[np.float64]:
    """Return the 6 x 6 stiffness of isolators: forces at and moments about a point over its shift and turn.

    Raises
    ------
    NoAnswerError
        When the isolators stand in one line, about which the engine would turn freely.
    """
    ways = [rigid_motion(np.subtract(place_m, origin_m).tolist()) for place_m in isolators.places_m]
    found: NDArray[np.float64] = np.sum([way.T @ np.diag(isolators.stiffness_n_per_m) @ way for way in ways], axis=0)
    spread_m = float(np.ptp(isolators.places_m, axis=0).max()) or 1.0
    even = found / np.outer(*[np.repeat([1.0, spread_m], 3)] * 2)
    values = np.linalg.eigvalsh(even)
    if values[0] <= LOOSE * values[-1]:
        message = "the isolators stand in one line, about which the engine turns freely; move one off that line"
        raise NoAnswerError(message)
    return found


def movement(isolators: Isolators, force_n: Sequence[float], moment_n_m: Sequence[float]) -> EngineMovement:
    """Return how far the engine moves under a force at, and a moment about, the origin of the places.

    Parameters
    ----------
    isolators : Isolators
        At least three, not in one line.
    force_n, moment_n_m : sequence of float
        On the engine: forward, right, down; right wing down, nose up, nose right. [N, N m]

    Raises
    ------
    NoAnswerError
        When the isolators stand in one line.

    Notes
    -----
    Linear springs on a mount that does not give. Rubber stiffens under load and in the cold, and stops limit it.
    """
    x, y, z, roll, pitch, yaw = np.linalg.solve(stiffness(isolators), [*force_n, *moment_n_m]).tolist()
    return EngineMovement((x, y, z), (roll, pitch, yaw))


def modes(
    isolators: Isolators, mass_kg: float, cg_m: Vector, inertia_kg_m2: NDArray[np.float64] | None
) -> tuple[EngineMode, ...]:
    """Return the natural frequencies of an engine on its isolators, from the lowest up.

    Parameters
    ----------
    isolators : Isolators
        At least three, not in one line.
    mass_kg, cg_m : float and tuple
        Of all that hangs there: mass, and centre forward, right, down from the origin of the places. [kg, m]
    inertia_kg_m2 : array or None
        3 x 3 about that centre; None where it is not known: the three shifts alone then, the engine kept from turning,
        the lowest of which is at least as high as the true lowest. [kg m²]

    Raises
    ------
    NoAnswerError
        When the isolators stand in one line.

    Notes
    -----
    Undamped, at rest: the rotor, which couples pitch and yaw, and the give of the mount, which lowers all, are not in
    it.

    References
    ----------
    J. P. Den Hartog, Mechanical Vibrations, 4th ed., chapter 3 (from memory).
    """
    from scipy.linalg import block_diag, eigh

    held = stiffness(isolators, cg_m)
    mass = mass_kg * np.eye(3)
    if inertia_kg_m2 is None:
        held = held[:3, :3]
    else:
        mass = block_diag(mass, inertia_kg_m2)
    squares, ways = eigh(held, mass)
    return tuple(_mode(float(square), way, mass) for square, way in zip(squares, ways.T, strict=True))


def _mode(square: float, way: NDArray[np.float64], mass: NDArray[np.float64]) -> EngineMode:
    shares = way * (mass @ way)
    most = int(np.argmax(shares))
    return EngineMode(square**0.5, MOTIONS[most], float(shares[most] / shares.sum()))
