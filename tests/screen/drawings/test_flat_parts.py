"""Cut paths give back the part; nested pieces neither meet nor leave their sheet; the STL is one closed body."""

import io
import math
from collections import Counter
from dataclasses import replace

import ezdxf
import numpy as np
import pytest
from shapely import Point, Polygon
from shapely.geometry import box

from sim.display.assembly.stock import stock
from sim.errors import InputError, NoAnswerError
from viz.drawings.drawing import Drawing
from viz.drawings.dxf import LAYERS
from viz.drawings.flat_parts import cut_parts, seen
from viz.drawings.folder import nests
from viz.drawings.kerf import compensated, offset
from viz.drawings.nesting import nested
from viz.drawings.raw_stock import layers_of
from viz.drawings.solid_stl import BAR_MM, HEADER, check_bar, part_stl, stl

FACET = np.dtype([("normal", "<3f4"), ("corners", "<9f4"), ("spare", "<u2")])
L_SHAPE = [(0.0, 0.0), (40.0, 0.0), (40.0, 10.0), (12.0, 10.0), (12.0, 30.0), (0.0, 30.0)]
SLOT = [(3.0, 3.0), (9.0, 3.0), (9.0, 7.0), (3.0, 7.0)]


@pytest.fixture
def bracket():
    return Drawing("bracket", L_SHAPE, [SLOT], [((20.0, 5.0), 4.0)], [], [], [], [])


def test_the_cut_of_the_beam_along_the_path_leaves_the_part(bracket):
    """What a round beam sweeps along the path takes away everything outside the part, and nothing of it."""
    path = compensated(bracket, kerf_mm=0.3)
    left = Polygon(path.outline).buffer(-0.15, quad_segs=64)
    assert left.symmetric_difference(Polygon(L_SHAPE)).area < 0.02
    opened = Polygon(path.openings[0]).buffer(0.15, quad_segs=64)
    assert opened.symmetric_difference(Polygon(SLOT)).area == pytest.approx((4.0 - math.pi) * 0.15**2, rel=0.02)
    assert path.circles == [((20.0, 5.0), pytest.approx(3.7))]


def test_fit_widens_holes_and_leaves_the_outline(bracket):
    path = compensated(bracket, kerf_mm=0.2, fit_mm=0.1)
    assert path.circles[0][1] == pytest.approx(3.9)
    wide = Polygon(path.openings[0]).bounds
    assert wide == pytest.approx((3.05, 3.05, 8.95, 6.95))
    assert Polygon(path.outline).bounds == pytest.approx((-0.1, -0.1, 40.1, 30.1))


def test_no_kerf_changes_nothing(bracket):
    assert compensated(bracket) is bracket


@pytest.mark.parametrize(("kerf", "refused"), [(4.0, True), (3.9999, False)])
def test_a_hole_no_wider_than_the_kerf_is_refused(bracket, kerf, refused):
    if not refused:
        bracket.openings.clear()
        assert compensated(bracket, kerf_mm=kerf).circles[0][1] == pytest.approx(0.0001, abs=1e-9)
        return
    with pytest.raises(InputError) as raised:
        compensated(bracket, kerf_mm=kerf)
    assert raised.value.faults[0].what == (
        "must leave a path inside every hole and opening of the bracket, got 4 mm (0.1575 in)"
    )


def test_an_opening_that_closes_is_empty():
    assert offset(SLOT, -2.1) == []


PIECES = [("l", L_SHAPE), ("bar", [(0.0, 0.0), (5.0, 0.0), (5.0, 90.0), (0.0, 90.0)]), ("slot", SLOT)] * 7


@pytest.mark.parametrize("stock", [(110.0, 110.0), (600.0, 45.0), (48.0, 1000.0)])
@pytest.mark.parametrize("gap", [0.5, 6.0])
def test_nested_pieces_keep_their_distance(stock, gap):
    if gap == 6.0 and stock[1] == 45.0:
        stock = (600.0, 52.0)
    laid = nested(PIECES, stock, gap_mm=gap)
    shapes = [(each.sheet, Polygon(each.place(chain))) for each, (_, chain) in zip(laid, PIECES, strict=True)]
    inside = box(gap - 1e-9, gap - 1e-9, stock[0] - gap + 1e-9, stock[1] - gap + 1e-9)
    for number, (sheet, shape) in enumerate(shapes):
        assert inside.contains(shape)
        for other, neighbour in shapes[:number]:
            assert other != sheet or shape.distance(neighbour) >= gap - 1e-9
    assert all(
        shape.area == pytest.approx(Polygon(chain).area) for (_, shape), (_, chain) in zip(shapes, PIECES, strict=True)
    )


def test_a_part_larger_than_the_stock_is_refused():
    with pytest.raises(InputError) as raised:
        nested(PIECES, (60.0, 60.0), gap_mm=5.0)
    assert raised.value.faults[0].what == (
        "must hold every part, got 60 mm (2.362 in) by 60 mm (2.362 in); "
        "the bar needs 15 mm (0.5906 in) by 100 mm (3.937 in)"
    )


def read(data):
    count = int(np.frombuffer(data, "<u4", 1, 80)[0])
    assert len(data) == 84 + 50 * count
    return np.frombuffer(data, FACET, count, 84)["corners"].reshape(-1, 3, 3).astype(float)


def volume(facets):
    return float(np.sum(np.einsum("fi,fi->f", facets[:, 0], np.cross(facets[:, 1], facets[:, 2]))) / 6.0)


def closed(facets):
    edges = Counter()
    for corners in facets.round(3).tolist():
        for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
            edges[(tuple(start), tuple(end))] += 1
    return set(edges.values()) == {1} and all((end, start) in edges for start, end in edges)


def test_a_stepped_body_is_closed_and_as_large_as_its_prisms():
    """A flange with a hole under a narrower boss with the same hole."""
    ring = Polygon(box(2.0, 2.0, 6.0, 6.0))
    flange, boss = box(0.0, 0.0, 20.0, 10.0).difference(ring), box(1.0, 1.0, 8.0, 8.0).difference(ring)
    facets = read(stl([(flange, 0.0, 3.0), (boss, 3.0, 11.0)]))
    assert closed(facets)
    assert volume(facets) == pytest.approx((200.0 - 16.0) * 3.0 + (49.0 - 16.0) * 8.0, rel=1e-6)


def test_the_bar_is_as_long_as_it_says_and_every_file_bears_the_caution():
    data = check_bar()
    assert read(data).reshape(-1, 3).max(axis=0) == pytest.approx(BAR_MM)
    assert data[:80].decode("ascii").rstrip() == HEADER
    assert len(HEADER) <= 80
    assert not data.startswith(b"solid")


def test_printed_parts_are_closed_with_the_volume_of_their_prisms(exhibit):
    printed = [part for part in exhibit.assembly.parts if part.process == "printed"]
    assert printed
    for part in printed:
        facets = read(part_stl(part))
        parts = [(Polygon(s.outline_m, s.openings_m).area, s.z_to_m - s.z_from_m) for s in part.slabs]
        assert volume(facets) == pytest.approx(1e9 * sum(area * high for area, high in parts), rel=1e-4), part.name
        assert closed(facets), part.name


def test_every_flat_part_is_there_once_with_its_number(exhibit):
    cuts = cut_parts(exhibit)
    flats = [part for part in exhibit.assembly.parts if part.outline_m is not None]
    assert sum(cut.quantity for cut in cuts) == len(flats)
    assert len({cut.file for cut in cuts}) == len(cuts)
    walls = [cut for cut in cuts if cut.part.name == "side wall"]
    assert [cut.quantity for cut in walls] == [2]
    wall = walls[0].drawing.box
    slab = walls[0].part.slabs[0]
    assert (wall[2], walls[0].thickness_mm) == pytest.approx(
        (1e3 * np.ptp(slab.outline_m[:, 1]), 1e3 * np.ptp(slab.outline_m[:, 0]))
    )


def test_what_is_cut_weighs_what_the_part_fills(exhibit):
    """Area of the flat shape times its thickness is the volume of the part, once its threads are tapped."""
    tapped = {f"tapped {each.name}": 1e3 * each.diameter_m for each in stock("metric").threads.values()}
    for cut in cut_parts(exhibit):
        shape = Polygon(cut.drawing.outline)
        for rim in cut.drawing.openings:
            shape -= Polygon(rim)
        for hole, (centre, wide) in zip(cut.flat.holes, cut.drawing.circles, strict=True):
            shape -= Point(centre).buffer(tapped.get(hole.fit, wide) / 2.0, quad_segs=64)
        fills = sum(Polygon(s.outline_m, s.openings_m).buffer(0).area * (s.z_to_m - s.z_from_m) for s in cut.part.slabs)
        upright = sum(math.pi * h.diameter_m**2 / 4.0 for h in cut.part.upright_holes) * cut.thickness_mm * 1e6
        assert shape.area * cut.thickness_mm == pytest.approx(1e9 * fills - upright, rel=2e-3), cut.file


def test_boards_that_lie_say_which_face_and_which_edges_are_drawn(exhibit):
    """The screw's head, placed in the assembly, is on the face that the drawing shows, or behind where it says so."""
    cuts = {cut.part.name: cut for cut in cut_parts(exhibit)}
    told = {name: seen(cut.part) for name, cut in cuts.items()}
    assert told["footboard"].startswith("Drawn from below: upper edge in front")
    assert told["top wall"] == told["footboard"]
    assert told["side wall"].startswith("Drawn from the visitor's right: upper edge in front")
    assert told["mast"] == told["front panel"] == told["backboard"] == "Drawn from the front, as visitors see it."
    for name, head_below in (("footboard", True), ("top wall", False)):
        part, drawing = cuts[name].part, cuts[name].drawing
        low = part.slabs[0].outline_m.min(axis=0)
        for hole, (centre, _) in zip(part.upright_holes, drawing.circles, strict=True):
            assert centre == pytest.approx((1e3 * (hole.x_m - low[0]), 1e3 * (hole.y_m - part.z_from_m)))
            assert hole.sunk_behind != head_below, name
        screws = [one for one in exhibit.assembly.fasteners if one.upright and one.joins[0] == name]
        face = part.slabs[0].outline_m[:, 1]
        assert screws
        assert {one.y_m for one in screws} == {face.min() if head_below else face.max()}


def test_a_hole_that_runs_out_of_its_part_is_refused(exhibit):
    parts = list(exhibit.parts)
    number = next(place for place, part in enumerate(parts) if part.name == "cam")
    cam = parts[number]
    reach = float(np.max(np.hypot(*cam.outline_m.T)))
    parts[number] = replace(cam, holes=(*cam.holes, replace(cam.holes[-1], x_m=reach)))
    with pytest.raises(NoAnswerError) as raised:
        cut_parts(replace(exhibit, parts=tuple(parts)))
    assert str(raised.value) == (
        "nothing is written to cut from while a hole of the cam (shaft) runs out of its edge; "
        "a thinner shaft, a smaller roller or a larger base circle leaves room for it"
    )


def test_nested_stock_is_read_back_whole_at_true_size(exhibit):
    """Another program reads outlines that keep their distance, lie on the stock and add up to the parts."""
    cuts = cut_parts(exhibit)
    area = 0.0
    for name, data in nests(cuts, (1.0, 0.9)).items():
        document = ezdxf.read(io.StringIO(data.decode()))
        assert document.units == ezdxf.units.MM
        assert not document.audit().errors
        assert all("Inert display" in layer.description for layer in document.layers if layer.dxf.name in LAYERS)
        space = document.modelspace()
        (stock,) = space.query('LWPOLYLINE[layer=="STOCK"]')
        shapes = [Polygon(rim.get_points("xy")) for rim in space.query('LWPOLYLINE[layer=="OUTLINE"]')]
        sheet = Polygon(stock.get_points("xy"))
        assert box(0.0, 0.0, 1000.0, 900.0).covers(sheet)
        named = [each.dxf.text for each in space.query("TEXT")]
        assert all(any(one.part.name == word for one in cuts) for word in named[1:])
        assert len(named) == 1 + len(shapes)
        for number, shape in enumerate(shapes):
            assert sheet.contains(shape), name
            assert all(shape.distance(other) > 5.9 for other in shapes[:number]), name
        area += sum(shape.area for shape in shapes)
    layers = [(one, len(layers_of(one, exhibit.display.hardware))) for one in cuts]
    assert area == pytest.approx(sum(n * one.quantity * Polygon(one.drawing.outline).area for one, n in layers))
