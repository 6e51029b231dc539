"""A group of bolts under any force and moment, by the elastic method: rigid plates, bolts of one stiffness per area."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import hypot
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.answer import ASIDE
from sim.errors import NoAnswerError, refuse
from sim.structures.column import margin
from sim.structures.materials import bolt_steel
from sim.structures.member_strength import FITTING_FACTOR

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.structures.materials import StructuralMaterial

FLAT = 1e-9
"""Bolts whose spread across a line is below this share of that along it stand in one line."""
COARSE_PITCH: Final = 1.0 / 6.0
"""Pitch of a thread over the diameter of its shank, coarser than fine threads from No. 10 up and ISO ones from M6."""
ROOT_DEPTH: Final = 1.299
"""Of a thread on both sides over its pitch: 3/4 of the height of its triangle, by which standard bolts are rated."""


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
    thread_pitch_m : float or None
        Of its thread; None for the coarsest usual one, a sixth of the diameter. [m]
    material : StructuralMaterial
        Of it; steel of 125 ksi unless given.
    """

    name: str
    right_m: float
    down_m: float
    diameter_m: float
    thread_pitch_m: float | None = None
    material: StructuralMaterial = field(default_factory=bolt_steel, metadata=ASIDE)

    @property
    def area_m2(self) -> float:
        """Cross section of the shank [m²]."""
        return 0.25 * np.pi * self.diameter_m**2

    @property
    def tensile_strength_n(self) -> float:
        """Ultimate strength in tension, at the root of the thread [N]."""
        pitch_m = COARSE_PITCH * self.diameter_m if self.thread_pitch_m is None else self.thread_pitch_m
        return 0.25 * np.pi * (self.diameter_m - ROOT_DEPTH * pitch_m) ** 2 * self.material.tension_pa

    @property
    def shear_strength_n(self) -> float:
        """Ultimate strength in single shear of the shank [N]."""
        return self.area_m2 * self.material.shear_pa


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
    margin : float
        Of safety at ultimate load: adequate from 0. Infinite without load.
    """

    name: str
    shear_n: float
    axial_n: float
    shear_right_n: float
    shear_down_n: float
    stress_pa: float
    margin: float


def bolt_loads(
    bolts: Sequence[Bolt], force_n: Sequence[float], moment_n_m: Sequence[float], *, ultimate: float = 1.5
) -> tuple[BoltLoad, ...]:
    """Return the load of each bolt; together they are the force and moment applied.

    Parameters
    ----------
    bolts : sequence of Bolt
        At least three, not in one line.
    force_n : sequence of float
        Forward, right, down, at the point where the shaft axis meets the firewall. [N]
    moment_n_m : sequence of float
        Right wing down, nose up, nose right, about that point. [N m]
    ultimate : float
        Factor on the load that the margin is taken at.

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
    raise the load of one bolt by half. Margin: (T/T0)² + (S/S0)² = 1, tension over that of the root of the thread and
    shear over that of the shank, with the fitting factor 1.15 on both (14 CFR 23.625, 2014 text, from memory); no
    greater than by the usual (T/T0)² + (S/S0)³ = 1 (MIL-HDBK-5, from memory). Threads in the shear plane, bearing of
    the plates and tear-out are not covered.

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
    return tuple(
        _load(bolt, float(n), (float(y), float(z)), ultimate)
        for bolt, n, (y, z) in zip(bolts, axial, shear, strict=True)
    )


def _load(bolt: Bolt, axial_n: float, across_n: tuple[float, float], ultimate: float) -> BoltLoad:
    shear_n, pulled_n = hypot(*across_n), max(axial_n, 0.0)
    used = FITTING_FACTOR * ultimate * hypot(pulled_n / bolt.tensile_strength_n, shear_n / bolt.shear_strength_n)
    return BoltLoad(
        bolt.name,
        shear_n,
        axial_n,
        shear_right_n=across_n[0],
        shear_down_n=across_n[1],
        stress_pa=hypot(pulled_n, 3.0**0.5 * shear_n) / bolt.area_m2,
        margin=margin(1.0, used),
    )


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
