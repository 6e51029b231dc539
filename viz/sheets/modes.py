"""The sheet of `whirlgate modes`, and the table of modes that handling shares with it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.flight.quality import WORST
from viz.sheets.bands import DRAWN, NEARLY_ALL, band, known
from viz.sheets.blocks import Column, Run, Table, Value, next_steps, say
from viz.sheets.from_sim import in_either_system, remarks
from viz.sheets.masses import flown_at
from viz.sheets.validity import outside

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.modes import FlightModes, GradedMode, ModesAnswer
    from sim.studies.turns import Power
    from viz.sheets.blocks import Block, Cell, Sentence

NUMBERS = (
    ("Real part", "Real", "real_per_s"),
    ("Imaginary part", "Imag", "imag_rad_s"),
    ("Damping ratio", "Damp", "damping_ratio"),
    ("Time to half amplitude", "Half", "time_to_half_s"),
    ("Time to double amplitude", "Double", "time_to_double_s"),
)
"""Head of a column, the same where room is scarce, field of a mode."""
SAME_LEVEL_IN = "Same level in: the share of them in which the mode has the level above."
POWERS: dict[Power, str] = {
    "idle": ", climb or descent at idle power",
    "cruise": ", climb or descent at cruise power",
    "full": ", climb or descent at full power",
}
CANNOT_HOLD = "The modes are of this flight all the same, which the airplane cannot hold."
SAME_LEVEL = ("Same level in", "Same\nlevel", "level_probability")


def sheet(answer: ModesAnswer) -> Iterator[Block]:
    """Yield the modes of each flight, and the standard that grades them."""
    for flight in answer.flights:
        yield modes_table(_title(flight, answer), flight.modes, flight.beyond, flight.not_held)
        if flight.found_probability is not None:
            yield bands_table(flight.powerplant, flight.modes, flight.found_probability)
    yield modes_note(answer.graded_by)
    if any(flight.found_probability is not None for flight in answer.flights):
        yield say("{drawn} {level}", drawn=DRAWN, level=SAME_LEVEL_IN)
    yield flown_at(answer.masses)
    if answer.remarks:
        yield remarks(answer.remarks)
    yield next_steps(
        say("the derivatives behind these roots, with {run}", run=Run("derivatives")),
        say("a response in time, with {run}", run=Run("maneuver rudder-kick")),
    )


def modes_note(standard: Cell) -> Sentence:
    """Return what the columns of a table of modes mean."""
    return say(
        "Modes: real and imaginary part of the eigenvalue, damping ratio, time to half or double amplitude; controls "
        "and shaft speed held constant; at a fixed throttle the shaft follows the airspeed, and the phugoid is damped "
        "less. A mode without oscillation has no imaginary part; an overdamped short period "
        "is two such modes. Coupling: share of lateral motions in a longitudinal mode, of longitudinal motions in a "
        "lateral one. Level: flying qualities by {standard}; 1 is best, > 3 worse than any of them, none: "
        "not graded.",
        standard=standard,
    )


def modes_table(title: Cell, modes: Sequence[GradedMode], beyond: tuple[str, ...], not_held: str | None) -> Table:
    """Return a row for each mode, and under them the limit and the bounds that the steady flight passes."""
    columns = (
        Column("Mode", tuple(mode.name for mode in modes)),
        *(Column(head, _numbers(name, modes), name, short) for head, short, name in NUMBERS),
        Column(
            "Coupling",
            tuple(known(mode, "coupling_share", decimals=1, percent=True) for mode in modes),
            short="Coupl.",
        ),
        Column("Level", tuple(_level(mode.level) for mode in modes)),
    )
    limit = [say("{why}. {cannot}", why=in_either_system(not_held), cannot=CANNOT_HOLD)] if not_held else []
    return Table(title, columns, (*limit, *outside([beyond], "This flight is outside")))


def bands_table(name: str, modes: Sequence[GradedMode], found_probability: float | None = None) -> Table:
    """Return the 90 % band of each mode, and in what share of the airplanes drawn it grows or keeps its level.

    Parameters
    ----------
    name : str
        Of the powerplant.
    modes : sequence of GradedMode
        Of one flight.
    found_probability : float or None
        Share of the airplanes drawn that balance in it; None where that is said elsewhere.
    """
    title = say("{name}: 90 % bands of these modes, the upper end below the lower", name=name)
    columns = [Column("Mode", tuple(mode.name for mode in modes))]
    for head, short, name in NUMBERS:
        cells = tuple(band(mode, name, "\n", bare=True) if _shown(mode, name) else "" for mode in modes)
        columns.append(Column(head, cells, name, short))
    coupling: dict[str, Any] = {"decimals": 1, "percent": True, "bare": True}
    cells = tuple(band(mode, "coupling_share", "\n", **coupling) for mode in modes)
    columns.append(Column("Coupling [%]", cells, short="Coupl.\n[%]"))
    for head, short, name in (("Grows in", "Grows\nin", "grows_probability"), SAME_LEVEL):
        shares = (Value(name, getattr(mode, name), decimals=0, percent=True) for mode in modes)
        columns.append(Column(head, tuple(shares), short=short))
    return Table(title, tuple(columns), tuple(_sure(modes, found_probability)))


def _sure(modes: Sequence[GradedMode], found_probability: float | None) -> Iterator[Sentence]:
    """Yield in what share of the airplanes drawn there is the flight, and which modes grow in some of them."""
    if found_probability is not None and found_probability < NEARLY_ALL:
        share = Value("found_probability", found_probability, decimals=0, percent=True)
        yield say("{share} of the airplanes drawn balance in this flight; the bands are of these.", share=share)
    for mode in modes:
        if mode.grows_probability is not None and 1.0 - NEARLY_ALL < mode.grows_probability < NEARLY_ALL:
            share = Value("grows_probability", mode.grows_probability, decimals=0, percent=True)
            yield say("The {mode} grows in {share} of the airplanes drawn.", mode=mode.name, share=share)
    for mode in modes:
        if mode.two_roots_probability is not None and mode.two_roots_probability > 1.0 - NEARLY_ALL:
            share = Value("two_roots_probability", mode.two_roots_probability, decimals=0, percent=True)
            yield say(
                "The {mode} is two modes without oscillation in {share} of the airplanes drawn: damping ratio 1 in its "
                "band.",
                mode=mode.name,
                share=share,
            )


def at_power(power: Power | None) -> str:
    """Return what follows a flight condition that is not level: the power at which the airplane climbs or descends."""
    return POWERS[power] if power else ""


def level_words(number: int) -> str:
    """Return a level of flying qualities in words."""
    return str(number) if number < WORST else "worse than 3"


def _level(number: int | None) -> str:
    """Return a level of flying qualities as a column has room for it."""
    return "none" if number is None else str(number) if number < WORST else "> 3"


def _shown(mode: GradedMode, name: str) -> bool:
    """Return whether a mode has a number: one without oscillation has no imaginary part."""
    return getattr(mode, name) is not None and (name != "imag_rad_s" or mode.imag_rad_s > 0.0)


def _numbers(name: str, modes: Sequence[GradedMode]) -> tuple[Cell, ...]:
    return tuple(known(mode, name, bare=True) if _shown(mode, name) else "" for mode in modes)


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
