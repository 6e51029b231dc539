"""The clock gives whole steps, loses no time, and lets no backlog pile up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from viz.stage.clock import StepClock

STEP_S = 1.0 / 120.0


def test_a_frame_of_a_sixtieth_is_two_steps():
    clock = StepClock(STEP_S)
    assert [clock.tick(1.0 / 60.0)[0] for _ in range(50)] == [2] * 50


def test_the_blend_is_how_far_into_the_last_step_the_picture_is():
    steps, blend = StepClock(STEP_S).tick(2.25 * STEP_S)
    assert steps == 3
    assert blend == pytest.approx(0.25)


def test_a_long_frame_is_cut_to_the_backlog():
    steps, blend = StepClock(STEP_S, max_backlog_s=0.1).tick(30.0)
    assert (steps, blend) == (12, pytest.approx(1.0))


def test_time_that_runs_backwards_is_no_time():
    assert StepClock(STEP_S).tick(-1.0) == (0, 1.0)


def test_cleared_it_has_forgotten_what_had_piled_up():
    clock = StepClock(STEP_S)
    clock.tick(0.5 * STEP_S)
    clock.clear()
    assert clock.tick(0.6 * STEP_S)[0] == 1


@given(st.lists(st.floats(0.0, 0.05), max_size=60))
def test_steps_and_blend_add_up_to_the_time_that_passed(frames):
    clock = StepClock(STEP_S)
    taken = [clock.tick(elapsed) for elapsed in frames]
    steps = sum(step for step, _ in taken)
    ahead = 1.0 - taken[-1][1] if taken else 0.0
    assert (steps - ahead) * STEP_S == pytest.approx(sum(frames), abs=1e-6)
