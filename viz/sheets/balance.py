"""The balance on the terminal: what it weighs, every loading, the engine's steps, and what the scales said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.cautions import SHOP
from viz.sheets.format import amount, fixed, significant
from viz.sheets.table import table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.balance import BalanceAnswer
    from sim.studies.weighing import WeighingAnswer
    from viz.sheets.format import Units
    from viz.sheets.table import Block


def sheet(answer: BalanceAnswer, units: Units, *, items: bool) -> Iterator[Block]:
    """Print the tables of a balance."""
    yield table(f"Balance of {answer.title} with {answer.powerplant}", ["Quantity", "Value"], _whole(answer, units))
    heads = ["Loading", "Weight", "CG station", "% mean chord", "Limits"]
    rows = [
        [
            point.name,
            amount("mass_kg", point.mass_kg, units, 4),
            fixed("cg_station_m", point.cg_station_m, units),
            f"{point.cg_percent_mac:.1f}",
            "inside" if point.inside else "OUTSIDE",
        ]
        for point in answer.envelope
    ]
    limits = f"Limits {answer.forward_limit_percent_mac:g} to {answer.aft_limit_percent_mac:g} % of the mean chord."
    yield table("Envelope, the engine where it is drawn", heads, rows, limits)
    yield from _engine(answer, units)
    if items:
        yield from _items(answer, units)
    if answer.weighing:
        yield from _scales(answer.weighing, units)
    yield table("Remarks", ["What to know"], [[remark] for remark in (*answer.remarks, SHOP)])


def ways(name: str, value_m: float, units: Units, decimals: int = 2) -> str:
    """Return a move along the airplane in words: ``0.60 in forward``."""
    size = fixed(name, abs(value_m), units, decimals)
    return size if float(size.split()[0]) == 0.0 else f"{size} {'aft' if value_m > 0.0 else 'forward'}"


def serving(answer: BalanceAnswer, units: Units) -> str:
    """Return in a sentence whether an engine position serves both ends of the envelope."""
    if answer.serves_from_m is None or answer.serves_to_m is None:
        return "no position of the engine keeps every loading within the limits"
    first, last = (ways("engine_move_m", move, units) for move in (answer.serves_from_m, answer.serves_to_m))
    return f"{first} to {last} of the drawn place keeps every loading within the limits"


def _whole(answer: BalanceAnswer, units: Units) -> list[list[str]]:
    inertia, error = answer.inertia_kg_m2, fixed("cg_error_m", answer.cg_error_m, units)
    spread = amount("mass_kg", answer.mass_error_kg, units, 2)
    return [
        ["loaded weight", f"{amount('mass_kg', answer.mass_kg, units, 4)} ± {spread}"],
        ["loaded CG station", f"{fixed('cg_station_m', answer.cg_station_m, units)} ± {error}"],
        ["loaded CG, % mean chord", f"{answer.cg_percent_mac:.2f}"],
        ["loaded CG waterline", fixed("cg_waterline_m", answer.cg_waterline_m, units)],
        ["empty weight", amount("mass_kg", answer.empty_mass_kg, units, 4)],
        ["empty CG station", fixed("cg_station_m", answer.empty_cg_station_m, units)],
        ["mean chord", fixed("depth_m", answer.chord_m, units)],
        ["its leading edge", fixed("cg_station_m", answer.leading_edge_station_m, units)],
        *(
            [f"inertia, {axis}", amount("inertia_kg_m2", value, units)]
            for axis, value in (
                ("roll", inertia.xx),
                ("pitch", inertia.yy),
                ("yaw", inertia.zz),
                ("product", inertia.xz),
            )
        ),
    ]


def _engine(answer: BalanceAnswer, units: Units) -> Iterator[Block]:
    rows = [
        [
            ways("engine_move_m", step.engine_move_m, units, 3),
            fixed("engine_station_m", answer.engine_station_m + step.engine_move_m, units, 3),
            fixed("cg_station_m", step.cg_station_m, units),
            f"{step.cg_percent_mac:.2f}",
        ]
        for step in answer.positions
    ]
    note = (
        f"Target {answer.target_percent_mac:g} % of the mean chord, station "
        f"{fixed('target_station_m', answer.target_station_m, units)}: move the engine "
        f"{ways('engine_move_m', answer.engine_move_m, units)}. Half an inch of engine is "
        f"{answer.cg_per_half_inch_percent_mac:.2f} % of the mean chord{_ballast_half_inch(answer, units)}.\n"
        f"{_ballast(answer, units)}\nBoth ends of the envelope: {serving(answer, units)}."
    )
    heads = ["Engine moved", "Engine station", "CG station", "% mean chord"]
    yield table("Where the engine stands, in steps of 1/8 in", heads, rows, note)


def _ballast_half_inch(answer: BalanceAnswer, units: Units) -> str:
    if answer.ballast_per_half_inch_kg is None:
        return ""
    return f", or {amount('mass_kg', answer.ballast_per_half_inch_kg, units, 2)} of tail ballast"


def _ballast(answer: BalanceAnswer, units: Units) -> str:
    if answer.ballast_kg is None:
        return "Tail ballast cannot do it: none is placed, or the CG must come forward."
    return f"Tail ballast instead: {amount('mass_kg', answer.ballast_kg, units, 2)}."


def _items(answer: BalanceAnswer, units: Units) -> Iterator[Block]:
    rows = [
        [
            item.name + (" (past builds)" if item.from_past else ""),
            item.group,
            amount("mass_kg", item.mass_kg, units),
            amount("mass_kg", item.mass_error_kg, units, 2) if item.mass_error_kg else "",
            fixed("station_m", item.station_m, units, 1),
        ]
        for item in answer.items
    ]
    yield table("Items", ["Item", "Group", "Weight", "±", "Station"], rows)


def _scales(answer: WeighingAnswer, units: Units) -> Iterator[Block]:
    scales, aboard = answer.weighed, ", ".join(answer.aboard) or "nothing"
    rows = [
        [
            "weight",
            *(amount("mass_kg", kg, units, 4) for kg in (scales.mass_kg, answer.estimate_kg)),
            _over(answer, units),
        ],
        [
            "CG station",
            *(fixed("station_m", place_m, units) for place_m in (scales.cg_station_m, answer.estimate_cg_station_m)),
            ways("engine_move_m", answer.over_cg_m, units),
        ],
    ]
    if scales.cg_waterline_m is not None and scales.cg_waterline_error_m is not None:
        error = fixed("error_m", scales.cg_waterline_error_m, units, 1)
        rows.append(["CG waterline", f"{fixed('waterline_m', scales.cg_waterline_m, units, 1)} ± {error}", "", ""])
    yield table(
        f"On the scales with {answer.powerplant}, {aboard} aboard", ["", "Scales", "List", "Scales less list"], rows
    )
    heads = ["Group", "Listed", "±", "Most likely correction", "over its ±"]
    suspects = [
        [
            suspect.group,
            amount("mass_kg", suspect.estimate_kg, units),
            amount("mass_kg", suspect.estimate_error_kg, units, 2),
            f"{'+' if suspect.correction_kg > 0.0 else '-'}{amount('mass_kg', abs(suspect.correction_kg), units, 2)}",
            significant(suspect.strength, 2),
        ]
        for suspect in answer.suspicions
        if suspect.strength > 0.0
    ]
    note = "Two numbers cannot tell many groups apart: suspicions by weighted least squares, not facts."
    yield table("Which groups the scales make suspect", heads, suspects, note)


def _over(answer: WeighingAnswer, units: Units) -> str:
    return f"{amount('mass_kg', abs(answer.over_kg), units)} {'heavier' if answer.over_kg > 0.0 else 'lighter'}"
