"""What the builder's book says of setting, trying and wiring the whole display: by its numbers."""

import math
import re
from itertools import chain

import pytest

from sim.display.assembly.order import STEPS
from sim.display.hand_speed import FLASH_PAUSE_S
from viz.drawings import sundries, timer, wiring
from viz.drawings.book_lists import tools
from viz.drawings.build_steps import TEXTS, step_text
from viz.drawings.flat_parts import cut_parts
from viz.drawings.items import items
from viz.drawings.preparation import prepared
from viz.drawings.raw_stock import made_from
from viz.drawings.tables import hole_table
from viz.drawings.use import handling, setting, timing_table, trials
from viz.sheets.text import text_of


def test_every_step_has_its_text_and_nothing_in_braces_is_left(exhibit):
    assert list(TEXTS) == [step.title for step in STEPS]
    for step in STEPS:
        assert "{" not in step_text(step.title, exhibit, exhibit.assembly, "si")


def test_the_height_of_the_table_is_told_with_that_of_the_crank(exhibit):
    said = step_text("Target, lamp and rear of the guard", exhibit, exhibit.assembly, "si")
    (height,) = (each.value for each in exhibit.checks if each.quantity == "table_height_m")
    assert f"a table {1e3 * height:.0f} mm high" in said
    assert f"{1e3 * exhibit.display.handle.axis_height_m:.0f} mm above the floor" in said


def test_the_lamp_is_told_for_every_window_at_no_lead_and_at_full_lead(exhibit):
    """At full lead as much earlier as the lead; the second window half a turn on."""
    shown = exhibit.shown
    table = timing_table(exhibit)
    on, off = ([float(text_of(cell, "si").rstrip("°")) for cell in column.cells] for column in table.columns[2:])
    count = len(on) // 2
    assert count == exhibit.display.cam.lobes * exhibit.display.cam_ratio
    assert on[0] == pytest.approx(shown.lamp_on_deg, abs=0.05)
    assert off[0] == pytest.approx(shown.lamp_off_deg, abs=0.05)
    for number in range(count):
        assert (on[number] - on[0] - number * 360.0 / count) % 360.0 == pytest.approx(0.0, abs=0.06)
        assert (on[number] - on[count + number] - shown.lead_deg) % 360.0 == pytest.approx(0.0, abs=0.11)
        assert (off[number] - off[count + number] - shown.lead_deg) % 360.0 == pytest.approx(0.0, abs=0.11)


def test_half_of_the_lift_is_the_strip_that_sets_the_sensor(exhibit):
    said = " ".join(setting(exhibit, exhibit.assembly, "si"))
    assert f"a strip {500.0 * exhibit.display.cam.lift_m:g} mm thick" in said


def test_tests_name_their_limits(exhibit):
    said = " ".join(chain(*trials(exhibit, "si")))
    limits = {each.quantity: each.limit for each in exhibit.checks}
    assert float(re.search(r"([\d.]+) rpm at most in a minute", said)[1]) == limits["crank_speed_rpm"]
    assert float(re.search(r"within ([\d.]+)°", said)[1]) == limits["lamp_error_deg"]


def test_bent_slots_have_the_centre_and_radius_of_their_part(exhibit):
    """Both ends lie on the arc that the words say, counted from hole 1 like the holes."""
    for one in cut_parts(exhibit):
        bent = [slot for slot in one.flat.cut_slots if slot.bend_m]
        notes = [text_of(note, "si") for note in hole_table(one.flat, "si").notes]
        told = [note for note in notes if "arc of radius" in note]
        assert len(told) == len(bent)
        for note in told:
            radius, x, y = map(float, re.search(r"radius ([\d.]+) mm about x (\S+) mm, y (\S+) mm", note).groups())
            ends = re.search(r"at x (\S+) mm, y (\S+) mm and x (\S+) mm, y (\S+) mm", note).groups()
            x0, y0, x1, y1 = map(float, ends)
            assert (x0 - x) ** 2 + (y0 - y) ** 2 == pytest.approx(radius**2, rel=1e-3)
            assert (x1 - x) ** 2 + (y1 - y) ** 2 == pytest.approx(radius**2, rel=1e-3)


def test_every_part_with_holes_says_where_hole_1_is(exhibit):
    for one in cut_parts(exhibit):
        if not one.flat.holes:
            continue
        (said,) = (text_of(note, "si") for note in hole_table(one.flat, "si").notes if "Hole 1:" in text_of(note, "si"))
        x, y = map(float, re.search(r"Hole 1: (\S+) mm from the left edge, (\S+) mm", said).groups())
        left, low, *_ = one.drawing.box
        (across, up), _ = one.drawing.circles[0]
        assert (x, y) == pytest.approx((across - left, up - low), abs=0.006)


def test_every_wire_colour_and_the_program_of_the_timer_are_told(exhibit):
    bought = " ".join(each for each, _ in sundries.bought(exhibit, exhibit.assembly))
    said = " ".join(wiring.NOTES)
    for colour in ("red", "black", "yellow", "white"):
        assert colour in bought
        assert colour in said
    states = {row[:2]: row[2] for row in timer.STATES}
    assert states["comes on", f"{FLASH_PAUSE_S:g} s or more"] == "comes on"
    assert states["comes on", f"less than {FLASH_PAUSE_S:g} s"].startswith("stays off")
    assert states["goes off", "any"] == "goes off"


def test_every_wire_has_its_pole(exhibit):
    """Of plus and of minus no more wires than poles; the block that is bought has the poles of both."""
    bought = " ".join(each for each, _ in sundries.bought(exhibit, exhibit.assembly))
    plus, minus = (row[2].split(", ") for row in wiring.JOINED[:2])
    assert len(plus) <= len(minus) <= wiring.POLES
    assert f"X1, {2 * wiring.POLES} poles, with 2 bridges of {wiring.POLES} poles" in bought
    marks = wiring.wiring(exhibit.assembly, 12.0, "dc").marks
    words = [mark.text for mark in marks if hasattr(mark, "text") and mark.text.startswith("X1.")]
    assert words == ["X1.1 to X1.4", "X1.5 to X1.8"]
    assert all(row[0].startswith(word) for row, word in zip(wiring.JOINED, words, strict=False))


def test_what_is_bought_for_the_lamp_has_the_voltage_of_the_lamp(exhibit):
    """No line leaves it to another; the body of the lamp and the bend of its leads fit into the outline."""
    lines = [each for each, _ in sundries.bought(exhibit, exhibit.assembly)]
    supply = f"{exhibit.display.lamp.lamp_v:g} V dc"
    assert sum(supply in each for each in lines) == 2
    assert not any("voltage of the lamp" in each for each in lines)
    lamp, outline = exhibit.assembly.part("lamp"), exhibit.assembly.part("gun outline")
    assert supply in lamp.standard
    deep = float(re.search(r"at most ([\d.]+) mm .* long", lamp.standard)[1])
    assert 1e3 * outline.thickness_m - deep == pytest.approx(3.0, abs=0.05)


def test_the_duct_reaches_from_lamp_to_box(exhibit):
    lamp, box = exhibit.assembly.part("lamp"), exhibit.assembly.part("wiring box")
    (line,) = (each for each, _ in sundries.bought(exhibit, exhibit.assembly) if each.startswith("cable duct"))
    assert float(re.search(r"([\d.]+) m \(", line)[1]) >= math.hypot(lamp.x_m - box.x_m, lamp.y_m - box.y_m)


def test_the_stack_that_is_measured_is_that_of_its_plates(exhibit):
    """Base, mast, front panel and rear plate, one behind the other."""
    said = step_text("Plates and bearings", exhibit, exhibit.assembly, "si")
    stack = sum(exhibit.assembly.part(name).thickness_m for name in ("base", "mast", "front panel", "rear plate"))
    assert float(re.search(r"beside each shaft: ([\d.]+) mm", said)[1]) == pytest.approx(1e3 * stack)


def test_the_play_of_the_lead_plate_is_tried_about_its_drawn_one(exhibit):
    said = step_text("Lead plate", exhibit, exhibit.assembly, "si")
    least, most = map(float, re.search(r"a feeler of ([\d.]+) mm must pass .* none of ([\d.]+) mm", said).groups())
    cap, plate, washer = (
        exhibit.assembly.part(name).thickness_m for name in ("lead cap", "lead plate", "thrust washer")
    )
    assert least < 1e3 * (cap - plate - washer) < most


def test_the_lever_is_tried_at_the_force_of_its_check_and_the_balance_reads_it(exhibit):
    (force,) = (each.value for each in exhibit.checks if each.quantity == "lever_n")
    said = " ".join(chain(*trials(exhibit, "si")))
    assert float(re.search(r"the lead plate moves at ([\d.]+) N", said)[1]) == pytest.approx(force, rel=0.005)
    listed = " ".join(tools(exhibit.assembly, exhibit))
    assert float(re.search(r"Spring balance to ([\d.]+) N", listed)[1]) > 4.0 / 3.0 * force
    strip = float(re.search(r"strip of ([\d.]+) mm to set", listed)[1])
    assert strip == pytest.approx(500.0 * exhibit.display.cam.lift_m)


def test_every_board_that_is_glued_and_every_part_that_is_painted_is_named(exhibit):
    said = prepared(exhibit, exhibit.assembly)
    cuts = cut_parts(exhibit)
    for one in cuts:
        glued = "glued" in made_from(one, exhibit.assembly)
        assert glued == any(line.startswith(f"Glue the {one.part.name} of") for line in said)
        if one.part.material == "birch plywood":
            assert any(line.startswith("Paint ") and one.part.name in line for line in said)


def test_a_board_is_not_asked_for_the_tolerance_of_a_plate(pages, exhibit):
    for one in cut_parts(exhibit):
        page = next(each for each in pages if each.text.startswith(one.part.name.capitalize()))
        board = one.part.material in ("birch plywood", "polycarbonate")
        assert ("Places of holes ± 0.3 mm" in page.text) == board
        assert ("Places of holes ± 0.1 mm" in page.text) != board


def test_those_who_carry_it_know_its_mass(exhibit):
    assert f"{exhibit.assembly.mass_kg:.1f} kg" in handling(exhibit.assembly, "si")[0]


def test_the_sense_of_turning_is_told(pages):
    text = " ".join(" ".join(page.text.split()) for page in pages)
    assert "The propeller turns anticlockwise." in text
    assert "Turn the crank anticlockwise, as its arrow shows." in text


def test_the_cam_says_what_it_is_cut_from_and_how_true(pages):
    page = next(page for page in pages if page.text.startswith("Cam, item"))
    assert re.search(r"1 of \w+, \d+(\.\d+)? mm, engraved face in front", page.text)
    assert "Edge of the track within 0.1 mm" in page.text


def test_a_sheet_that_runs_on_bears_name_item_scale_and_its_place_under_its_title(pages, exhibit):
    """Word for word on every page of a part; the numbers are those of the parts list."""
    listed = {one.name: one.number for one in items(exhibit.assembly)}
    ran_on = 0
    for name in dict.fromkeys(one.part.name for one in cut_parts(exhibit)):
        title = f"{name.capitalize()}, item {listed[name]}"
        own = [page.text for page in pages if re.match(rf"{title}(?!,)\b", page.text)]
        scale = re.search(r"Scale (\d+ : \d+)", own[0])[1]
        for place, text in enumerate(own, start=1):
            assert scale in text, title
            assert (f"sheet {place} of {len(own)} under this title" in text) == (len(own) > 1), title
        ran_on += len(own) > 1
    assert ran_on >= 2
