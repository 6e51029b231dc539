"""The drawing sheet: every word legible, on the paper and clear of every other; drawings at their stated scale."""

import re

import pytest

from viz.drawings import sheet as module
from viz.drawings.drawing import drawn
from viz.drawings.page import HIGH, WIDE, scale_for

PAGES = (
    module.cam_page,
    module.lead_page,
    module.flat_page,
    module.arrangement_page,
    module.parts_page,
    module.checks_page,
    module.placard_page,
    module.checklist_page,
)


@pytest.fixture(params=PAGES, ids=lambda make: make.__name__)
def page(request, exhibit):
    return request.param(exhibit)


def boxes(page):
    """Return every text with its box in millimetres of paper, upright or turned."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    renderer = FigureCanvasAgg(page.figure).get_renderer()
    per_mm = page.figure.dpi / 25.4
    for text in page.axes.texts:
        if text.get_text():
            box = text.get_window_extent(renderer)
            yield text, tuple(edge / per_mm for edge in (box.x0, box.y0, box.x1, box.y1))


def test_all_words_lie_inside_the_frame(page):
    out = [t.get_text() for t, (x0, y0, x1, y1) in boxes(page) if x0 < 8 or y0 < 8 or x1 > WIDE - 8 or y1 > HIGH - 8]
    assert not out


def test_no_two_words_overlap(page):
    placed = list(boxes(page))
    overlaps = [
        (a.get_text(), b.get_text())
        for number, (a, (ax0, ay0, ax1, ay1)) in enumerate(placed)
        for b, (bx0, by0, bx1, by1) in placed[:number]
        if min(ax1, bx1) - max(ax0, bx0) > 0.15 and min(ay1, by1) - max(ay0, by0) > 0.15
    ]
    assert not overlaps


def test_nothing_is_written_too_small_to_read(page):
    assert min(text.get_fontsize() for text, _ in boxes(page)) >= 5.5


def test_the_cam_is_drawn_at_the_scale_it_states(exhibit):
    page, cam = module.cam_page(exhibit), drawn(exhibit.parts[0])
    words = next(text.get_text() for text in page.axes.texts if text.get_text().startswith("Scale"))
    drawn_at = float(re.match(r"Scale (\d+) : (\d+)", words)[1]) / float(re.match(r"Scale (\d+) : (\d+)", words)[2])
    wide = [max(line.get_xdata()) - min(line.get_xdata()) for line in page.axes.lines if len(line.get_xdata()) > 100]
    left, _, right, _ = cam.box
    assert min(abs(each - (right - left) * drawn_at) for each in wide) < 0.01
    assert page.figure.get_size_inches() * 25.4 == pytest.approx([WIDE, HIGH])


def test_the_largest_usual_scale_that_fits_is_taken():
    assert scale_for(50.0, 50.0, (120.0, 120.0)) == (2.0, "2 : 1")
    assert scale_for(100.0, 50.0, (120.0, 120.0)) == (1.0, "1 : 1")
    assert scale_for(1000.0, 50.0, (120.0, 120.0)) == (0.1, "1 : 10")


def test_the_checks_page_shows_every_check_and_every_cure(exhibit):
    said = " ".join(text.get_text() for text in module.checks_page(exhibit).axes.texts)
    assert said.count("pass") == len(exhibit.checks)
    assert "FAIL" not in said


def test_the_checklist_is_there_to_sign(exhibit):
    said = " ".join(text.get_text() for text in module.checklist_page(exhibit).axes.texts)
    assert all(words in said for words in ("Name", "Date", "Signature", *exhibit.checklist[1:3]))


def test_the_pdf_has_a_page_each_and_is_the_same_every_time(exhibit):
    once = module.sheet(exhibit)
    assert once.startswith(b"%PDF")
    assert len(re.findall(rb"/Type /Page\b", once)) == len(PAGES)
    assert once == module.sheet(exhibit)
