"""Museum and magazine accounts of single-seaters with a rotary engine that turns clockwise, seen from the cockpit.

Mark P: turning left the nose rises and turning right it falls; the left foot in both turns; stick back in the right
turn and forward in the left. That a turn of 270° to the left was quicker than 90° to the right one of the authors calls
a legend. Asked of the frozen biplane: a level turn of 45° less the same turn without angular momentum.
"""

import pytest
from airplanes import BIPLANE


@pytest.fixture(scope="module")
def share():
    import sim

    found = sim.rotor_effect(BIPLANE).first
    assert found.powerplant == "rotary"
    return found


@pytest.mark.parametrize(("side", "stick"), [("left", "forward"), ("right", "back")])
def test_controls_for_the_rotor(share, side, stick, printed):
    rudder, elevator = (getattr(share, f"{side}_{control}_share") for control in ("rudder", "elevator"))
    assert min(abs(rudder), abs(elevator)) > 0.005
    printed("left" if rudder > 0.0 else "right", "left", row=f"rudder for the rotor in a {side} turn")
    printed("forward" if elevator > 0.0 else "back", stick, row=f"stick for the rotor in a {side} turn")


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_left_foot_presses_for_the_rotor(side, printed):
    """Pedal force of a level turn of 45° less that of the same turn without angular momentum."""
    import numpy as np

    from sim.flight.control_forces import control_forces
    from sim.model.model import model
    from sim.studies.turns import turns, without_rotor

    with_it = model(BIPLANE).airplane("rotary")
    bank = np.radians([-45.0 if side == "left" else 45.0])
    pedals = [
        float(control_forces(one.airplane, one.controls, turns(one, bank)).pedal_n[0])
        for one in (with_it, without_rotor(with_it))
    ]
    difference_n = pedals[0] - pedals[1]
    assert abs(difference_n) > 5.0
    printed("left" if difference_n < 0.0 else "right", "left", row=f"foot for the rotor in a {side} turn")


def test_three_quarters_of_a_turn_are_not_quicker_than_one(printed):
    """Both turns of 45° can be flown, at one rate: the long way round takes three times as long."""
    import sim

    turns = sim.handling(BIPLANE, banks_deg=(-45.0, 45.0)).powerplants["rotary"].turns
    assert all(turn.holds for turn in turns)
    left, right = (abs(turn.turn_rate_deg_s) for turn in turns)
    printed(
        "slower" if 270.0 / left > 90.0 / right else "quicker", "slower", row="270° to the left beside 90° to the right"
    )
    assert left == pytest.approx(right, rel=0.02)
