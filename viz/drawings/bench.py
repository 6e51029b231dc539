"""What is measured on the bench before shafts go in: faces that stand apart, tools that reach past the brake disc."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from viz.drawings.lengths import DECIMALS, shop_length, units_of
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part

NEAR_M = 1e-6
STEP_M = 0.005
"""Length of a drift is rounded up to this. [m]"""


def shaft_gaps(assembly: Assembly) -> Iterator[tuple[Part, Part, Part, float]]:
    """Yield each shaft, what is pinned behind its rear sleeve and before its front one.

    With them by how much more than the stack of the plates their faces stand apart. [m].
    """
    stack_m = assembly.part("base").z_to_m - assembly.part("rear plate").z_from_m
    for shaft in assembly.parts:
        if not shaft.name.endswith("shaft"):
            continue
        rear, front = (_on(shaft, assembly, f"{end} sleeve") for end in ("rear", "front"))
        behind = _beside(shaft, assembly, rear.z_from_m, front=False)
        before = _beside(shaft, assembly, front.z_to_m, front=True)
        yield shaft, behind, before, before.z_from_m - behind.z_to_m - stack_m


def told_gaps(assembly: Assembly) -> str:
    """Return the same in words, M for the plates."""
    units = units_of(assembly.hardware)
    return "; ".join(
        f"{shaft.name}, from {behind.name} to {before.name}: M + "
        f"{text_of(Value('drawn_m', more_m, decimals=DECIMALS[units]), units)}"
        for shaft, behind, before, more_m in shaft_gaps(assembly)
    )


def drift(assembly: Assembly) -> dict[str, str]:
    """Return how long drift and prop are, to pass the brake disc, and how thick, beside the crank pulley's flange."""
    disc, pulley = assembly.part("brake disc"), assembly.part("crank pulley")
    boss = pulley.slabs[0]
    reach = float(disc.slabs[0].outline_m[:, 0].max() - boss.outline_m[:, 0].max())
    units = units_of(assembly.hardware)
    long = STEP_M * ceil(reach / STEP_M)
    return {"long": shop_length(long, units), "thick": shop_length(boss.z_to_m - boss.z_from_m, units)}


def _same_axis(part: Part, shaft: Part) -> bool:
    return abs(part.x_m - shaft.x_m) + abs(part.y_m - shaft.y_m) < NEAR_M


def _on(shaft: Part, assembly: Assembly, name: str) -> Part:
    return next(part for part in assembly.parts if part.name == name and _same_axis(part, shaft))


def _beside(shaft: Part, assembly: Assembly, face_m: float, *, front: bool) -> Part:
    """Return the part on a shaft whose face lies against that of a sleeve."""
    return next(
        part
        for part in assembly.parts
        if _same_axis(part, shaft) and abs((part.z_from_m if front else part.z_to_m) - face_m) < NEAR_M
    )
