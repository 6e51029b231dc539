"""The parts of a display by what they belong to, a picture each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.display.assembly.data import Fastener
from sim.display.assembly.order import steps

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.display.assembly.data import Assembly, Part

GROUPS: dict[str, tuple[str, ...]] = {
    "Plates, bearings and cover": ("Plates and bearings", "Cover"),
    "Walls, foot and target": ("Foot and walls", "Target, lamp and rear of the guard"),
    "Shafts, belt and propeller": ("Shafts and drive", "Propeller"),
    "Brake": ("Brake",),
    "Drive and slip clutch": ("Drive with slip clutch",),
    "Lead plate and cam": ("Lead plate", "Cam"),
    "Follower and spring": ("Follower, spring and sensor",),
    "Electrics": (),
}
"""Group -> titles of the steps that put its parts on."""
ELSEWHERE = {
    "knob": "Lead plate and cam",
    **dict.fromkeys(
        (
            "light barrier",
            "light barrier block",
            "light barrier screw",
            "lamp switch",
            "lamp switch block",
            "lamp switch screw",
            "lamp",
            "wiring box",
            "mounting rail",
            "wiring box screw",
        ),
        "Electrics",
    ),
}
"""Part -> its group, where that is not the one of its step."""


def grouped(assembly: Assembly) -> dict[str, tuple[Part | Fastener, ...]]:
    """Return the parts and screws of each group that a display has."""
    of_step = {title: group for group, titles in GROUPS.items() for title in titles}
    found: dict[str, list[Part | Fastener]] = {group: [] for group in GROUPS}
    for step, taken in steps(assembly):
        for each in taken:
            found[ELSEWHERE.get(each.name, of_step[step.title])].append(each)
    return {group: tuple(each) for group, each in found.items() if each}


def mates(taken: Sequence[Part | Fastener], assembly: Assembly) -> tuple[Part, ...]:
    """Return the parts of other groups on which heads of screws of this one lie."""
    here = {each.name for each in taken}
    lie_on = {_under_head(each, assembly) for each in taken if isinstance(each, Fastener) and not each.upright}
    return tuple(part for part in assembly.parts if part.name in lie_on - here)


def _under_head(screw: Fastener, assembly: Assembly) -> str:
    """Return the part that a head lies on: of those that the screw goes through, the outermost there."""
    ends = {
        part.name: part.z_to_m if screw.front else -part.z_from_m for part in assembly.parts if part.name in screw.joins
    }
    return max(ends, key=lambda name: ends[name])
