"""What a builder measures, and when: each gap by the places of the parts, each test while it can be done."""

import math
import re

import pytest
from shapely import Point, Polygon

from viz.drawings.flat_parts import cut_parts
from viz.drawings.gaps import blade_edge, inner_gaps, outer_gaps
from viz.drawings.tables import hole_table
from viz.drawings.use import faults
from viz.sheets.text import text_of


def told(table):
    return {row[0]: row[1:] for row in zip(*(column.cells for column in table.columns), strict=True)}


def said(pages, title):
    return " ".join(" ".join(page.text.split()) for page in pages if page.text.startswith(title))


def test_every_gap_is_listed_once_with_its_limit_and_keeps_it(exhibit):
    inner, outer = (told(each(exhibit, exhibit.assembly)) for each in (inner_gaps, outer_gaps))
    checked = {each.name for each in exhibit.checks if each.quantity in ("nip_gap_m", "blade_gap_m")}
    assert not set(inner) & set(outer)
    assert checked < {*inner, *outer}
    for value, bound, limit in (*inner.values(), *outer.values()):
        assert value.number < limit.number if bound == "at most" else value.number >= limit.number


def test_what_stands_nearest_before_the_blades_is_measured(exhibit):
    """Of every corner within the circle of the tips and in front of the blades, the nearest."""
    blades = exhibit.assembly.part("propeller")
    tip = max(math.hypot(*corner) for corner in blades.outline_m.tolist())
    others = [one for one in (*exhibit.assembly.parts, *exhibit.assembly.fasteners) if one.group != "propeller"]
    gaps = {
        one.name: slab.z_from_m - blades.z_to_m
        for one in others
        for slab in sorted(one.slabs, key=lambda each: -each.z_from_m)
        if slab.z_from_m >= blades.z_to_m
        and any(math.hypot(one.x_m + x - blades.x_m, one.y_m + y - blades.y_m) < tip for x, y in slab.outline_m)
    }
    nearest = min(gaps, key=gaps.get)
    value, bound, limit = told(inner_gaps(exhibit, exhibit.assembly))[f"blade to {nearest}"]
    assert value.number == pytest.approx(gaps[nearest], abs=1e-9)
    assert (bound, limit.number) == ("at least", 0.002)


def test_blades_are_flat_within_less_than_their_gap(exhibit, pages):
    flat = float(re.search(r"Flat within ([\d.]+) mm", said(pages, "Propeller, item"))[1])
    assert 1e3 * told(inner_gaps(exhibit, exhibit.assembly))["blade to brake screw"][0].number - flat >= 2.0


def test_what_a_closed_guard_keeps_away_is_tried_before(pages):
    before, after = (said(pages, f"To test {when}") for when in ("before the backboard is on", "on the finished"))
    for words in (
        "gap at the blade tips",
        "blade to",
        "to a magnet",
        "inclinometer",
        "nothing touches",
        "clutch slips",
    ):
        assert words in before
        assert words not in after
    assert "as fast as can be" in after
    assert "as fast as can be" not in before


def test_the_edge_on_which_the_inclinometer_lies_is_straight_and_slopes_as_told(exhibit):
    """From the told place on, at the told slope, every point is on the rim of the blade that points to the right."""
    words = blade_edge(exhibit.assembly, "si")
    near, far, slope = (float(re.match(r"[\d.]+", words[name])[0]) for name in ("near", "far", "slope"))
    assert far - near > 80.0
    rise = math.tan(math.radians(slope)) * {"rises": 1.0, "falls": -1.0}[words["way"]]
    shape = Polygon(1e3 * exhibit.assembly.part("propeller").outline_m)
    half = next(y for y in (each / 100.0 for each in range(500, 10000)) if not shape.covers(Point(near + 0.1, y)))
    for share in (0.1, 0.3, 0.5, 0.7, 0.9):
        x = near + share * (far - near)
        assert shape.exterior.distance(Point(x, half + rise * (x - near))) < 0.25


def test_no_width_of_the_slot_that_is_allowed_holds_the_post_or_lets_a_finger_in(exhibit):
    """A post 5 mm wide with 0.3 mm, the tolerance of its place, on either side; ISO 13857, table 5: 6 mm."""
    (cover,) = (one for one in cut_parts(exhibit) if one.part.name == "cover")
    (words,) = (text for each in hole_table(cover.flat, "si").notes if "Slot S1" in (text := text_of(each, "si")))
    least, most = map(float, re.search(r"\(H\d+: ([\d.]+) to ([\d.]+)\)", words).groups())
    post = exhibit.assembly.part("lever post")
    wide = min(1e3 * (slab.outline_m[:, 0].max() - slab.outline_m[:, 0].min()) for slab in post.slabs)
    assert least - wide >= 0.6 - 1e-6
    assert most <= 6.0


def test_a_countersink_of_a_lying_board_names_its_face(pages):
    """Front and rear are edges of its drawing."""
    for name, face in (("Footboard", "lower"), ("Top wall", "upper")):
        text = said(pages, f"{name}, item")
        assert f"mm in the {face} face" in text
        assert "mm in front" not in text
        assert "mm behind" not in text


def test_the_thread_of_the_post_ends_where_it_is_told(exhibit, pages):
    text = said(pages, "Parts to turn")
    long, wide = map(float, re.search(r"M5 on the last ([\d.]+) to the front end, ⌀([\d.]+) behind", text).groups())
    post, knob = (exhibit.assembly.part(name) for name in ("lever post", "knob"))
    assert long == pytest.approx(1e3 * (post.z_to_m - knob.z_from_m))
    assert wide == 5.0


def test_a_fault_has_one_cure_that_is_in_its_row():
    """A fault of the timer is told from one of the sensor by its wire, and sends no one to a page without a cure."""
    rows = told(faults())
    cause, cure = rows["lamp stays lit without the yellow wire on timer terminal 3"]
    assert "K1" in cause
    assert "a new K1" in cure
    assert not any("K1" in row[0] for seen, row in rows.items() if seen == "lamp always lit")
