"""Every cause of an early or late lamp, each by its own geometry."""

import math

import numpy as np
import pytest

from sim.display.lamp_error import CUTTING_M, DIFFERENTIAL_M, lamp_errors, total


def errors(made, rise=0.5, base=0.03):
    return {
        each.cause: float(each.lamp_error_rad) for each in lamp_errors(made, 2.0, np.asarray(rise), np.asarray(base))
    }


def test_what_shifts_the_lift_is_divided_by_its_slope(display):
    """A cycloidal rise has at half lift a slope of 2 h/β."""
    slope = 0.006 * 2.0 / 0.5
    found = errors(display(output="lamp switch"))
    assert found["setting of the switch"] == pytest.approx(0.0001 / slope)
    assert found["differential of the switch"] == pytest.approx(DIFFERENTIAL_M["lamp switch"] / slope)
    assert found["outline as cut"] == pytest.approx(CUTTING_M / slope)


def test_a_light_beam_is_better_than_a_switch(display):
    assert sum(errors(display(output="light beam")).values()) < sum(errors(display(output="lamp switch")).values())


def test_a_cam_that_turns_twice_as_fast_halves_the_error_and_adds_its_belt(display):
    direct, geared = errors(display()), errors(display(cam={"lobes": 1}))
    assert "play of the belt" in geared
    assert "play of the belt" not in direct
    assert geared["outline as cut"] == pytest.approx(direct["outline as cut"] / 2.0)


def test_the_total_is_the_sum_at_the_worst(display):
    made = display()
    found = lamp_errors(made, 2.0, np.array([0.4, 0.5]), np.asarray(0.03))
    assert total(found).shape == (2,)
    assert math.degrees(total(found)[1]) == pytest.approx(math.degrees(sum(errors(made).values())))
