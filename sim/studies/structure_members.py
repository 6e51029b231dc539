"""Spars, struts and wires of a solved wing: the case that leaves each the least margin, of both sides together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import inf
from typing import TYPE_CHECKING, Final

from sim.structures.member_sizes import StrutSize
from sim.structures.member_strength import least_size, margin_low, member_margins, spar_margins
from sim.structures.removed import without_side
from sim.studies.structure_answer import SparDiagram, StructureMember

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    import numpy as np
    from numpy.typing import NDArray

    from sim.structures.frame_forces import FrameForces, SpanForces
    from sim.structures.wing_frame import FrameMember, SparPanel, WingFrame
    from sim.studies.structure_answer import Place

    Numbers = NDArray[np.float64]

DIGITS: Final = 6
"""Decimals to which margins are compared: of mirrored cases and sides the first is told, whatever the rounding."""
ALIKE: Final = 10.0**-DIGITS
ROUNDING: Final = 1e-4
"""Of the largest load at rest, below which a member bears none."""
ROUNDING_OF_HINGES: Final = 1e-6
"""Bending moments and shears smaller than this are those of a hinge, or of a span without load. [N m, N]"""
LEFT: Final = ", left"


@dataclass(frozen=True, slots=True)
class _SparPoint:
    """A section of a spar: where its margin is told, and what fails first there."""

    span: int
    number: int
    margin: float
    set_by: str


@dataclass(frozen=True, slots=True)
class _Extremes:
    """Greatest tension and compression of all cases, and whose they are; 0 and nobody's where there is none. [N]."""

    tension_n: float
    tension_case: str
    compression_n: float
    compression_case: str


def rigged(rest: FrameForces) -> dict[str, float]:
    """Return the axial load of every bar and beam at rest, tension positive; of a beam that of its first span [N].

    Loads that are nothing beside the largest are rounding error: what no wire tightens bears nothing.
    """
    first = {one.beam: -one.thrust_n for one in rest.spans if one.number == 0}
    loads = {**rest.bars_n, **first}
    largest = max((abs(load) for load in loads.values()), default=0.0)
    return {name: load if abs(load) > ROUNDING * largest else 0.0 for name, load in loads.items()}


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
        yield _bar(wing, one, solved, rigged_n=rest_n[one.name], ends_m=_places(wing, *ends[one.name]))


def _bar(
    wing: WingFrame,
    one: FrameMember,
    solved: Mapping[str, tuple[FrameForces, FrameForces]],
    *,
    rigged_n: float,
    ends_m: tuple[Place, Place],
) -> StructureMember:
    by_part = {case: member_margins(one.size, u.bars_n[one.name], one.length_m) for case, (_, u) in solved.items()}
    margins = {case: min(own.values()) for case, own in by_part.items()}
    worst = min(margins, key=lambda case: round(margins[case], DIGITS))
    loaded = margins[worst] < inf
    both = _of_both_sides(wing, one.name)
    borne = {case: [u.bars_n[name] for name in both] for case, (_, u) in solved.items()}
    most = _extremes(borne)
    return StructureMember(
        name=one.name,
        kind=one.kind,
        length_m=one.length_m,
        size=one.size.label,
        sizes_m=one.size.sizes_m if isinstance(one.size, StrutSize) else (),
        force_n=solved[worst][0].bars_n[one.name],
        moment_n_m=0.0,
        ultimate_n=solved[worst][1].bars_n[one.name],
        ultimate_bending_n_m=0.0,
        ultimate_shear_n=0.0,
        most_tension_n=most.tension_n,
        tension_case=most.tension_case,
        most_compression_n=most.compression_n,
        compression_case=most.compression_case,
        case=worst if loaded else "",
        set_by=min(by_part[worst], key=by_part[worst].__getitem__) if loaded else "",
        margin=margins[worst],
        margin_low=margin_low(margins[worst], one.size.strength_scatter),
        least_size=least_size(one.size, [n for own in borne.values() for n in own], one.length_m) or "",
        rigged_n=rigged_n,
        ends_m=ends_m,
    )


def _of_both_sides(wing: WingFrame, name: str) -> list[str]:
    """Return the name of a member, and that of its mirror image."""
    return [other.name for other in wing.members if without_side(other.name) == without_side(name)]


def _extremes(borne: Mapping[str, Sequence[float]]) -> _Extremes:
    """Return the extremes of loads, tension positive, by case; of cases alike the first is told."""
    tension = {case: round(max(0.0, *own), DIGITS) for case, own in borne.items()}
    compression = {case: round(max(0.0, *(-load for load in own)), DIGITS) for case, own in borne.items()}
    pulled, pressed = (max(loads, key=loads.__getitem__) for loads in (tension, compression))
    return _Extremes(
        tension[pulled],
        pulled if tension[pulled] > 0.0 else "",
        compression[pressed],
        pressed if compression[pressed] > 0.0 else "",
    )


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
        limit, ultimate = (_spans(panel, forces)[point.span] for forces in solved[case])
        most = _extremes(
            {
                name: [-span.thrust_n for span in forces.spans if without_side(span.beam) == without_side(panel.name)]
                for name, (_, forces) in solved.items()
            }
        )
        yield StructureMember(
            name=panel.name,
            kind="spar",
            length_m=wing.frame.apart_m(panel.nodes[0], panel.nodes[-1]),
            size=panel.size.label,
            sizes_m=(),
            force_n=-limit.thrust_n,
            moment_n_m=_without_rounding(float(limit.up[point.number, 2])),
            ultimate_n=-ultimate.thrust_n,
            ultimate_bending_n_m=_without_rounding(float(ultimate.up[point.number, 2])),
            ultimate_shear_n=_without_rounding(float(_shears(ultimate)[point.number])),
            most_tension_n=most.tension_n,
            tension_case=most.tension_case,
            most_compression_n=most.compression_n,
            compression_case=most.compression_case,
            case=case,
            set_by=point.set_by,
            margin=point.margin,
            margin_low=margin_low(point.margin, panel.size.strength_scatter),
            least_size="",
            rigged_n=rest_n[panel.name],
            ends_m=_places(wing, panel.nodes[0], panel.nodes[-1]),
        )


def _without_rounding(value: float) -> float:
    return value if abs(value) > ROUNDING_OF_HINGES else 0.0


def _spans(panel: SparPanel, forces: FrameForces) -> list[SpanForces]:
    return [span for span in forces.spans if span.beam == panel.name]


def _shears(span: SpanForces) -> Numbers:
    """Return the shear across the bent spar. [N]."""
    return span.up[:, 3] - span.thrust_n * span.up[:, 1]


def _margins(panel: SparPanel, span: SpanForces) -> list[dict[str, float]]:
    """Return the margins along a span by what fails."""
    return [
        spar_margins(
            panel.size,
            thrust_n=span.thrust_n,
            moment_n_m=float(up[2]),
            side_moment_n_m=float(side[2]),
            shear_n=float(shear),
        )
        for up, side, shear in zip(span.up, span.side, _shears(span), strict=True)
    ]


def _worst_point(panel: SparPanel, forces: FrameForces) -> _SparPoint:
    points = [
        _SparPoint(number, place, min(own.values()), min(own, key=own.__getitem__))
        for number, span in enumerate(_spans(panel, forces))
        for place, own in enumerate(_margins(panel, span))
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
    rows = []
    for span in _spans(panel, solved[case][1]):
        names = panel.nodes[span.number : span.number + 2]
        start, end = (wing.frame.place_m[wing.frame.index[name], 1] for name in names)
        along = start + (end - start) * span.places_m / span.places_m[-1]
        along[-1] = end  # where the next span begins, whatever the rounding
        rows += [
            (float(y), float(m), float(q), span.thrust_n, min(own.values()))
            for y, m, q, own in zip(along, span.up[:, 2], _shears(span), _margins(panel, span), strict=True)
        ]
    columns = zip(*rows, strict=True)
    return SparDiagram(without_side(panel.name), case, *(tuple(column) for column in columns))
