"""How the airplane handles with each engine: turns left and right, the same inputs, a reversal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.sheets import tables
from viz.sheets.blocks import Picture, Points, Value, listed, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block


def quoted(found: Findings) -> Iterator[Block]:
    """Yield the rotor's effect on handling in sentences, with how sure they are."""
    from viz.report.sections.airplane import flown
    from viz.sheets.rotor_effect import sheet

    yield Points(tuple(sheet(found.summary)))
    yield flown(found)


def turns(found: Findings) -> Iterator[Block]:
    """Yield control shares against bank, then the turns and modes of each engine."""
    from viz.sheets.handling import sheet

    steepest = listed(
        say(
            "{name} {left} and {right}",
            name=name,
            left=Value("bank_deg", own.steepest_left_deg, signed=True),
            right=Value("bank_deg", own.steepest_right_deg, signed=True),
        )
        for name, own in found.handling.powerplants.items()
    )
    alt = say(
        "Elevator, rudder and aileron as fractions of their travel against bank, one line for each engine, and the "
        "roots of the modes. A large angular momentum makes left and right turns differ. Steepest steady banks: "
        "{steepest}.",
        steepest=steepest,
    )
    yield Picture(found.drawings.begin("handling_controls", found.handling_sweep), "Controls in turns, and modes", alt)
    yield from _forces(found)
    yield from tables(sheet(found.handling))


def _forces(found: Findings) -> Iterator[Block]:
    """Yield what the pilot holds over bank, and over speed in straight flight."""
    answer = found.handling_sweep
    names = {"stick_force_n": "fore and aft", "stick_side_force_n": "sideways", "pedal_force_n": "at the pedals"}
    for figure, title, rows in (
        ("handling_bank", "Forces in steady turns", lambda own: [turn for turn in own.turns if turn.holds]),
        ("handling_speed", "Forces in straight flight", lambda own: own.forces.straight),
    ):
        most = listed(
            say(
                "{engine} {forces}",
                engine=engine,
                forces=listed(
                    (
                        say(
                            "{force} {way}",
                            force=Value(name, max(abs(getattr(row, name)) for row in rows(own))),
                            way=way,
                        )
                        for name, way in names.items()
                    ),
                    ", ",
                ),
            )
            for engine, own in answer.powerplants.items()
            if rows(own)
        )
        alt = say(
            "What the pilot holds, a line for each engine; he can hold it for minutes between the dotted lines. The "
            "largest drawn: {most}.",
            most=most,
        )
        yield Picture(found.drawings.begin(figure, answer), title, alt)


def couples(found: Findings) -> Iterator[Block]:
    """Yield what the spin does to the nose in level turns."""
    from viz.sheets.bands import DRAWN
    from viz.sheets.compare import sheet

    yield tuple(tables(sheet(found.comparison)))[1]
    yield say(DRAWN)


def inputs(found: Findings) -> Iterator[Block]:
    """Yield how the nose answers one kick and one pull with each engine."""
    from viz.sheets.compare import INPUTS, sheet

    told = listed(
        say(
            "{name}, {input}: the rotor adds {pitch} and {yaw}",
            name=name,
            input=INPUTS[one.input],
            pitch=Value("pitch_deg", one.pitch_by_spin_deg, signed=True),
            yaw=Value("yaw_deg", one.yaw_by_spin_deg, signed=True),
        )
        for name, own in found.comparison.powerplants.items()
        for one in own.disturbances
    )
    yield tuple(tables(sheet(found.comparison)))[2]
    alt = say("Pitch and heading over three seconds. {told}.", told=told)
    yield Picture(found.drawings.begin("compare", found.comparison), "The same rudder kick and the same pull", alt)


def reversal(found: Findings) -> Iterator[Block]:
    """Yield a turn turned into the opposite one, flown by a simple pilot who holds height and ball."""
    from viz.sheets.bands import DRAWN
    from viz.sheets.maneuver import sheet

    flown = found.reversal
    alt = say(
        "Pitch, heading, bank, height, elevator and rudder over time, from a 45° turn into the opposite one, with each "
        "engine and to both sides; the table below gives the largest values."
    )
    yield Picture(found.drawings.begin("maneuver", flown), "From one turn into the opposite one", alt)
    yield from tables(sheet(flown))
    yield say(DRAWN)
    limits = [
        say("{engine}, {side}: {limits}.", engine=one.powerplant, side=one.side, limits=listed(one.limits))
        for one in flown.flights
        if one.limits
    ]
    if limits:
        yield Points(tuple(limits))
