"""What a builder found could not be done: each is held here by the sizes of the parts, on every kind of display."""

import math

import numpy as np
import pytest
from displays import VARIANTS, put_together
from shapely import Point, Polygon, affinity

from sim.display.assembly.centre import WIRES
from sim.display.assembly.follower import tip
from sim.display.assembly.hand import GRIP_NUT_M
from sim.display.assembly.interference import shape_of
from sim.display.assembly.screws import WOOD


@pytest.fixture(params=VARIANTS)
def built(request):
    return put_together(request.param)


def placed(part, hole):
    cosine, sine = math.cos(part.placed_rad), math.sin(part.placed_rad)
    return part.x_m + cosine * hole.x_m - sine * hole.y_m, part.y_m + sine * hole.x_m + cosine * hole.y_m


def test_no_wood_screw_comes_out_of_the_wood(built):
    _, _, assembly = built
    for screw in assembly.fasteners:
        if screw.thread == WOOD and not screw.upright:
            into = [part for part in assembly.parts if part.name in screw.joins]
            shank = screw.slabs[1]
            assert shank.z_from_m >= min(part.z_from_m for part in into) - 1e-9 or not screw.front, screw.name
            assert shank.z_to_m <= max(part.z_to_m for part in into) + 1e-9 or screw.front, screw.name


def test_a_clear_panel_is_neither_wedged_nor_split_by_its_screws(built):
    """No countersink; from the edge to the rim of a hole its own diameter, to which a large washer closes it."""
    _, plan, assembly = built
    medium = plan.stock.threads["medium"]
    for name in ("front panel", "cover"):
        panel = assembly.part(name)
        rim = Polygon(panel.outline_m).exterior
        for hole in panel.holes:
            assert not hole.sunk_m
            assert rim.distance(Point(hole.x_m, hole.y_m)) >= 1.5 * hole.diameter_m - 1e-9, (name, hole.use)
    held = [hole for hole in assembly.part("front panel").holes if hole.use == "screw to a wall"]
    assert len(held) == sum(screw.name == "panel screw" for screw in assembly.fasteners)
    assert all(hole.diameter_m == pytest.approx(1.5 * medium.diameter_m) for hole in held)
    for screw in assembly.fasteners:
        if screw.name == "panel screw":
            assert screw.washers == (medium.large.name,)
            assert not screw.slabs[0].z_from_m < panel_front(assembly)
    assert medium.large.outer_m - held[0].diameter_m > 0.002


def panel_front(assembly):
    return assembly.part("front panel").z_to_m


def test_holes_in_boards_ask_for_no_more_than_a_board_can_hold(built):
    """No class of ISO 286 in wood; where places are true to .3 mm, a machine screw has so much room all round."""
    _, _, assembly = built
    boards = [part for part in assembly.parts if part.material in ("birch plywood", "polycarbonate")]
    assert {part.name for part in boards} > {"mast", "front panel", "propeller", "gun outline", "cover", "cover frame"}
    for part in boards:
        assert not any(hole.fit for hole in (*part.holes, *part.upright_holes)), part.name
        for screw in assembly.fasteners:
            if part.name not in screw.joins or screw.thread == WOOD:
                continue
            near = (hole for hole in part.holes if math.dist(placed(part, hole), (screw.x_m, screw.y_m)) < 1e-4)
            wide = 2.0 * float(screw.slabs[1].outline_m[:, 0].max())
            assert next(near).diameter_m - wide >= 2.0 * 0.0003, (part.name, screw.name)


def test_the_tip_goes_into_its_spring(built):
    """Filed round to its width, it has play in the coils, and it is as wide as the outline that is cut."""
    _, plan, assembly = built
    bar = assembly.part("slide" if plan.slides else "arm")
    inside = plan.spring.outer_m - 2.0 * plan.spring.wire_m
    assert 0.6 * inside < tip(plan) <= inside - 0.0002
    end = np.ptp(bar.outline_m[:, 0][np.isclose(bar.outline_m[:, 1], bar.outline_m[:, 1].max())])
    if plan.slides:
        assert end == pytest.approx(tip(plan))
    assert "tip filed round" in bar.fit


def test_wires_pass_every_plate_at_one_place_clear_of_what_swings(built):
    _, plan, assembly = built
    spots = []
    for name in ("base", "mast", "front panel", "rear plate"):
        part = assembly.part(name)
        (hole,) = (each for each in part.holes if each.use == WIRES)
        spots.append(placed(part, hole))
    assert np.ptp(np.array(spots), axis=0) == pytest.approx([0.0, 0.0])
    hole = Point(spots[0]).buffer(0.004)
    frame = assembly.part("cover frame")
    assert shape_of(frame.slabs[0], frame).distance(hole) >= 0.0009
    carried = [each for each in assembly.parts if each.group in ("lead plate", "follower")]
    for part in carried:
        if part.name in ("lever post", "knob"):
            continue
        for slab in part.slabs:
            shape = shape_of(slab, part)
            for step in range(31):
                turned = affinity.rotate(shape, -plan.swing_rad * step / 30, origin=(0, 0), use_radians=True)
                assert turned.distance(hole) > 0.002, part.name
    others = [each for each in assembly.parts if each.name.endswith(("pulley", "belt", "magnet", "keeper"))]
    assert min(shape_of(slab, each).distance(hole) for each in others for slab in each.slabs) > 0.002
    assert assembly.part("wiring box").z_to_m == assembly.part("backboard").z_from_m


def test_the_mark_of_the_base_reads_the_scale_of_the_lead_plate(built):
    """At no lead the mark of 0 stands at that of the base, at full lead the last, both within the plate's outline."""
    _, plan, assembly = built
    plate, base = assembly.part("lead plate"), assembly.part("base")
    (mark,) = (np.array(each.corners_m) for each in base.scribes if each.label == "LEAD")
    way = math.atan2(*mark[0][::-1])
    rim = [np.array(each.corners_m) for each in plate.scribes if not each.label]
    labels = [np.array(each.corners_m) for each in plate.scribes if each.label]
    for lines, lead in ((rim, 0.0), (labels, 0.0)):
        first, last = (math.atan2(*line[0][::-1]) + plan.tilt_rad for line in (lines[0], lines[-1]))
        assert math.remainder(first - way - lead, math.tau) == pytest.approx(0.0, abs=1e-9)
        assert math.remainder(last - plan.swing_rad - way, math.tau) == pytest.approx(0.0, abs=1e-9)
    metal = Polygon(plate.outline_m, [slot.outline_m for slot in plate.slots])
    for line in (*rim, *labels):
        assert metal.contains(Point(line[0]))
        assert metal.contains(Point(line[1]))
    gap = np.hypot(*mark[0]) - max(np.hypot(*line[1]) for line in rim)
    assert 0.0 < gap < 0.003


def test_a_finger_passes_behind_the_crank_and_a_hand_below_it(built):
    display, _, assembly = built
    if display.handle.kind == "motor":
        return
    arm, grip, foot = (assembly.part(name) for name in ("crank arm", "grip", "footboard"))
    assert arm.z_from_m - GRIP_NUT_M >= 0.025
    assert grip.z_from_m >= 0.025
    lowest = arm.y_m + float(arm.outline_m[:, 1].min())
    assert lowest - float(foot.outline_m[:, 1].max()) - foot.y_m >= 0.1049


def test_the_brake_hub_clears_its_keeper_and_magnets_have_their_marks(built):
    _, _, assembly = built
    hub = assembly.part("brake hub")
    magnets = [each for each in assembly.parts if each.name == "magnet"]
    for keeper in (each for each in assembly.parts if each.name == "brake keeper"):
        shape = Polygon(keeper.outline_m)
        assert shape.distance(Point(0.0, 0.0)) - float(hub.slabs[0].outline_m[:, 0].max()) >= 0.0019
        marks = {
            (round(keeper.x_m + each.x_m, 6), round(keeper.y_m + each.y_m, 6))
            for each in keeper.holes
            if each.use == "middle of a magnet"
        }
        assert marks == {(round(each.x_m, 6), round(each.y_m, 6)) for each in magnets}


def test_what_is_set_has_slots(built):
    """The flag along its motion, the cam by 6° on its hub, either way."""
    _, plan, assembly = built
    flag, cam = assembly.part("flag"), assembly.part("cam")
    assert all(slot.end_m[1] - slot.start_m[1] == pytest.approx(0.002) for slot in flag.slots)
    assert len(flag.slots) == len(cam.slots) == 2
    for slot in cam.slots:
        ends = [math.atan2(y, x) for x, y in (slot.start_m, slot.end_m)]
        assert math.degrees((ends[1] - ends[0]) % math.tau) == pytest.approx(12.0)
        assert slot.bend_m == pytest.approx(plan.cam_pitch_m)


def test_the_knob_holds_by_more_than_a_diameter_and_a_half_of_its_thread(built):
    _, plan, assembly = built
    post, knob = assembly.part("lever post"), assembly.part("knob")
    assert knob.z_from_m > assembly.part("cover").z_to_m
    assert (post.z_to_m - knob.z_from_m) / plan.stock.threads["large"].diameter_m >= 1.5


def test_countersunk_screws_have_a_countersink(built):
    _, _, assembly = built
    for screw in assembly.fasteners:
        if screw.head != "sunk" or screw.thread == WOOD:
            continue
        face = screw.z_to_m if screw.front else screw.z_from_m
        heads = [
            part
            for part in assembly.parts
            if part.name in screw.joins and abs((part.z_to_m if screw.front else part.z_from_m) - face) < 1e-6
        ]
        sunk = [
            hole.sunk_m > 0.0
            for part in heads
            for hole in part.holes
            if math.dist(placed(part, hole), (screw.x_m, screw.y_m)) < 1e-4
        ]
        assert all(sunk), screw.name


def test_the_wires_in_their_sleeve_pass_every_board(built):
    """A sleeve 8 mm outside; holes of two boards, one behind the other, each 0.3 mm off its place."""
    _, _, assembly = built
    wide = [hole.diameter_m for part in assembly.parts for hole in part.holes if hole.use == WIRES]
    assert len(wide) >= 4
    assert min(wide) >= 0.008 + 2.0 * 0.0003


def test_cables_bend_between_the_footboard_and_the_wiring_box(built):
    """The glands are over the rear edge of the footboard: each is some 20 mm long, and a cable bends after it."""
    _, _, assembly = built
    box, foot = assembly.part("wiring box"), assembly.part("footboard")
    low = box.y_m + min(slab.outline_m[:, 1].min() for slab in box.slabs)
    assert low - max(slab.outline_m[:, 1].max() for slab in foot.slabs) >= 0.060
