"""What differs from another airplane, answer by answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import InputError, NoAnswerError
from viz.report.reason import reason
from viz.sheets.blocks import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block

STUDIES = (
    ("Drag and greatest lift", "drag"),
    ("Speeds", "speeds"),
    ("Weight and balance", "balance"),
    ("Engine mount", "mount"),
    ("Handling in turns", "handling"),
    ("Powerplants", "comparison"),
    ("Turn reversal", "reversal"),
    ("Derivatives", "derivatives"),
    ("Firing windows", "windows"),
    ("Rate of fire", "rate"),
    ("Fixed cam", "safe_range"),
    ("Bursts", "burst"),
    ("Cooling of the gun", "cooling"),
    ("Inert display", "exhibit"),
)
"""Title of a table and the answer whose differences it shows."""
MOST = 25
"""Rows of each table."""


def differences(found: Findings) -> Iterator[Block]:
    """Yield a table for each answer, or the sentence that says why there is none."""
    if found.other is None:
        return
    yield say("The same studies of {other}, the other airplane, beside those of this one.", other=found.other.called)
    for title, study in STUDIES:
        try:
            yield _table(title, study, found, found.other.findings)
        except (InputError, NoAnswerError) as error:
            yield say("{title}: left out: {reason}", title=title, reason=reason(error))


def _table(title: str, study: str, found: Findings, other: Findings) -> Block:
    from sim.difference import differences as between
    from viz.sheets.difference import table

    return table(between(getattr(found, study), getattr(other, study)), title, most=MOST, repeated=True)
