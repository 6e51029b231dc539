"""The sheet of `whirlgate modes`, and the table of modes that handling shares with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Column, Table, Value, say

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.modes import FlightModes, GradedMode, ModesAnswer
    from viz.sheets.blocks import Block, Cell


def sheet(answer: ModesAnswer) -> Iterator[Block]:
    """Yield the modes of each flight, and the standard that grades them."""
    for flight in answer.flights:
        yield modes_table(_title(flight, answer.speed_m_s), flight.modes)
    yield say(
        "Levels by {standard}. Coupling: fraction of a mode in the other group of motions, longitudinal or lateral.",
        standard=answer.graded_by,
    )
    yield say("Next: the derivatives behind these roots, with whirlgate derivatives; one flight, with maneuver.")


def modes_table(title: Cell, modes: Sequence[GradedMode]) -> Table:
    """Return a row for each mode."""
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
    return Table(title, columns)


def level(number: int | None) -> str:
    """Return a level of flying qualities in words."""
    return "not graded" if number is None else str(number) if number <= 3 else "worse than 3"


def _numbers(head: str, short: str, name: str, numbers: Sequence[float | None]) -> Column:
    return Column(head, tuple(Value(name, number, bare=True, absent="") for number in numbers), name, short)


def _title(flight: FlightModes, speed_m_s: float) -> Cell:
    speed = Value("speed_m_s", speed_m_s)
    if not flight.bank_deg:
        return say("{name}: straight, {speed}", name=flight.powerplant, speed=speed)
    bank = Value("bank_deg", flight.bank_deg, signed=True)
    return say("{name}: bank {bank}, {speed}", name=flight.powerplant, bank=bank, speed=speed)
