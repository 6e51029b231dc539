"""Marks on paper: a view takes just as much room as what is drawn, at the largest usual scale that fits."""

import math

import pytest

from viz.drawings.marks import LETTER_ADVANCE, Note, Ring, Stroke, box_of, dimension, turned
from viz.drawings.view import SCALES, View, fitted, ratio

EDGE_MM = 0.2


def square(side):
    return lambda scale: View((Stroke([(0.0, 0.0), (side * scale, side * scale)], "cut"),), scale, "a square")


@pytest.mark.parametrize(
    ("side", "scale", "words"),
    [(50.0, 2.0, "2 : 1"), (100.0, 1.0, "1 : 1"), (230.0, 0.5, "1 : 2"), (500.0, 0.2, "1 : 5"), (9e3, 0.1, "1 : 10")],
)
def test_the_largest_usual_scale_that_fits_is_taken(side, scale, words):
    assert fitted(square(side), (120.0, 120.0)).scale == scale
    assert ratio(scale) == words


def test_both_sides_must_fit():
    long = lambda scale: View((Stroke([(0.0, 0.0), (10.0 * scale, 100.0 * scale)], "cut"),), scale, "")  # noqa: E731
    assert fitted(long, (120.0, 60.0)).scale == 0.5
    assert fitted(long, (120.0, 120.0)).scale == 1.0
    assert sorted(SCALES, reverse=True) == list(SCALES)


def test_a_box_takes_in_lines_circles_and_words():
    assert box_of([Stroke([(1.0, 2.0), (4.0, -3.0)], "cut")]) == pytest.approx(
        (1.0 - EDGE_MM, -3.0 - EDGE_MM, 4.0 + EDGE_MM, 2.0 + EDGE_MM)
    )
    assert box_of([Ring((1.0, 2.0), 6.0, "cut")]) == pytest.approx((-2.2, -1.2, 4.2, 5.2))
    left, bottom, right, top = box_of([Note("four", (10.0, 5.0), "thin", 2.0)])
    assert right - left - 2.0 * EDGE_MM == pytest.approx(4.0 * LETTER_ADVANCE * 2.0)
    assert (left + right) / 2.0 == pytest.approx(10.0)
    assert (bottom + top) / 2.0 == pytest.approx(5.0)


def test_words_start_or_end_at_their_anchor_and_turn_about_it():
    length = 4.0 * LETTER_ADVANCE * 2.0
    starts = Note("four", (0.0, 0.0), "thin", 2.0, "start").corners()
    ends = Note("four", (0.0, 0.0), "thin", 2.0, "end").corners()
    assert max(x for x, _ in starts) == pytest.approx(length)
    assert min(x for x, _ in ends) == pytest.approx(-length)
    upright = Note("four", (0.0, 0.0), "thin", 2.0, "start", turned_deg=90.0).corners()
    assert max(y for _, y in upright) == pytest.approx(length)


@pytest.mark.parametrize(("end", "turned_deg"), [((40.0, 0.0), 0.0), ((0.0, 25.0), 90.0)])
def test_a_dimension_spans_its_ends_and_stands_beside_its_line(end, turned_deg):
    line, *others = dimension((0.0, 0.0), end, "40.00")
    assert line.points == [(0.0, 0.0), end]
    *_, note = others
    assert (note.text, note.turned_deg) == ("40.00", turned_deg)
    along = (note.at[0] * end[0] + note.at[1] * end[1]) / math.hypot(*end)
    aside = (note.at[1] * end[0] - note.at[0] * end[1]) / math.hypot(*end)
    assert along == pytest.approx(math.hypot(*end) / 2.0)
    assert aside > note.letter_mm / 2.0
    tips = [mark.points[1] for mark in others if isinstance(mark, Stroke) and len(mark.points) == 3]
    assert tips == [(0.0, 0.0), end]


def test_a_chain_is_turned_about_the_origin_before_it_is_moved():
    assert turned([(1.0, 0.0)], (10.0, 5.0), math.pi / 2.0)[0] == pytest.approx((10.0, 6.0))
