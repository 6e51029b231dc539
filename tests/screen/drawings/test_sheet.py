"""The drawing sheet as a PDF reader finds it: true to scale, every word legible, on the paper, clear of all others."""

import math
import re

import pytest
from paper import extent, read

from viz.drawings.sheet import sheet
from viz.drawings.tables import hole_table
from viz.sheets.text import text_of

TITLES = (
    "Cam",
    "Lead plate",
    "Follower and base",
    "Arrangement",
    "Parts and assembly",
    "Checks",
    "Placard for visitors",
    "Cautions and inertness checklist",
)
FRAME_MM = 8.0
NUMBER = r"(-?[\d.]+) mm"
SLOT = re.compile(
    rf"Slot for the [a-z ]+: {NUMBER} wide(?:, bent round hole 1)?, "
    rf"centres of its ends at x {NUMBER}, y {NUMBER} and x {NUMBER}, y {NUMBER}\."
)
TRUE_MM = 0.05


@pytest.fixture(scope="session")
def pages(made):
    return read(sheet(made))


def scales(page):
    return [float(over) / float(under) for over, under in re.findall(r"[Ss]cale (\d+) : (\d+)", page.text)]


def drawn_as(page, wide, high):
    """Return whether a path of these sizes stands on the page, within the tolerance. [mm]"""
    return any(
        abs(width - wide) < TRUE_MM and abs(height - high) < TRUE_MM for width, height in map(extent, page.paths)
    )


def test_every_page_is_a4_with_its_title_and_number(pages):
    assert len(pages) == len(TITLES)
    for number, (page, title) in enumerate(zip(pages, TITLES, strict=True), start=1):
        assert page.size == pytest.approx((210.0, 297.0), abs=0.01)
        assert title in page.text
        assert f"sheet {number} of {len(TITLES)}" in page.text


def test_a_line_of_100_mm_stands_on_every_page_and_measures_100_mm(pages):
    for page in pages:
        assert "This line is 100 mm long." in page.text
        assert drawn_as(page, 100.0, 0.0)


def test_every_part_is_drawn_at_the_scale_it_states(pages, drawings):
    shown = {"cam": pages[0], "lead plate": pages[1], "follower": pages[2], "base": pages[2]}
    stated = {"cam": scales(pages[0])[0], "lead plate": scales(pages[1])[0]}
    stated |= dict(zip(("follower", "base"), scales(pages[2]), strict=True))
    for name, drawing in drawings.items():
        left, bottom, right, top = drawing.box
        assert drawn_as(shown[name], (right - left) * stated[name], (top - bottom) * stated[name]), name


def test_the_holes_of_the_cam_are_drawn_true(pages, drawings):
    scale = scales(pages[0])[0]
    for _, diameter in drawings["cam"].circles:
        assert drawn_as(pages[0], diameter * scale, diameter * scale)


def test_every_slot_is_told_with_its_width_and_the_centres_of_its_ends(pages, made):
    """A slot reaches half its width past the centre of each end."""
    told = {part.name: [text_of(note, "si") for note in hole_table(part).notes] for part in made.parts}
    assert told["lead plate"]
    for part in made.parts:
        first = part.holes[0]
        for opening, said in zip(part.openings_m, told[part.name], strict=True):
            width, *ends = map(float, SLOT.fullmatch(said).groups())
            corners = (opening - [first.x_m, first.y_m]) * 1000.0
            for x, y in (ends[:2], ends[2:]):
                nearest = min(math.hypot(across - x, up - y) for across, up in corners)
                assert nearest == pytest.approx(width / 2.0, abs=0.01)
    assert "Slot for the clamp screw: 4.2 mm wide, bent round hole" in " ".join(pages[1].text.split())


def test_a_dimension_measures_what_it_says(pages, drawings):
    for page, name in ((pages[0], "cam"), (pages[1], "lead plate")):
        left, _, right, _ = drawings[name].box
        assert f"{right - left:.2f}" in [word.text for word in page.words]
        assert drawn_as(page, (right - left) * scales(page)[0], 0.0)


def test_all_words_lie_inside_the_frame(pages):
    for page in pages:
        edges = FRAME_MM, FRAME_MM, 210.0 - FRAME_MM, 297.0 - FRAME_MM
        out = [
            word.text
            for word in page.words
            if word.box[0] < edges[0] or word.box[1] < edges[1] or word.box[2] > edges[2] or word.box[3] > edges[3]
        ]
        assert not out


def test_all_lines_lie_on_the_paper(pages):
    for page in pages:
        assert all(0.0 <= x <= 210.0 and 0.0 <= y <= 297.0 for path in page.paths for x, y in path)


def test_no_two_words_overlap(pages):
    for page in pages:
        overlaps = [
            (a.text, b.text)
            for number, a in enumerate(page.words)
            for b in page.words[:number]
            if min(a.box[2], b.box[2]) - max(a.box[0], b.box[0]) > 0.15
            and min(a.box[3], b.box[3]) - max(a.box[1], b.box[1]) > 0.4
        ]
        assert not overlaps


def test_nothing_is_written_too_small_to_read(pages):
    assert min(word.size_pt for page in pages for word in page.words) >= 5.0


def test_every_hole_is_numbered_on_the_drawing_and_in_its_table(pages, made):
    for page, numbers in ((pages[1], (2,)), (pages[2], (1, 3))):
        for number in numbers:
            for hole in made.parts[number].holes:
                assert hole.use.split()[0] in page.text
                assert f"{hole.diameter_m * 1e3:.1f}" in page.text


def test_every_check_passes_on_the_page_of_checks(pages, exhibit):
    assert pages[5].text.count("pass") == len(exhibit.checks)
    assert "FAIL" not in pages[5].text


def test_cautions_and_a_checklist_to_sign_end_the_sheet(pages):
    for words in (
        "Inert by construction: the follower works an enclosed lamp switch or a light beam, and nothing else.",
        "Nothing here may be used to size, build or alter a gun.",
        "Ask first about the rules on replica firearms.",
        "Guard what turns; check the guard standards before cutting; at most three flashes a second.",
        "Keep every gap that a finger can reach at 25 mm or more, or too narrow to enter.",
        "Deburr every edge, wear eye protection, and clamp the plate before it is cut;",
        "Estimates, not approved data: a licensed engineer or mechanic and the local authority decide.",
        "☐ No part has a hole, bore or tube that a round could enter.",
        "Name Date Signature",
    ):
        assert words in pages[7].text
    assert all("Inert by construction" in page.text and "Estimates, not approved data" in page.text for page in pages)


def test_it_is_the_same_every_time_and_tells_what_a_drawing_shows(made):
    once = sheet(made)
    assert once == sheet(made)
    assert b"Outline of the cam, with" in once
