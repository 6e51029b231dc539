"""What an answer depends on most, where no value with a ± of its own stands out."""

from sim.sweeps.local_sensitivity import Sensitivity, SensitivityInput
from sim.sweeps.outputs import SweepColumn
from viz.sheets.sensitivity import UNSTATED, first

MOVE = SweepColumn("engine_move_m", "engine_move_m", "m", "engine displacement")
SPAN = SensitivityInput(SweepColumn("wing.span", "span_m", "m", "span"), 8.5, 0.01, 0.002)


def test_a_strong_input_goes_first():
    assert first(Sensitivity(MOVE, -0.01, 0.0021, (SPAN,), 0.0006)) == "wing.span"


def test_what_the_scenario_does_not_state_may_hide_every_input():
    assert first(Sensitivity(MOVE, -0.01, 0.1, (SPAN,), 0.0999)) == UNSTATED


def test_nothing_is_said_to_be_nothing():
    assert first(Sensitivity(MOVE, -0.01, 0.0, ())) == "none of the ±"
