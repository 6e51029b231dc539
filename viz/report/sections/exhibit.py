"""The inert display: one turn of it, its sizes and checks, and the list that its builder signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import Picture, Sentence, Value, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.studies.exhibit import Exhibit
    from viz.report.findings import Findings
    from viz.sheets.blocks import Block


def display(found: Findings) -> Iterator[Block]:
    """Yield one turn of the display, sizes, checks, and the checklist."""
    from viz.sheets.exhibit import parts

    answer = found.exhibit
    yield Picture(found.drawings.begin("exhibit", answer), "The display, and one turn of it", _alt(answer))
    yield from parts(answer)


def _alt(answer: Exhibit) -> Sentence:
    return say(
        "The whole display from the front and from the left. Over one turn of the propeller the roller rises by {lift} "
        "and falls again {times} times, the pressure angle "
        "stays within {angle}, and the torque at the {handle} is at most {torque}. The lamp is lit while rounds that "
        "the cam releases pass.",
        lift=Value("lift_m", answer.cam.lift_m, nominal=True),
        times=str(answer.display.window.openings),
        angle=Value("pressure_angle_deg", answer.cam.pressure_angle_deg, decimals=0),
        handle=answer.display.handle.kind,
        torque=Value("motor_torque_n_m", answer.drive.torque_n_m, decimals=2),
    )
