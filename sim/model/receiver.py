"""The receiver of a scenario's gun, for how it cools in flight."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.synchronizer.cooling import Receiver

if TYPE_CHECKING:
    from sim.scenario.timing import WarmthTable


def receiver(table: WarmthTable) -> Receiver:
    """Return the receiver that the table describes."""
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
