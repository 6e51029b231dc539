"""What is laid over a three-view: ticks where readings say, red words where they differ, the other airplane in blue."""

import io
from dataclasses import replace
from itertools import combinations

import ezdxf
import pytest
from airplanes import BIPLANE, DRAWING, TRIPLANE
from shared import built
from test_three_view import corners_apart

from sim.model.drawing import drawing as measured
from sim.studies.drawing import drawing
from viz.drawings.dxf import view_dxf
from viz.drawings.marks import Note, Stroke
from viz.drawings.overlay import read_marks
from viz.drawings.three_view import Drawn, three_view, three_view_on
from viz.drawings.tiles import room_on
from viz.figures.complete import Other

WRONG = (
    "fin.height=4 ft",
    "wing.gap=4 ft 4 in",
    "tailplane.span=9 ft 6 in",
    "wing.chord=4 ft 5 in",
    "fuselage.length=18 ft",
)


def view_of(*settings, units="us", under=20.0, other=None):
    answer = drawing(built(BIPLANE, *settings), readings=measured(DRAWING))
    return answer, three_view(Drawn(answer, units, other), 1.0 / under)


def ticks(view):
    return [mark for mark in view.marks if isinstance(mark, Stroke) and mark.layer == "readings"]


def test_a_dimension_that_differs_is_written_in_red_with_what_was_read():
    answer, view = view_of(*WRONG)
    red = {
        mark.text for mark in view.marks if isinstance(mark, Note) and mark.pen == "number" and mark.layer != "title"
    }
    wrong = {one.name for one in answer.readings if one.differs}
    assert wrong == {setting.partition("=")[0] for setting in WRONG}
    assert len(red) == len(WRONG)
    assert any(text.startswith("fin height 4 ft 0.00 in (read 3 ft 5.9") for text in red)
    said = next(mark.text for mark in view.marks if isinstance(mark, Note) and "Red ticks" in mark.text)
    assert "5 of them in red words" in said


@pytest.mark.parametrize("under", [20.0, 48.0, 75.0])
def test_the_ticks_of_a_span_stand_as_far_apart_as_was_read(under):
    answer, view = view_of("tailplane.span=9 ft 6 in", under=under)
    read = next(one for one in answer.readings if one.name == "tailplane.span")
    upright = [mark.points for mark in ticks(view) if mark.points[0][0] == mark.points[1][0]]
    apart = [
        abs(one[0][0] - other[0][0])
        for one, other in combinations(upright, 2)
        if one[0][1] == other[0][1] and one[0][0] == pytest.approx(-other[0][0])
    ]
    assert any(each == pytest.approx(1e3 * read.read_m / under, abs=1e-6) for each in apart)


@pytest.mark.parametrize(
    ("view", "key", "axis", "way"),
    [("side", "item.pilot.station", "station_m", 1.0), ("front", "layout.strut_buttline", "buttline_m", -1.0)],
)
def test_a_place_has_its_tick_where_it_was_read(view, key, axis, way):
    """0.11 m farther aft, or farther out to the right, which is on the left of the front view; drawn 1 : 20."""
    answer, _ = view_of()
    place = next(one for one in answer.places if one.key == key)
    at_m = getattr(place, axis)
    read = replace(answer.readings[0], name=key, drawn_m=at_m, read_m=at_m + 0.11, read_less_drawn_m=0.11, shown=True)
    (tick,) = read_marks(replace(answer, readings=(read,)), view, 1.0 / 20.0)
    (x, low), (x2, high) = tick.points
    assert (x, x2) == pytest.approx([way * 1e3 * (at_m + 0.11) / 20.0] * 2)
    assert 0.5 * (low + high) == pytest.approx(1e3 * place.waterline_m / 20.0)
    assert high > low


def test_every_dimension_that_was_read_and_is_drawn_has_its_ticks():
    answer, view = view_of()
    shown = {one.name for one in answer.readings if one.shown}
    drawn = [one for one in answer.dimensions if one.key in shown]
    assert {one.key for one in drawn} == shown
    assert len(ticks(view)) == 2 * len(drawn)
    assert not [mark for mark in view.marks if isinstance(mark, Note) and "(read" in mark.text]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("under", [None, 20.0, 60.0])
def test_no_words_lie_over_other_words(units, under):
    answer = drawing(built(BIPLANE, *WRONG), readings=measured(DRAWING))
    drawn = Drawn(answer, units, Other("the triplane", drawing(built(TRIPLANE))))
    view = three_view(drawn, 1.0 / under) if under else three_view_on(drawn, room_on("a3"))
    notes = [mark for mark in view.marks if isinstance(mark, Note)]
    assert [
        (one.text, other.text)
        for one, other in combinations(notes, 2)
        if not corners_apart(one.corners(), other.corners())
    ] == []


def test_the_other_airplane_lies_under_the_first_from_the_same_datum():
    longer = drawing(built(BIPLANE, "wing.span=31 ft", "layout.leading_edge=47 in"))
    _, view = view_of(other=Other("longer", longer))
    document = ezdxf.read(io.StringIO(view_dxf(view)))
    chains = {
        layer: [line.get_points("xy") for line in document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')]
        for layer in ("WING", "OTHER AIRPLANE")
    }
    widths = {
        layer: max(max(x for x, _ in chain) - min(x for x, _ in chain) for chain in found)
        for layer, found in chains.items()
    }
    assert widths["WING"] == pytest.approx(1e3 * (28 * 0.3048 + 0.0254))
    assert widths["OTHER AIRPLANE"] == pytest.approx(1e3 * 31 * 0.3048)
    chord = 54 * 25.4  # of both, which tells the plan of a plane from its front view
    deep = {layer: [[y for _, y in chain] for chain in found] for layer, found in chains.items()}
    plans = [[ys for ys in found if max(ys) - min(ys) == pytest.approx(chord, rel=1e-3)] for found in deep.values()]
    aft = [min(min(ys) for ys in found) for found in plans]  # of the upper plane, the foremost
    assert aft[1] - aft[0] == pytest.approx(5.0 * 25.4, abs=1e-6)  # leading edge of 42 in against 47 in, in the plan
    assert any(isinstance(mark, Note) and mark.text.startswith("Blue: longer") for mark in view.marks)
