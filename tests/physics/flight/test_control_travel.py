"""Deflections as fractions of travel."""

from types import SimpleNamespace

import numpy as np
import pytest

from sim.flight.control_travel import Travel


def test_the_elevator_has_a_travel_up_and_another_down():
    travel = Travel(elevator_up_rad=0.5, elevator_down_rad=0.4, aileron_rad=0.3, rudder_rad=0.2)
    deflections = SimpleNamespace(
        elevator_rad=np.array([-0.25, 0.3, 0.0]),
        aileron_rad=np.array([0.3, -0.15, 0.0]),
        rudder_rad=np.array([-0.3, 0.1, 0.0]),
    )
    fractions = travel.shares(deflections)
    assert fractions["elevator"] == pytest.approx([-0.5, 0.75, 0.0])
    assert fractions["aileron"] == pytest.approx([1.0, -0.5, 0.0])
    assert fractions["rudder"] == pytest.approx([-1.5, 0.5, 0.0])
