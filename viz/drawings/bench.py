"""What is measured on the bench before shafts go in: faces that stand apart, how deep pins lie, tools that reach."""

from __future__ import annotations

from math import ceil, dist, sqrt
from typing import TYPE_CHECKING

from sim.display.assembly.order import PIN, pinned_part
from sim.display.assembly.pin_room import pin_room
from sim.display.assembly.stock import stock
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


def pin_depths(assembly: Assembly) -> str:
    """Return how far below the surface of each part that is pinned to a shaft both ends of its cross pin lie."""
    units = units_of(assembly.hardware)
    return ", ".join(
        f"{part.name} {text_of(Value('drawn_m', depth_m, decimals=DECIMALS[units]), units)}"
        for part, depth_m in _pinned(assembly)
    )


def _pinned(assembly: Assembly) -> Iterator[tuple[Part, float]]:
    """Yield each part with a cross pin, and how deep the pin lies in it. [m]."""
    for pin in (part for part in assembly.parts if part.name == PIN):
        part, middle = pinned_part(pin, assembly), (pin.z_from_m + pin.z_to_m) / 2.0
        assert part is not None
        boss = next(slab for slab in part.slabs if slab.z_from_m <= middle <= slab.z_to_m)
        across = 2.0 * float(boss.outline_m[:, 0].max())
        yield part, (across - _longest(pin)) / 2.0


def _longest(pin: Part) -> float:
    """Return the length of a pin that lies across the shaft at any angle, as thick as it is wide. [m]."""
    ends, thick_m = pin.slabs[0].outline_m.tolist(), pin.z_to_m - pin.z_from_m
    diagonal_m = max(dist(one, other) for one in ends for other in ends)
    return sqrt(diagonal_m**2 - thick_m**2)


def pin_tools(assembly: Assembly) -> str:
    """Return the tools that press the cross pins in."""
    sold, units, room = stock(assembly.hardware), units_of(assembly.hardware), pin_room(assembly)
    disc = drift(assembly)
    far = (
        f", and of {shop_length(room.drift_m, units)} or more for the cam hub, with a screw clamp that opens "
        f"{text_of(Value('drawn_m', room.clamp_open_m, decimals=DECIMALS[units]), units)}"
        if room
        else ""
    )
    return (
        f"Drill {sold.told(sold.pins.diameter_m)} for the cross pins. Drifts and props of steel rod, {disc['thick']} "
        f"thick at most, {disc['long']} long or more{far}; the tip of a drift turned down to go into the hole of its "
        "pin, as long as the pin lies deep."
    )


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
