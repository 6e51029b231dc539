"""A frame in space of pinned bars, wires that go slack, and straight beam-columns that run on over their nodes.

Axes are any right-handed ones. Bars and wires bear axial load alone. A beam is bent in two planes square to each other,
`up` and `side`, and is hinged at its ends, or clamped at the first; it does not resist twist.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

    from sim.structures.beam_column import Patch

    Numbers = NDArray[np.float64]
    Order = NDArray[np.intp]

PLANES: Final = (0, 1)
"""Of bending: up, and to the side."""


@dataclass(frozen=True, slots=True)
class FrameNode:
    """A joint.

    Attributes
    ----------
    name : str
        Its own.
    place_m : tuple of float
        [m]
    held : bool
        Whether it stays where it is.
    """

    name: str
    place_m: tuple[float, float, float]
    held: bool = False


@dataclass(frozen=True, slots=True)
class Bar:
    """A pinned bar, or a wire, which bears no compression.

    Attributes
    ----------
    name, start, end : str
        Its own name, and those of its nodes.
    axial_n : float
        Young's modulus times area. [N]
    wire : bool
        Whether it goes slack.
    tension_n : float
        Tension that it has with all nodes in place, by being made too short. [N]
    start_pin_m, end_pin_m : tuple of float or None
        Where its ends are pinned, on an arm that is fixed to a beam at an inner node of it; None: at the node. [m]
    """

    name: str
    start: str
    end: str
    axial_n: float
    wire: bool = False
    tension_n: float = 0.0
    start_pin_m: tuple[float, float, float] | None = None
    end_pin_m: tuple[float, float, float] | None = None


@dataclass(frozen=True, slots=True)
class Beam:
    """A beam-column through nodes on a straight line.

    Attributes
    ----------
    name : str
        Its own.
    nodes : tuple of str
        In their order along it, two at least.
    up : tuple of float
        Any direction that is not along it: `up` of its bending is the part of that square to it.
    axial_n, up_n_m2, side_n_m2 : float
        E A, and E I in bending up and to the side. [N, N m²]
    clamped : bool
        Whether its first node holds its slope too.
    """

    name: str
    nodes: tuple[str, ...]
    up: tuple[float, float, float]
    axial_n: float
    up_n_m2: float
    side_n_m2: float
    clamped: bool = False


@dataclass(frozen=True, slots=True)
class FrameLoad:
    """What bears on a frame.

    Attributes
    ----------
    at_nodes_n : mapping
        Force on nodes, by name. [N]
    beams : mapping
        Patches on each span of a beam, by name of the beam: for each span, those up and those to the side.
    """

    at_nodes_n: Mapping[str, Sequence[float]] = field(default_factory=dict)
    beams: Mapping[str, Sequence[tuple[Sequence[Patch], Sequence[Patch]]]] = field(default_factory=dict)


@dataclass(frozen=True)
class Frame:
    """Nodes, bars and beams.

    Attributes
    ----------
    nodes, bars, beams : tuple
        Every name is given once among its kind.
    """

    nodes: tuple[FrameNode, ...]
    bars: tuple[Bar, ...]
    beams: tuple[Beam, ...]

    @cached_property
    def index(self) -> dict[str, int]:
        """Number of each node."""
        return {node.name: number for number, node in enumerate(self.nodes)}

    @cached_property
    def place_m(self) -> Numbers:
        """Places of the nodes, shape (nodes, 3). [m]."""
        return np.array([node.place_m for node in self.nodes])

    @cached_property
    def unknowns(self) -> int:
        """Movements of the nodes, then slopes of every beam at every node in both planes."""
        return 3 * len(self.nodes) + 2 * sum(len(beam.nodes) for beam in self.beams)

    @cached_property
    def free(self) -> Order:
        """Those unknowns that are not held."""
        held = np.zeros(self.unknowns, dtype=bool)
        for number, node in enumerate(self.nodes):
            held[3 * number : 3 * number + 3] = node.held
        for beam, first in zip(self.beams, self.first_slopes, strict=True):
            held[first : first + 2] = beam.clamped
        return np.flatnonzero(~held)

    @cached_property
    def first_slopes(self) -> list[int]:
        """Number of the first slope of each beam; two for each of its nodes follow one another."""
        counts = [2 * len(beam.nodes) for beam in self.beams]
        return [3 * len(self.nodes) + sum(counts[:number]) for number in range(len(counts))]

    @cached_property
    def stretch(self) -> Numbers:
        """Stretch of each bar for unit unknowns, shape (bars, unknowns)."""
        rows = np.zeros((len(self.bars), self.unknowns))
        for row, bar in zip(rows, self.bars, strict=True):
            start, end = self.pins_m(bar)
            way = (end - start) / np.linalg.norm(end - start)
            for name, pin, sign in ((bar.start, start, -1.0), (bar.end, end, 1.0)):
                first = 3 * self.index[name]
                row[first : first + 3] += sign * way
                self._arm(row, name, pin, sign * way)
        return rows

    @cached_property
    def bar_stiffness_n_per_m(self) -> Numbers:
        """Axial load of each bar for a unit of stretch. [N/m]."""
        return np.array([bar.axial_n / self.bar_length_m(bar) for bar in self.bars])

    @cached_property
    def inner(self) -> dict[str, tuple[int, int]]:
        """Inner nodes of beams: number of the beam, and of the node in it."""
        return {
            name: (number, at)
            for number, beam in enumerate(self.beams)
            for at, name in enumerate(beam.nodes)
            if 0 < at < len(beam.nodes) - 1
        }

    @cached_property
    def spans(self) -> tuple[FrameSpan, ...]:
        """Every span of every beam, beam by beam."""
        return tuple(
            self._span(number, beam, at) for number, beam in enumerate(self.beams) for at in range(len(beam.nodes) - 1)
        )

    def pins_m(self, bar: Bar) -> tuple[Numbers, Numbers]:
        """Return where a bar is pinned. [m]."""
        ends = ((bar.start_pin_m, bar.start), (bar.end_pin_m, bar.end))
        start, end = (self.place_m[self.index[name]] if pin is None else np.array(pin) for pin, name in ends)
        return start, end

    def bar_length_m(self, bar: Bar) -> float:
        """Return the length of a bar from pin to pin. [m]."""
        start, end = self.pins_m(bar)
        return float(np.linalg.norm(end - start))

    def _arm(self, row: Numbers, name: str, pin_m: Numbers, way: Numbers) -> None:
        """Add the movement along `way` of a pin on an arm as the slopes of its beam turn the arm."""
        arm = pin_m - self.place_m[self.index[name]]
        if name not in self.inner or not arm.any():
            return
        number, at = self.inner[name]
        along, *planes = self._axes(self.beams[number], at)
        for plane, across in zip(PLANES, planes, strict=True):
            turned = (arm @ along) * across - (arm @ across) * along
            row[self.first_slopes[number] + 2 * at + plane] += way @ turned

    def _axes(self, beam: Beam, at: int) -> Numbers:
        """Return the unit vectors along a span of a beam, up and to the side, shape (3, 3)."""
        start, end = beam.nodes[at], beam.nodes[at + 1]
        way = (self.place_m[self.index[end]] - self.place_m[self.index[start]]) / self.apart_m(start, end)
        up = np.array(beam.up) - way * (way @ np.array(beam.up))
        up /= np.linalg.norm(up)
        return np.array([way, up, np.cross(way, up)])

    def apart_m(self, one: str, other: str) -> float:
        """Return how far two nodes are apart. [m]."""
        return float(np.linalg.norm(self.place_m[self.index[other]] - self.place_m[self.index[one]]))

    def _ends(self, row: Numbers, start: str, end: str) -> None:
        first, last = self.index[start], self.index[end]
        way = (self.place_m[last] - self.place_m[first]) / self.apart_m(start, end)
        row[3 * first : 3 * first + 3] -= way
        row[3 * last : 3 * last + 3] += way

    def _span(self, number: int, beam: Beam, at: int) -> FrameSpan:
        start, end = beam.nodes[at], beam.nodes[at + 1]
        axial = np.zeros(self.unknowns)
        self._ends(axial, start, end)
        axes = self._axes(beam, at)
        ends = np.zeros((2, 4, self.unknowns))
        for plane, across in zip(PLANES, axes[1:], strict=True):
            for row, (node, name) in enumerate(((at, start), (at + 1, end))):
                first = 3 * self.index[name]
                ends[plane, 2 * row, first : first + 3] = across
                ends[plane, 2 * row + 1, self.first_slopes[number] + 2 * node + plane] = 1.0
        moved_by = np.flatnonzero(np.abs(axial) + np.abs(ends).sum(axis=(0, 1)))
        return FrameSpan(beam, at, self.apart_m(start, end), axial, ends, axes=axes, moved_by=moved_by)


@dataclass(frozen=True, slots=True, eq=False)
class FrameSpan:
    """One span of a beam in the unknowns of its frame.

    Attributes
    ----------
    beam : Beam
        Whose span it is.
    number : int
        Which, from 0.
    length_m : float
        [m]
    axial : array, shape (unknowns,)
        Its stretch for unit unknowns.
    ends : array, shape (2, 4, unknowns)
        Deflection and slope at its first, then at its second end, in each plane.
    axes : array, shape (3, 3)
        Unit vectors along it, up and to the side.
    moved_by : array of int
        Unknowns that move its ends.
    """

    beam: Beam
    number: int
    length_m: float
    axial: Numbers
    ends: Numbers
    axes: Numbers
    moved_by: Order

    @property
    def bending_n_m2(self) -> tuple[float, float]:
        """E I in both planes. [N m²]."""
        return self.beam.up_n_m2, self.beam.side_n_m2
