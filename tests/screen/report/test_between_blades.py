"""What the report says of the gap between two blades: a window has a length of time, an impulse is one instant."""

from types import SimpleNamespace

import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import answer

from viz.report.answers import between_blades
from viz.sheets.text import text_of


@pytest.mark.parametrize(
    ("airplane", "released"),
    [(BIPLANE, "the gear lets the gun go for 9 ms"), (TRIPLANE, "an impulse of the gear lets a round go")],
    ids=["window", "impulse"],
)
def test_it_says_what_the_gear_does(airplane, released):
    timing = answer("windows", airplane)
    row = next(row for row in reversed(timing.rows) if row.powerplant == "rotary")
    said = text_of(between_blades(SimpleNamespace(windows=timing, most_spin=("rotary",))), "us").replace("\u00a0", " ")
    assert said == (
        f"With the rotary at {row.rpm:.0f} rpm a blade passes every {row.blade_interval_ms:.0f} ms, {released} between "
        f"blades, and the propeller turns {row.lead_deg:.0f}° from the release of a round to its passage."
    )
