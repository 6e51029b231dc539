"""Weights and balance: what the airplane weighs, where its centre of gravity goes, and where the engine must stand."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import erfc, inf, sqrt
from typing import TYPE_CHECKING, Any

from sim.airframe.engine_position import (
    HALF_INCH_M,
    ballast_kg,
    ballast_that_serves,
    move_error,
    move_to_target,
    moves_that_serve,
    positions,
)
from sim.airframe.loading import FUEL, PILOT, USEFUL, CgLimits, loadings
from sim.airframe.masses import total
from sim.studies.balance_answer import (
    BalanceAnswer,
    BallastPlace,
    CountedItem,
    EnvelopePoint,
    ItemShift,
)
from sim.studies.balance_remarks import remarks
from sim.studies.cg_limits import powerplant_balances
from sim.studies.weighing import weighing
from sim.units.convert import INCH_M

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.airframe.engine_position import EnginePosition
    from sim.airframe.loading import Loading
    from sim.airframe.mass_state import MassState
    from sim.airframe.masses import Item, Total
    from sim.airframe.mean_chord import MeanChord
    from sim.model.model import Model
    from sim.studies.cg_limits import PowerplantBalance

MOVABLE = ("electrics", FUEL)
"""Groups whose items may move in the place of the engine: batteries and tanks."""


@dataclass(frozen=True)
class _Balanced:
    """The airplane with one engine, and what is asked of it."""

    state: MassState
    limits: CgLimits
    chord: MeanChord

    @cached_property
    def whole(self) -> Total:
        """Everything together."""
        return self.state.whole()

    @cached_property
    def empty(self) -> Total:
        """Everything but occupants, baggage and fuel."""
        return total(item for item in self.state.items if item.group not in USEFUL)

    @cached_property
    def flown(self) -> tuple[Loading, ...]:
        """Every loading."""
        return loadings(self.state, _pilots_kg(self.state.items, self.limits))

    @cached_property
    def each(self) -> tuple[Total, ...]:
        """Every loading together."""
        return tuple(loading.state.whole() for loading in self.flown)

    @property
    def target_m(self) -> float:
        """Wanted station of the centre of gravity [m]."""
        return self.chord.station_m(self.limits.target)

    @cached_property
    def moved_kg(self) -> float:
        """What moves with the engine [kg]."""
        return sum(item.mass_kg for item in self.state.items if item.moves_with_engine)

    @property
    def bounds_m(self) -> tuple[float, float]:
        """Stations of the forward and the aft limit [m]."""
        return self.chord.station_m(self.limits.forward_limit), self.chord.station_m(self.limits.aft_limit)


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
        Engine, with all that moves with it, moved from where it is drawn, aft positive. [m]
    step_m : float
        From one position of the engine to the next, above 0. [m]

    Raises
    ------
    InputError
        What is missing, and a weighing that cannot be right.
    NoAnswerError
        When nothing moves with the engine.
    """
    name = model.usual_powerplant(powerplant).name
    limits, chord = model.limits, model.mean_chord
    found = _Balanced(model.mass_state(name).moved(engine_move_m), limits, chord)
    return _answer(model, name, found, engine_move_m, step_m=step_m)


def move_on_target_m(model: Model, powerplant: str) -> float:
    """Return how far an engine must move, aft positive, to bring the loaded centre of gravity to the target [m].

    Parameters
    ----------
    model : Model
        As for `balance`.
    powerplant : str
        Name of one of its powerplants.

    Raises
    ------
    InputError, NoAnswerError
        As `balance`.
    """
    limits, chord = model.limits, model.mean_chord
    return _move_m(_Balanced(model.mass_state(powerplant), limits, chord))


def _answer(model: Model, name: str, found: _Balanced, moved_m: float, *, step_m: float) -> BalanceAnswer:
    whole, chord, limits, scales = found.whole, found.chord, found.limits, weighing(model)
    move_m, shift_m = _move_m(found), HALF_INCH_M * found.moved_kg / whole.mass_kg
    engines = powerplant_balances(model)
    return BalanceAnswer(
        title=model.title,
        powerplant=name,
        as_weighed=found.state.as_weighed,
        mass_kg=whole.mass_kg,
        mass_error_kg=whole.mass_error_kg,
        cg_station_m=whole.cg_station_m,
        cg_error_m=whole.cg_error_m,
        cg_waterline_m=whole.cg_waterline_m,
        cg_waterline_error_m=whole.cg_waterline_error_m,
        cg_percent_mac=chord.percent(whole.cg_station_m),
        inertia_kg_m2=whole.inertia_kg_m2,
        empty_mass_kg=found.empty.mass_kg,
        empty_cg_station_m=found.empty.cg_station_m,
        chord_m=chord.chord_m,
        leading_edge_station_m=chord.leading_edge_station_m,
        forward_limit_percent_mac=100.0 * limits.forward_limit,
        aft_limit_percent_mac=100.0 * limits.aft_limit,
        target_percent_mac=100.0 * limits.target,
        target_station_m=found.target_m,
        engine_station_m=model.weights(name).engine_station_m + moved_m,
        moved_m=moved_m,
        engine_move_m=move_m,
        engine_move_error_m=move_error(found.state, found.target_m),
        cg_per_half_inch_percent_mac=100.0 * shift_m / chord.chord_m,
        **_what_serves(found, whole.cg_station_m + shift_m),
        positions=_positions(found, move_m, step_m),
        envelope=tuple(_envelope(found, engines.get(name))),
        powerplants=engines,
        items=tuple(_counted(model, name)),
        weighing=scales,
        remarks=tuple(remarks(model, name, scales)),
    )


def _what_serves(found: _Balanced, half_an_inch_on_m: float) -> dict[str, Any]:
    """Return the fields of the answer on ballast, items moved, and moves and pilots within the limits."""
    served_m, pilots_kg = _served_m(found), _pilots_that_serve(found)
    return {
        "ballast_kg": _tail_ballast_kg(found, found.target_m),
        "ballast_per_half_inch_kg": _tail_ballast_kg(found, half_an_inch_on_m),
        "ballast": tuple(sorted(_ballast(found), key=_least_first)),
        "shifts": tuple(_shifts(found)),
        "serves_from_m": served_m[0],
        "serves_to_m": served_m[1],
        "pilot_least_kg": pilots_kg[0],
        "pilot_most_kg": pilots_kg[1],
    }


def _move_m(found: _Balanced) -> float:
    return move_to_target(
        mass_kg=found.whole.mass_kg,
        cg_station_m=found.whole.cg_station_m,
        target_station_m=found.target_m,
        moved_mass_kg=found.moved_kg,
    )


def _pilots_kg(items: Sequence[Item], limits: CgLimits) -> list[float]:
    usual_kg = sum(item.mass_kg for item in items if item.group == PILOT)
    if usual_kg <= 0.0:
        return [0.0]
    return sorted({kg for kg in (limits.pilot_lightest_kg, usual_kg, limits.pilot_heaviest_kg) if kg is not None})


def _served_m(found: _Balanced) -> tuple[float, float] | tuple[None, None]:
    forward_m, aft_m = found.bounds_m
    served = moves_that_serve(found.each, moved_mass_kg=found.moved_kg, forward_limit_m=forward_m, aft_limit_m=aft_m)
    return served or (None, None)


def _pilots_that_serve(found: _Balanced) -> tuple[float | None, float | None]:
    """Return the lightest and the heaviest pilot with whom every loading is within the limits."""
    seats = [item for item in found.state.items if item.group == PILOT and item.mass_kg > 0.0]
    if not seats:
        return None, None
    nobody = [loading.state.whole() for loading in loadings(found.state, [0.0])]
    forward_m, aft_m = found.bounds_m
    served = ballast_that_serves(
        nobody, station_m=total(seats).cg_station_m, forward_limit_m=forward_m, aft_limit_m=aft_m
    )
    return (served[0], served[1] if served[1] < inf else None) if served else (None, None)


def _tail_ballast_kg(found: _Balanced, wanted_m: float) -> float | None:
    station_m = found.limits.ballast_station_m
    return None if station_m is None else _ballast_kg(found, wanted_m, station_m)


def _ballast_kg(found: _Balanced, wanted_m: float, station_m: float) -> float | None:
    return ballast_kg(
        mass_kg=found.whole.mass_kg,
        cg_station_m=found.whole.cg_station_m,
        target_station_m=wanted_m,
        ballast_station_m=station_m,
    )


def _ballast(found: _Balanced) -> Iterator[BallastPlace]:
    tail_m = found.limits.ballast_station_m
    places = {**({} if tail_m is None else {"tail": tail_m}), **found.limits.ballast_places}
    forward_m, aft_m = found.bounds_m
    for place, station_m in places.items():
        served = ballast_that_serves(found.each, station_m=station_m, forward_limit_m=forward_m, aft_limit_m=aft_m)
        yield BallastPlace(
            place,
            station_m,
            to_target_kg=_ballast_kg(found, found.target_m, station_m),
            least_kg=served[0] if served else None,
            most_kg=served[1] if served and served[1] < inf else None,
        )


def _least_first(one: BallastPlace) -> tuple[bool, float]:
    return one.to_target_kg is None, one.to_target_kg or 0.0


def _shifts(found: _Balanced) -> Iterator[ItemShift]:
    """Yield batteries and tanks, each with the move that does what that of the engine would."""
    needed = found.whole.mass_kg * (found.target_m - found.whole.cg_station_m)
    for item in found.state.items:
        if item.group in MOVABLE and item.mass_kg > 0.0:
            shift_m = needed / item.mass_kg
            yield ItemShift(item.name, shift_m, item.station_m + shift_m)


def _positions(found: _Balanced, move_m: float, step_m: float) -> tuple[EnginePosition, ...]:
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


def _envelope(found: _Balanced, engine: PowerplantBalance | None) -> Iterator[EnvelopePoint]:
    neutral = engine.neutral_point_percent_mac if engine else None
    for loading, one in zip(found.flown, found.each, strict=True):
        yield _point(loading, one, found, neutral)


def _point(loading: Loading, one: Total, found: _Balanced, neutral: float | None) -> EnvelopePoint:
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
