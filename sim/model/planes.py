"""The planes of a scenario's wing, each with what it has otherwise than the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.scenario.airframe import plane_names

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario

OF_A_PLANE = ("span_m", "chord_m", "dihedral_rad", "incidence_rad", "sweep_rad", "taper")
"""What planes may have each their own."""


def plane_values(scenario: Scenario) -> dict[str, dict[str, float]]:
    """Return span, chord, dihedral, incidence, sweep and taper of each plane by its name, from the top one down.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    """
    wing = scenario.wing
    alike = {name: float(getattr(wing, name)) for name in OF_A_PLANE}
    return {
        name: alike | (wing.plane[name].model_dump(exclude_none=True) if name in wing.plane else {})
        for name in plane_names(wing.planes)
    }
