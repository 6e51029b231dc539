"""The wiring box holds all that is wired in it, with gaps: boxes in space, and the runs of its wires between them."""

import re
from itertools import combinations

import pytest
from displays import VARIANTS, put_together
from shapely import LineString, Point, box

from sim.display.assembly.wiring_box import (
    BOX_M,
    BOX_WALL_M,
    GLAND_M,
    GLAND_NUT_M,
    GLANDS,
    GLANDS_APART_M,
    RAIL_M,
    RAIL_SHEET_M,
    TIMER_M,
    on_rail,
)
from viz.drawings import timer
from viz.drawings.box_view import BEFORE, RUNS
from viz.drawings.wire_runs import CLIPS, clips, lamp_run, sensor_run

KINDS = ["default", *(pytest.param(name, marks=pytest.mark.slow) for name in VARIANTS if name != "default")]
WIRE_MM = 4.0
"""Three wires of 0.5 mm² side by side, 2.1 mm each, lie in two rows."""
INSIDE = box(*(1e3 * (side * (size / 2.0 - BOX_WALL_M)) for side in (-1.0, 1.0) for size in BOX_M[:2]))
DEEP_MM = 1e3 * (BOX_M[2] - 2.0 * BOX_WALL_M)


def standing():
    """Return name, area seen from behind, and depth from the rear wall, of what stands on the rail. [mm]"""
    found = []
    for each in on_rail():
        wide, high, deep = (1e3 * size for size in each.size_m)
        left = 1e3 * each.left_m
        found.append((each.name, box(left, -high / 2.0, left + wide, high / 2.0), deep + 1e3 * RAIL_M[2]))
    return found


def glands():
    """Return the areas of nuts and ends of the glands inside the lower wall, half as wide again as their holes. [mm]"""
    low, half = INSIDE.bounds[1], 0.75e3 * GLAND_M
    middles = (1e3 * GLANDS_APART_M * (each - (GLANDS - 1) / 2.0) for each in range(GLANDS))
    return [box(x - half, low, x + half, low + 1e3 * GLAND_NUT_M) for x in middles]


def screws(name):
    """Return the discs of washer and nut of the two screws, from behind, and how far they stand into the box. [mm]"""
    _, _, assembly = put_together(name)
    whole, found = assembly.part("wiring box"), []
    for each in assembly.fasteners:
        if each.name == "wiring box screw":
            inner = [slab for slab in each.slabs if slab.z_to_m <= whole.z_to_m - BOX_WALL_M + 1e-9]
            radius = max(float((slab.outline_m**2).sum(axis=1).max()) ** 0.5 for slab in inner)
            far = 1e3 * (whole.z_to_m - BOX_WALL_M - each.z_from_m)
            found.append((Point(-1e3 * (each.x_m - whole.x_m), 1e3 * (each.y_m - whole.y_m)).buffer(1e3 * radius), far))
    return found


def test_a_usual_relay_stands_on_the_rail_and_the_lid_goes_on():
    """About 90 mm high, 72 wide and 60 deep in front of the rail; wires bend before it."""
    said = timer.timer("12 V dc", 0.1)
    sizes = [float(re.search(rf"([\d.]+) mm \([\d.]+ in\) {word}", said)[1]) for word in ("wide", "high", "deep")]
    assert sizes == pytest.approx([1e3 * size for size in TIMER_M])
    assert sizes[0] >= 72.0
    assert sizes[1] >= 90.0
    assert sizes[2] >= 60.0
    assert DEEP_MM - max(deep for *_, deep in standing()) >= 15.0


@pytest.mark.parametrize("name", KINDS)
def test_all_fits_into_the_box_with_gaps(name):
    """Ten millimetres to every wall and gland; screws with washers and nuts stand free beside what the rail bears."""
    areas = [area for _, area, _ in standing()]
    for area in areas:
        assert INSIDE.contains(area)
        assert INSIDE.exterior.distance(area) >= 10.0
        assert min(area.distance(gland) for gland in glands()) >= 10.0
    assert all(one.intersection(other).area < 1e-6 for one, other in combinations(areas, 2))
    found = screws(name)
    assert len(found) == 2
    for disc, far in found:
        assert INSIDE.exterior.distance(disc) >= 5.0
        assert min(area.distance(disc) for area in areas) >= 3.0
        assert 2e3 * RAIL_SHEET_M < far < DEEP_MM / 2.0


@pytest.mark.parametrize("name", KINDS)
def test_the_rail_lies_in_the_box_and_bears_all_between_its_screws(name):
    _, _, assembly = put_together(name)
    rail, whole = assembly.part("mounting rail"), assembly.part("wiring box")
    assert rail.z_to_m == pytest.approx(whole.z_to_m - BOX_WALL_M)
    assert (rail.x_m, rail.y_m) == (whole.x_m, whole.y_m)
    long = 1e3 * RAIL_M[0] / 2.0
    assert long <= INSIDE.bounds[2] - 3.0
    assert all(-long < area.bounds[0] and area.bounds[2] < long for _, area, _ in standing())
    (low, *_), (high, *_) = sorted((disc.centroid.x, disc) for disc, _ in screws(name))
    assert low < min(area.bounds[0] for _, area, _ in standing())
    assert high > max(area.bounds[2] for _, area, _ in standing())


def test_wires_run_clear_of_all_but_what_they_lead_to():
    """A run ends at the edge of what it leads to; before the terminals alone it crosses, where the lid leaves room."""
    solid = {name: area for name, area, _ in standing() if name != BEFORE}
    nuts = [disc for disc, _ in screws("default")]
    deep = next(deep for name, _, deep in standing() if name == BEFORE)
    assert DEEP_MM - deep >= 15.0
    for told, points in RUNS.items():
        run = LineString(points)
        assert INSIDE.contains(run.buffer(WIRE_MM / 2.0)), told
        for name, area in solid.items():
            assert run.intersection(area).length < 1e-6, (told, name)
            assert name.split()[-1] in told or run.distance(area) >= WIRE_MM / 2.0, (told, name)
        assert min(run.distance(disc) for disc in nuts) >= WIRE_MM, told
    ends = {"timer K1": 3, "fuse F1": 2}
    for name, count in ends.items():
        assert sum(LineString(points).distance(solid[name]) < 1e-6 for points in RUNS.values()) >= count, name


def test_the_fuse_is_within_100_mm_of_where_the_supply_enters():
    assert LineString(RUNS["supply to fuse F1"]).length + 1e3 * (GLAND_NUT_M + BOX_WALL_M) < 100.0


@pytest.mark.parametrize("name", KINDS)
def test_duct_and_clips_stand_on_their_boards(name):
    """The duct on the backboard, beside the box and above the footboard; the clips on the panel beside the mast."""
    _, _, assembly = put_together(name)

    def area(part):
        return box(
            *(1e3 * each for each in (*part.slabs[0].outline_m.min(axis=0), *part.slabs[0].outline_m.max(axis=0)))
        )

    board, panel, mast, foot, case = (
        area(assembly.part(each)) for each in ("backboard", "front panel", "mast", "footboard", "wiring box")
    )
    whole = assembly.part("wiring box")
    case = box(*(edge + 1e3 * place for edge, place in zip(case.bounds, 2 * (whole.x_m, whole.y_m), strict=True)))
    duct = LineString(lamp_run(assembly)).buffer(7.5, cap_style="flat")
    assert board.contains(duct)
    assert duct.distance(case) > 5.0
    assert duct.distance(foot) > 5.0
    spots = clips(assembly)
    assert len(spots) == CLIPS
    for spot in spots:
        assert panel.contains(Point(spot))
        assert mast.distance(Point(spot)) > 5.0
        assert LineString(sensor_run(assembly)).distance(Point(spot)) < 1e-6
