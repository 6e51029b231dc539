"""Spars, struts and wires of a solved wing: the case that leaves each the least margin, of both sides together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import TYPE_CHECKING, Final

from sim.structures.member_sizes import StrutSize
from sim.structures.member_strength import least_size, margin_low, member_margin, spar_margin
from sim.structures.removed import without_side
from sim.studies.structure_answer import SparDiagram, StructureMember

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.structures.frame_forces import FrameForces, SpanForces
    from sim.structures.wing_frame import FrameMember, SparPanel, WingFrame
    from sim.studies.structure_answer import Place

DIGITS: Final = 6
"""Decimals to which margins are compared: of mirrored cases and sides the first is told, whatever the rounding."""
ALIKE: Final = 10.0**-DIGITS
ROUNDING_N_M: Final = 1e-6
"""Bending moments smaller than this are those of a hinge."""
LEFT: Final = ", left"


@dataclass(frozen=True, slots=True)
class _SparPoint:
    """A section of a spar: where its margin is told."""

    span: int
    number: int
    margin: float


def rigged(rest: FrameForces) -> dict[str, float]:
    """Return the axial load of every bar and beam at rest, tension positive; of a beam that of its first span [N]."""
    first = {one.beam: -one.thrust_n for one in rest.spans if one.number == 0}
    return {**rest.bars_n, **first}


def members(
    wing: WingFrame, solved: Mapping[str, tuple[FrameForces, FrameForces]], rest_n: Mapping[str, float]
) -> tuple[StructureMember, ...]:
    """Return every spar, strut and wire with the case that leaves the least margin.

    Parameters
    ----------
    wing : WingFrame
        With its frame.
    solved : mapping
        Forces at limit and at ultimate load, by case.
    rest_n : mapping
        Axial load of each at rest. [N]
    """
    found: dict[str, StructureMember] = {}
    for one in (*_spars(wing, solved, rest_n), *_bars(wing, solved, rest_n)):
        name = without_side(one.name)
        known = found.get(name)
        if known is None:
            found[name] = replace(one, name=name, ends_m=_on_the_right(one.ends_m))
        elif one.margin < known.margin - ALIKE:
            found[name] = replace(one, name=name, ends_m=known.ends_m)
    return tuple(found.values())


def _on_the_right(ends_m: tuple[Place, Place]) -> tuple[Place, Place]:
    """Return the ends of a member of whom the right one may be left out, as that would have them."""
    (station, out, up), (other_station, other_out, other_up) = ends_m
    sign = -1.0 if out + other_out < 0.0 else 1.0
    return (station, sign * out, up), (other_station, sign * other_out, other_up)


def _bars(
    wing: WingFrame, solved: Mapping[str, tuple[FrameForces, FrameForces]], rest_n: Mapping[str, float]
) -> Iterator[StructureMember]:
    ends = {bar.name: (bar.start, bar.end) for bar in wing.frame.bars}
    for one in wing.members:
        margins = {
            case: member_margin(one.size, ultimate.bars_n[one.name], one.length_m)
            for case, (_, ultimate) in solved.items()
        }
        worst = min(margins, key=lambda case: round(margins[case], DIGITS))
        yield StructureMember(
            name=one.name,
            kind=one.kind,
            length_m=one.length_m,
            size=one.size.label,
            sizes_m=one.size.sizes_m if isinstance(one.size, StrutSize) else (),
            force_n=solved[worst][0].bars_n[one.name],
            moment_n_m=0.0,
            case=worst if margins[worst] < inf else "",
            margin=margins[worst],
            margin_low=margin_low(margins[worst], one.size.strength_scatter),
            least_size=_least(wing, one, solved),
            rigged_n=rest_n[one.name],
            ends_m=_places(wing, *ends[one.name]),
        )


def _least(wing: WingFrame, one: FrameMember, solved: Mapping[str, tuple[FrameForces, FrameForces]]) -> str:
    """Return the least size for a member and for its mirror image."""
    names = [other.name for other in wing.members if without_side(other.name) == without_side(one.name)]
    forces = [ultimate.bars_n[name] for _, ultimate in solved.values() for name in names]
    return least_size(one.size, forces, one.length_m) or ""


def _places(wing: WingFrame, start: str, end: str) -> tuple[Place, Place]:
    first, last = (wing.frame.place_m[wing.frame.index[name]].tolist() for name in (start, end))
    return (first[0], first[1], first[2]), (last[0], last[1], last[2])


def _spars(
    wing: WingFrame, solved: Mapping[str, tuple[FrameForces, FrameForces]], rest_n: Mapping[str, float]
) -> Iterator[StructureMember]:
    for panel in wing.panels:
        worst = {case: _worst_point(panel, ultimate) for case, (_, ultimate) in solved.items()}
        case = min(worst, key=lambda name: round(worst[name].margin, DIGITS))
        point = worst[case]
        span = _spans(panel, solved[case][0])[point.span]
        yield StructureMember(
            name=panel.name,
            kind="spar",
            length_m=wing.frame.apart_m(panel.nodes[0], panel.nodes[-1]),
            size=panel.size.label,
            sizes_m=(),
            force_n=-span.thrust_n,
            moment_n_m=_without_rounding(float(span.up[point.number, 2])),
            case=case,
            margin=point.margin,
            margin_low=margin_low(point.margin, panel.size.strength_scatter),
            least_size="",
            rigged_n=rest_n[panel.name],
            ends_m=_places(wing, panel.nodes[0], panel.nodes[-1]),
        )


def _without_rounding(moment_n_m: float) -> float:
    return moment_n_m if abs(moment_n_m) > ROUNDING_N_M else 0.0


def _spans(panel: SparPanel, forces: FrameForces) -> list[SpanForces]:
    return [span for span in forces.spans if span.beam == panel.name]


def _margins(panel: SparPanel, span: SpanForces) -> list[float]:
    return [
        spar_margin(
            panel.size,
            thrust_n=span.thrust_n,
            moment_n_m=float(up[2]),
            side_moment_n_m=float(side[2]),
            shear_n=float(up[3] - span.thrust_n * up[1]),
        )
        for up, side in zip(span.up, span.side, strict=True)
    ]


def _worst_point(panel: SparPanel, forces: FrameForces) -> _SparPoint:
    points = [
        _SparPoint(number, place, margin)
        for number, span in enumerate(_spans(panel, forces))
        for place, margin in enumerate(_margins(panel, span))
    ]
    return min(points, key=lambda point: round(point.margin, DIGITS))


def spar_diagrams(wing: WingFrame, solved: Mapping[str, tuple[FrameForces, FrameForces]]) -> tuple[SparDiagram, ...]:
    """Return bending, shear, thrust and margin along spars of the right side and the centre, each in its worst case.

    Parameters
    ----------
    wing : WingFrame
        With its frame.
    solved : mapping
        Forces at limit and at ultimate load, by case.
    """
    return tuple(_diagram(wing, panel, solved) for panel in wing.panels if not panel.name.endswith(LEFT))


def _diagram(wing: WingFrame, panel: SparPanel, solved: Mapping[str, tuple[FrameForces, FrameForces]]) -> SparDiagram:
    case = min(solved, key=lambda name: round(_worst_point(panel, solved[name][1]).margin, DIGITS))
    limit, ultimate = (_spans(panel, forces) for forces in solved[case])
    rows = []
    for span, at_limit in zip(ultimate, limit, strict=True):
        names = panel.nodes[span.number : span.number + 2]
        start, end = (wing.frame.place_m[wing.frame.index[name], 1] for name in names)
        along = start + (end - start) * span.places_m / span.places_m[-1]
        shears = span.up[:, 3] - span.thrust_n * span.up[:, 1]
        rows += [
            (float(y), float(m), float(q), span.thrust_n, margin, -at_limit.thrust_n)
            for y, m, q, margin in zip(along, span.up[:, 2], shears, _margins(panel, span), strict=True)
        ]
    columns = zip(*rows, strict=True)
    return SparDiagram(without_side(panel.name), case, *(tuple(column) for column in columns))
