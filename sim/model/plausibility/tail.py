"""Tail volumes: area times arm over area of the wing times its chord or span."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import unusual
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark


def tail_volumes(examined: Examined) -> Iterator[Remark]:
    """Yield a tailplane or a fin that is unusually small or large for its wing, by its arm from the flown CG."""
    model, frame = examined.model, examined.model.airframe
    sizes = (
        ("tailplane.arm", limits.TAIL_VOLUME, frame.tailplane, model.wing.mean("chord_m"), "span, chord and arm"),
        ("fin.arm", limits.FIN_VOLUME, frame.fin, model.wing.span_m, "height, chord and arm"),
    )
    for name in model.powerplants:
        aft_m = model.flown_mass(name).cg_aft_m
        for key, usual, surface, length_m, keys in sizes:
            volume = surface.span_m * surface.chord_m * (surface.arm_m - aft_m) / (model.wing.area_m2 * length_m)
            what = told("the tail volume with {name}", name=name)
            cure = told("Check {keys} of it, and their units.", keys=keys)
            yield from unusual(usual, volume, key=key, what=what, cure=cure)
