"""The balance on paper: weight and centre of gravity, every loading, the engine's positions, and the weighing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.scales_and_list import contradiction
from viz.sheets.blocks import Run, Value, next_steps, rows, say
from viz.sheets.engine_position import engine_positions, in_place_of_the_move, try_a_shift
from viz.sheets.from_sim import remarks
from viz.sheets.masses import SOURCES
from viz.sheets.stations import moved, station, within
from viz.sheets.weighing import weighing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.balance_answer import BalanceAnswer
    from viz.sheets.blocks import Block, Cell, Sentence, Table

POINTS = (
    ("neutral point, stick fixed", "neutral_point"),
    ("neutral point, stick free", "neutral_point_free"),
    ("manoeuvre point, stick fixed", "maneuver_point"),
    ("manoeuvre point, stick free", "maneuver_point_free"),
    ("foremost CG, flare with full up elevator", "forward_limit_by_elevator"),
    ("foremost CG, trimmed in slowest level flight", "forward_limit_by_trim"),
)
"""Label of a row -> stem of the fields of a powerplant."""
PHYSICS = (
    "The airplane is statically stable with the CG ahead of the neutral point; stick free: the elevator floats. Linear "
    "estimates at the flight condition of the scenario, without slipstream or ground effect; after ±: one standard "
    "deviation."
)


def sheet(answer: BalanceAnswer, *, items: bool = False) -> Iterator[Block]:
    """Yield the balance; with `items` every item as it was counted."""
    warning = contradiction(answer.weighing) if answer.weighing else None
    if warning:
        yield say("{warning}", warning=warning)
    yield rows(
        say("Balance of {title} with {engine}", title=answer.title, engine=answer.powerplant),
        ["Quantity", "Value"],
        _whole(answer),
        _source(answer),
    )
    yield _powerplants(answer)
    yield _envelope(answer)
    yield engine_positions(answer)
    if answer.ballast or answer.shifts:
        yield in_place_of_the_move(answer)
    if items:
        yield _items(answer)
    if answer.weighing:
        yield from weighing(answer.weighing)
    if answer.remarks:
        yield remarks(answer.remarks)
    mount = say("{run}, the loads of the engine on its mount, bolts and tubes", run=Run("mount"))
    yield next_steps(mount, *(() if warning else try_a_shift(answer)))


def _source(answer: BalanceAnswer) -> Sentence:
    """Return where the numbers come from, and where the engine stands for them."""
    of = (
        "The item list, corrected by the scales: the least corrections, by each item's own ±, that agree with them."
        if answer.as_weighed
        else "By the item list: the airplane was not weighed."
    )
    stands = (
        say("Engine {move} from where it is drawn.", move=moved("moved_m", answer.moved_m)) if answer.moved_m else ""
    )
    return say("{of} {stands}", of=of, stands=stands) if stands else say("{of}", of=of)


def _whole(answer: BalanceAnswer) -> Iterator[tuple[str, Cell]]:
    yield "loaded weight", Value("mass_kg", answer.mass_kg, decimals=0, error=answer.mass_error_kg)
    yield "loaded CG station", within("cg_station_m", answer.cg_station_m, "cg_error_m", answer.cg_error_m)
    error = 100.0 * answer.cg_error_m / answer.chord_m
    yield "loaded CG, % of the mean chord", Value("cg_percent_mac", answer.cg_percent_mac, decimals=2, error=error)
    error_m = answer.cg_waterline_error_m
    yield "loaded CG waterline", within("cg_waterline_m", answer.cg_waterline_m, "cg_waterline_error_m", error_m)
    yield "loaded CG buttline, by the items", moved("cg_buttline_m", answer.cg_buttline_m)
    yield "empty weight", Value("empty_mass_kg", answer.empty_mass_kg, digits=4)
    yield "empty CG station", station("empty_cg_station_m", answer.empty_cg_station_m)
    yield "mean aerodynamic chord", station("mean_chord_m", answer.chord_m)
    yield "station of its leading edge", station("leading_edge_station_m", answer.leading_edge_station_m)
    inertia = answer.inertia_kg_m2
    yield "loaded moment of inertia, roll", Value("inertia_kg_m2", inertia.xx)
    yield "loaded moment of inertia, pitch", Value("inertia_kg_m2", inertia.yy)
    yield "loaded moment of inertia, yaw", Value("inertia_kg_m2", inertia.zz)
    yield "loaded product of inertia Ixz", Value("inertia_kg_m2", inertia.xz)


def _powerplants(answer: BalanceAnswer) -> Table:
    names = list(answer.powerplants)
    found = list(answer.powerplants.values())
    lines: list[list[Cell]] = [
        ["weight", *(Value("mass_kg", one.mass_kg, decimals=0) for one in found)],
        ["from", *(SOURCES[one.source] for one in found)],
        ["CG", *(_percent("cg_percent_mac", one.cg_percent_mac) for one in found)],
    ]
    for label, name in POINTS:
        numbers = [(getattr(one, f"{name}_percent_mac"), getattr(one, f"{name}_error_percent_mac")) for one in found]
        lines.append([label, *(_percent(f"{name}_percent_mac", number, error) for number, error in numbers)])
    lines.append(
        ["static margin", *(_percent("static_margin_percent_mac", one.static_margin_percent_mac) for one in found)]
    )
    return rows(
        "Loaded as listed, each engine at its present position: % of the mean chord", ["", *names], lines, PHYSICS
    )


def _percent(name: str, number: float | None, error: float | None = None) -> Cell:
    """Return a place in percent of the mean chord, with its standard error where it has one."""
    value = Value(name, number, decimals=1)
    if number is None or not error:
        return value
    return say("{number} ± {error}", number=value, error=Value(name, error, decimals=1))


def _pilots(answer: BalanceAnswer) -> Cell:
    flying, least, most = answer.pilots_kg, answer.pilot_least_kg, answer.pilot_most_kg
    if least is None:
        return "No pilot keeps every loading inside." if flying else ""
    ends = {"least": Value("pilot_least_kg", least, decimals=0), "most": Value("pilot_most_kg", most, decimals=0)}
    within = say("from {least}" if most is None else "from {least} to {most}", **ends)
    if not flying or any(least <= each and (most is None or each <= most) for each in flying):
        return say("Pilots {within} keep every loading inside.", within=within)
    who = say(
        "from {least} to {most}" if len(flying) > 1 else "of {least}",
        least=Value("pilots_kg", flying[0], decimals=0),
        most=Value("pilots_kg", flying[-1], decimals=0),
    )
    told = "None of the pilots, {who}, keeps every loading inside; pilots {within} would."
    return say(told, who=who, within=within)


def _envelope(answer: BalanceAnswer) -> Table:
    limits = say(
        "Limits {forward} to {aft} % of the mean chord, as given. Tanks are emptied in the order of the item list. "
        "Inside: probability that the CG is within the limits, by its standard error, in which pilot, passengers, "
        "baggage and fuel without ± count as exact. Margin: static margin, stick fixed, % of the mean chord. {pilots}",
        forward=f"{answer.forward_limit_percent_mac:g}",
        aft=f"{answer.aft_limit_percent_mac:g}",
        pilots=_pilots(answer),
    )
    lines = [
        (
            point.name,
            Value("mass_kg", point.mass_kg, digits=4),
            station("cg_station_m", point.cg_station_m),
            Value("cg_percent_mac", point.cg_percent_mac, decimals=1),
            "inside" if point.inside else "OUTSIDE",
            Value("inside_probability", point.inside_probability, decimals=0, percent=True),
            Value("static_margin_percent_mac", point.static_margin_percent_mac, decimals=1),
        )
        for point in answer.envelope
    ]
    heads = ["Loading", "Weight", "CG station", "% mean chord", "Limits", "Inside", "Margin"]
    return rows("Loading envelope", heads, lines, limits)


def _items(answer: BalanceAnswer) -> Table:
    lines = [
        (
            say("{item} (past builds)", item=item.name) if item.from_past else item.name,
            item.group,
            Value("mass_kg", item.mass_kg),
            Value("mass_error_kg", item.mass_error_kg or None, digits=2, absent=""),
            station("station_m", item.station_m, 1),
        )
        for item in answer.items
    ]
    return rows("Items", ["Item", "Group", "Weight", "±", "Station"], lines)
