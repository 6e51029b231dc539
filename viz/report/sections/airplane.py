"""The airplane, its mass and what its mount carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.sheets import tables
from viz.sheets.blocks import Picture, Value, listed, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block, Sentence

BANK_DEG = 45.0
WHY = {
    "move": "its key move",
    "asked": "its key move",
    "target": "at the CG target, for its move is not given",
    "drawn": "as drawn",
}
"""Why an engine stands where it does -> a word on it."""


def seen(found: Findings) -> Iterator[Block]:
    """Yield the airplane from three sides, drawn to scale."""
    answer = found.drawing
    sizes_m = answer.sizes_m()
    span, length, height = (
        Value("drawn_m", sizes_m.get(name), decimals=0, tape=True, absent="(no ground given) not known")
        for name in ("span", "length", "height")
    )
    alt = say(
        "The airplane from above, from the front and from the left, drawn to one scale from the scenario with "
        "{powerplant}: span {span}, length {length}, height with the airplane level {height}.",
        powerplant=answer.powerplant,
        span=span,
        length=length,
        height=height,
    )
    yield Picture(found.drawings.begin("three_view", answer), "Three-view of the airplane", alt)


def turning(found: Findings) -> Iterator[Block]:
    """Yield both airplanes in the same turn, as the viewer shows them."""
    from viz.report.stage_picture import stage_picture
    from viz.words.reader import language

    most, one = found.most_spin
    left = next(turn for turn in one.turns if turn.bank_deg == -BANK_DEG)
    alt = say(
        "The airplane in a left turn over fields, and as a blue outline the same one with the fixed engine; an arrow "
        "on each nose shows how hard its engine pushes it. In a level {bank} turn to the left at {speed} the rotor of "
        "the {most} makes {moment}.",
        bank=Value("bank_deg", BANK_DEG, decimals=0),
        speed=Value("speed_m_s", found.comparison.speed_m_s),
        most=most,
        moment=Value("pitch_n_m", left.pitch_n_m, signed=True),
    )
    yield Picture(
        stage_picture(found.stage, "turning", found.units, language()), "The same turn with both engines", alt
    )


def engines(found: Findings) -> Iterator[Block]:
    """Yield what spins in the airplane."""
    from viz.sheets.compare import sheet

    yield say(
        "The same airplane is computed with each of its engines. The gyroscopic moment of an engine is proportional to "
        "its angular momentum: polar inertia times speed of everything that rotates with the shaft."
    )
    yield next(tables(sheet(found.comparison)))
    yield flown(found)


def flown(found: Findings) -> Sentence:
    """Return at which mass, centre of gravity and engine position everything in the report is computed."""
    from viz.sheets.masses import flown_at
    from viz.sheets.stations import moved

    places = listed(
        say("{name} {move} ({why})", name=name, move=moved("moved_m", one.move_m), why=WHY[one.by])
        for name, one in found.stands.items()
    )
    return say(
        "Flights, balance and mount are computed at one position of each engine, from where it is drawn: {places}. "
        "{flown}",
        places=places,
        flown=flown_at(found.comparison.masses),
    )


def speeds(found: Findings) -> Iterator[Block]:
    """Yield stall to top speed, and power against speed."""
    from viz.sheets.speeds import sheet

    answer = found.speeds
    yield from tables(sheet(answer))
    tops = listed(
        say("{name} {top}", name=name, top=Value("top_m_s", own.top_m_s, absent="does not hold"))
        for name, own in answer.powerplants.items()
    )
    alt = say(
        "Power required for level flight has a minimum; it equals the thrust power of each engine at top speed: "
        "{tops}. Stall at {stall}.",
        tops=tops,
        stall=Value("stall_m_s", answer.stall_m_s),
    )
    yield Picture(found.drawings.begin("speeds", answer), "Power against speed", alt)


def drag(found: Findings) -> Iterator[Block]:
    """Yield drag part by part, and how greatest lift comes about."""
    from viz.sheets.drag import sheet

    answer = found.drag
    largest = sorted(answer.parts, key=lambda part: -part.drag_area_m2)[:3]
    alt = say(
        "A bar for each part, its length the drag over dynamic pressure, with one standard deviation. The largest: "
        "{largest}.",
        largest=listed(
            say(
                "{name} {share}",
                name=part.name.replace("_", " "),
                share=Value("drag_share", part.drag_share, percent=True, decimals=0),
            )
            for part in largest
        ),
    )
    yield Picture(found.drawings.begin("drag", answer), "Drag without lift, part by part", alt)
    yield from tables(sheet(answer))


def weight(found: Findings) -> Iterator[Block]:
    """Yield weights, loadings and where the engine must stand."""
    from viz.sheets.balance import sheet
    from viz.sheets.engine_position import stands

    answer = found.balance
    yield say("Stations are aft of the datum. {stands}", stands=stands(answer, found.stands[answer.powerplant]))
    outside = sum(not point.inside for point in answer.envelope)
    alt = say(
        "Above: weight against centre of gravity from full tanks to empty, {outside} of {all} loadings outside the "
        "limits with the engine there. Below: engine displacement against loaded centre of gravity, and the airplane "
        "from the side with its limits.",
        outside=str(outside),
        all=str(len(answer.envelope)),
    )
    shown = {"balance": answer, "drawing": found.drawing}
    yield Picture(found.drawings.begin("balance", shown), "Loading envelope, engine position, and side view", alt)
    yield from tables(sheet(answer, items=True))


def mount(found: Findings) -> Iterator[Block]:
    """Yield the loads at the firewall, bolt by bolt and tube by tube."""
    from viz.sheets.mount import sheet

    answer = found.mount
    if answer.bolt_pattern:
        worst = min(answer.worst_bolts, key=lambda row: row.margin)
        alt = say(
            "Bolts at the firewall seen from the cockpit, in the most severe case; filled: tension, open: compression, "
            "arrow: shear. The bolt with the least margin is {bolt} with the {name}, {case}: tension {axial}, shear "
            "{shear}. "
            "Below, where there is a truss, its side view with the engine where it stands.",
            bolt=worst.bolt.replace("_", " "),
            name=worst.powerplant,
            case=worst.case,
            axial=Value("axial_n", worst.axial_n),
            shear=Value("shear_n", worst.shear_n),
        )
        yield Picture(found.drawings.begin("mount", answer), "Bolt loads in the most severe case, and the truss", alt)
    yield from tables(sheet(answer))
