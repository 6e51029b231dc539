"""Item numbers in rings, read back from a view: what they say, where they stand, what their leaders cross."""

from itertools import combinations

from shapely import LineString, MultiLineString, Point

from viz.drawings.marks import Note, Ring, Stroke

APART_MM = 0.5


def balloons(view):
    """Return number, ring and leader of every balloon; a leader ends on the rim of its ring."""
    rings = [mark for mark in view.marks if isinstance(mark, Ring) and mark.diameter_mm > 1.0]
    dots = [mark.centre for mark in view.marks if isinstance(mark, Ring) and mark.diameter_mm < 1.0]
    leaders = [mark for mark in view.marks if isinstance(mark, Stroke) and mark.points[-1] in dots]
    found = []
    for ring in rings:
        (note,) = (mark for mark in view.marks if isinstance(mark, Note) and mark.at == ring.centre)
        rim = Point(ring.centre).buffer(ring.diameter_mm / 2.0 + 0.01).exterior
        (leader,) = (mark for mark in leaders if rim.distance(Point(mark.points[0])) < 0.05)
        found.append((int(note.text), Point(ring.centre).buffer(ring.diameter_mm / 2.0), LineString(leader.points)))
    assert len(rings) == len(dots)
    return found


def entangled(view):
    """Return pairs of balloons that touch or whose leaders cross, and balloons that cover a line."""
    placed = balloons(view)
    leaders = {tuple(leader.coords) for _, _, leader in placed}
    strokes = [mark.points for mark in view.marks if isinstance(mark, Stroke) and tuple(mark.points) not in leaders]
    lines = MultiLineString(strokes)
    found = [number for number, ring, _ in placed if ring.distance(lines) < APART_MM]
    for (one, ring, leader), (other, second, crossing) in combinations(placed, 2):
        crossed = leader.intersects(crossing) or leader.intersects(second) or crossing.intersects(ring)
        if crossed or ring.distance(second) < APART_MM:
            found.append((one, other))
    return found
