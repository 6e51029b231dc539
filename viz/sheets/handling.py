"""Words for handling: the three sentences a designer quotes, and modes as rows of a table."""

from __future__ import annotations

import math
import textwrap
from typing import TYPE_CHECKING

from viz.commands.flight_options import ELEVATOR, RUDDER
from viz.sheets import format as shown

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.studies.modes import GradedMode
    from sim.studies.rotor_effect import GradeChange, RotorShare, Summary
    from viz.sheets.format import Units


def sentences(summary: Summary, units: Units) -> tuple[str, str, str]:
    """Return what the rotor takes of the controls, where that doubles, and which grade changes."""
    return _taken(summary, units), _doubled(summary, units), _graded(summary)


def share(value: float, words: tuple[str, str]) -> str:
    """Return a share of a control's travel with the way it goes: ``12% back``."""
    if math.isnan(value):
        return "–"
    way = words[value < 0.0].removeprefix("stick ").replace("forward", "fwd")
    return f"{abs(value):.0%} {way}" if round(abs(value), 2) else "0%"


def wrapped(sentence: str) -> str:
    """Return a sentence broken into lines for a terminal."""
    return textwrap.fill(sentence, 80)


def mode_rows(modes: Iterable[GradedMode]) -> list[list[str]]:
    """Return a row for each mode, under `MODE_HEADS`."""
    return [
        [
            mode.name,
            shown.significant(mode.real_per_s),
            shown.significant(mode.imag_rad_s) if mode.imag_rad_s else "",
            "" if mode.damping_ratio is None else shown.significant(mode.damping_ratio),
            "" if mode.time_to_half_s is None else shown.significant(mode.time_to_half_s),
            "" if mode.time_to_double_s is None else shown.significant(mode.time_to_double_s),
            f"{mode.coupling_share:.1%}",
            _level(mode.level),
        ]
        for mode in modes
    ]


MODE_HEADS = ("Mode", "Real", "Imag", "Damp", "Half s", "Double s", "Coupled", "Level")


def _level(level: int | None) -> str:
    return "not graded" if level is None else str(level) if level <= 3 else "worse than 3"


def _taken(summary: Summary, units: Units) -> str:
    first, second = summary.first, summary.second
    speed = shown.amount("speed_m_s", summary.speed_m_s, units)
    told = (
        f"In a level 45° turn at {speed} the spin of the {first.powerplant} takes {_side(first, 'left')} to the left "
        f"and {_side(first, 'right')} to the right"
    )
    if first.powerplant == second.powerplant:
        return f"{told}."
    return f"{told}; that of the {second.powerplant} {_side(second, 'left')} and {_side(second, 'right')}."


def _side(taken: RotorShare, side: str) -> str:
    rudder, elevator = getattr(taken, f"{side}_rudder_share"), getattr(taken, f"{side}_elevator_share")
    foot = RUDDER[0] if rudder > 0.0 else RUDDER[1]
    stick = ELEVATOR[0] if elevator > 0.0 else ELEVATOR[1]
    return f"{abs(rudder):.0%} of the rudder travel ({foot} rudder) and {abs(elevator):.0%} of the elevator's ({stick})"


def _doubled(summary: Summary, units: Units) -> str:
    found = summary.doubling
    what = f"The {found.control} share in the turn to the {found.side}, {found.share:.0%},"
    slowest = shown.amount("speed_m_s", found.slowest_m_s, units)
    if found.speed_m_s is None:
        end = f"where {found.limit} ends the turn" if found.limit else "the slowest looked at"
        return f"{what} has not doubled at {slowest}, {end}."
    at = shown.amount("speed_m_s", found.speed_m_s, units)
    return f"{what} doubles at {at}" + (f"; {found.limit} ends the turn at {slowest}." if found.limit else ".")


def _graded(summary: Summary) -> str:
    first, second = summary.first.powerplant, summary.second.powerplant
    if first == second:
        return f"The scenario has no other powerplant to compare the MIL-F-8785C levels of the {first} with."
    if not summary.changes:
        return f"No MIL-F-8785C level changes between the {first} and the {second}, straight or at 45° either way."
    told = "; ".join(_change(change, first, second) for change in summary.changes)
    return f"MIL-F-8785C levels that change: {told}."


def _change(change: GradeChange, first: str, second: str) -> str:
    where = {0.0: "in straight flight"}.get(change.bank_deg, f"at 45° {'right' if change.bank_deg > 0.0 else 'left'}")
    levels = f"{_level(change.first_level)} with the {first}, {_level(change.second_level)} with the {second}"
    return f"{change.mode} {where}, {levels}"
