"""The inert display: what is cut, its checks, and the list that its builder signs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.report.sheets import tables
from viz.sheets.blocks import Checklist, Picture, say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.report.findings import Findings
    from viz.sheets.blocks import Block


def display(found: Findings) -> Iterator[Block]:
    """Yield one turn of the display, sizes, checks, and the checklist."""
    from viz.commands.exhibit import sheet
    from viz.figures.exhibit import draw

    answer = found.exhibit
    cam, drive = answer.sheet.cam, answer.sheet.drive
    alt = say(
        f"Over one turn of the propeller: the roller rises {cam.lift_mm:g} mm and falls again {cam.lobes} times, the "
        f"pressure angle stays within {cam.pressure_angle_deg:.0f}°, and the {answer.display.handle.kind} takes "
        f"{drive.torque_n_m:.2f} N m at most. The lamp is lit while a round could pass."
    )
    yield Picture(draw(answer, found.units), "One turn of the display", alt)
    yield from tables(sheet(answer, found.units))
    yield Checklist("To sign before the display is shown", answer.checklist)
