"""Where the engine must stand, for the balance of a scenario: steps, ballast instead, and both ends of the envelope."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sim.airframe.engine_position import INCH_M, ballast_kg, move_to_target, moves_that_serve, steps

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.airframe.masses import Item, Total
    from sim.airframe.mean_chord import MeanChord
    from sim.scenario.shop import BalanceTable

SHOWN_M = INCH_M
"""The table of steps covers an inch each way, and the wanted move where that is farther."""


@dataclass(frozen=True, slots=True)
class Position:
    """One step of the engine.

    Attributes
    ----------
    engine_move_m : float
        From where it is drawn, aft positive. [m]
    cg_station_m, cg_percent_mac : float
        Loaded centre of gravity. [m, % of the mean chord]
    """

    engine_move_m: float
    cg_station_m: float
    cg_percent_mac: float


def engine_keys(
    items: Sequence[Item], whole: Total, table: BalanceTable, *, chord: MeanChord, flown: Sequence[tuple[float, float]]
) -> dict[str, Any]:
    """Return the keys of `BalanceAnswer` that say where the engine must stand.

    Parameters
    ----------
    items : sequence of Item
        The loaded airplane.
    whole : Total
        Their sum.
    table : BalanceTable
        Limits and wish.
    chord : MeanChord
        In stations.
    flown : sequence of (mass, station)
        Every loading of the envelope. [kg, m]
    """
    moved_kg = sum(item.mass_kg for item in items if item.moves_with_engine)
    wanted = 0.5 * (table.forward_limit + table.aft_limit) if table.target is None else table.target
    target_m = chord.station_m(wanted)
    move_m = move_to_target(
        mass_kg=whole.mass_kg, cg_station_m=whole.cg_station_m, target_station_m=target_m, moved_mass_kg=moved_kg
    )
    half_inch_m = 0.5 * INCH_M * moved_kg / whole.mass_kg
    serves = moves_that_serve(
        flown,
        moved_mass_kg=moved_kg,
        forward_limit_m=chord.station_m(table.forward_limit),
        aft_limit_m=chord.station_m(table.aft_limit),
    )
    table_of_steps = steps(
        mass_kg=whole.mass_kg,
        cg_station_m=whole.cg_station_m,
        moved_mass_kg=moved_kg,
        first_move_m=min(-SHOWN_M, move_m),
        last_move_m=max(SHOWN_M, move_m),
    )
    return {
        "target_percent_mac": 100.0 * wanted,
        "target_station_m": target_m,
        "engine_move_m": move_m,
        "cg_per_half_inch_percent_mac": 100.0 * half_inch_m / chord.chord_m,
        "ballast_kg": _ballast(whole, table, target_m),
        "ballast_per_half_inch_kg": _ballast(whole, table, whole.cg_station_m + half_inch_m),
        "serves_from_m": serves[0] if serves else None,
        "serves_to_m": serves[1] if serves else None,
        "positions": tuple(
            Position(step.engine_move_m, step.cg_station_m, chord.percent(step.cg_station_m)) for step in table_of_steps
        ),
    }


def _ballast(whole: Total, table: BalanceTable, wanted_m: float) -> float | None:
    if table.ballast_station_m is None:
        return None
    return ballast_kg(
        mass_kg=whole.mass_kg,
        cg_station_m=whole.cg_station_m,
        target_station_m=wanted_m,
        ballast_station_m=table.ballast_station_m,
    )
