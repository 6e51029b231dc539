"""Sheets of single parts read as a shop would: what is drawn and said is the part, and every page says whose it is."""

import math
import re
from types import SimpleNamespace

import numpy as np
import pytest
from displays import VARIANTS, put_together
from shapely import Point, Polygon

from viz.drawings.block_view import block_view
from viz.drawings.bought_sheets import bought_parts
from viz.drawings.drawing import DrawnExhibit
from viz.drawings.flat_parts import cut_parts
from viz.drawings.lengths import units_of
from viz.drawings.marks import Ring, Stroke, box_of
from viz.drawings.sensor_view import flag_edge, sensor_view
from viz.drawings.turned_parts import pulleys
from viz.drawings.turned_view import turned_view
from viz.drawings.views import plate_view
from viz.sheets.typst import Pages

ROOM = 178.0, 205.0


@pytest.fixture(params=VARIANTS)
def kind(request):
    return put_together(request.param)


def words(view):
    return [mark.text for mark in view.marks if hasattr(mark, "text")]


def rings(view):
    return [mark for mark in view.marks if isinstance(mark, Ring)]


def drawn(exhibit, name):
    one = next(each for each in cut_parts(exhibit) if each.part.name == name)
    return one, plate_view(DrawnExhibit(exhibit, (one.flat,), (one.drawing,)), 0, ROOM)


def test_a_countersink_is_drawn_on_its_face(exhibit):
    found = 0
    for one in cut_parts(exhibit):
        view = plate_view(DrawnExhibit(exhibit, (one.flat,), (one.drawing,)), 0, ROOM)
        for hole in one.flat.holes:
            spot = 1e3 * hole.x_m * view.scale, 1e3 * hole.y_m * view.scale
            round_it = [each for each in rings(view) if math.dist(each.centre, spot) < 1e-6]
            assert any(each.pen == "cut" for each in round_it)
            sunk = [each for each in round_it if each.pen != "cut"]
            assert len(sunk) == bool(hole.sunk_m)
            for each in sunk:
                found += 1
                assert each.diameter_mm == pytest.approx(1e3 * hole.sunk_m * view.scale)
                assert each.pen == ("hidden" if hole.sunk_behind else "edge")
    assert found > 10


def test_the_hollow_of_the_brake_s_keeper_is_set_out_from_its_first_hole(exhibit):
    """It is round the crank shaft, the origin of the part: 44 mm above the screws, as far as its nearest corner."""
    one, view = drawn(exhibit, "brake keeper")
    x, y = 1e3 * one.flat.holes[0].x_m, 1e3 * one.flat.holes[0].y_m
    near = 1e3 * float(np.hypot(*one.part.outline_m.T).min())
    assert {f"{-x:.2f}", f"{-y:.2f}", f"R{near:.2f}"} <= set(words(view))
    crosses = [mark for mark in view.marks if isinstance(mark, Stroke) and mark.pen == "centre"]
    assert any(abs(sum(px for px, _ in m.points)) + abs(sum(py for _, py in m.points)) < 1e-6 for m in crosses)


def test_every_radius_that_is_said_touches_its_outline(exhibit):
    """The tip of its arrow lies on the outline; on the arm of the crank the radii are those of its two ends."""
    one, view = drawn(exhibit, "lead plate")
    rim = Polygon([(x * view.scale, y * view.scale) for x, y in one.drawing.outline]).exterior
    heads = [m.points[1] for m in view.marks if isinstance(m, Stroke) and len(m.points) == 3 and m.pen == "thin"]
    assert sum(rim.distance(Point(tip)) < 0.02 for tip in heads) >= sum(text.startswith("R") for text in words(view))
    arm, view = drawn(exhibit, "crank arm")
    low = 1e3 * (float(arm.part.outline_m[:, 1].min()) - arm.flat.holes[1].y_m)
    high = 1e3 * float(arm.part.outline_m[:, 1].max())
    assert {text for text in words(view) if text.startswith("R")} == {f"R{-low:.2f}", f"R{high:.2f}"}


def test_slots_are_named_where_they_are_and_bushes_run_in_a_class(exhibit):
    for one in cut_parts(exhibit):
        view = plate_view(DrawnExhibit(exhibit, (one.flat,), (one.drawing,)), 0, ROOM)
        named = [text for text in words(view) if re.fullmatch(r"S\d", text)]
        assert sorted(named) == [f"S{number + 1}" for number in range(len(one.flat.cut_slots))], one.file
        for slot in one.flat.cut_slots:
            assert bool(slot.fit) == ("bush" in slot.use or "post" in slot.use), slot.use


def test_the_spring_stands_in_a_bore_that_is_free_and_that_the_drawing_shows(kind):
    """Points on and in the bore, five tenths deep to its floor, lie in no body of the block; those round it do."""
    _, plan, assembly = kind
    block = assembly.part("spring block")
    (bore,) = block.upright_holes
    assert 0.0003 < bore.diameter_m - plan.spring.outer_m < 0.0006
    ends = sorted(float(each) for slab in block.slabs for each in slab.outline_m[:, 1])
    mouth, inward = (ends[-1], -1.0) if bore.sunk_behind else (ends[0], 1.0)

    def solid(x, y, z):
        return any(
            slab.z_from_m < z < slab.z_to_m and Polygon(slab.outline_m, slab.openings_m).contains(Point(x, y))
            for slab in block.slabs
        )

    for way in np.linspace(0.1, 6.2, 23):
        for share, inside in ((0.5, True), (0.99, True), (1.15, False)):
            x, z = (share * bore.diameter_m / 2.0 * each for each in (math.cos(way), math.sin(way)))
            for deep in (0.1, 0.95):
                y = mouth + inward * deep * bore.deep_m
                assert solid(bore.x_m + x, y, bore.y_m + z) != inside
    assert solid(bore.x_m, mouth + inward * 1.2 * bore.deep_m, bore.y_m)
    view = block_view(block, assembly, ROOM)
    inch = units_of(assembly.hardware) == "us"
    size = f"⌀{bore.diameter_m / 0.0254:.3f} ± 0.005" if inch else f"⌀{1e3 * bore.diameter_m:.2f} ± 0.10"
    assert sum(size in text for text in words(view)) == 1
    wide = 1e3 * bore.diameter_m * view.scale
    assert sum(each.diameter_mm == pytest.approx(wide) for each in rings(view)) == 1


def test_a_block_is_drawn_over_everything_and_its_threads_with_their_depth(exhibit):
    assembly = exhibit.assembly
    for name in ("spring block", "spring seat"):
        part = assembly.part(name)
        corners = np.concatenate([slab.outline_m for slab in part.slabs])
        sides = 1e3 * np.ptp(corners, axis=0), 1e3 * (part.z_to_m - part.z_from_m)
        view = block_view(part, assembly, ROOM)
        assert {f"{side:.2f}" for side in (*sides[0], sides[1])} <= set(words(view)), name
        left, low, right, high = box_of(view.marks)
        assert right - left < ROOM[0]
        assert high - low < ROOM[1]
    held = [screw for screw in assembly.fasteners if screw.name == "spring block screw"]
    block = assembly.part("spring block")
    (said,) = (text for text in words(block_view(block, assembly, ROOM)) if "drilled" in text)
    assert said.startswith("2 × M3, drilled ⌀2.50, ")
    deep = float(re.search(r"([\d.]+) deep from the rear", said)[1])
    assert all(1e3 * (screw.z_to_m - block.z_from_m) < deep for screw in held)


def test_a_pulley_is_drawn_with_face_boss_and_pin_and_has_room_for_a_longer_boss(kind):
    """2 mm behind each boss nothing stands that it would meet, but its shaft."""
    _, plan, assembly = kind
    belts = plan.stock.belts
    factor = 1.0 / 0.0254 if plan.stock.unit == "in" else 1e3
    told = (lambda size: f"{factor * size:.3f}") if plan.stock.unit == "in" else (lambda size: f"{factor * size:.2f}")
    found = list(pulleys(assembly))
    assert len(found) >= 2
    for _, part in found:
        said = words(turned_view(part, assembly, (168.0, 150.0)))
        boss = min(part.slabs, key=lambda slab: slab.z_from_m)
        whole = belts.boss_m + belts.width_m + belts.flange_m
        teeth = int(re.search(r"(\d+) teeth", part.standard)[1])
        pitch = teeth * belts.tooth_m / math.pi
        assert {told(belts.boss_m), told(whole), f"{teeth} teeth", f"⌀{told(pitch - belts.hub_m)}"} <= set(said)
        assert any(text == f"pitch circle ⌀{told(pitch)}" for text in said)
        (pin,) = (
            each
            for each in assembly.parts
            if each.name == "cross pin"
            and math.dist((each.x_m, each.y_m), (part.x_m, part.y_m)) < 1e-9
            and boss.z_from_m < each.z_from_m < boss.z_to_m
        )
        assert told((pin.z_from_m + pin.z_to_m) / 2.0 - part.z_from_m) in said
        behind = part.z_from_m - 0.002, part.z_from_m
        near = [
            (other, slab)
            for other in assembly.pieces
            for slab in other.slabs
            if not other.name.endswith("shaft") and slab.z_from_m < behind[1] and slab.z_to_m > behind[0]
        ]
        for other, slab in near:
            if other is not part:
                to = np.array([other.x_m - part.x_m, other.y_m - part.y_m])
                shape = Polygon(slab.outline_m + to, [rim + to for rim in slab.openings_m])
                assert not shape.intersects(Polygon(boss.outline_m)), (part.name, other.name)


def test_the_flats_of_the_lever_s_post_are_cut_and_drawn(exhibit):
    """Below the shoulder the section is 2 mm narrower one way than the other, over 6 mm."""
    assembly = exhibit.assembly
    post = assembly.part("lever post")
    flat = [slab for slab in post.slabs if np.ptp(slab.outline_m[:, 1]) < np.ptp(slab.outline_m[:, 0]) - 1e-4]
    assert sum(slab.z_to_m - slab.z_from_m for slab in flat) == pytest.approx(0.006)
    wide, high = np.ptp(flat[0].outline_m, axis=0)
    assert (wide, high) == pytest.approx((0.012, 0.010), abs=1e-5)
    thick = next(slab for slab in post.slabs if slab.z_from_m > flat[-1].z_to_m - 1e-9)
    assert np.ptp(thick.outline_m[:, 0]) < high
    said = words(turned_view(post, assembly, (168.0, 90.0)))
    assert "10.00 across flats" in said
    start = 1e3 * (min(slab.z_from_m for slab in flat) - post.z_from_m)
    assert f"{start:.2f}" in said


def sheet_of_bought(name):
    """Return the markup of the sheet, and its drawings."""
    display, _, assembly = put_together(name)
    pages = Pages(units_of(assembly.hardware))
    return " ".join(bought_parts(SimpleNamespace(display=display), assembly, pages)), pages.files


@pytest.mark.parametrize("name", [name for name in VARIANTS if name != "lamp switch"])
def test_the_flag_breaks_the_beam_at_half_of_its_lift_and_the_sketch_says_so(name):
    """The beam is the origin of the barrier; a flag on an arm rises by more than the roller, as far as it is out."""
    display, plan, assembly = put_together(name)
    sensor, flag = assembly.part("light barrier"), assembly.part("flag")
    (slot,) = (slab for slab in sensor.slabs if np.ptp(slab.outline_m[:, 0]) < 0.005)
    assert slot.z_from_m + 0.001 < flag.z_from_m < flag.z_to_m < slot.z_to_m - 0.001
    arm_m = display.follower.arm_m
    rise_m = display.cam.lift_m * (1.0 if plan.slides else (arm_m + 0.050) / arm_m)
    assert flag_edge(assembly) == pytest.approx(rise_m / 2.0, abs=1e-8)
    told = (lambda size: f"{size / 0.0254:.3f}") if name == "inch" else (lambda size: f"{1e3 * size:.2f}")
    middle = (flag.z_from_m + flag.z_to_m) / 2.0 - assembly.part("lead plate").z_to_m
    said = words(sensor_view(assembly, rise_m, ROOM))
    assert {told(each) for each in (rise_m / 2.0, rise_m, 0.019, middle)} <= set(said)
    text, _ = sheet_of_bought(name)
    short, beyond = re.search(r"is ([\d.]+) short of the beam; .* dashed, ([\d.]+) beyond", text).groups()
    assert short == beyond == told(rise_m / 2.0)


def test_a_lamp_switch_is_shown_with_its_flag_below_it():
    _, _, assembly = put_together("lamp switch")
    text, files = sheet_of_bought("lamp switch")
    assert f"edge of the flag is {1e3 * flag_edge(assembly):.2f} from the middle of the body" in text
    assert "sensor.svg" in files


def test_holes_of_the_box_are_those_of_its_screws_and_glands():
    """The circles as they are drawn, by the scale that is said."""
    text, files = sheet_of_bought("default")
    scale = 1.0 / float(re.search(r"from either side\. Scale 1 : (\d)", text)[1])
    by_size = {}
    for x, _, radius in re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"', files["wiring-box.svg"]):
        by_size.setdefault(round(2.0 * float(radius) / scale, 2), []).append(float(x) / scale)
    screws = [each for each in put_together("default")[-1].fasteners if each.name == "wiring box screw"]
    (small, spots), (gland, three) = sorted(by_size.items())
    assert np.ptp(spots) == pytest.approx(1e3 * abs(screws[0].x_m - screws[1].x_m), abs=0.01)
    assert 0.0 < small - float(screws[0].thread.removeprefix("M")) < 1.0
    assert (gland, len(three), np.ptp(three)) == (12.5, 3, pytest.approx(60.0, abs=0.01))
