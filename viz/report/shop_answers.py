"""Two sentences for the designer: where the engine stands, and what its mount carries."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Value, say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.studies.mount_answer import MountCase
    from viz.report.findings import Findings
    from viz.sheets.blocks import Cell, Sentence


def engine_place(found: Findings) -> Sentence:
    """Say how long the mount must be: where the engine stands to balance."""
    from sim.model.scales_and_list import contradiction
    from viz.sheets.engine_position import stands

    answer = found.balance
    sentence = stands(answer, found.stands[answer.powerplant])
    warning = contradiction(answer.weighing) if answer.weighing else None
    return say("{warning} {sentence}", warning=warning, sentence=sentence) if warning else sentence


def mount_load(found: Findings) -> Sentence:
    """Say what the mount sees at most, and what another engine would ask of it."""
    answer = found.mount
    own = [case for case in answer.cases if case.powerplant == answer.powerplant]
    others = [case for case in answer.cases if case.powerplant != answer.powerplant]
    bolts = sorted(answer.worst_bolts, key=lambda row: row.margin, reverse=True)
    bolt: Cell = ""
    if bolts:
        bolt = say(
            "; its bolt with the least margin of safety ({margin}), {bolt} ({case}), carries {axial} of tension and "
            "{shear} of shear",
            margin=Value("margin", bolts[-1].margin, decimals=2),
            bolt=bolts[-1].bolt.replace("_", " "),
            case=bolts[-1].case,
            axial=Value("axial_n", bolts[-1].axial_n),
            shear=Value("shear_n", bolts[-1].shear_n),
        )
    worst = _most_severe(own)
    most = say(
        "Most severe for the mount, with the {name} on it, is {case}: moment {most} at limit load{bolt}.",
        name=worst.powerplant,
        case=worst.name,
        most=_moment(worst),
        bolt=bolt,
    )
    if not others:
        return most
    other = _most_severe(others)
    return say(
        "{most} The {other} does not hang on it; at the same firewall it makes {moment}, {case}.",
        most=most,
        other=other.powerplant,
        moment=_moment(other),
        case=other.name,
    )


def _most_severe(cases: Sequence[MountCase]) -> MountCase:
    return max(cases, key=lambda case: max(map(abs, case.limit_moment_n_m)))


def _moment(case: MountCase) -> Value:
    return Value("limit_moment_n_m", max(map(abs, case.limit_moment_n_m)))
