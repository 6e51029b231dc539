"""Forces of a frame: wires that would be pushed go slack, and the thrust of every beam bends it further."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np
from scipy.linalg import eigh
from scipy.sparse import csc_array
from scipy.sparse.linalg import splu

from sim.errors import NoAnswerError
from sim.structures.beam_column import along, gathered, spans
from sim.structures.frame import PLANES
from sim.structures.frame_failures import buckled, demand_below_buckling, mechanism, slenderest
from sim.structures.frame_forces import FrameForces, SpanForces

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray
    from scipy.sparse.linalg import SuperLU

    from sim.structures.beam_column import Patch, Span
    from sim.structures.frame import Frame, FrameLoad, FrameSpan

    Numbers = NDArray[np.float64]

ROUNDS: Final = 100
CONVERGED: Final = 1e-11
"""Change of thrust in a round over the greatest axial load, at which it is called found."""
SLACK: Final = 1e-6
"""Tension over the greatest axial load below which a wire holds nothing."""
LOOSE: Final = 1e-9
"""Least pivot, with ones on the diagonal, below which a frame can move without stretching or bending anything."""
ALIKE: Final = 1e-6
"""Of the greatest, within which two movements are as great as each other but for rounding."""


class _UnstableError(Exception):
    """A way in which the frame moves by itself, in its unknowns."""

    def __init__(self, way: Numbers) -> None:
        super().__init__()
        self.way = way


def solve_frame(frame: Frame, load: FrameLoad, *, second_order: bool = True, pieces: int = 16) -> FrameForces:
    """Return the forces of a frame under a load.

    Parameters
    ----------
    frame : Frame
        As built.
    load : FrameLoad
        On nodes and beams.
    second_order : bool
        Whether the thrust of beams acts on their deflection; without it the frame is linear but for its wires.
    pieces : int
        Into which each span is divided for what is told of it.

    Raises
    ------
    BucklingError
        When a beam buckles under its thrust, whatever bears across it.
    MechanismError
        When the frame is a mechanism: it names the node that moves most.
    NoAnswerError
        When the wires do not settle.

    Notes
    -----
    Displacement method. With given thrusts the potential energy is convex, however wires go slack, so that its minimum
    is one, found by Newton's method whatever the order of the wires; the thrusts are then put in anew until they stay.
    Moments balance about the undeformed frame but for thrust times the deflection between the ends of a span.
    """
    patches = [own for one in frame.spans for own in _patches(one, load)]
    together = gathered(patches)
    lengths = np.repeat([one.length_m for one in frame.spans], 2)
    bending = np.array([e for one in frame.spans for e in one.bending_n_m2])
    thrusts = np.zeros(len(frame.spans))
    force = np.zeros(frame.unknowns)
    for name, vector in load.at_nodes_n.items():
        force[3 * frame.index[name] : 3 * frame.index[name] + 3] += vector
    moved, tension = np.zeros(frame.unknowns), np.zeros(len(frame.bars))
    straight: Numbers | None = None
    for _ in range(ROUNDS):
        demand_below_buckling(frame, thrusts)
        bent = spans(lengths, bending, np.repeat(thrusts, 2), together)
        try:
            moved, tension = _balance(frame, _beams(frame, bent), force - _clamped_ends(frame, bent), moved)
        except _UnstableError as error:
            _demand_held(frame, spans(lengths, bending, np.zeros(2 * len(frame.spans)), together), straight)
            raise buckled(frame, error.way, thrusts) from None
        straight = tension if straight is None else straight
        found = -_axial(frame, moved)
        largest = max(np.abs(found).max(initial=0.0), np.abs(tension).max(initial=0.0), 1e-300)
        settled = not second_order or np.abs(found - thrusts).max(initial=0.0) <= CONVERGED * largest
        if settled:
            return _answer(frame, moved, tension, thrusts, patches=patches, bent=bent, force=force, pieces=pieces)
        thrusts = found
    raise slenderest(frame, thrusts)  # the thrusts do not settle: it is close to buckling


def _demand_held(frame: Frame, straight: Span, tension: Numbers | None) -> None:
    """Refuse a frame that moves freely once the wires without tension are gone: it falls before any spar buckles.

    `straight` has the beams without thrust, `tension` is that of every bar then; None where it was not found.
    """
    if tension is None:
        return
    wire = np.array([bar.wire for bar in frame.bars], dtype=bool)
    holds = ~wire | (tension > SLACK * np.abs(tension).max(initial=0.0))
    stretch = frame.stretch[:, frame.free][holds]
    springs = frame.bar_stiffness_n_per_m[holds]
    beams = _beams(frame, straight)[np.ix_(frame.free, frame.free)]
    _demand_stable(frame, beams + (stretch.T * springs) @ stretch)


def _patches(one: FrameSpan, load: FrameLoad) -> tuple[Sequence[Patch], Sequence[Patch]]:
    return load.beams[one.beam.name][one.number] if one.beam.name in load.beams else ((), ())


def _axial(frame: Frame, moved: Numbers) -> Numbers:
    """Return the tension of every span. [N]."""
    return np.array([one.beam.axial_n / one.length_m * (one.axial @ moved) for one in frame.spans])


def _beams(frame: Frame, bent: Span) -> Numbers:
    """Return the stiffness of all beams in the unknowns of the frame; `bent` has both planes of each span in turn."""
    stiffness = np.zeros((frame.unknowns, frame.unknowns))
    even = 0.5 * (bent.stiffness + np.swapaxes(bent.stiffness, 1, 2))
    for number, one in enumerate(frame.spans):
        own, ends = one.moved_by, one.ends[:, :, one.moved_by]
        part = one.beam.axial_n / one.length_m * np.outer(one.axial[own], one.axial[own])
        for plane in PLANES:
            part += ends[plane].T @ even[2 * number + plane] @ ends[plane]
        stiffness[np.ix_(own, own)] += part
    return stiffness


def _clamped_ends(frame: Frame, bent: Span) -> Numbers:
    forces = np.zeros(frame.unknowns)
    for number, one in enumerate(frame.spans):
        for plane in PLANES:
            forces += bent.fixed[2 * number + plane] @ one.ends[plane]
    return forces


def _balance(frame: Frame, beams: Numbers, force: Numbers, moved: Numbers) -> tuple[Numbers, Numbers]:
    """Return the movements of least energy, and the tension of every bar with them."""
    free, stretch = frame.free, frame.stretch[:, frame.free]
    springs = frame.bar_stiffness_n_per_m
    wire = np.array([bar.wire for bar in frame.bars], dtype=bool)
    start_n = np.array([bar.tension_n for bar in frame.bars])
    fixed, pull = beams[np.ix_(free, free)], force[free]
    at = moved[free]
    stiffness = fixed + (stretch.T * springs) @ stretch
    _demand_stable(frame, stiffness)

    def tension(x: Numbers) -> Numbers:
        raw = start_n + springs * (stretch @ x)
        return np.where(wire, np.maximum(raw, 0.0), raw)

    def energy(x: Numbers) -> float:
        return float(0.5 * x @ fixed @ x - pull @ x + 0.5 * (tension(x) ** 2 / springs).sum())

    exact = True
    for _ in range(ROUNDS):
        taut = ~wire | (start_n + springs * (stretch @ at) >= 0.0)
        stiffness = fixed + (stretch[taut].T * springs[taut]) @ stretch[taut]
        before_exact = exact
        step, exact = _newton_step(frame, stiffness, pull - fixed @ at - stretch.T @ tension(at))
        size, before = 1.0, energy(at)
        while size > 1e-6 and energy(at + size * step) > before + 1e-12 * abs(before):
            size *= 0.5
        at = at + size * step
        same = bool(np.all(taut == (~wire | (start_n + springs * (stretch @ at) >= 0.0))))
        if same and size == 1.0 and exact and before_exact:  # once more behind a long way on a weak spring
            _demand_stable(frame, stiffness)
            found = np.zeros(frame.unknowns)
            found[free] = at
            return found, tension(at)
    _demand_stable(frame, stiffness)
    message = "the wires do not settle: none of them is clearly slack or taut; give them more rigging tension"
    raise NoAnswerError(message)


def _newton_step(frame: Frame, stiffness: Numbers, residual: Numbers) -> tuple[Numbers, bool]:
    """Return the step, and whether it is Newton's; where slack wires leave something loose a weak spring holds it."""
    scale = 1.0 / np.sqrt(np.maximum(np.diag(stiffness), 1e-12 * np.diag(stiffness).max()))
    even = stiffness * np.outer(scale, scale)
    for weak in (0.0, 1e-8, 1e-4, 1e-2):
        factor, pivot = _factored(even + weak * np.eye(len(even)))
        if factor is not None and pivot > 0.0:
            return scale * factor.solve(scale * residual), weak == 0.0
    raise _unstable(frame, stiffness)


def _factored(even: Numbers) -> tuple[SuperLU | None, float]:
    """Return the factors of a symmetric matrix, whose pivots are all positive if it is, and the least pivot."""
    try:
        factor = splu(csc_array(even), "MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True})
    except RuntimeError:  # exactly singular
        return None, 0.0
    return factor, float(factor.U.diagonal().min())


def _demand_stable(frame: Frame, stiffness: Numbers) -> None:
    scale = 1.0 / np.sqrt(np.maximum(np.diag(stiffness), 1e-300))
    even = stiffness * np.outer(scale, scale)
    _, pivot = _factored(even)
    if pivot > LOOSE:
        return
    values, ways = eigh(even, subset_by_value=[-np.inf, LOOSE])
    if values.size and values[0] < -LOOSE:
        raise _unstable(frame, stiffness)
    if not values.size:
        values, ways = eigh(even, subset_by_index=[0, 0])
    raise mechanism(frame, _freest(frame, scale[:, None] * ways))


def _freest(frame: Frame, ways: Numbers) -> Numbers:
    """Return, of all combinations of free movements, that in which one node moves farthest along one axis.

    Which movements span them is up to rounding where there are several, as of a left and a right half; their
    projector is not. Of nodes that move alike the first is taken.
    """
    loose = np.zeros((frame.unknowns, ways.shape[1]))
    loose[frame.free] = np.linalg.qr(ways)[0]
    freedom = (loose[: 3 * len(frame.nodes)] ** 2).sum(axis=1)
    freest = int(np.flatnonzero(freedom >= (1.0 - ALIKE) * freedom.max())[0])
    return np.asarray(loose @ loose[freest])


def _unstable(frame: Frame, stiffness: Numbers) -> _UnstableError:
    _, ways = eigh(stiffness, subset_by_index=[0, 0])
    way = np.zeros(frame.unknowns)
    way[frame.free] = ways[:, 0]
    return _UnstableError(way)


def _answer(
    frame: Frame,
    moved: Numbers,
    tension: Numbers,
    thrusts: Numbers,
    *,
    patches: Sequence[Sequence[Patch]],
    bent: Span,
    force: Numbers,
    pieces: int,
) -> FrameForces:
    own = _axial(frame, moved)
    pull = frame.stretch.T @ tension + _beams(frame, bent) @ moved + _clamped_ends(frame, bent) - force
    told = []
    for number, (one, thrust, axial) in enumerate(zip(frame.spans, thrusts, own, strict=True)):
        places = np.linspace(0.0, one.length_m, pieces + 1)
        states = []
        for plane in PLANES:
            at, ends = 2 * number + plane, one.ends[plane] @ moved
            forces = bent.stiffness[at] @ ends + bent.fixed[at]
            start = (ends[0], ends[1], -forces[1], forces[0])
            stiff = one.bending_n_m2[plane]
            states.append(along(stiff, float(thrust), patches[at], start=start, places_m=places.tolist()))
        told.append(SpanForces(one.beam.name, one.number, -float(axial), places, states[0], states[1]))
    nodes = len(frame.nodes)
    reactions = pull[: 3 * nodes].reshape(-1, 3)
    return FrameForces(
        bars_n={bar.name: float(n) for bar, n in zip(frame.bars, tension, strict=True)},
        spans=tuple(told),
        moved_m=dict(zip((node.name for node in frame.nodes), moved[: 3 * nodes].reshape(-1, 3), strict=True)),
        reactions_n={node.name: reactions[n] for n, node in enumerate(frame.nodes) if node.held},
    )
