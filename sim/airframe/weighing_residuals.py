"""The groups of an item list that a weighing suggests are in error: a suspicion, never a fact."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.atmosphere import GRAVITY_M_S2

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item


@dataclass(frozen=True, slots=True)
class Suspicion:
    """One group of the item list after weighing.

    Attributes
    ----------
    group : str
        Name of the group.
    estimate_kg, estimate_error_kg : float
        Its mass by the item list, and the standard error of that. [kg]
    correction_kg : float
        Most likely change of its mass, heavier positive. [kg]
    correction_moment_n_m : float
        Most likely change of its moment about the datum, tail heavy positive. [N m]
    strength : float
        The correction of mass over the standard error of the estimate: above 1 the group is suspect.
    """

    group: str
    estimate_kg: float
    estimate_error_kg: float
    correction_kg: float
    correction_moment_n_m: float
    strength: float


def suspicions(
    items: Sequence[Item], *, mass_kg: float, mass_error_kg: float, cg_station_m: float, cg_error_m: float
) -> tuple[Suspicion, ...]:
    """Return the smallest corrections, measured by each item's own error, that bring the list to the scales.

    Parameters
    ----------
    items : sequence of Item
        Everything that stood on the scales, as estimated, with errors of mass and station.
    mass_kg, mass_error_kg, cg_station_m, cg_error_m : float
        Weight and centre of gravity by the scales. [kg, m]

    Returns
    -------
    tuple of Suspicion
        The strongest first.

    Notes
    -----
    Weighted least squares: mass and station of every item are unknowns with their estimates as observations,
    tied by two more observations, total mass and total moment. Two observations cannot tell many groups apart: the
    answer names those that the list itself was least sure of and that lie on the right side. Items without an
    error are taken as known.
    """
    masses = np.array([item.mass_kg for item in items])
    stations = np.array([item.station_m for item in items])
    variance = np.array([i.mass_error_kg for i in items] + [i.station_error_m for i in items]) ** 2
    count = len(items)
    design = np.zeros((2, 2 * count))
    design[0, :count], design[1, :count], design[1, count:] = 1.0, stations, masses
    observed = np.array([mass_kg, mass_kg * cg_station_m])
    gap = observed - np.array([masses.sum(), masses @ stations])
    carried = np.array([[1.0, 0.0], [cg_station_m, mass_kg]])
    scatter = carried @ np.diag([mass_error_kg**2, cg_error_m**2]) @ carried.T
    correction = variance * (design.T @ (np.linalg.pinv(design @ (variance[:, None] * design.T) + scatter) @ gap))
    moment = design[1] * correction * GRAVITY_M_S2
    found = []
    for group in dict.fromkeys(item.group for item in items):
        own = np.array([item.group == group for item in items])
        error = float(variance[:count][own].sum() ** 0.5)
        change = float(correction[:count][own].sum())
        found.append(
            Suspicion(
                group=group,
                estimate_kg=float(masses[own].sum()),
                estimate_error_kg=error,
                correction_kg=change,
                correction_moment_n_m=float(moment[:count][own].sum() + moment[count:][own].sum()),
                strength=abs(change) / error if error > 0.0 else 0.0,
            )
        )
    return tuple(sorted(found, key=lambda suspect: -suspect.strength))
