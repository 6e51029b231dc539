"""A welded tube mount as a pin-jointed truss in space: the force in each tube and how far each is from buckling.

The engine is a rigid body that holds its own nodes; the firewall holds others; the rest are free. SolvedTruss by
stiffness, so a statically indeterminate truss is solved like a determinate one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

import numpy as np

from sim.errors import Fault, InputError, NoAnswerError
from sim.structures.column import margin
from sim.structures.cross_section import tube as round_tube
from sim.structures.materials import mild_steel
from sim.structures.member_sizes import StrutSize
from sim.structures.member_strength import member_margin
from sim.structures.rigid import rigid_motion
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from sim.structures.materials import StructuralMaterial

Hold = Literal["airframe", "engine", "free"]
SLACK = 1e-9
"""A truss whose least stiffness is below this share of its greatest can move without stretching a tube."""
_RIGID = 6


@dataclass(frozen=True, slots=True)
class Node:
    """Where tubes meet, in body axes from the point where the shaft axis meets the firewall.

    Attributes
    ----------
    name : str
        As on the drawing.
    place_m : tuple of float
        Forward, right, down. [m]
    held : str
        ``airframe``: bolted to the firewall; ``engine``: bolted to the engine; ``free``: tubes only.
    """

    name: str
    place_m: tuple[float, float, float]
    held: Hold


@dataclass(frozen=True, slots=True)
class Tube:
    """A round tube between two nodes.

    Attributes
    ----------
    name, start, end : str
        Its own name, and those of its nodes.
    diameter_m, wall_m : float
        Outside diameter and wall; twice the wall is at most the diameter. [m]
    material : StructuralMaterial
        Of it; mild steel unless given.
    """

    name: str
    start: str
    end: str
    diameter_m: float
    wall_m: float
    material: StructuralMaterial = field(default_factory=mild_steel)

    @property
    def size(self) -> StrutSize:
        """Its section and material, ends hinged."""
        sizes_m = self.diameter_m, self.wall_m
        return StrutSize(round_tube(*sizes_m), self.material, tube=True, sizes_m=sizes_m)


@dataclass(frozen=True, slots=True)
class TubeLoad:
    """The load of one tube.

    Attributes
    ----------
    name : str
        Of the tube.
    axial_n : float
        Tension positive. [N]
    euler_margin : float
        Euler's load with hinged ends over the compression at ultimate load, less 1: adequate above 0. Infinite in
        tension.
    margin : float
        Of safety at ultimate load: adequate from 0. Infinite without load.
    slenderness : float
        Length over radius of gyration.
    """

    name: str
    axial_n: float
    euler_margin: float
    margin: float
    slenderness: float


@dataclass(frozen=True, slots=True)
class SolvedTruss:
    """A loaded truss.

    Attributes
    ----------
    members : tuple of TubeLoad
        In the order of the tubes.
    reactions_n : dict of tuple
        Force of the firewall on each node it holds: forward, right, down. [N]
    redundancy : int
        Degree of static indeterminacy; 0 is statically determinate.
    """

    members: tuple[TubeLoad, ...]
    reactions_n: dict[str, tuple[float, float, float]]
    redundancy: int


BORNE_BY = {"airframe": "bolted to the firewall", "engine": "bolted to the engine"}
"""What holds a node of a truss, in words."""


def truss_faults(nodes: Sequence[Node], tubes: Sequence[Tube]) -> Iterator[Fault]:
    """Yield what makes nodes and tubes no truss.

    Parameters
    ----------
    nodes, tubes : sequence
        As drawn.
    """
    places, held = ({node.name: getattr(node, what) for node in nodes} for what in ("place_m", "held"))
    for tube in tubes:
        unknown = [end for end in (tube.start, tube.end) if end not in places]
        for end in unknown:
            yield Fault(f"mount.tube.{tube.name}", f'must join two nodes of the table mount.node, got "{end}"')
        holder, *others = {held.get(end) for end in (tube.start, tube.end)}
        ends = f'got "{tube.start}" and "{tube.end}"'
        if not unknown and places[tube.start] == places[tube.end]:
            yield Fault(f"mount.tube.{tube.name}", f"must join two different places, {ends}")
        elif not others and holder in BORNE_BY:
            yield Fault(
                f"mount.tube.{tube.name}", f"must not join two nodes {BORNE_BY[holder]}: it would bear nothing, {ends}"
            )
        if 2.0 * tube.wall_m > tube.diameter_m:
            wall = in_both("wall_m", tube.wall_m)
            yield Fault(f"mount.tube.{tube.name}", f'wall must be at most half the diameter, got "{wall}"')
    for holder, words in BORNE_BY.items():
        if holder not in held.values():
            yield Fault("mount.node", f'must have nodes {words} (held = "{holder}"), got none')


def solve_truss(
    nodes: Sequence[Node],
    tubes: Sequence[Tube],
    *,
    force_n: Sequence[float],
    moment_n_m: Sequence[float],
    ultimate: float = 1.5,
) -> SolvedTruss:
    """Return the force in every tube under a force and moment of the engine.

    Parameters
    ----------
    nodes, tubes : sequence
        The truss.
    force_n, moment_n_m : sequence of float
        At limit, on the engine's rigid body, at and about the origin of the nodes: forward, right, down. [N, N m]
    ultimate : float
        Factor on the load that the margins are taken at.

    Raises
    ------
    InputError
        Every fault of the drawing at once.
    NoAnswerError
        When the truss is a mechanism: it names the node that moves most.

    Notes
    -----
    Joints are hinges and loads stand at nodes. Welded joints bend the tubes as well, which adds stress and takes
    some buckling length away; a licensed engineer must look at both. Strength is that of `member_margin`: the column
    curve of the material in compression, its ultimate strength in tension. Heat beside a weld is in it as far as the
    material has it; dents are not.
    """
    faults = list(truss_faults(nodes, tubes))
    if faults:
        raise InputError(faults)
    index = {node.name: position for position, node in enumerate(nodes)}
    place = np.array([node.place_m for node in nodes])
    span = np.array([place[index[tube.end]] - place[index[tube.start]] for tube in tubes])
    length = np.linalg.norm(span, axis=1)
    stretch = np.zeros((len(tubes), 3 * len(nodes)))
    for row, (tube, way) in enumerate(zip(tubes, span / length[:, None], strict=True)):
        stretch[row, 3 * index[tube.end] : 3 * index[tube.end] + 3] = way
        stretch[row, 3 * index[tube.start] : 3 * index[tube.start] + 3] = -way
    ties = _ties(nodes, place)
    load = np.array([*force_n, *moment_n_m])
    axial = _axial(stretch @ ties, tubes, length, load=load, drawn=(nodes, ties))
    pull = stretch.T @ axial
    reactions = {
        node.name: tuple(pull[3 * index[node.name] : 3 * index[node.name] + 3].tolist())
        for node in nodes
        if node.held == "airframe"
    }
    members = tuple(
        _member(tube, float(n), float(long), ultimate) for tube, n, long in zip(tubes, axial, length, strict=True)
    )
    return SolvedTruss(members, reactions, len(tubes) - ties.shape[1])


def _ties(nodes: Sequence[Node], place: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return how all nodes move when the engine (six ways, first) and each free node (three ways) does."""
    free = [position for position, node in enumerate(nodes) if node.held == "free"]
    ties = np.zeros((3 * len(nodes), _RIGID + 3 * len(free)))
    for position, node in enumerate(nodes):
        if node.held == "engine":
            ties[3 * position : 3 * position + 3, :_RIGID] = rigid_motion(place[position].tolist())
    for column, position in enumerate(free):
        ties[3 * position : 3 * position + 3, _RIGID + 3 * column : _RIGID + 3 * column + 3] = np.eye(3)
    return ties


def _axial(
    stretch: NDArray[np.float64],
    tubes: Sequence[Tube],
    length: NDArray[np.float64],
    *,
    load: NDArray[np.float64],
    drawn: tuple[Sequence[Node], NDArray[np.float64]],
) -> NDArray[np.float64]:
    """Return the tube forces by stiffness."""
    spring = np.array([tube.size.axial_n for tube in tubes]) / length
    size = np.ones(stretch.shape[1])
    size[3:_RIGID] = 1.0 / max(float(length.mean()), 1e-6)
    even = stretch * size
    _, values, ways = np.linalg.svd(even)
    if len(values) < even.shape[1] or values[-1] <= SLACK * values[0]:
        raise NoAnswerError(_loose(ways[-1] * size, *drawn))
    applied = np.zeros(even.shape[1])
    applied[:_RIGID] = load * size[:_RIGID]
    moved = np.linalg.solve((even * spring[:, None]).T @ even, applied)
    return np.asarray(spring * (even @ moved))


def _loose(way: NDArray[np.float64], nodes: Sequence[Node], ties: NDArray[np.float64]) -> str:
    moves = np.linalg.norm((ties @ way).reshape(-1, 3), axis=1)
    return f"the truss is a mechanism: {nodes[int(moves.argmax())].name} can move without stretching a tube; add a tube"


def _member(tube: Tube, axial_n: float, length_m: float, ultimate: float) -> TubeLoad:
    size, ultimate_n = tube.size, ultimate * axial_n
    slenderness = length_m / math.sqrt(size.section.inertia_m4 / size.section.area_m2)
    euler_n = math.pi**2 * size.axial_n / slenderness**2
    return TubeLoad(
        tube.name,
        axial_n,
        margin(euler_n, -ultimate_n),
        member_margin(size, ultimate_n, length_m),
        slenderness=slenderness,
    )
