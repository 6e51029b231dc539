"""The builder's book as a PDF reader finds it: true to scale, every word on the paper, complete by its numbers."""

import re

import pytest
from paper import extent, read

from sim.display.assembly.order import HUBS, steps
from viz.drawings.book import book
from viz.drawings.flat_parts import cut_parts
from viz.drawings.hidden_lines import front, side, visible
from viz.drawings.items import bought_for, buying_list, called, items, key, numbers
from viz.drawings.marks import box_of
from viz.drawings.papers import PAPERS
from viz.drawings.placards import placards
from viz.drawings.view import SCALES
from viz.drawings.wiring import wiring

A4, A3 = (210.0, 297.0), (297.0, 420.0)
FRAME_MM, BLOCK_MM = 8.0, 38.0
TRUE_MM = 0.05
TITLES = (
    "General arrangement",
    "Section A-A",
    "Parts list",
    "Buying list",
    "Cam",
    "Parts to turn and to print",
    "Wiring",
    "Read this first",
    "To set before the covers are on",
    "To test before the backboard is on",
    "To test on the finished display",
    "Faults, and care",
)


def page_of(pages, title):
    return next(page for page in pages if page.text.startswith(title))


def scale_of(page):
    over, under = re.search(r"Scale (\d+) : (\d+)", page.text).groups()
    return float(over) / float(under)


def drawn_as(page, wide, high):
    """Return whether a path of these sizes stands on the page, within the tolerance. [mm]"""
    return any(
        abs(width - wide) < TRUE_MM and abs(height - high) < TRUE_MM for width, height in map(extent, page.paths)
    )


def test_every_page_has_its_number_its_caution_and_a_line_of_100_mm(pages):
    for number, page in enumerate(pages, start=1):
        assert page.size == pytest.approx(A3 if page.text.startswith(TITLES[:2]) else A4, abs=0.01)
        assert f"sheet {number}" in page.text
        assert "Inert display" in page.text
        assert "Inert by construction" in page.text
        assert "Estimates, not approved data" in page.text
        assert "This line is 100 mm long." in page.text
        assert drawn_as(page, 100.0, 0.0)


def test_there_is_a_page_for_everything(pages, exhibit):
    for title in TITLES:
        assert page_of(pages, title)
    for one in cut_parts(exhibit):
        assert page_of(pages, f"{one.part.name.capitalize()}, item")
    for number, (step, _) in enumerate(steps(exhibit.assembly), start=1):
        assert page_of(pages, f"Step {number}: {step.title}")


def outside(page):
    """Return the words of a page that pass its frame."""
    wide, high = page.size
    return [
        word.text
        for word in page.words
        if min(word.box[:2]) < FRAME_MM or word.box[2] > wide - FRAME_MM or word.box[3] > high - FRAME_MM
    ]


def test_all_words_lie_inside_the_frame(pages):
    for page in pages:
        assert not outside(page)


@pytest.mark.slow
def test_words_lie_apart_and_inside_the_frame_in_books_of_other_kinds(other):
    """The last pages are templates, on the paper of the display's units."""
    found = read(book(other))
    assert found[-1].size == pytest.approx(PAPERS["letter" if other.assembly.hardware == "inch" else "a4"], abs=0.1)
    for number, page in enumerate(found, start=1):
        assert not overlapping(page), number
        assert not outside(page), number
        assert min(word.size_pt for word in page.words) >= 5.0


def test_the_title_block_ends_above_the_lower_line_of_the_frame(pages):
    """The frame is the largest box; its lower line lies 8 mm above the edge, the block is what else comes near."""
    for number, page in enumerate(pages, start=1):
        frame = page.size[1] - FRAME_MM
        low = [max(y for _, y in path) for path in page.paths if extent(path)[1] < page.size[1] / 2.0]
        assert frame - 12.0 < max(low) < frame - 0.5, number


def test_all_lines_lie_on_the_paper(pages):
    for page in pages:
        wide, high = page.size
        assert all(0.0 <= x <= wide and 0.0 <= y <= high for path in page.paths for x, y in path)


def overlapping(page):
    """Return the pairs of words of a page that lie over one another, whatever their length."""
    words = [word for word in page.words if word.text.strip()]
    return [
        (a.text, b.text)
        for number, a in enumerate(words)
        for b in words[:number]
        if min(a.box[2], b.box[2]) - max(a.box[0], b.box[0]) > 0.15
        and min(a.box[3], b.box[3]) - max(a.box[1], b.box[1]) > 0.4
    ]


def test_no_two_words_overlap(pages):
    for number, page in enumerate(pages, start=1):
        assert not overlapping(page), number


def test_nothing_is_written_too_small_to_read(pages):
    assert min(word.size_pt for page in pages for word in page.words) >= 5.0


def test_the_title_block_is_written_in_letters_of_8_points(pages):
    """Capitals of 1.8 mm, the smallest height of ISO 3098-1."""
    for page in pages:
        small = {word.text for word in page.words if word.box[1] > page.size[1] - BLOCK_MM and word.size_pt < 7.95}
        assert not small


def test_every_flat_part_is_drawn_at_the_scale_it_states(pages, exhibit):
    for one in cut_parts(exhibit):
        page = page_of(pages, f"{one.part.name.capitalize()}, item")
        left, low, right, high = one.drawing.box
        scale = scale_of(page)
        assert drawn_as(page, (right - left) * scale, (high - low) * scale), one.file
        for _, wide in one.drawing.circles:
            assert drawn_as(page, wide * scale, wide * scale), one.file


def test_no_flat_part_is_drawn_small_on_a_page_that_holds_it_larger(pages, exhibit):
    """At the next larger scale of ISO 5455 the bare part would not fit beside its table, nor over the whole width."""
    for one in cut_parts(exhibit):
        if one.part.name == "cam":
            continue
        left, low, right, high = one.drawing.box
        scale = scale_of(page_of(pages, f"{one.part.name.capitalize()}, item"))
        larger = [each for each in SCALES if each > scale]
        room = 178.0 - 30.0, 205.0 - 30.0
        assert not any((right - left) * each < room[0] and (high - low) * each < room[1] for each in larger), one.file


def test_the_overall_dimensions_are_those_of_the_parts(pages, exhibit):
    """Corners of everything, by another way than the views."""
    corners = [
        (each.x_m + x, each.y_m + y)
        for each in exhibit.assembly.parts
        if not each.placed_rad
        for slab in each.slabs
        for x, y in slab.outline_m.tolist()
    ]
    ends = [(min(axis), max(axis)) for axis in zip(*corners, strict=True)]
    texts = [word.text.strip() for word in page_of(pages, "General arrangement").words]
    for low, high in ends:
        shown = [float(text) for text in texts if re.fullmatch(r"\d+\.\d", text)]
        assert any(abs(number - 1e3 * (high - low)) < 0.06 for number in shown), (low, high, shown)


def test_what_stands_behind_another_part_is_not_drawn(exhibit):
    """The rear plate, as large as the base before it, shows nothing of its own but behind the holes of the base."""
    base = exhibit.assembly.part("base")
    alone = visible(front([base]), 1.0)
    behind = exhibit.assembly.part("rear plate")
    both = visible(front([base, behind]), 1.0)
    assert sum(len(line.points) for line in both) < sum(
        len(line.points) for line in (*alone, *visible(front([behind]), 1.0))
    )
    left, right = (box_of(visible(side([base], from_left=way), 1.0)) for way in (True, False))
    assert left[0] == pytest.approx(-right[2])


def test_every_part_and_screw_is_in_exactly_one_step(exhibit):
    assembly = exhibit.assembly
    taken = [id(each) for _, parts in steps(assembly) for each in parts]
    assert sorted(taken) == sorted(id(each) for each in assembly.pieces)
    assert HUBS


def test_the_parts_list_holds_the_whole_mass_and_every_item(pages, exhibit):
    assembly = exhibit.assembly
    every = items(assembly)
    assert sum(one.mass_kg for one in every) == pytest.approx(assembly.mass_kg)
    assert sum(one.quantity for one in every) == len(assembly.pieces)
    assert {key(each) for each in assembly.pieces} == set(numbers(assembly))
    text = " ".join(page.text for page in pages)
    for one in every:
        assert one.name in text
    for standard, _ in buying_list(assembly):
        assert standard.split(",")[0] in text


def test_made_parts_of_one_name_are_told_apart_by_their_length(pages, exhibit):
    text = " ".join(page.text for page in pages)
    spacers = {round(1e3 * each.thickness_m, 2) for each in exhibit.assembly.parts if each.name == "brake spacer"}
    assert len(spacers) == 2
    for long_mm in spacers:
        assert re.search(rf"brake spacer brass {long_mm:g}0* mm long", text), long_mm


def test_classes_of_flat_parts_stand_in_numbers(pages):
    """ISO 286-2: 26 H7 is 26.000 to 26.021, 41 f7 is 40.950 to 40.975. [mm]"""
    assert "H7: 26.000 to 26.021" in page_of(pages, "Base").text
    assert "outside f7: 40.950 to 40.975" in page_of(pages, "Lead cap").text


def test_the_force_at_which_the_clutch_slips_is_said(pages, exhibit):
    """Half as much again as the largest force of a turn, which the checks say, at the same grip."""
    text = " ".join(page.text for page in pages)
    force = float(re.search(r"the clutch slips at ([\d.]+) N", text)[1])
    assert force == pytest.approx(1.5 * exhibit.drive.crank_force_n, rel=0.02)


def test_washers_and_nuts_are_bought_with_their_screws(exhibit):
    wanted = dict(buying_list(exhibit.assembly))
    screws = exhibit.assembly.fasteners
    for washer in {name for screw in screws for name in screw.washers}:
        assert wanted[washer] == sum(screw.washers.count(washer) for screw in screws)
    bolts = [screw for screw in screws if screw.name == "mast bolt"]
    assert wanted[bolts[0].nut] == sum(screw.nut == bolts[0].nut for screw in screws)


def test_the_buying_list_names_the_items(pages, exhibit):
    """A screw, its washers and its nut are bought for the items of the screw, and so stand on the page."""
    assembly, text = exhibit.assembly, " ".join(page.text for page in pages)
    found, wanted = bought_for(assembly), dict(buying_list(assembly))
    for screw in assembly.fasteners:
        for standard in (screw.standard, *screw.washers):
            assert str(numbers(assembly)[key(screw)]) in found[standard].split(", ")
    for part in assembly.parts:
        if not part.made:
            assert str(numbers(assembly)[key(part)]) in found[part.standard].split(", ")
    for standard, items_of in found.items():
        if len(standard) < 50:
            assert f"{items_of} {wanted[standard]} {called(assembly)[standard]} {standard}" in text


def test_the_placard_speaks_three_languages(pages, exhibit):
    text = " ".join(page_of(pages, "Placard").text.split())
    told = placards(exhibit)
    assert [each.code for each in told] == ["en", "fr", "de"]
    lead = f"{exhibit.shown.lead_deg:.0f}°"
    for each in told:
        for said in (each.title, each.paragraphs[-1]):
            assert " ".join(said[:20].split()) in text
    assert text.count(lead) == 2 * len(told)


def test_the_wiring_names_what_is_sensed_and_its_fuse(exhibit):
    words = [mark.text for mark in wiring(exhibit.assembly, 12.0, "dc").marks if hasattr(mark, "text")]
    assert {"F1", "K1", "timer", "lamp H1", "supply G1, 12 V dc, SELV"} <= set(words)
    beam = any(part.name == "light barrier" for part in exhibit.assembly.parts)
    assert ("B1" in words, "S1" in words) == (beam, not beam)


def test_every_check_passes_on_the_page_of_tests(pages, exhibit):
    text = " ".join(page.text for page in pages if page.text.startswith(("Checks", "Check")))
    assert text.count(" pass ") >= len(exhibit.checks)
    assert "FAIL" not in text


def test_cautions_stand_in_full_and_the_checklist_is_to_be_signed(pages):
    text = " ".join(page.text for page in pages)
    for words in (
        "Nothing here may be used to size, build or alter a gun.",
        "Ask first about the rules on replica firearms.",
        "Keep every gap that closes on a finger at 25 mm or more, or too narrow to enter.",
        "Deburr every edge, wear eye protection, and clamp the plate before it is cut;",
        "☐ No part has a hole, bore or tube that a round could enter.",
        "Name Date Signature",
    ):
        assert words in text


def test_it_is_the_same_every_time_and_tells_what_a_drawing_shows(made):
    assert made.book == book(made.exhibit)
    assert b"Outline of the cam, with" in made.book
