"""The balance on paper: weight and centre of gravity, every loading, the engine's positions, and the weighing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.engine_position import spaced
from sim.studies.balance import HALF_INCH_M
from viz.sheets.blocks import Run, Value, next_steps, remarks, rows, say
from viz.sheets.weighing import weighing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.balance import BalanceAnswer
    from viz.sheets.blocks import Block, Cell, Sentence, Table

PERCENT = "CG, % of the mean chord"
MOST_POSITIONS = 25
"""Positions of the engine in the table; where the target is far, the steps are longer."""


def sheet(answer: BalanceAnswer, *, items: bool = False) -> Iterator[Block]:
    """Yield the balance; with `items` every item as it was counted."""
    yield rows(
        say("Balance of {title} with {engine}", title=answer.title, engine=answer.powerplant),
        ["Quantity", "Value"],
        _whole(answer),
    )
    yield _envelope(answer)
    yield _positions(answer)
    if items:
        yield _items(answer)
    if answer.weighing:
        yield from weighing(answer.weighing)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(say("{run}, the loads of each engine on its mount, bolts and tubes", run=Run("mount")))


def station(name: str, number: float | None, decimals: int = 2) -> Value:
    """Return a place along the airplane with fixed decimals: ``47.93 in``."""
    return Value(name, number, decimals=decimals)


def moved(name: str, number: float | None, decimals: int = 2) -> Value:
    """Return a move along the airplane with its direction: ``0.60 in forward``."""
    return Value(name, number, decimals=decimals, signed=True)


def given(name: str, number: float) -> Value:
    """Return a length that was set, not computed, without trailing zeros: ``3.175 mm``."""
    return Value(name, number, digits=4, plain=True)


def serving(answer: BalanceAnswer) -> Sentence:
    """Return in a sentence whether an engine position serves both ends of the envelope."""
    if answer.serves_from_m is None:
        return say("no position of the engine keeps every loading within the limits")
    return say(
        "every loading stays within the limits with the engine from {first} to {last} of its drawn position",
        first=moved("serves_from_m", answer.serves_from_m),
        last=moved("serves_to_m", answer.serves_to_m),
    )


def _whole(answer: BalanceAnswer) -> Iterator[tuple[str, Cell]]:
    yield "loaded weight", Value("mass_kg", answer.mass_kg, digits=4, error=answer.mass_error_kg)
    yield (
        "loaded CG station",
        say(
            "{place} ± {error}",
            place=station("cg_station_m", answer.cg_station_m),
            error=station("cg_error_m", answer.cg_error_m),
        ),
    )
    yield f"loaded {PERCENT}", Value("cg_percent_mac", answer.cg_percent_mac, decimals=2)
    yield "loaded CG waterline", station("cg_waterline_m", answer.cg_waterline_m)
    yield "empty weight", Value("empty_mass_kg", answer.empty_mass_kg, digits=4)
    yield "empty CG station", station("empty_cg_station_m", answer.empty_cg_station_m)
    yield "mean aerodynamic chord", station("mean_chord_m", answer.chord_m)
    yield "station of its leading edge", station("leading_edge_station_m", answer.leading_edge_station_m)
    inertia = answer.inertia_kg_m2
    for axis, number in (("roll", inertia.xx), ("pitch", inertia.yy), ("yaw", inertia.zz)):
        yield f"loaded moment of inertia, {axis}", Value("inertia_kg_m2", number)
    yield "loaded product of inertia Ixz", Value("inertia_kg_m2", inertia.xz)


def _envelope(answer: BalanceAnswer) -> Table:
    limits = say(
        "Limits {forward} to {aft} % of the mean chord. Tanks are emptied in the order of the item list.",
        forward=f"{answer.forward_limit_percent_mac:g}",
        aft=f"{answer.aft_limit_percent_mac:g}",
    )
    lines = [
        (
            point.name,
            Value("mass_kg", point.mass_kg, digits=4),
            station("cg_station_m", point.cg_station_m),
            Value("cg_percent_mac", point.cg_percent_mac, decimals=1),
            "inside" if point.inside else "OUTSIDE",
        )
        for point in answer.envelope
    ]
    heads = ["Loading", "Weight", "CG station", "% mean chord", "Limits"]
    return rows("Loading envelope, engine at its drawn position", heads, lines, limits)


def _positions(answer: BalanceAnswer) -> Table:
    apart_m, shown = spaced(answer.positions, MOST_POSITIONS)
    lines = [
        (
            moved("engine_move_m", step.engine_move_m, 3),
            station("engine_station_m", answer.engine_station_m + step.engine_move_m, 3),
            station("cg_station_m", step.cg_station_m),
            Value("cg_percent_mac", step.cg_percent_mac, decimals=2),
        )
        for step in shown
    ]
    target = say(
        "Target {target} % of the mean chord, station {station}: move the engine {move}. Moving the engine by {half} "
        "moves the CG by {shift} % of the mean chord{ballast}.",
        target=f"{answer.target_percent_mac:g}",
        station=station("target_station_m", answer.target_station_m),
        move=moved("engine_move_m", answer.engine_move_m),
        half=given("engine_move_m", HALF_INCH_M),
        shift=Value("cg_per_half_inch_percent_mac", answer.cg_per_half_inch_percent_mac, decimals=2),
        ballast=_ballast_per_half_inch(answer),
    )
    heads = ["Engine moved", "Engine station", "Loaded CG station", "% mean chord"]
    both = say("Whole envelope: {served}.", served=serving(answer))
    title = say("Engine position, in steps of {apart}", apart=given("engine_move_m", apart_m))
    return rows(title, heads, lines, target, _ballast(answer), both)


def _ballast_per_half_inch(answer: BalanceAnswer) -> Cell:
    if answer.ballast_per_half_inch_kg is None:
        return ""
    mass = Value("ballast_per_half_inch_kg", answer.ballast_per_half_inch_kg, digits=2)
    return say(", as does {mass} of tail ballast", mass=mass)


def _ballast(answer: BalanceAnswer) -> Cell:
    if answer.ballast_per_half_inch_kg is None:
        return "Tail ballast is not considered: balance.ballast_station is not given."
    if answer.ballast_kg is None:
        return "Tail ballast cannot move the CG forward."
    return say("Tail ballast with the same effect: {mass}.", mass=Value("ballast_kg", answer.ballast_kg, digits=2))


def _items(answer: BalanceAnswer) -> Table:
    lines = [
        (
            item.name + (" (past builds)" if item.from_past else ""),
            item.group,
            Value("mass_kg", item.mass_kg),
            Value("mass_error_kg", item.mass_error_kg or None, digits=2, absent=""),
            station("station_m", item.station_m, 1),
        )
        for item in answer.items
    ]
    return rows("Items", ["Item", "Group", "Weight", "±", "Station"], lines)
