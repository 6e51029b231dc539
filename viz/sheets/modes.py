"""The sheet of `whirlgate modes`, and the table of modes that handling shares with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Run, Table, Value, next_steps, remarks, say
from viz.sheets.masses import flown_at
from viz.sheets.validity import outside

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.modes import FlightModes, GradedMode, ModesAnswer
    from sim.studies.turns import Power
    from viz.sheets.blocks import Block, Cell, Sentence


def sheet(answer: ModesAnswer) -> Iterator[Block]:
    """Yield the modes of each flight, and the standard that grades them."""
    for flight in answer.flights:
        yield modes_table(_title(flight, answer), flight.modes, flight.beyond)
    yield modes_note(answer.graded_by)
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        say("the derivatives behind these roots, with {run}", run=Run("derivatives")),
        say("a response in time, with {run}", run=Run("maneuver rudder-kick")),
    )


def modes_note(standard: str) -> Sentence:
    """Return what the columns of a table of modes mean."""
    return say(
        "Modes: real and imaginary part of the eigenvalue, damping ratio, time to half or double amplitude; controls "
        "and shaft speed held constant. A mode without oscillation has no imaginary part; an overdamped short period "
        "is two such modes. Coupling: share of lateral motions in a longitudinal mode, of longitudinal motions in a "
        "lateral one. Level: flying qualities by {standard}; 1 is best.",
        standard=standard,
    )


def modes_table(title: Cell, modes: Sequence[GradedMode], beyond: tuple[str, ...]) -> Table:
    """Return a row for each mode, and under them the bounds that the steady flight passes."""
    columns = (
        Column("Mode", tuple(mode.name for mode in modes)),
        _numbers("Real part", "Real", "real_per_s", [mode.real_per_s for mode in modes]),
        _numbers("Imaginary part", "Imag", "imag_rad_s", [mode.imag_rad_s or None for mode in modes]),
        _numbers("Damping ratio", "Damp", "damping_ratio", [mode.damping_ratio for mode in modes]),
        _numbers("Time to half amplitude", "Half", "time_to_half_s", [mode.time_to_half_s for mode in modes]),
        _numbers("Time to double amplitude", "Double", "time_to_double_s", [mode.time_to_double_s for mode in modes]),
        Column(
            "Coupling",
            tuple(Value("coupling_share", mode.coupling_share, decimals=1, percent=True) for mode in modes),
            short="Coupl.",
        ),
        Column("Level", tuple(level(mode.level) for mode in modes)),
    )
    return Table(title, columns, tuple(outside([beyond], "This flight is outside")))


def at_power(power: Power | None) -> str:
    """Return what follows a flight condition that is not level: the power at which the airplane climbs or descends."""
    return f", climb or descent at {power} power" if power else ""


def level(number: int | None) -> str:
    """Return a level of flying qualities in words."""
    return "not graded" if number is None else str(number) if number <= 3 else "worse than 3"


def _numbers(head: str, short: str, name: str, numbers: Sequence[float | None]) -> Column:
    return Column(head, tuple(Value(name, number, bare=True, absent="") for number in numbers), name, short)


def _title(flight: FlightModes, answer: ModesAnswer) -> Cell:
    return say(
        "{name}: modes in {motion} at {speed} and {altitude}{power}",
        name=flight.powerplant,
        motion=say("a turn with {bank} bank", bank=_bank(flight)) if flight.bank_deg else "straight flight",
        speed=Value("speed_m_s", answer.speed_m_s),
        altitude=Value("altitude_m", answer.altitude_m),
        power=at_power(answer.power),
    )


def _bank(flight: FlightModes) -> Value:
    return Value("bank_deg", flight.bank_deg, signed=True)
