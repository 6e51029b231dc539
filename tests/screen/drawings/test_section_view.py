"""The section A-A: every item that it cuts has its number, and each shaft the distances of its stack."""

import pytest
from displays import VARIANTS, built
from ringed import balloons, entangled
from shapely import LineString, Polygon
from shapely.affinity import rotate, translate

from viz.drawings.items import key, numbers
from viz.drawings.marks import Note, Stroke, box_of, overlap
from viz.drawings.section_view import section_view

ROOM = 262.0, 345.0
KINDS = ["default", *(pytest.param(name, marks=pytest.mark.slow) for name in VARIANTS if name != "default")]
STACKS = {
    "propeller": ("propeller clamp", "propeller", "propeller hub", "rear plate", "mast", "base", "cam hub", "cam"),
    "crank": ("brake disc", "crank pulley", "rear plate", "mast", "base", "bearing cap"),
}
"""Parts that no display lacks, along each shaft."""


def cut_heights(each):
    """Return the ends, up, of what the plane x = 0 cuts of a part. [m]"""
    found = []
    for slab in each.slabs:
        shape = Polygon(slab.outline_m, slab.openings_m).buffer(0.0)
        turned = rotate(shape, getattr(each, "placed_rad", 0.0), origin=(0.0, 0.0), use_radians=True)
        met = translate(turned, each.x_m, each.y_m).intersection(LineString([(0.0, -9.0), (0.0, 9.0)]))
        found += [met.bounds[1], met.bounds[3]] if met.length > 1e-6 else []
    return found


@pytest.mark.parametrize("name", KINDS)
def test_every_item_that_is_cut_has_its_number_and_no_leader_crosses_another(name):
    assembly = built(name)
    view = section_view(assembly, ROOM)
    assert view.size[0] <= ROOM[0]
    assert view.size[1] <= ROOM[1]
    assert not entangled(view)
    found = [number for number, _, _ in balloons(view)]
    assert len(found) == len(set(found))
    base = assembly.part("base").outline_m[:, 1]
    heights = {key(each): cut_heights(each) for each in assembly.pieces if cut_heights(each)}
    every = {numbers(assembly)[kind]: ends for kind, ends in heights.items()}
    assert set(found) <= set(every)
    beside = {number for number, ends in every.items() if max(ends) > base.min() and min(ends) < base.max()}
    assert beside <= set(found)


@pytest.mark.parametrize("name", KINDS)
def test_the_stack_on_each_shaft_is_said_face_by_face(name):
    """Distances from the front of the base, to a hundredth of a millimetre or a thousandth of an inch."""
    assembly = built(name)
    marks = section_view(assembly, ROOM).marks
    unit, decimals = (0.0254, 3) if assembly.hardware == "inch" else (1e-3, 2)
    said = [mark for mark in marks if isinstance(mark, Note) and mark.turned_deg == 90.0]
    for shaft, names in STACKS.items():
        texts = [mark.text for mark in said if mark.anchor == ("start" if shaft == "propeller" else "end")]
        shown = {float(text) for text in texts}
        assert "0" in texts
        for name_of in names:
            part = assembly.part(name_of)
            for end in (part.z_from_m, part.z_to_m):
                assert any(abs(each - end / unit) < 0.6 * 10.0**-decimals for each in shown), (name_of, end / unit)
    boxes = [box_of([mark]) for mark in said]
    assert not any(overlap(one, other) for number, one in enumerate(boxes) for other in boxes[:number])


@pytest.mark.parametrize("name", KINDS)
def test_what_is_broken_off_ends_in_a_zigzag(name):
    """Each part that reaches beyond the heights between which the section is drawn, and no straight edge there."""
    view = section_view(built(name), ROOM)
    marks = view.marks
    breaks = [mark for mark in marks if isinstance(mark, Stroke) and mark.pen == "thin" and len(mark.points) == 6]
    levels = {round(mark.points[0][1], 3) for mark in breaks}
    assert len(levels) == 2
    ends = [cut_heights(each) for each in built(name).parts if cut_heights(each)]
    for mark in breaks:
        (left, level), *zigzag, (right, end) = mark.points
        assert end == pytest.approx(level)
        (x, y), (high_x, high), (low_x, low), (x2, y2) = zigzag
        assert (y, y2, high + low) == pytest.approx((level, level, 2.0 * level))
        assert left < x < high_x < low_x < x2 < right
        assert high > level
        assert [left + right, x + x2, high_x + low_x] == pytest.approx([2.0 * x + (x2 - x)] * 3)
        assert x2 - x == pytest.approx(high - level)  # as wide as half as high
    places = [level / view.scale / 1e3 for level in levels]
    assert len(breaks) == sum(min(each) < place < max(each) for each in ends for place in places)
    for mark in marks:
        if isinstance(mark, Stroke) and mark.pen == "cut":
            assert not any(
                round(y, 3) in levels and round(y2, 3) == round(y, 3) and abs(x2 - x) > 0.5
                for (x, y), (x2, y2) in zip(mark.points, mark.points[1:], strict=False)
            )
