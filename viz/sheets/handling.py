"""The sheet of `whirlgate handling`: steady turns and modes with each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.flight.quality import EDITION
from viz.sheets.bands import DRAWN, band, known, with_band
from viz.sheets.blocks import Column, Table, Value, remarks, say
from viz.sheets.control_forces import force_bands, force_notes, forces_table, free_modes, straight_table, turns_told
from viz.sheets.masses import flown_at
from viz.sheets.modes import SAME_LEVEL_IN, at_power, bands_table, modes_note, modes_table
from viz.sheets.momentum import momentum
from viz.sheets.validity import outside, starred

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.flight.quality import Category
    from sim.studies.handling_answer import Handling, PowerplantHandling, SteadyTurn
    from viz.sheets.blocks import Block, Cell, Sentence


CONTROLS = (
    "Elevator and aileron: position of the stick; rudder: pedal; in percent of the travel from neutral. Pitch and yaw: "
    "gyroscopic moment on the airframe. Limit: what prevents the turn."
)

HELD_IN = "Held in: the share of them that can hold the turn."

COUPLES = (
    ("Gyroscopic pitching moment", "Pitch", "gyro_pitch_n_m"),
    ("Gyroscopic yawing moment", "Yaw", "gyro_yaw_n_m"),
)
"""Head of a column, the same where there is little room, and what stands in it."""
POSITION: dict[str, Any] = {"decimals": 0, "percent": True, "bare": True, "signed": True, "brief": True}
"""How the position of a control is written."""


def sheet(answer: Handling, category: Category = "B") -> Iterator[Block]:
    """Yield the turns and the modes with each powerplant, and what their columns mean."""
    for name, found in answer.powerplants.items():
        title = say(
            "{name}: steady turns at {speed} and {altitude}{power}",
            name=name,
            speed=Value("speed_m_s", answer.speed_m_s),
            altitude=Value("altitude_m", answer.altitude_m),
            power=at_power(answer.power),
        )
        ends = found.steepest_left_beyond, found.steepest_right_beyond
        beyond = outside((*(turn.beyond for turn in found.turns), *ends))
        yield Table(title, tuple(_columns(found.turns)), (_steepest(found), _shaft(found), *beyond))
        if _banded(found):
            yield _bands(name, found)
            yield _couple_bands(name, found)
        yield from _forces(name, found)
        straight = say("{name}: modes in straight flight{power}", name=name, power=at_power(answer.power))
        yield modes_table(straight, found.modes, found.modes_beyond, found.modes_not_held)
        if _banded(found):
            yield bands_table(name, found.modes)
        yield from free_modes(name, found)
    yield say(CONTROLS)
    yield from turns_told(answer)
    yield from force_notes(next(iter(answer.powerplants.values())).forces)
    if any(map(_banded, answer.powerplants.values())):
        yield say(f"{DRAWN} {HELD_IN} {SAME_LEVEL_IN}")
    yield flown_at(answer.masses)
    yield modes_note(f"{EDITION}, Category {category}")
    if answer.remarks:
        yield remarks(answer.remarks)


def _forces(name: str, found: PowerplantHandling) -> Iterator[Block]:
    banks = tuple(_bank(turn.bank_deg) for turn in found.turns)
    yield forces_table(name, found, banks)
    if _banded(found):
        yield force_bands(name, found, banks)
    yield straight_table(name, found.forces)


def _banded(found: PowerplantHandling) -> bool:
    return any(mode.grows_probability is not None for mode in found.modes)


def _columns(turns: Sequence[SteadyTurn]) -> Iterator[Column]:
    yield Column("Bank", tuple(_bank(turn.bank_deg) for turn in turns))
    for head, short, name in (
        ("Elevator [% of travel]", "Elevator\n[%]", "elevator_share"),
        ("Aileron [% of travel]", "Aileron\n[%]", "aileron_share"),
        ("Rudder [% of travel]", "Rudder\n[%]", "rudder_share"),
    ):
        cells = (known(turn, name, **POSITION) for turn in turns)
        yield Column(head, tuple(cells), short=short)
    for head, short, name in COUPLES:
        moments = (getattr(turn, name) for turn in turns)
        cells = (Value(name, moment, bare=True, signed=True, brief=True) for moment in moments)
        yield Column(head, tuple(cells), name, short)
    limits = (starred((turn.limit or "–").removesuffix(" travel"), turn.beyond) for turn in turns)
    yield Column("Limit", tuple(limits))


def _bands(name: str, found: PowerplantHandling) -> Table:
    """Return the ends of the 90 % bands of the controls in each turn."""
    title = say("{name}: 90 % band of each control, in percent of its travel", name=name)
    columns = [Column("Bank", tuple(_bank(turn.bank_deg) for turn in found.turns))]
    for control in ("elevator", "aileron", "rudder"):
        cells = tuple(band(turn, f"{control}_share", **POSITION) for turn in found.turns)
        columns.append(Column(f"{control.capitalize()} [%]", cells))
    held = (Value("holds_probability", turn.holds_probability, decimals=0, percent=True) for turn in found.turns)
    columns.append(Column("Held in", tuple(held)))
    return Table(title, tuple(columns))


def _couple_bands(name: str, found: PowerplantHandling) -> Table:
    """Return the ends of the 90 % bands of the gyroscopic moments in each turn."""
    title = say("{name}: 90 % band of the gyroscopic moments on the airframe", name=name)
    columns = [Column("Bank", tuple(_bank(turn.bank_deg) for turn in found.turns))]
    for head, _, quantity in COUPLES:
        cells = tuple(band(turn, quantity, " to ", bare=True, signed=True, brief=True) for turn in found.turns)
        columns.append(Column(head, cells, quantity))
    return Table(title, tuple(columns))


def _bank(bank_deg: float) -> Value | str:
    whole = bank_deg == round(bank_deg)
    return Value("bank_deg", bank_deg, decimals=0 if whole else None, signed=True) if bank_deg else "level"


def _steepest(found: PowerplantHandling) -> Sentence:
    if not found.steepest_left_deg and not found.steepest_right_deg:
        return say("No bank can be held: a limit prevents steady straight flight.")
    left, right = (_banked(found, side) for side in ("left", "right"))
    return say("Steepest steady banks: {left} and {right}.", left=left, right=right)


def _banked(found: PowerplantHandling, side: str) -> Cell:
    """Return the steepest bank to one side, with its band where it has one: ``66.7° left (50 to 69)``."""
    bank = with_band(found, f"steepest_{side}_deg", signed=True)
    return starred(bank, getattr(found, f"steepest_{side}_beyond"))


def _shaft(found: PowerplantHandling) -> Sentence:
    return say(
        "In straight flight: {spin} as seen from the cockpit, angular momentum {momentum}.",
        spin=with_band(found, "spin_rad_s", signed=True),
        momentum=momentum(found),
    )
