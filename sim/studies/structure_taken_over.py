"""What takes over the load of struts and wires that are left out: the members whose axial load grows most."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from sim.studies.structure_answer import TakenOver

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from sim.structures.frame_forces import FrameForces

FELT: Final = 1.0 / 3.0
"""Of the greatest growth, from which on a member is told."""
NOTHING: Final = 1e-6
"""Growth over the greatest load, up to which nothing takes over anything: what is left out carried nothing."""


def greatest_n(solved: Iterable[FrameForces]) -> dict[str, float]:
    """Return the axial load greatest in size, tension positive, of every bar and beam over some load cases. [N].

    Parameters
    ----------
    solved : iterable of FrameForces
        Of each case.
    """
    greatest: dict[str, float] = {}
    for forces in solved:
        for name, load_n in (*forces.bars_n.items(), *((one.beam, -one.thrust_n) for one in forces.spans)):
            greatest[name] = max(greatest.get(name, 0.0), load_n, key=abs)
    return greatest


def taken_over(whole_n: Mapping[str, float], left_n: Mapping[str, float]) -> tuple[TakenOver, ...]:
    """Return the members that carry most more than in the whole wing, from that which takes over most.

    Parameters
    ----------
    whole_n, left_n : mapping
        Greatest axial load of each, with nothing left out and as it is, as `greatest_n` has them. [N]
    """
    growth = {name: abs(load_n) - abs(whole_n[name]) for name, load_n in left_n.items()}
    most = max(growth.values(), default=0.0)
    if most <= NOTHING * max(map(abs, left_n.values()), default=0.0):
        return ()
    felt = sorted((name for name in growth if growth[name] >= FELT * most), key=lambda name: -growth[name])
    return tuple(TakenOver(name, whole_n[name], left_n[name]) for name in felt)
