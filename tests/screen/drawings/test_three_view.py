"""A three-view as other programs read it back: at true scale, on its layers, no words over other words."""

import io
import math
import re
import xml.etree.ElementTree as ET
from functools import cache
from itertools import combinations, pairwise

import ezdxf
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from paper import extent, read
from shared import built

from sim.scenario.bundled import names
from sim.studies.drawing import drawing
from viz.drawings.dxf import view_dxf
from viz.drawings.marks import Note, Stroke, box_of
from viz.drawings.on_paper import length_text
from viz.drawings.papers import PAPERS
from viz.drawings.placing import spread
from viz.drawings.svg import view_file_svg
from viz.drawings.three_view import Drawn, three_view, three_view_on
from viz.drawings.tiles import OVERLAP_MM, REGISTER_MM, room_on, tiling, view_pdf
from viz.drawings.view import read_ratio

TRUE_MM = 0.05
AIRPLANES = [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER, "tollgate"]
airplanes = pytest.mark.parametrize("airplane", AIRPLANES, ids=str)
SVG = "{http://www.w3.org/2000/svg}"


@cache
def made(airplane, powerplant=None):
    return drawing(built(airplane), powerplant=powerplant)


@cache
def on_paper(airplane, units="us", paper="a3", under=None, powerplant=None):
    answer = made(airplane, powerplant)
    drawn = Drawn(answer, units)
    return three_view(drawn, 1.0 / under) if under else three_view_on(drawn, room_on(paper))


def corners_apart(one, other):
    """Return whether two boxes, each at its own angle, have a line between them: along a side of either."""
    for box in (one, other):
        for (x0, y0), (x1, y1) in zip(box, [*box[1:], box[0]], strict=True):
            sides = [[(x - x0) * (y1 - y0) - (y - y0) * (x1 - x0) for x, y in each] for each in (one, other)]
            if max(sides[0]) <= min(sides[1]) or max(sides[1]) <= min(sides[0]):
                return True
    return False


@airplanes
@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("under", [None, 20, 45, 72])
def test_no_words_lie_over_other_words(airplane, units, under):
    notes = [mark for mark in on_paper(airplane, units, under=under).marks if isinstance(mark, Note)]
    assert len(notes) > 40
    over = [
        (one.text, other.text)
        for one, other in combinations(notes, 2)
        if not corners_apart(one.corners(), other.corners())
    ]
    assert over == []


@pytest.mark.parametrize("paper", ["a3", "a4", "letter"])
@pytest.mark.parametrize("name", sorted(names()))
def test_every_bundled_airplane_fits_its_paper_with_no_words_over_others(name, paper):
    view = on_paper(name, paper=paper)
    assert all(side <= room for side, room in zip(view.size, room_on(paper), strict=True))
    notes = [mark for mark in view.marks if isinstance(mark, Note)]
    assert all(corners_apart(one.corners(), other.corners()) for one, other in combinations(notes, 2))


def test_on_small_paper_letters_are_smaller_and_the_scale_is_true():
    large, small = on_paper(TRIPLANE, "si", "a3"), on_paper(TRIPLANE, "si", "a4")
    assert small.scale < large.scale
    heights = [{round(mark.letter_mm, 3) for mark in view.marks if isinstance(mark, Note)} for view in (large, small)]
    assert sorted(heights[1]) == pytest.approx([0.75 * high for high in sorted(heights[0])], abs=1e-3)
    (page,) = read(view_pdf(small, "a4"))
    widths = [extent(path)[0] for path in page.paths]
    assert any(abs(width - 1e3 * built(TRIPLANE).wing.span_m * small.scale) < TRUE_MM for width in widths)
    assert any(abs(width - 100.0) < TRUE_MM for width in widths)
    assert f"scale 1 : {round(1.0 / small.scale)}" in page.text


def test_words_over_each_other_would_be_seen():
    one, other = Note("span", (0.0, 0.0), "thin"), Note("chord", (2.0, 1.0), "thin", turned_deg=40.0)
    assert not corners_apart(one.corners(), other.corners())
    assert corners_apart(one.corners(), Note("chord", (9.0, 6.0), "thin", turned_deg=40.0).corners())


@airplanes
@pytest.mark.parametrize("units", ["us", "si"])
def test_every_dimension_and_every_place_is_written_once(airplane, units):
    words = [mark.text for mark in on_paper(airplane, units).marks if isinstance(mark, Note)]
    for one in made(airplane).dimensions:
        assert words.count(f"{one.name} {length_text(one.drawn_m, units)}") == 1
    mm = {"in": 25.4, "mm": 1.0}
    for name in {one.name for one in made(airplane).places}:
        own = [one for one in made(airplane).places if one.name == name]
        found = [re.fullmatch(rf"{re.escape(name)} (-?[\d.]+) (in|mm)", text) for text in words]
        numbers = sorted(float(match[1]) * mm[match[2]] for match in found if match)
        exact = sorted(1e3 * (one.station_m if one.view == "side" else one.buttline_m) for one in own)
        assert numbers == pytest.approx(exact, abs=0.005001 * mm["in"] if units == "us" else 0.050001)


@airplanes
def test_it_fits_its_paper_at_a_usual_scale(airplane):
    view = on_paper(airplane)
    assert round(1.0 / view.scale) in {48, 50, 60, 64, 72, 75, 80}
    assert all(side <= room for side, room in zip(view.size, room_on("a3"), strict=True))


def wing_extents(chains):
    """Return width and height of the largest closed wing outline: the plan of the plane with the largest span."""
    return max((extent(chain) for chain in chains), key=lambda size: size[0] * size[1])


@airplanes
@pytest.mark.parametrize("under", [20, 48])
def test_the_svg_is_at_true_scale(airplane, under):
    root = ET.fromstring(view_file_svg(on_paper(airplane, under=under)))
    wide, high = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
    assert [float(n) for n in root.get("viewBox").split()] == pytest.approx([0.0, 0.0, wide, high])  # a unit is 1 mm
    layers = {group.get("id"): group for group in root.findall(f"{SVG}g")}
    assert {"wing", "spars", "struts", "wires", "fuselage", "tail", "dimensions", "stations", "title"} <= set(layers)
    chains = [
        [tuple(map(float, pair.split())) for pair in path.get("d").strip("MZ ").split(" L")]
        for path in layers["wing"].iter(f"{SVG}path")
    ]
    span_m = max(plane.span_m for plane in built(airplane).wing.planes)
    assert wing_extents(chains)[0] == pytest.approx(1e3 * span_m / under, abs=1e-3)
    assert all(0.0 <= x <= wide and 0.0 <= y <= high for chain in chains for x, y in chain)


@airplanes
@pytest.mark.parametrize("under", [20, 60])
def test_the_dxf_is_sound_and_at_full_size_whatever_the_scale(airplane, under):
    document = ezdxf.read(io.StringIO(view_dxf(on_paper(airplane, under=under))))
    audit = document.audit()
    assert (document.dxfversion, document.units) == ("AC1024", ezdxf.units.MM)
    assert not audit.errors
    assert not audit.fixes
    space = document.modelspace()
    layers = {entity.dxf.layer for entity in space}
    assert layers <= {layer.dxf.name for layer in document.layers}
    assert {"WING", "SPARS", "STRUTS", "WIRES", "FUSELAGE", "TAIL", "DIMENSIONS", "STATIONS", "TITLE"} <= layers
    chains = [line.get_points("xy") for line in space.query('LWPOLYLINE[layer=="WING"]')]
    model = built(airplane)
    assert wing_extents(chains)[0] == pytest.approx(1e3 * model.wing.span_m, rel=1e-9)
    discs = [2.0 * ring.dxf.radius for ring in space.query('CIRCLE[layer=="PROPELLER"]')]
    assert discs == [pytest.approx(1e3 * model.powerplants[made(airplane).powerplant].propeller.diameter_m)]
    letters = {round(text.dxf.height / under, 6) for text in space.query('TEXT[layer=="DIMENSIONS"]')}
    assert letters == {1.9}  # millimetres once plotted at the scale
    said = {text.dxf.text for text in space.query('TEXT[layer=="DIMENSIONS"]')}
    assert len(said) == len(made(airplane).dimensions)


@airplanes
@pytest.mark.parametrize("paper", ["a3", "tabloid"])
def test_the_pdf_on_one_sheet_is_at_true_scale(airplane, paper):
    view = on_paper(airplane, "si", paper)
    (page,) = read(view_pdf(view, paper))
    assert sorted(page.size) == pytest.approx(sorted(PAPERS[paper]), abs=0.01)
    span_m = max(plane.span_m for plane in built(airplane).wing.planes)
    widths = [extent(path)[0] for path in page.paths]
    assert any(abs(width - 1e3 * span_m * view.scale) < TRUE_MM for width in widths)
    assert any(abs(width - 100.0) < TRUE_MM for width in widths)  # the line to check the scale by
    for path in page.paths:
        assert all(0.0 <= x <= page.size[0] and 0.0 <= y <= page.size[1] for x, y in path)
    for one in made(airplane).dimensions:
        assert length_text(one.drawn_m, "si") in " ".join(word.text for word in page.words)


@pytest.fixture(scope="module")
def tiles():
    """Return a biplane at 1:20 on sheets of A4, with the view and its tiling."""
    view = on_paper(BIPLANE, under=20)
    return read(view_pdf(view, "a4")), view, tiling(view.size, "a4")


def numbered(page):
    """Return row and column that a sheet says it is."""
    row, column = re.search(r"Row (\d+) of \d+, column (\d+) of \d+", page.text).groups()
    return int(row) - 1, int(column) - 1


def test_a_drawing_larger_than_its_paper_is_tiled(tiles):
    pages, view, divided = tiles
    assert 4 < len(pages) <= divided.rows * divided.columns
    for page in pages:
        assert sorted(page.size) == pytest.approx((210.0, 297.0), abs=0.01)
        assert "scale 1 : 20. Join the sheets at the crosses in circles." in page.text
        assert any(abs(extent(path)[0] - 100.0) < TRUE_MM for path in page.paths)
    covered = [
        count * step + OVERLAP_MM for count, step in zip((divided.columns, divided.rows), divided.step_mm, strict=True)
    ]
    assert all(side <= most for side, most in zip(view.size, covered, strict=True))


def test_the_sheets_are_joined_at_the_register_marks(tiles):
    """Crosses of both sheets of a seam are the same cross: moved by the step, one sheet's lie on the other's."""
    pages, _, divided = tiles
    step_x, step_y = divided.step_mm
    crosses = {}
    for page in pages:
        arms = [path for path in page.paths if extent(path) == pytest.approx((2.0 * REGISTER_MM, 0.0), abs=1e-3)]
        row, column = numbered(page)
        middles = [(sum(x for x, _ in arm) / 2.0, sum(y for _, y in arm) / 2.0) for arm in arms]
        crosses[row, column] = [(x + column * step_x, y + row * step_y) for x, y in middles]
    joined = 0
    for (row, column), here in crosses.items():
        for beside in ((row, column + 1), (row + 1, column)):
            there = crosses.get(beside, [])
            shared = [one for one in here if any(math.dist(one, other) < 0.02 for other in there)]
            joined += len(shared) >= 2
    assert joined >= len(pages) - 1


def test_a_line_over_several_sheets_has_its_length_when_they_are_joined(tiles):
    """The wing's span line is cut at the edges of sheets; put together, it is the span at the scale."""
    pages, _, divided = tiles
    step_x = divided.step_mm[0]
    span_mm = 1e3 * built(BIPLANE).wing.span_m / 20.0
    ends = set()
    for page in pages:
        _, column = numbered(page)
        for path in page.paths:
            across = [x + column * step_x for x, _ in path]
            if abs(max(across) - min(across) - span_mm) < TRUE_MM:
                ends.add((round(min(across), 1), round(max(across), 1)))
    assert len(ends) == 1  # every sheet that shows it has it at one place of the whole


@pytest.mark.parametrize(
    ("text", "scale"),
    [("1:20", 0.05), ("1 : 48", 1.0 / 48.0), ("1/10", 0.1), ("12.5", 0.08), ("1:1", 1.0)],
)
def test_a_scale_is_read(text, scale):
    assert read_ratio(text) == pytest.approx(scale)


@pytest.mark.parametrize("text", ["20:1", "1:0", "0.5", "1:501", "twenty", "", "1:-3", "1:20:3"])
def test_what_is_no_scale_is_not(text):
    assert read_ratio(text) is None


def test_places_are_spread_no_farther_than_they_must():
    wanted = [0.0, 0.4, 1.1, 20.0, 20.5, 50.0]
    found = spread(wanted, 3.0)
    assert all(b - a >= 3.0 - 1e-12 for a, b in pairwise(found))
    assert found[-1] == 50.0
    assert sum(found[:3]) == pytest.approx(sum(wanted[:3]))  # a cluster stays about its middle
    nearer = [at + 0.05 * (want - at) for at, want in zip(found, wanted, strict=True)]
    assert any(b - a < 3.0 - 1e-9 for a, b in pairwise(nearer))


def test_the_views_do_not_lie_over_each_other():
    view = on_paper(TRIPLANE)
    titles = [mark for mark in view.marks if mark.layer == "title"]
    rest = [mark for mark in view.marks if mark.layer != "title"]
    left, bottom, right, top = box_of(titles)
    inside = [
        point
        for mark in rest
        if isinstance(mark, Stroke)
        for point in mark.points
        if left < point[0] < right and bottom < point[1] < top
    ]
    assert inside == []
