"""Tail volumes: area times arm over area of the wing times its chord or span."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.model.plausibility import limits
from sim.model.plausibility.remark import unusual

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark


def tail_volumes(examined: Examined) -> Iterator[Remark]:
    """Yield a tailplane or a fin that is unusually small or large for its wing."""
    wing, frame = examined.model.wing, examined.model.airframe
    tail, fin = frame.tailplane, frame.fin
    for key, usual, surface, length_m, cure in (
        ("tailplane.arm", limits.TAIL_VOLUME, tail, wing.mean("chord_m"), "Check span, chord and arm of the tailplane"),
        ("fin.arm", limits.FIN_VOLUME, fin, wing.span_m, "Check height, chord and arm of the fin"),
    ):
        volume = surface.span_m * surface.chord_m * surface.arm_m / (wing.area_m2 * length_m)
        yield from unusual(usual, volume, key=key, what="the tail volume", cure=f"{cure}, and their units.")
