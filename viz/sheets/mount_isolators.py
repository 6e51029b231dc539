"""The engine on its isolators on paper: rates beside natural frequencies, the motions, sway and clearances."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.studies.mount_isolators import ISOLATES
from viz.sheets.blocks import Column, Table, Value, listed, rows, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.mount_isolators import IsolatedEngine, IsolatorClearance, IsolatorRate
    from viz.sheets.blocks import Cell

SIX = 6
"""Motions of a rigid body."""
FREQUENCIES = (
    "Undamped, small motion, mount and firewall rigid, rotor at rest: the real mount gives and lowers all of them. "
    "Rubber is stiffer in the cold and in vibration than under a steady load, by tens of per cent (common practice, no "
    "source)."
)
SHIFTS_ONLY = (
    "Without length, width and height in mount.hung.{engine} the engine is taken as kept from turning: the true lowest "
    "frequency is at most as high."
)
SWAYS = (
    "At limit load, from where the engine hangs at rest, by linear stiffness without stops: forward, right and down "
    "positive. Vibration adds to it, most of all as the engine starts and stops through its natural frequencies."
)


def isolators(answer: IsolatedEngine, engine: str) -> Iterator[Table]:
    """Yield rates, natural frequencies, sway and clearances."""
    yield _rates(answer, engine)
    title = say("Natural frequencies of {engine} on its isolators", engine=engine)
    heads = ["Motion", "Natural frequency", "Part of its energy"]
    lines = [
        (one.name, Value("natural_rad_s", one.natural_rad_s), Value("motion_share", one.motion_share, decimals=0))
        for one in answer.modes
    ]
    short = () if len(answer.modes) == SIX else (say(SHIFTS_ONLY, engine=engine),)
    yield rows(title, heads, lines, FREQUENCIES, *short)
    yield _sways(answer)
    if answer.clearances:
        heads = ["Point", "Clearance", "Movement", "Left", "Case"]
        yield rows("Clearance of the engine", heads, map(_clearance, answer.clearances), *_strikes(answer))


def _rates(answer: IsolatedEngine, engine: str) -> Table:
    heads = ["Rate", "At idle", "Full speed", "Idle over lowest", "Full over lowest", "Idle over highest", "Passes"]
    ahead, side, down = (Value("isolator_n_per_m", value) for value in answer.isolator_n_per_m)
    given = say(
        "{count} isolators, each {ahead} fore and aft, {side} sideways, {down} up and down{source}.",
        count=Value("isolator_count", answer.isolator_count, decimals=0),
        ahead=ahead,
        side=side,
        down=down,
        source=say(" ({source})", source=answer.stiffness_source) if answer.stiffness_source else "",
    )
    isolates = say(
        "Over natural frequencies; an isolator passes on less than the force above {least}, and the farther above the "
        "less (J. P. Den Hartog, Mechanical Vibrations, section 2.12, from memory). Passes: motions whose natural "
        "frequency the rate meets between idle and full speed.",
        least=Value("idle_ratio", ISOLATES, decimals=2),
    )
    title = say("Rates of {engine} over the lowest and highest natural frequency on its isolators", engine=engine)
    return rows(title, heads, map(_rate, answer.rates), given, isolates)


def _rate(one: IsolatorRate) -> tuple[Cell, ...]:
    return (
        one.name,
        Value("idle_rad_s", one.idle_rad_s),
        Value("full_rad_s", one.full_rad_s),
        Value("idle_ratio", one.idle_ratio, decimals=2),
        Value("full_ratio", one.full_ratio, decimals=2),
        Value("idle_highest_ratio", one.idle_highest_ratio, decimals=2),
        listed(one.meets, ", ") if one.meets else "none",
    )


def _sways(answer: IsolatedEngine) -> Table:
    sag = Value("sag_m", answer.sag_m[-1])
    title = say("Movement of the centre of mass on the isolators; at rest it sags {sag}", sag=sag)
    columns = [Column("Case", tuple(one.name for one in answer.sways))]
    for place, head in enumerate(("Forward", "Right", "Down")):
        shifts = (Value("cg_shift_m", one.cg_shift_m[place], decimals=3) for one in answer.sways)
        columns.append(Column(head, tuple(shifts)))
    columns.append(Column("In all", tuple(Value("sway_m", one.sway_m, decimals=3) for one in answer.sways)))
    return Table(title, tuple(columns), (SWAYS,))


def _clearance(one: IsolatorClearance) -> tuple[Cell, ...]:
    return (
        one.name.replace("_", " "),
        Value("clearance_m", one.clearance_m, decimals=3),
        Value("sway_m", one.sway_m, decimals=3),
        Value("left_m", one.left_m, decimals=3),
        one.case,
    )


def _strikes(answer: IsolatedEngine) -> Iterator[Cell]:
    names = [one.name.replace("_", " ") for one in answer.clearances if one.left_m < 0.0]
    if names:
        told = "The engine STRIKES the airframe at: {names}. Give more clearance or stiffer isolators."
        yield say(told, names=listed(names, ", "))
