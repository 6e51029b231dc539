"""The parts that are turned or printed, in words: diameters and lengths from the rear end on, and what is bored."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from sim.units.convert import mm
from viz.drawings.items import key, numbers

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part, Slab
    from sim.display.rise_laws import FloatArray

TURNED = "Dimensions from the rear end on; drill holes for cross pins through part and shaft together"
ROUND = 1e-3
"""By which a round outline may differ from a circle, over its diameter."""


def to_turn(assembly: Assembly) -> Iterator[tuple[int, Part]]:
    """Yield item number and part of everything that is made and is not cut flat, each kind once."""
    seen = set()
    for part in assembly.parts:
        if part.made and part.outline_m is None and key(part) not in seen:
            seen.add(key(part))
            yield numbers(assembly)[key(part)], part


def shape_text(part: Part) -> str:
    """Return the prisms of a part in words, of a printed one the name of its file with its size. [mm]."""
    if part.process == "printed":
        corners = np.concatenate([slab.outline_m for slab in part.slabs])
        wide, high = (mm(float(side)) for side in np.ptp(corners, axis=0))
        return f"print {part.name.replace(' ', '-')}.stl: {wide:.2f} × {high:.2f} × {mm(part.thickness_m):.2f}"
    return "; ".join(_slab_text(slab) for slab in sorted(part.slabs, key=lambda slab: slab.z_from_m))


def _slab_text(slab: Slab) -> str:
    long = mm(slab.z_to_m - slab.z_from_m)
    outside = _outline_text(slab.outline_m)
    inside = [_outline_text(rim) + _at(rim) for rim in slab.openings_m]
    return f"{outside} × {long:.2f}" + (f", bored {', '.join(inside)}" if inside else "")


def _outline_text(corners_m: FloatArray) -> str:
    wide, high = (mm(float(side)) for side in np.ptp(corners_m, axis=0))
    middle = (corners_m.max(axis=0) + corners_m.min(axis=0)) / 2.0
    reach = np.hypot(*(corners_m - middle).T)
    around = len(corners_m) > 8 and float(np.ptp(reach)) < ROUND * float(reach.max()) + 2e-5
    return f"⌀{wide:.2f}" if around else f"{wide:.2f} × {high:.2f}"


def _at(corners_m: FloatArray) -> str:
    x, y = (mm(float(side)) for side in (corners_m.max(axis=0) + corners_m.min(axis=0)) / 2.0)
    return f" at {x:.2f}, {y:.2f}" if max(abs(x), abs(y)) > 0.05 else ""
