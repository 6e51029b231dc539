"""The airplane, its mass and what its mount carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.sheets import tables
from viz.sheets.blocks import Picture, Value, listed, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block


def engines(found: Findings) -> Iterator[Block]:
    """Yield what spins in the airplane."""
    from viz.sheets.compare import sheet

    yield say(
        "The same airplane is computed with each of its engines. The gyroscopic moment of an engine is proportional to "
        "its angular momentum: polar inertia times speed of all that turns with the shaft."
    )
    yield next(tables(sheet(found.comparison)))


def speeds(found: Findings) -> Iterator[Block]:
    """Yield stall to top speed, and power against speed."""
    from viz.figures.speeds import draw
    from viz.sheets.speeds import sheet

    answer = found.speeds
    yield from tables(sheet(answer))
    tops = listed(
        say("{name} {top}", name=name, top=Value("top_m_s", own.top_m_s, absent="does not hold"))
        for name, own in answer.powerplants.items()
    )
    alt = say(
        "Power needed for level flight falls and rises again with speed; the power each engine gives meets it at the "
        "top speed: {tops}. Stall at {stall}.",
        tops=tops,
        stall=Value("stall_m_s", answer.stall_m_s),
    )
    yield Picture(draw(answer, found.units), "Power against speed", alt)


def weight(found: Findings) -> Iterator[Block]:
    """Yield weights, loadings and where the engine must stand."""
    from viz.figures.balance import draw
    from viz.sheets.balance import moved, serving, sheet

    answer = found.balance
    yield say(
        "Stations are aft of the datum. With the {name} on target the engine moves {move} from where it is drawn; "
        "{serving}.",
        name=answer.powerplant,
        move=moved("engine_move_m", answer.engine_move_m),
        serving=serving(answer),
    )
    outside = sum(not point.inside for point in answer.envelope)
    alt = say(
        f"Above: weight against centre of gravity from full tanks to empty, {outside} of {len(answer.envelope)} "
        "loadings outside the limits with the engine as drawn. Below: how far the engine goes for each place of the "
        "loaded centre of gravity."
    )
    yield Picture(draw(answer, found.units), "Envelope, and where the engine must stand", alt)
    yield from tables(sheet(answer, items=True))


def mount(found: Findings) -> Iterator[Block]:
    """Yield the loads at the firewall, bolt by bolt and tube by tube."""
    from viz.sheets.mount import sheet

    answer = found.mount
    if answer.bolt_pattern:
        from viz.figures.mount import draw

        worst = max(answer.worst_bolts, key=lambda row: row.stress_pa)
        alt = say(
            "The firewall's bolts seen from the cockpit, one panel an engine, each in its worst case. The most loaded "
            "is {bolt} with the {name}, {case}: tension {axial}, shear {shear}.",
            bolt=worst.bolt.replace("_", " "),
            name=worst.powerplant,
            case=worst.case,
            axial=Value("axial_n", worst.axial_n),
            shear=Value("shear_n", worst.shear_n),
        )
        yield Picture(draw(answer, found.units), "Bolts of the firewall in the worst case of each engine", alt)
    yield from tables(sheet(answer))
