"""The airplane, its mass and what its mount carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.blocks import Picture, Text
from viz.report.sheets import tables
from viz.sheets.cautions import SHOP
from viz.sheets.format import amount

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.blocks import Block
    from viz.report.findings import Findings


def engines(found: Findings) -> Iterator[Block]:
    """Yield what spins in the airplane."""
    from viz.sheets.compare import sheet

    yield Text(
        "The same airplane is asked with each of its engines. What an engine does to the nose goes by its spin "
        "momentum: polar inertia times speed of all that turns with the shaft."
    )
    yield next(tables(sheet, found.comparison, found.units))


def speeds(found: Findings) -> Iterator[Block]:
    """Yield stall to top speed, and power against speed."""
    from viz.commands.speeds import sheet
    from viz.figures.speeds import draw

    answer = found.speeds
    yield from tables(sheet, answer, found.units)
    tops = "; ".join(
        f"{name} {'does not hold' if own.top_m_s is None else amount('top_m_s', own.top_m_s, found.units)}"
        for name, own in answer.powerplants.items()
    )
    alt = (
        "Power needed for level flight falls and rises again with speed; the power each engine gives meets it at the "
        f"top speed: {tops}. Stall at {amount('stall_m_s', answer.stall_m_s, found.units)}."
    )
    yield Picture(draw(answer, found.units), "Power against speed", alt)


def weight(found: Findings) -> Iterator[Block]:
    """Yield weights, loadings and where the engine must stand."""
    from viz.figures.balance import draw
    from viz.sheets.balance import serving, sheet, ways

    answer = found.balance
    yield Text(
        f"Stations are aft of the datum. With the {answer.powerplant} on target the engine moves "
        f"{ways('engine_move_m', answer.engine_move_m, found.units)} from where it is drawn; "
        f"{serving(answer, found.units)}."
    )
    outside = sum(not point.inside for point in answer.envelope)
    alt = (
        f"Above: weight against centre of gravity from full tanks to empty, {outside} of {len(answer.envelope)} "
        "loadings outside the limits with the engine as drawn. Below: how far the engine goes for each place of the "
        "loaded centre of gravity."
    )
    yield Picture(draw(answer, found.units), "Envelope, and where the engine must stand", alt)
    yield from tables(sheet, answer, found.units, items=True)
    yield Text(SHOP, caution=True)


def mount(found: Findings) -> Iterator[Block]:
    """Yield the loads at the firewall, bolt by bolt and tube by tube."""
    from viz.commands.mount import sheet

    answer = found.mount
    if answer.bolt_pattern:
        from viz.figures.mount import draw

        worst = max(answer.worst_bolts, key=lambda row: row.stress_pa)
        alt = (
            "The firewall's bolts seen from the cockpit, one panel an engine, each in its worst case. Most is asked of "
            f"{worst.bolt.replace('_', ' ')} by the {worst.powerplant}, {worst.case}: tension "
            f"{amount('axial_n', worst.axial_n, found.units)}, shear {amount('shear_n', worst.shear_n, found.units)}."
        )
        yield Picture(draw(answer, found.units), "Bolts of the firewall in the worst case of each engine", alt)
    yield from tables(sheet, answer, found.units)
    yield Text(SHOP, caution=True)
