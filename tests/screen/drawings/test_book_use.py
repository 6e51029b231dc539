"""What the builder's book says of setting, trying and wiring the whole display: by its numbers."""

import re

import pytest
from paper import read

from sim.display.assembly.order import STEPS
from viz.drawings import wiring
from viz.drawings.book import book
from viz.drawings.build_steps import TEXTS, step_text
from viz.drawings.flat_parts import cut_parts
from viz.drawings.tables import hole_table
from viz.drawings.use import setting, timing_table, trials
from viz.sheets.text import text_of


@pytest.fixture(scope="session")
def pages(exhibit):
    return read(book(exhibit))


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
    said = " ".join(setting(exhibit, "si"))
    assert f"a strip {500.0 * exhibit.display.cam.lift_m:g} mm thick" in said


def test_tests_name_their_limits(exhibit):
    said = " ".join(trials(exhibit, "si"))
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


def test_every_wire_colour_and_the_program_of_the_timer_are_told():
    bought, said = " ".join(each for each, _ in wiring.BOUGHT), " ".join(wiring.NOTES)
    for colour in ("red", "black", "yellow", "white"):
        assert colour in bought
        assert colour in said
    assert "the output comes on; when the input goes off, the output goes off" in said


def test_the_sense_of_turning_is_told(pages):
    text = " ".join(" ".join(page.text.split()) for page in pages)
    assert "The propeller turns anticlockwise." in text
    assert "Turn the crank anticlockwise, as its arrow shows." in text


def test_the_cam_says_what_it_is_cut_from_and_how_true(pages):
    page = next(page for page in pages if page.text.startswith("Cam "))
    assert re.search(r"1 of \w+, \d+(\.\d+)? mm, engraved face in front", page.text)
    assert "Edge of the track within 0.1 mm" in page.text
