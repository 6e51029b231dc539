"""How a frame fails to stand: a beam that buckles under its thrust, or a mechanism.

Ways are named as of a wing: x aft, y to the right, z up, and beams across the airplane.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.errors import NoAnswerError
from sim.structures.frame import PLANES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from sim.structures.frame import Frame

    Numbers = NDArray[np.float64]

BENT: Final = ("up and down", "fore and aft")
"""How a beam moves in each plane of its bending."""
MOVED: Final = ("fore and aft", "sideways", "up and down")
"""How a node moves along each axis."""
HOLDS: Final = 0.15
"""Sine of the angle between a bar and the plane square to the bending, from which on the bar holds a beam in it."""
BRACES: Final = 0.02
"""Of the greatest energy of a bar in a movement, from which on a bar is named among those that brace against it."""
UNSTRETCHED: Final = 1e-4
"""Stretch over the greatest movement, up to which a bar does not stretch in it but for rounding."""
WITH_IT: Final = 0.3
"""Of the greatest movement, from which on a beam is named among those that move."""


class BucklingError(NoAnswerError):
    """The thrust of a beam is beyond what it bears without any load across it.

    Attributes
    ----------
    beam : str
        Which.
    plane : int
        Of its bending: 0 up and down, 1 fore and aft.
    braces : tuple of str
        Bars that the movement would stretch or press if none were slack, from that with most energy; empty where the
        movement is unknown.
    """

    def __init__(self, beam: str, plane: int, braces: tuple[str, ...] = ()) -> None:
        super().__init__(
            f"{beam} buckles or sways {BENT[plane]} under its thrust; brace it, make it stiffer, or its spans shorter"
        )
        self.beam = beam
        self.plane = plane
        self.braces = braces


class MechanismError(NoAnswerError):
    """A frame that can move without stretching or bending anything.

    Attributes
    ----------
    node : str
        That moves most.
    way : str
        Along which axis it moves most.
    beams : tuple of str
        That move with it.
    movement : array, shape (unknowns,)
        Of the frame; the greatest movement of a node is 1.
    """

    def __init__(self, node: str, way: str, beams: tuple[str, ...], movement: Numbers) -> None:
        super().__init__(
            f"the truss is a mechanism: {node} can move {way} without stretching or bending anything; add a member"
        )
        self.node = node
        self.way = way
        self.beams = beams
        self.movement = movement


@dataclass(frozen=True, slots=True)
class Bay:
    """A length of a beam between what holds it in one plane.

    Attributes
    ----------
    beam : str
        Whose it is.
    spans : range
        Numbers of its spans in the frame.
    length_m, euler_n : float
        Its length, and the thrust at which it buckles alone, hinged at both ends. [m, N]
    """

    beam: str
    spans: range
    length_m: float
    euler_n: float


def euler_n(length_m: float, bending_n_m2: float) -> float:
    """Return the thrust at which a span hinged at both ends buckles. [N]."""
    return pi**2 * bending_n_m2 / length_m**2


def demand_below_buckling(frame: Frame, thrusts: Numbers) -> None:
    """Refuse a span beyond Euler's load with clamped ends, where its stiffness means nothing.

    Parameters
    ----------
    frame : Frame
        As built.
    thrusts : array, shape (spans,)
        Compression positive. [N]

    Raises
    ------
    BucklingError
        With its beam.
    """
    for one, thrust in zip(frame.spans, thrusts, strict=True):
        plane = min(PLANES, key=one.bending_n_m2.__getitem__)
        if thrust >= 4.0 * euler_n(one.length_m, one.bending_n_m2[plane]):
            raise BucklingError(one.beam.name, plane)


def slenderest(frame: Frame, thrusts: Numbers) -> BucklingError:
    """Return the failure of the beam whose thrust is nearest to Euler's load of a bay.

    Parameters
    ----------
    frame, thrusts
        As for `demand_below_buckling`.
    """
    every = [(one, plane) for plane in PLANES for one in bays(frame, plane)]
    worst, plane = max(every, key=lambda pair: float(thrusts[pair[0].spans].max()) / pair[0].euler_n)
    return BucklingError(worst.beam, plane)


def bays(frame: Frame, plane: int) -> Iterator[Bay]:
    """Yield every length of a beam between what holds it in a plane of its bending.

    Parameters
    ----------
    frame : Frame
        As built.
    plane : int
        0 up and down, 1 fore and aft.

    Notes
    -----
    The ends of a beam count as held, and a node at which a bar stands across it. Ribs between two spars hold them fore
    and aft, not up and down.
    """
    ways: dict[str, list[Numbers]] = {}
    for bar in frame.bars:
        start, end = frame.pins_m(bar)
        for name in (bar.start, bar.end):
            ways.setdefault(name, []).append((end - start) / np.linalg.norm(end - start))
    first = 0
    for number, one in enumerate(frame.spans):
        last = one.number == len(one.beam.nodes) - 2
        across = one.axes[1 + plane]
        if last or any(abs(way @ across) > HOLDS for way in ways.get(one.beam.nodes[one.number + 1], ())):
            own = range(first, number + 1)
            length_m = sum(frame.spans[at].length_m for at in own)
            yield Bay(one.beam.name, own, length_m, euler_n(length_m, one.bending_n_m2[plane]))
            first = number + 1


def buckled(frame: Frame, way: Numbers, thrusts: Numbers) -> BucklingError:
    """Return the failure of the beam whose thrust does most work as the frame moves in a way.

    Parameters
    ----------
    frame, thrusts
        As for `demand_below_buckling`.
    way : array, shape (unknowns,)
        Of instability.
    """
    work: dict[str, Numbers] = {one.beam.name: np.zeros(len(PLANES)) for one in frame.spans}
    for one, thrust in zip(frame.spans, thrusts, strict=True):
        slopes = one.ends[:, 1::2] @ way
        work[one.beam.name] += thrust * one.length_m * (slopes**2).sum(axis=1)
    worst = max(work, key=lambda name: float(work[name].sum()))
    return BucklingError(worst, int(work[worst].argmax()), strained(frame, way))


def strained(frame: Frame, way: Numbers) -> tuple[str, ...]:
    """Return the bars that a movement would stretch or press, were none slack, from that with most energy.

    Parameters
    ----------
    frame : Frame
        As built.
    way : array, shape (unknowns,)
        The movement.
    """
    stretch = frame.stretch @ way
    energy = frame.bar_stiffness_n_per_m * stretch**2
    most = float(energy.max(initial=0.0))
    felt = np.abs(stretch) > UNSTRETCHED * np.abs(way).max()
    return tuple(frame.bars[at].name for at in np.argsort(-energy) if felt[at] and energy[at] > BRACES * most)


def mechanism(frame: Frame, way: Numbers) -> MechanismError:
    """Return the failure of a frame that moves freely.

    Parameters
    ----------
    frame : Frame
        As built.
    way : array, shape (unknowns,)
        In which it moves.
    """
    moves = way[: 3 * len(frame.nodes)].reshape(-1, 3)
    sizes = np.linalg.norm(moves, axis=1)
    most = int(sizes.argmax())
    far = {node.name for node, size in zip(frame.nodes, sizes, strict=True) if size >= WITH_IT * sizes[most]}
    beams = tuple(beam.name for beam in frame.beams if not far.isdisjoint(beam.nodes))
    name, axis = frame.nodes[most].name, int(np.abs(moves[most]).argmax())
    return MechanismError(name, MOVED[axis], beams, way / sizes[most])
