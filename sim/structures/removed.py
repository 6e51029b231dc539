"""A wing frame with struts, ribs or wires left out: what the others carry when one is gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sim.errors import did_you_mean
from sim.structures.drag_truss import SIDES

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.structures.wing_frame import WingFrame


def removable(wing: WingFrame) -> tuple[str, ...]:
    """Return the names of struts, ribs and wires that can be left out: of both sides together, then of each side."""
    own = [one.name for one in wing.members]
    return tuple(dict.fromkeys([*(without_side(name) for name in own), *own]))


def without_side(name: str) -> str:
    """Return the name of a member or spar without its side."""
    for side in SIDES:
        name = name.removesuffix(f", {side}")
    return name


def without(wing: WingFrame, names: Iterable[str]) -> WingFrame:
    """Return a wing without some of its struts, ribs and wires.

    Parameters
    ----------
    wing : WingFrame
        As built.
    names : iterable of str
        As `removable` has them: ``front flying wire`` of both sides, or ``front flying wire, left``.
    """
    gone = set(names)
    if not gone:
        return wing

    def left(name: str) -> bool:
        return name not in gone and without_side(name) not in gone

    return replace(
        wing,
        frame=replace(wing.frame, bars=tuple(bar for bar in wing.frame.bars if left(bar.name))),
        members=tuple(one for one in wing.members if left(one.name)),
    )


def no_member(wing: WingFrame, name: str) -> str | None:
    """Return what to say of a name that no strut, rib or wire of a wing has; None where one has it."""
    known = removable(wing)
    if name in known:
        return None
    what = 'must be a strut, rib or wire as structure names it, of one side as in "front flying wire, left"'
    return f'{what}, got "{name}"{did_you_mean(name, known)}'
