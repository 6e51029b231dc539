"""An exploded view: parts drawn apart, seen from the upper right, each with its item number once."""

from __future__ import annotations

from typing import TYPE_CHECKING

from shapely import affinity, box, line_merge, union_all
from shapely.geometry import LineString

from sim.display.assembly.data import Fastener
from sim.display.assembly.order import PIN
from sim.display.assembly.paths import FLEXIBLE
from viz.drawings.apart import moved_along, shifts
from viz.drawings.balloons import BALLOON_MM, ROUND_MM, balloons
from viz.drawings.hidden_lines import strokes
from viz.drawings.items import key
from viz.drawings.oblique import WAY, body, shown
from viz.drawings.solid_stl import polygons
from viz.drawings.view import View
from viz.drawings.ways import sides

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from shapely.geometry.base import BaseGeometry

    from viz.drawings.marks import Box, Mark, Pen, Point, Stroke
    from viz.drawings.oblique import Body, Piece, Shift, Shown, Solid
    from viz.drawings.ways import Ways

    Kind = tuple[object, ...]

MOST_SCALE = 2.0
GAP_MM, GAP_SHARE = 6.0, 0.03
"""Gap between parts at least: of nothing [mm], and per extent of the largest."""
ROUND = ("turned", "bought")
"""Processes of parts that have an axis along the shaft."""
TRIES, SEEN_SHARE, FARTHER = 8, 0.3, 3.0
"""How often parts are laid out, the share of the face of one of each kind that is seen at last, and by how many gaps
what is hidden is moved farther."""
CHIEF = 0.3
"""Pieces of a kind are pointed at where at least this share of the largest piece of it is seen."""
BORDER = 0.05
"""By how much of its size the window on what stands is wider than what is put on."""


def exploded(
    pieces: Sequence[Piece],
    numbers: Mapping[Kind, int],
    room: Point,
    what: str,
    *,
    put_on: Ways,
    standing: Sequence[Piece] = (),
    mates: Sequence[Piece] = (),
    behind: bool = False,
) -> View:
    """Return pieces apart in a room of paper [mm], one of each kind with its number; pale, what else is there.

    Parameters
    ----------
    pieces : sequence of Part or Fastener
        What is drawn in strong ink, moved from its place.
    numbers : mapping
        Kind of a piece -> its item number.
    room : tuple of float
        Width and height. [mm]
    what : str
        The view in words.
    put_on : mapping
        From which side each is put on.
    standing : sequence of Part or Fastener
        What stands where it belongs.
    mates : sequence of Part or Fastener
        What is moved too, pale and without a number: what heads of screws lie on.
    behind : bool
        Whether one looks from behind, not from the front.
    """
    bodies, moved = laid_out(pieces, put_on, standing=standing, mates=mates, behind=behind)
    every = shown((solid for one, shift in zip(bodies, moved, strict=True) for solid in one.moved(shift)), mates)
    paled = set(map(id, mates))
    seen, pale = ([one for one in every if (id(one.of) in paled) == side] for side in (False, True))
    strong = union_all([one.area for one in seen])
    window = _window(bodies[: len(pieces)], strong) if standing or mates else strong.envelope
    ghost = (*(one.lines for one in pale), *_ghost(standing, window, strong, behind=behind))
    scale = _scale(window.bounds, room)
    lines: list[Stroke] = []
    for pen, of in (
        ("cut", [one.lines for one in seen if not one.clear]),
        ("thin", [one.lines for one in seen if one.clear]),
        ("centre", [axis.difference(strong) for axis in _axes(bodies, moved, standing)]),
        ("pale", [line.intersection(window) for line in ghost]),
    ):
        lines += _strokes(of, scale, pen)  # type: ignore[arg-type]
    drawn = union_all([LineString(line.points) for line in lines])
    places = {numbers[kind]: _enlarged(area, scale) for kind, area in _areas(seen).items()}
    marks: list[Mark] = [*lines, *balloons(places, drawn, _enlarged(strong, scale))]
    return View(tuple(marks), scale, what)


def sight(*, behind: bool) -> str:
    """Return from where one looks, in words."""
    return f"Seen from {'behind' if behind else 'the front'}, from the right and above"


def from_behind(pieces: Sequence[Piece], put_on: Ways) -> bool:
    """Return whether most of what is put on along the shaft comes from behind."""
    bodies = [body(one, behind=False) for one in pieces]
    along = moved_along(bodies, GAP_MM)
    leaves = sides(bodies, along, put_on, behind=False)
    return 2 * sum(leaves[each] < 0.0 for each in along) > len(along)


def laid_out(
    pieces: Sequence[Piece],
    put_on: Ways,
    *,
    standing: Sequence[Piece] = (),
    mates: Sequence[Piece] = (),
    behind: bool = False,
) -> tuple[list[Body], list[Shift]]:
    """Return pieces, then mates, in their places, and how far each is moved; what others hide is moved farther."""
    bodies = [body(one, behind=behind) for one in (*pieces, *mates)]
    own = range(len(pieces))
    boxes = [bodies[each].shadow.bounds for each in own]
    gap = GAP_MM + GAP_SHARE * max(max(right - left, high - low) for left, low, right, high in boxes)
    leaves = sides(bodies, moved_along(bodies, gap), put_on, behind=behind)
    more: dict[Kind, float] = {}
    for _ in range(TRIES):
        moved = shifts(
            bodies, leaves, gap, least=gap if standing else 0.0, more=more, pale=range(len(own), len(bodies))
        )
        drawn = [solid for each in own for solid in bodies[each].moved(moved[each])]
        hidden = _hidden(drawn, shown(drawn))
        if not hidden:
            break
        more |= {kind: more.get(kind, 0.0) + FARTHER * gap for kind in hidden}
    return bodies, moved


def _hidden(drawn: Sequence[Solid], seen: Sequence[Shown]) -> set[Kind]:
    """Return kinds of which others hide too much: less is seen than a share of the face of a piece."""
    left = {kind: area.area for kind, area in _areas(seen).items()}
    wanted: dict[Kind, float] = {}
    for one in drawn:
        wanted[key(one.of)] = max(SEEN_SHARE * one.shape.area, wanted.get(key(one.of), 0.0))
    return {kind for kind, area in wanted.items() if left.get(kind, 0.0) < area}


def _areas(seen: Sequence[Shown]) -> dict[Kind, BaseGeometry]:
    """Return where each kind of piece is seen, without what shows only through a hole or past an edge."""
    found: dict[Kind, list[BaseGeometry]] = {}
    for one in seen:
        found.setdefault(key(one.of), []).extend(polygons(one.plain))
    most = {kind: max((each.area for each in areas), default=0.0) for kind, areas in found.items()}
    return {
        kind: union_all([each for each in areas if each.area > CHIEF * most[kind]]) for kind, areas in found.items()
    }


def _window(bodies: Sequence[Body], strong: BaseGeometry) -> BaseGeometry:
    """Return the part of the paper on which what stands is drawn: round the new parts and their places."""
    places = [solid.at(solid.face, solid.shape) for one in bodies for solid in one.solids]
    left, low, right, high = union_all([strong, *places]).bounds
    border = BORDER * max(right - left, high - low)
    return box(left - border, low - border, right + border, high + border)


def _scale(bounds: Box, room: Point) -> float:
    margin = 2.0 * (ROUND_MM + BALLOON_MM / 2.0 + 0.5)
    left, low, right, high = bounds
    return min((room[0] - margin) / (right - left), (room[1] - margin) / (high - low), MOST_SCALE)


def _ghost(
    standing: Sequence[Piece], window: BaseGeometry, strong: BaseGeometry, *, behind: bool
) -> Iterator[BaseGeometry]:
    """Yield the lines of what stands, where no new part is before them; screws that stand are left out."""
    parts = [body(one, behind=behind) for one in standing if not isinstance(one, Fastener) and one.name != PIN]
    solids = [solid for one in parts for solid in one.solids]
    near = (
        one
        for one in solids
        if union_all([one.at(one.back, one.filled), one.at(one.face, one.filled)]).envelope.intersects(window)
    )
    for each in shown(near):
        yield each.lines.difference(strong)


def _axes(bodies: Sequence[Body], moved: Sequence[Shift], standing: Sequence[Piece]) -> Iterator[BaseGeometry]:
    """Yield the axis along which round parts and screws are moved, from the place of the first to the last."""
    ends: dict[Point, list[float]] = {}
    for one, (right, up, near) in zip(bodies, moved, strict=True):
        axial = isinstance(one.of, Fastener) or one.of.process in ROUND
        if axial and not (right or up or one.of.name.endswith(FLEXIBLE)):
            x, y = one.solids[0].shape.envelope.centroid.coords[0]
            middle = (one.back + one.face) / 2.0
            ends.setdefault((round(x, 1), round(y, 1)), []).extend((middle + near, *((middle,) if standing else ())))
    for (x, y), levels in ends.items():
        if max(levels) - min(levels) > 1.0:
            yield LineString([(x + WAY[0] * z, y + WAY[1] * z) for z in (min(levels), max(levels))])


def _enlarged(shape: BaseGeometry, scale: float) -> BaseGeometry:
    return affinity.scale(shape, scale, scale, origin=(0.0, 0.0))


def _strokes(shapes: Iterable[BaseGeometry], scale: float, pen: Pen) -> Iterator[Stroke]:
    """Yield the lines among shapes, joined end to end, on paper at a scale."""
    every = [line for shape in shapes for line in getattr(shape, "geoms", (shape,)) if line.geom_type == "LineString"]
    yield from strokes(line_merge(union_all(every)), scale, pen)
