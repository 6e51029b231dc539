"""What the load cases of a wing are made of: mass, area and lift of the airplane, and what the table structure says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.structures.wing_cases import WingLoading

if TYPE_CHECKING:
    from sim.model.airplane import FlyingAirplane
    from sim.model.structure import WingStructure


def wing_loading(built: WingStructure, flying: FlyingAirplane) -> WingLoading:
    """Return what the load cases of a wing are made of.

    Parameters
    ----------
    built : WingStructure
        Category, and what stands in the place of its factors and speeds.
    flying : FlyingAirplane
        Loaded as it flies, with one powerplant.
    """
    polar = flying.airplane.polar
    return WingLoading(
        mass_kg=flying.airplane.body.mass_kg,
        area_m2=polar.area_m2,
        chord_m=polar.chord_m,
        lift_max=polar.lift_max,
        lift_slope=flying.derivatives["lift_alpha"].value,
        category=built.category,
        load_factor=built.load_factor,
        negative_load_factor=built.negative_load_factor,
        cruise_m_s=built.cruise_speed_m_s,
        dive_m_s=built.dive_speed_m_s,
    )
