"""The sheet of `whirlgate handling`: steady turns and modes with each powerplant."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.flight.force_limits import FORCES as LIMITED
from sim.flight.force_limits import MOMENT
from sim.flight.quality import EDITION
from viz.sheets.bands import DRAWN, band, known, with_band
from viz.sheets.blocks import Column, Table, Value, listed, say
from viz.sheets.control_forces import (
    FORCES,
    POSITION,
    force_bands,
    force_notes,
    forces_table,
    free_modes,
    let_go_table,
    straight_bands,
    straight_table,
    turns_told,
)
from viz.sheets.from_sim import remarks
from viz.sheets.handling_warnings import warnings
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
    "Elevator and aileron: position of the stick; rudder: pedal; in percent of the travel from neutral. Limit: what "
    "prevents the turn; overspeed: the engine would turn faster than its full speed. Shaft: clockwise positive as seen "
    "from the cockpit. Pitch and yaw: gyroscopic moment on the airframe."
)

HELD_IN = "Held in: the share of them that can hold the turn."

COUPLES = (
    ("Gyroscopic pitching moment", "Pitch", "gyro_pitch_n_m"),
    ("Gyroscopic yawing moment", "Yaw", "gyro_yaw_n_m"),
)
"""Head of a column, the same where there is little room, and what stands in it."""
SPINNING = (
    ("Load factor", "Load\nfactor", "load_factor"),
    ("Rate of turn", "Turn", "turn_rate_deg_s"),
    ("Shaft speed", "Shaft", "spin_rad_s"),
    *COUPLES,
)
"""Likewise, of the table of the rotor."""
SIDEWAYS: dict[str, Any] = {"signed": True, "brief": True}
SPINNING_LOOK: dict[str, dict[str, Any]] = {
    "load_factor": {"decimals": 2},
    "turn_rate_deg_s": {"decimals": 1, **SIDEWAYS},
    "gyro_pitch_n_m": SIDEWAYS,
    "gyro_yaw_n_m": SIDEWAYS,
}
ENDED_BY = {
    None: "no limit up to there",
    "CLmax": "the stall",
    "power": "lack of power",
    "idling": "power at closed throttle",
    "spin": "the gyroscopic moment",
    "elevator travel": "elevator travel",
    "aileron travel": "aileron travel",
    "rudder travel": "rudder travel",
    "overspeed": "the full speed of the engine",
}
"""Limit of the steepest bank -> in words."""
OF_FORCE = {force: (row[2], most) for force, row, most in zip(LIMITED, FORCES, MOMENT, strict=True)}
"""Force that is too large -> its quantity, and what a pilot holds of it for a moment [N]."""


def sheet(answer: Handling, category: Category = "B") -> Iterator[Block]:
    """Yield the turns and the modes with each powerplant, and what their columns mean."""
    yield warnings(answer)
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
        yield Table(title, tuple(_columns(found.turns)), (_steepest(found), *_by_force(found), *beyond))
        yield Table(say("{name}: rotor in these turns", name=name), tuple(_rotor(found.turns)), (_shaft(found),))
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
        yield say("{drawn} {held} {level}", drawn=DRAWN, held=HELD_IN, level=SAME_LEVEL_IN)
    yield flown_at(answer.masses)
    yield modes_note(say("{edition}, Category {category}", edition=EDITION, category=category))
    if answer.remarks:
        yield remarks(answer.remarks)


def _forces(name: str, found: PowerplantHandling) -> Iterator[Block]:
    banks = tuple(_bank(turn.bank_deg) for turn in found.turns)
    yield forces_table(name, found, banks)
    if _banded(found):
        yield force_bands(name, found, banks)
    yield straight_table(name, found.forces)
    if _banded(found):
        yield straight_bands(name, found.forces)
    if found.forces.let_go:
        yield let_go_table(name, found.forces)


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
    limits = (starred((turn.limit or "–").removesuffix(" travel"), turn.beyond) for turn in turns)
    yield Column("Limit", tuple(limits))


def _rotor(turns: Sequence[SteadyTurn]) -> Iterator[Column]:
    """Yield what the gyroscopic moments of each turn are made of, and these."""
    yield Column("Bank", tuple(_bank(turn.bank_deg) for turn in turns))
    for head, short, name in SPINNING:
        cells = (known(turn, name, bare=True, **SPINNING_LOOK.get(name, {})) for turn in turns)
        yield Column(head, tuple(cells), name, short)


def _bands(name: str, found: PowerplantHandling) -> Table:
    """Return the ends of the 90 % bands of the controls in each turn."""
    title = say("{name}: 90 % band of each control, in percent of its travel", name=name)
    columns = [Column("Bank", tuple(_bank(turn.bank_deg) for turn in found.turns))]
    for control, head in (("elevator", "Elevator [%]"), ("aileron", "Aileron [%]"), ("rudder", "Rudder [%]")):
        cells = tuple(band(turn, f"{control}_share", **POSITION) for turn in found.turns)
        columns.append(Column(head, cells))
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
    return say(
        "Steepest steady banks: {left}, ended by {by_left}, and {right}, by {by_right}.",
        left=left,
        right=right,
        by_left=ENDED_BY[found.steepest_left_limit],
        by_right=ENDED_BY[found.steepest_right_limit],
    )


def _by_force(found: PowerplantHandling) -> Iterator[Sentence]:
    """Yield up to which banks a pilot can hold the forces, where they end before the airplane does."""
    if not found.force_left_limit and not found.force_right_limit:
        return
    ends = []
    for side in ("left", "right"):
        limit = getattr(found, f"force_{side}_limit")
        if limit:
            name, most = OF_FORCE[limit]
            bank = Value(f"force_{side}_deg", getattr(found, f"force_{side}_deg"), signed=True)
            told = "{bank}, where the {force} passes {most}"
            ends.append(say(told, bank=bank, force=limit, most=Value(name, most, decimals=0)))
    yield say("A pilot holds the forces, even for a moment, no farther than {ends}.", ends=listed(ends, " and "))


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
