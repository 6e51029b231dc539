"""The windows of a cam in a table: the first where all are alike, else each with what its own rounds clear."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.angles import arc
from viz.sheets.blocks import Value, listed

if TYPE_CHECKING:
    from sim.studies.windows_answer import FiringWindow, WindowsRow
    from viz.sheets.blocks import Cell

EVEN_DEG = 1e-6
"""Largest difference of windows that are called alike."""
STRIKES, NEAR = "strikes", "margin"
"""Where rounds of a window do not clear blade and margin: whether one strikes a blade."""


def arcs(row: WindowsRow, turns: int, decimals: int, *, bare: bool = True) -> Cell:
    """Return the angles of the windows that are shown, a line each."""
    found = [arc(each.from_deg, each.to_deg, decimals, bare=bare) for each in shown(row, turns)]
    return listed(found, "\n") if found else "none"


def in_turns(row: WindowsRow, turns: int) -> Cell:
    """Return in which turn of the cam's period each of the same windows opens, a line each."""
    return listed((str(int(each.from_deg // 360.0) + 1) for each in shown(row, turns)), "\n")


def clearances(row: WindowsRow, turns: int, decimals: int, *, bare: bool = True) -> Cell:
    """Return what the rounds of the same windows clear, a line each."""
    lines = [_clearance(each, row, decimals, bare=bare) for each in shown(row, turns)]
    return listed(lines, "\n") if lines else "–"


def _clearance(window: FiringWindow, row: WindowsRow, decimals: int, *, bare: bool) -> Cell:
    from sim.studies.windows import strikes

    if window.clearance_deg < 0.0:
        return STRIKES if strikes(window, row.margin_deg) else NEAR
    return Value("clearance_deg", window.clearance_deg, decimals=decimals, bare=bare)


def shown(row: WindowsRow, turns: int) -> tuple[FiringWindow, ...]:
    """Return the first window where all are alike in length, in spacing and to the blades, else every one."""
    found = row.windows_deg
    lengths = [each.to_deg - each.from_deg for each in found]
    starts = [each.from_deg for each in found]
    apart = [after - before for before, after in zip(starts, [*starts[1:], *_again(starts, turns)], strict=True)]
    clear = [each.clearance_deg for each in found]
    unlike = any(max(each) - min(each) > EVEN_DEG for each in (lengths, apart, clear) if each)
    return found if unlike else found[:1]


def _again(starts: list[float], turns: int) -> list[float]:
    return [start + 360.0 * turns for start in starts[:1]]
