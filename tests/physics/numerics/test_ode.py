"""The integrator against closed forms, against an independent one, and by its measured order."""

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from sim.errors import NoAnswerError
from sim.numerics.dop853_batch_step import BatchStepper
from sim.numerics.dop853_scalar_step import ScalarStepper
from sim.numerics.ode import rk4_step, solve


def pendulum(t, state):
    angle, rate = state
    sin = np.sin if isinstance(angle, np.ndarray) else math.sin
    return rate, -9.0 * sin(angle) + 0.3 * math.cos(2.0 * t)


def two_bodies(t, state):
    x, y, u, v = state
    cube = (x * x + y * y) ** 1.5
    return u, v, -x / cube, -y / cube


def order(errors):
    """Return how many times the error halves when the step does, from the last two errors."""
    return math.log2(errors[-2] / errors[-1])


def test_agrees_with_an_independent_integrator():
    times = np.linspace(0.0, 10.0, 11)
    theirs = solve_ivp(pendulum, (0.0, 10.0), (1.2, 0.4), method="DOP853", t_eval=times, rtol=1e-13, atol=1e-13)
    ours = solve(pendulum, (1.2, 0.4), times, rtol=1e-12, atol=1e-12)
    assert np.abs(ours.states - theirs.y.T).max() < 1e-10


def test_the_error_follows_the_tolerance():
    times = np.linspace(0.0, 2.0 * math.pi, 9)
    start = (0.5, 0.0, 0.0, math.sqrt(3.0))
    errors = [
        np.abs(solve(two_bodies, start, times, rtol=allowed, atol=allowed).states[-1] - start).max()
        for allowed in (1e-6, 1e-9, 1e-12)
    ]
    assert errors[0] < 1e-4
    assert errors[1] < 1e-7
    assert errors[2] < 1e-9
    assert errors[0] > errors[1] > errors[2]


def test_equal_steps_are_of_order_eight():
    start = (1.0, 0.0, 0.0, 1.0)
    errors = [
        np.abs(solve(two_bodies, start, (0.0, 2.0 * math.pi), step_s=2.0 * math.pi / n).states[-1] - start).max()
        for n in (15, 30)
    ]
    assert order(errors) == pytest.approx(8.0, abs=0.4)


def test_the_live_step_is_of_order_four():
    errors = []
    for count in (200, 400):
        state, h = (1.0, 0.0), 2.0 * math.pi / count
        for i in range(count):
            state = rk4_step(lambda t, y: (y[1], -y[0]), i * h, state, h)
        errors.append(math.hypot(state[0] - 1.0, state[1]))
    assert order(errors) == pytest.approx(4.0, abs=0.1)


def test_the_live_step_serves_rows_and_floats_alike():
    rows = np.array([[1.0, 0.5], [0.2, -0.3]])
    found = rk4_step(pendulum, 0.1, rows, 0.05)
    assert isinstance(found, np.ndarray)
    assert found[:, 1] == pytest.approx(rk4_step(pendulum, 0.1, (0.5, -0.3), 0.05), rel=1e-15)


@pytest.mark.parametrize("step_s", [None, 0.05])
def test_rows_and_floats_agree(step_s):
    times = np.linspace(0.0, 3.0, 7)
    starts = np.array([[1.0, 0.2, 2.5], [0.0, 1.0, -0.4]])
    together = solve(pendulum, starts, times, step_s=step_s, rtol=1e-12, atol=1e-12).states
    assert together.shape == (7, 2, 3)
    for column in range(3):
        alone = solve(pendulum, starts[:, column], times, step_s=step_s, rtol=1e-12, atol=1e-12).states
        assert together[:, :, column] == pytest.approx(alone, abs=1e-11 if step_s is None else 1e-13)


def test_errors_as_large_as_allowed_have_the_norm_one_and_a_step_has_one_error_in_rows_and_floats():
    start = (1.0, -2.0, 0.5, 3.0)
    floats = ScalarStepper(two_bodies, start, rtol=0.1, atol=0.01)
    rows = BatchStepper(two_bodies, np.array(start)[:, None], rtol=0.1, atol=0.01)
    allowed = [0.01 + 0.1 * abs(value) for value in start]
    assert floats.norm(allowed) == pytest.approx(1.0, rel=1e-15)
    assert floats.norm([allowed[0], 0.0, 0.0, 0.0]) == pytest.approx(0.5, rel=1e-15)
    assert rows.norm(np.array(allowed)[:, None]) == pytest.approx(1.0, rel=1e-15)
    steps = [each.attempt(0.0, 0.8, 0.8, with_error=True) for each in (floats, rows)]
    assert steps[0] == pytest.approx(steps[1], rel=1e-9)


def test_blocks_of_columns_change_nothing():
    class Cut:
        """A right-hand side that can be cut, each column with a frequency of its own."""

        def __init__(self, square):
            self.square = square

        def __call__(self, t, state):
            return state[1], -self.square * state[0]

        def columns(self, start, stop):
            return Cut(self.square[start:stop])

    square = np.linspace(1.0, 4.0, 11)
    state = np.vstack([np.ones(11), np.zeros(11)])
    stepper = BatchStepper(Cut(square), state, rtol=1e-9, atol=1e-9, block=4)
    for i in range(10):
        assert stepper.attempt(0.1 * i, 0.1, 0.1 * i + 0.1, with_error=True) < 1.0
        stepper.accept()
    assert stepper.state[0] == pytest.approx(np.cos(np.sqrt(square)), abs=1e-10)
    assert stepper.rates(1.0) == pytest.approx(np.vstack([stepper.state[1], -square * stepper.state[0]]), rel=1e-15)


@pytest.mark.parametrize("step_s", [None, 0.3])
@pytest.mark.parametrize("kind", [tuple, lambda state: np.array(state)[:, None]])
def test_a_discontinuity_is_met_exactly(step_s, kind):
    """Pushed for a second and a half at 2, then pulled at −1: speed and way by hand."""

    def pushed(t, state):
        return state[1], 2.0 if t < 1.5 else -1.0

    found = solve(pushed, kind((0.0, 0.0)), (0.0, 1.0, 1.5, 4.0), step_s=step_s, breakpoints_s=(1.5,)).states
    assert found.reshape(4, 2)[:, 1] == pytest.approx([0.0, 2.0, 3.0, 0.5], abs=1e-13)
    assert found.reshape(4, 2)[:, 0] == pytest.approx([0.0, 1.0, 2.25, 2.25 + 7.5 - 3.125], abs=1e-13)


def test_a_discontinuity_between_output_times_is_met_too():
    found = solve(lambda t, y: (2.0 if t < 1.5 else -1.0,), (0.0,), (0.0, 4.0), breakpoints_s=(1.5, 9.0))
    assert found.time_s.tolist() == [0.0, 4.0]
    assert found.states[-1, 0] == pytest.approx(0.5, abs=1e-13)


def diverging(t, state):
    return (state[0] * state[0],)


@pytest.mark.parametrize("state", [(1.0,), np.ones((1, 2))])
def test_a_diverging_state_is_reported_with_its_time(state):
    """The solution 1 / (1 − t) has no value at 1 s."""
    with pytest.raises(NoAnswerError) as caught:
        solve(diverging, state, (0.0, 2.0))
    assert str(caught.value) == (
        "no solution after 1 s: the step became too small; allow a larger error, or look for an input that makes the "
        "state diverge"
    )


@pytest.mark.parametrize("state", [(1.0,), np.ones((1, 2))])
def test_divergence_in_fixed_steps_is_reported_with_its_time(state):
    with pytest.raises(NoAnswerError) as caught:
        solve(lambda t, y: (y[0] * y[0] * y[0],), state, (0.0, 20.0), step_s=0.5)
    assert str(caught.value) == "the state diverges after 0.5 s; use steps shorter than 0.5 s"


def test_a_division_by_zero_counts_as_divergence():
    with pytest.raises(NoAnswerError, match=r"^no solution after 0\.\d+ s: the step became too small;"):
        solve(lambda t, y: (-1.0 / y[0],), (1.0,), (0.0, 1.0))


def test_an_exception_in_the_right_hand_side_is_passed_on():
    def wrong(t, state):
        return {}["rudder"]

    with pytest.raises(KeyError, match="rudder"):
        solve(wrong, (1.0,), (0.0, 1.0))
