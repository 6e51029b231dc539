"""The balance on paper: weight and centre of gravity, every loading, the engine's positions, and the weighing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.engine_position import spaced
from sim.studies.balance import HALF_INCH_M
from viz.sheets.blocks import Run, Value, listed, next_steps, remarks, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.balance import BalanceAnswer
    from sim.studies.weighing import WeighingAnswer
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
        yield _weighing(answer.weighing)
        yield _suspicions(answer.weighing)
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


def _weighing(answer: WeighingAnswer) -> Table:
    title = say(
        "Weighed with {engine}, {aboard} aboard",
        engine=answer.powerplant,
        aboard=", ".join(answer.aboard) or "nothing",
    )
    heads = ["", "Weight", "CG station", "CG waterline"]
    return rows(title, heads, _weighed_rows(answer), *_assumed(answer))


def _weighed_rows(answer: WeighingAnswer) -> Iterator[tuple[Cell, ...]]:
    scales = answer.weighed
    yield (
        "scales",
        Value("mass_kg", scales.mass_kg, decimals=1),
        station("cg_station_m", scales.cg_station_m),
        station("cg_waterline_m", scales.cg_waterline_m),
    )
    yield "± of the scales", *_errors(scales.mass_error_kg, scales.cg_error_m, scales.cg_waterline_error_m)
    yield (
        "item list",
        Value("estimate_kg", answer.estimate_kg, decimals=1),
        station("estimate_cg_station_m", answer.estimate_cg_station_m),
        station("estimate_cg_waterline_m", answer.estimate_cg_waterline_m),
    )
    yield (
        "± of the list",
        *_errors(answer.estimate_error_kg, answer.estimate_cg_error_m, answer.estimate_cg_waterline_error_m),
    )
    yield (
        "scales less list",
        Value("over_kg", answer.over_kg, decimals=1, signed=True),
        moved("over_cg_m", answer.over_cg_m),
        moved("over_cg_waterline_m", answer.over_cg_waterline_m),
    )
    yield (
        "± of the difference",
        *_errors(answer.over_error_kg, answer.over_cg_error_m, answer.over_cg_waterline_error_m),
    )
    yield (
        "difference / ±",
        Value("mass_z_score", answer.mass_z_score, decimals=1),
        Value("station_z_score", answer.station_z_score, decimals=1),
        Value("waterline_z_score", answer.waterline_z_score, decimals=1),
    )


def _errors(mass_kg: float, station_m: float, waterline_m: float | None) -> tuple[Cell, Cell, Cell]:
    return (
        Value("mass_error_kg", mass_kg, digits=2),
        Value("cg_error_m", station_m, digits=2),
        Value("cg_waterline_error_m", waterline_m, digits=2),
    )


def _assumed(answer: WeighingAnswer) -> Iterator[Sentence]:
    """Yield the errors that the scenario does not give, and from which height the scales were read."""
    kinds = (
        ("scale readings {error}", "scale_error_kg", answer.assumed.scale_error_kg),
        (
            "stations, waterlines and buttlines of supports {error}",
            "support_error_m",
            answer.assumed.support_error_m,
        ),
        ("attitudes {error}", "pitch_error_deg", answer.assumed.pitch_error_deg),
    )
    taken = [say(text, error=Value(name, error, digits=2)) for text, name, error in kinds if error is not None]
    if taken:
        yield say("Standard errors assumed where the scenario gives no ±: {errors}.", errors=listed(taken, ", "))
    if answer.assumed_waterline_error_m is not None:
        yield say(
            "One attitude does not determine the height: that of the item list, ± {error}, is used.",
            error=Value("assumed_waterline_error_m", answer.assumed_waterline_error_m, digits=2),
        )


def _suspicions(answer: WeighingAnswer) -> Table:
    lines = [
        (
            suspect.group,
            Value("estimate_kg", suspect.estimate_kg),
            Value("estimate_error_kg", suspect.estimate_error_kg, digits=2),
            Value("correction_kg", suspect.correction_kg, digits=2, signed=True),
            Value("strength", suspect.strength, digits=2),
        )
        for suspect in answer.suspicions
        if suspect.strength > 0.0
    ]
    return rows(
        "Most likely corrections of the item list, by group",
        ["Group", "Listed", "±", "Most likely correction", "Correction / ±"],
        lines,
        "By weighted least squares from weight and CG alone, which cannot tell many groups apart: a hint where to "
        "look, not a finding.",
    )
