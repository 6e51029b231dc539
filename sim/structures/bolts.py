"""A group of bolts under any force and moment, by the elastic method: rigid plates, bolts of one stiffness per area."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import NoAnswerError, refuse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

FLAT = 1e-9
"""Bolts whose spread across a line is below this share of that along it stand in one line."""


@dataclass(frozen=True, slots=True)
class Bolt:
    """One bolt of the firewall, from the point where the shaft axis meets it.

    Attributes
    ----------
    name : str
        As on the drawing.
    right_m, down_m : float
        Its place. [m]
    diameter_m : float
        Of the shank; stiffness goes with its square. [m]
    """

    name: str
    right_m: float
    down_m: float
    diameter_m: float

    @property
    def area_m2(self) -> float:
        """Cross section of the shank [m²]."""
        return 0.25 * np.pi * self.diameter_m**2


@dataclass(frozen=True, slots=True)
class BoltLoad:
    """The force of one bolt on the airframe.

    Attributes
    ----------
    name : str
        Of the bolt.
    shear_n : float
        Across it. [N]
    axial_n : float
        Forward positive: tension. Compression is carried by the pad, not by the bolt. [N]
    shear_right_n, shear_down_n : float
        The two components of the shear. [N]
    stress_pa : float
        Tension and shear together on the shank, √(σ² + 3 τ²); preload and prying are left out. [Pa]
    """

    name: str
    shear_n: float
    axial_n: float
    shear_right_n: float
    shear_down_n: float
    stress_pa: float


def bolt_loads(bolts: Sequence[Bolt], force_n: Sequence[float], moment_n_m: Sequence[float]) -> tuple[BoltLoad, ...]:
    """Return the load of each bolt; together they are the force and moment applied.

    Parameters
    ----------
    bolts : sequence of Bolt
        At least three, not in one line.
    force_n : sequence of float
        Forward, right, down, at the point where the shaft axis meets the firewall. [N]
    moment_n_m : sequence of float
        Right wing down, nose up, nose right, about that point. [N m]

    Raises
    ------
    InputError
        With fewer than two bolts.
    NoAnswerError
        When all bolts stand in one line, which carries no moment about itself.

    Notes
    -----
    Direct force by area; twist about the centroid as shear by distance; bending as axial force that grows evenly
    across the group. Bending of the firewall, prying and fit are left out: they can
    raise the load of one bolt by half.

    Examples
    --------
    >>> square = [Bolt(f"{y} {z}", y, z, 0.01) for y in (-0.2, 0.2) for z in (-0.2, 0.2)]
    >>> [round(bolt.axial_n) for bolt in bolt_loads(square, (0.0, 0.0, 0.0), (0.0, -800.0, 0.0))]
    [1000, -1000, 1000, -1000]
    """
    if len(bolts) < 2:
        refuse("mount.bolt", f'must be two bolts or more, got "{len(bolts)}"')
    area = np.array([bolt.area_m2 for bolt in bolts])
    share = area / area.sum()
    place = np.array([[bolt.right_m, bolt.down_m] for bolt in bolts])
    centre = share @ place
    arm = place - centre
    roll = moment_n_m[0] - (centre[0] * force_n[2] - centre[1] * force_n[1])
    pitch = moment_n_m[1] - centre[1] * force_n[0]
    yaw = moment_n_m[2] + centre[0] * force_n[0]
    axial = share * (force_n[0] + arm @ _bending(share, arm, pitch, yaw))
    polar = float(share @ (arm**2).sum(axis=1))
    shear = share[:, None] * (np.asarray(force_n[1:]) + roll / polar * np.column_stack([-arm[:, 1], arm[:, 0]]))
    return tuple(_load(bolt, float(n), float(y), float(z)) for bolt, n, (y, z) in zip(bolts, axial, shear, strict=True))


def _load(bolt: Bolt, axial_n: float, right_n: float, down_n: float) -> BoltLoad:
    shear_n = float(np.hypot(right_n, down_n))
    stress_pa = float(np.hypot(max(axial_n, 0.0), 3.0**0.5 * shear_n)) / bolt.area_m2
    return BoltLoad(bolt.name, shear_n, axial_n, right_n, shear_down_n=down_n, stress_pa=stress_pa)


def _bending(
    share: NDArray[np.float64], arm: NDArray[np.float64], pitch_n_m: float, yaw_n_m: float
) -> NDArray[np.float64]:
    """Return the slopes of the axial force per share of area, to the right and down."""
    spread = (share[:, None] * arm).T @ arm
    least, most = np.linalg.eigvalsh(spread)
    if least <= FLAT * most:
        message = "the bolts stand in one line, which carries no moment about itself; put one off the line"
        raise NoAnswerError(message)
    return np.linalg.solve(spread, np.array([-yaw_n_m, pitch_n_m]))
