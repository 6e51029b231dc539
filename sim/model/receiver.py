"""The receiver of a scenario's gun, for how it cools in flight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import refuse
from sim.synchronizer.cooling import Receiver

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario
    from sim.scenario.timing import WarmthTable


def warmth_of(scenario: Scenario) -> WarmthTable:
    """Return the table of the receiver.

    Raises
    ------
    InputError
        When the scenario has none.
    """
    if scenario.warmth is None:
        refuse("warmth", "is missing; the table of the receiver, as in the bundled scenario")
    return scenario.warmth


def receiver(scenario: Scenario) -> Receiver:
    """Return the receiver of a scenario's gun."""
    table = warmth_of(scenario)
    return Receiver(
        mass_kg=table.mass_kg,
        inner_mass_kg=table.inner_mass_kg,
        conductance_w_k=table.contact_conductance,
        width_m=table.width_m,
        length_m=table.length_m,
        start_k=table.start_k,
        oil_stiff_k=table.oil_stiff_k,
        heat_w=table.heat_per_round_j * table.fire_rate_per_s,
        cowl_speed_share=table.cowl_speed_share,
        cowl_rise_k=table.cowl_rise_k,
        fit_width_m=table.fit_width_m,
    )
