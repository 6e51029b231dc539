"""Weights and balance: what the airplane weighs, where its centre of gravity goes, and where the engine must stand."""

from __future__ import annotations

from math import erfc, hypot, sqrt
from typing import TYPE_CHECKING, TypedDict

from sim.airframe.engine_position import (
    HALF_INCH_M,
    move_error,
    positions,
)
from sim.model.scales_and_list import weighing
from sim.studies.balance_answer import (
    BalanceAnswer,
    CountedItem,
    EnvelopePoint,
)
from sim.studies.balance_remarks import remarks
from sim.studies.balanced import balanced
from sim.studies.cg_limits import powerplant_balances
from sim.studies.standing import move_on_target
from sim.studies.what_serves import what_serves
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.airframe.engine_position import EnginePosition
    from sim.airframe.loading import Loading
    from sim.airframe.masses import Inertia, Total
    from sim.model.model import Model
    from sim.studies.balanced import Balanced
    from sim.studies.cg_limits import PowerplantBalance


def balance(
    model: Model, *, powerplant: str | None = None, engine_move_m: float = 0.0, step_m: float = HALF_INCH_M
) -> BalanceAnswer:
    """Return the balance of an airplane with one of its engines.

    Parameters
    ----------
    model : Model
        Of a scenario with the tables item, balance and layout.
    powerplant : str or None
        Name of one of its powerplants; None for the balance table's, else the first.
    engine_move_m : float
        Engine, with all that moves with it, moved from where the scenario has it, aft positive. [m]
    step_m : float
        From one position of the engine to the next, above 0. [m]

    Raises
    ------
    InputError
        What is missing, and a weighing that cannot be right.
    NoAnswerError
        When nothing moves with the engine, or no plausible move brings the centre of gravity to the target.
    """
    name = model.usual_powerplant(powerplant).name
    moved = model.with_engine_moved(name, engine_move_m)
    return _answer(moved, name, balanced(moved, name), step_m=step_m)


def _answer(model: Model, name: str, found: Balanced, *, step_m: float) -> BalanceAnswer:
    whole, chord, limits, scales = found.whole, found.chord, found.limits, weighing(model)
    move_m, shift, engines = (
        move_on_target(model, name, found),
        found.moved_kg / whole.mass_kg,
        powerplant_balances(model),
    )
    return BalanceAnswer(
        title=model.title,
        powerplant=name,
        as_weighed=found.state.as_weighed,
        **_loaded(whole),
        cg_percent_mac=chord.percent(whole.cg_station_m),
        empty_mass_kg=found.empty.mass_kg,
        empty_cg_station_m=found.empty.cg_station_m,
        chord_m=chord.chord_m,
        leading_edge_station_m=chord.leading_edge_station_m,
        forward_limit_percent_mac=100.0 * limits.forward_limit,
        aft_limit_percent_mac=100.0 * limits.aft_limit,
        target_percent_mac=100.0 * limits.target,
        target_station_m=found.target_m,
        engine_station_m=model.weights(name).engine_station_m,
        moved_m=model.engine_move_m(name),
        engine_move_m=move_m,
        engine_move_error_m=hypot(move_error(found.state, found.target_m), model.target_error_m / shift),
        target_move_m=model.engine_move_m(name) + move_m,
        outside_at_target=found.moved(move_m).outside,
        cg_per_half_inch_percent_mac=100.0 * shift * HALF_INCH_M / chord.chord_m,
        step_m=step_m,
        cg_per_step_percent_mac=100.0 * shift * step_m / chord.chord_m,
        **what_serves(
            found, whole.cg_station_m + shift * step_m, {item.name: item.move_m for item in model.weights(name).items}
        ),
        positions=_positions(found, move_m, step_m),
        envelope=tuple(_envelope(found, engines.get(name))),
        powerplants=engines,
        items=tuple(_counted(model, name)),
        weighing=scales,
        remarks=(*remarks(model, name, scales), *model.remark_texts("balance", name)),
    )


class _Loaded(TypedDict):
    """The fields of a balance on the loaded airplane."""

    mass_kg: float
    mass_error_kg: float
    cg_station_m: float
    cg_error_m: float
    cg_waterline_m: float
    cg_waterline_error_m: float
    cg_buttline_m: float
    inertia_kg_m2: Inertia


def _loaded(whole: Total) -> _Loaded:
    return {
        "mass_kg": whole.mass_kg,
        "mass_error_kg": whole.mass_error_kg,
        "cg_station_m": whole.cg_station_m,
        "cg_error_m": whole.cg_error_m,
        "cg_waterline_m": whole.cg_waterline_m,
        "cg_waterline_error_m": whole.cg_waterline_error_m,
        "cg_buttline_m": whole.cg_buttline_m,
        "inertia_kg_m2": whole.inertia_kg_m2,
    }


def _positions(found: Balanced, move_m: float, step_m: float) -> tuple[EnginePosition, ...]:
    """Return steps over two inches each way, or to the target where that is farther."""
    return positions(
        mass_kg=found.whole.mass_kg,
        cg_station_m=found.whole.cg_station_m,
        moved_mass_kg=found.moved_kg,
        first_move_m=min(-2.0 * INCH_M, move_m),
        last_move_m=max(2.0 * INCH_M, move_m),
        chord=found.chord,
        step_m=step_m,
    )


def _envelope(found: Balanced, engine: PowerplantBalance | None) -> Iterator[EnvelopePoint]:
    neutral = engine.neutral_point_percent_mac if engine else None
    for loading, one in zip(found.flown, found.each, strict=True):
        yield _point(loading, one, found, neutral)


def _point(loading: Loading, one: Total, found: Balanced, neutral: float | None) -> EnvelopePoint:
    forward_m, aft_m = found.bounds_m
    at_m, error_m = one.cg_station_m, one.cg_error_m
    return EnvelopePoint(
        loading.name,
        one.mass_kg,
        at_m,
        error_m,
        found.chord.percent(at_m),
        inside=forward_m <= at_m <= aft_m,
        inside_probability=_below(aft_m - at_m, error_m) - _below(forward_m - at_m, error_m),
        static_margin_percent_mac=None if neutral is None else neutral - found.chord.percent(at_m),
    )


def _below(distance_m: float, error_m: float) -> float:
    """Return the probability that a normal error is below a distance."""
    if error_m == 0.0:
        return 1.0 if distance_m >= 0.0 else 0.0
    return 0.5 * erfc(-distance_m / (error_m * sqrt(2.0)))


def _counted(model: Model, powerplant: str) -> Iterator[CountedItem]:
    weights = model.weights(powerplant)
    listed_kg = {item.name: item.mass_kg for item in weights.items}
    for item in model.mass_state(powerplant).items:
        yield CountedItem(
            item.name,
            item.group,
            item.mass_kg,
            item.mass_error_kg,
            station_m=item.station_m,
            listed_kg=listed_kg[item.name],
            from_past=item.name in weights.from_past,
        )
