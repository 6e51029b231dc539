"""Guard openings between the rows of the tables, and the lamp's flashes."""

import math

import pytest

from sim.display.guard import contrast, most_crank_speed, safety_distance, widest_opening
from sim.errors import NoAnswerError


def test_between_two_rows_the_larger_distance_counts():
    assert safety_distance(0.0061, "slot", "public") == 0.040
    assert safety_distance(0.0060, "slot", "public") == 0.020


@pytest.mark.parametrize("place", ["public", "workshop"])
@pytest.mark.parametrize("shape", ["slot", "square", "round"])
def test_a_wider_opening_never_needs_less(place, shape):
    wide = [step / 2000.0 for step in range(1, 200)]
    far = [safety_distance(each, shape, place) for each in wide]
    assert far == sorted(far)
    assert far[-1] >= 0.850


@pytest.mark.parametrize("shape", ["slot", "square", "round"])
def test_children_need_at_least_the_distance_of_grown_ups(shape):
    for step in range(1, 200):
        assert safety_distance(step / 2000.0, shape, "public") >= safety_distance(step / 2000.0, shape, "workshop")


def test_a_short_slot_stops_the_thumb_in_a_workshop_only():
    assert safety_distance(0.030, "slot", "workshop", 0.065) == 0.200
    assert safety_distance(0.030, "slot", "workshop", 0.066) == 0.850
    assert safety_distance(0.030, "slot", "public", 0.065) == 0.900


def test_the_widest_opening_is_the_last_that_fits():
    for shape in ("slot", "square", "round"):
        widest = widest_opening(0.100, shape, "public")
        assert safety_distance(widest, shape, "public") <= 0.100
        assert safety_distance(widest + 0.0001, shape, "public") > 0.100
    assert widest_opening(0.001, "slot", "public") == 0.0


def test_an_opening_beyond_the_table_has_no_distance():
    with pytest.raises(NoAnswerError) as told:
        safety_distance(0.101, "slot", "public")
    assert str(told.value) == (
        "a guard opening of 101 mm lets a whole person's arm through; "
        "ISO 13857 knows none above 100 mm, so take a smaller opening"
    )


@pytest.mark.parametrize(("flashes", "rpm"), [(1, 180.0), (2, 90.0), (4, 45.0)])
def test_the_crank_turns_at_most_180_over_the_flashes(flashes, rpm):
    assert most_crank_speed(flashes) * 30.0 / math.pi == pytest.approx(rpm)


def test_contrast_does_not_care_which_is_the_ink():
    assert contrast("#123456", "#fedcba") == contrast("#fedcba", "#123456")
    assert contrast("#336699", "#336699") == 1.0
