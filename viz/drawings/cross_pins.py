"""Holes for cross pins: where they stand along a part, how wide they are, and along which angle they are drilled."""

from __future__ import annotations

from math import atan2, hypot, pi
from typing import TYPE_CHECKING

import numpy as np

from sim.display.assembly.stock import stock
from sim.units.convert import mm
from viz.drawings.lengths import dimension_text, units_of
from viz.sheets.blocks import Value
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part


def pins_through(part: Part, assembly: Assembly) -> tuple[tuple[float, float, float], ...]:
    """Return place from the rear end [mm], diameter [mm] and angle [rad] of every cross pin, the rearmost first.

    The angle is that of the pin from the horizontal at the right, anticlockwise as seen from the front, from 0 to pi,
    as the display stands with blade 1 on the bore line.
    """
    pins = {
        (
            round(mm((each.z_from_m + each.z_to_m) / 2.0 - part.z_from_m), 4),
            round(mm(each.thickness_m), 4),
            _angle(each),
        )
        for each in assembly.parts
        if each.name == "cross pin"
        and hypot(each.x_m - part.x_m, each.y_m - part.y_m) < 1e-6
        and part.z_from_m < (each.z_from_m + each.z_to_m) / 2.0 < part.z_to_m
    }
    return tuple(sorted(pins))


def _angle(pin: Part) -> float:
    """Return the angle of a pin: that of the longest edge of its outline."""
    corners = pin.slabs[0].outline_m
    edges = np.roll(corners, -1, axis=0) - corners
    x, y = edges[np.hypot(*edges.T).argmax()].tolist()
    return round((atan2(y, x) + 1e-9) % pi, 6)


def pin_lines(part: Part, assembly: Assembly) -> Iterator[str]:
    """Yield what is said of the cross holes of a part below its drawing: size, and the angle of each."""
    pins, units = pins_through(part, assembly), units_of(assembly.hardware)
    fit = stock(assembly.hardware).pins.hole
    for wide in sorted({wide for _, wide, _ in pins}):
        yield f"cross hole ⌀{dimension_text(wide, units)} {fit},"
        yield "drilled through hub and shaft together,"
    angles = [text_of(Value("placed_rad", angle, decimals=1), units) for _, _, angle in pins]
    if len(set(angles)) > 1:
        yield "from the rear along " + ", ".join(angles)
    elif angles:
        yield f"along {angles[0]}"
