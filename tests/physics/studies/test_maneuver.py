"""The numbers that a manoeuvre is told by are those of its history, each under the pilot's own word."""

import numpy as np
import pytest
from airplanes import BIPLANE

from sim.model.model import model
from sim.studies.maneuver import maneuver


@pytest.fixture(scope="module")
def flown():
    """Return the function (name, further words) -> flights by powerplant and side, with their histories."""

    def fly(name, **further):
        found = maneuver(model(BIPLANE), name, **further)
        flights = zip(found.flights, found.histories, strict=True)
        return {(flight.powerplant, flight.side): (flight, columns) for flight, columns in flights}

    return fly


@pytest.mark.parametrize("name", ["rudder-kick", "pull", "roll-in", "turn", "blip", "slam"])
def test_every_number_is_read_off_its_history(flown, name):
    for flight, columns in flown(name, flown_s=6.0).values():
        pitch, heading, height = (columns[key] - columns[key][0] for key in ("pitch_deg", "heading_deg", "altitude_m"))
        assert (flight.nose_up_deg, -flight.nose_down_deg) == (max(pitch.max(), 0.0), min(pitch.min(), 0.0))
        assert (flight.nose_right_deg, -flight.nose_left_deg) == (max(heading.max(), 0.0), min(heading.min(), 0.0))
        assert (flight.height_gained_m, -flight.height_lost_m) == (max(height.max(), 0.0), min(height.min(), 0.0))
        bank, force = columns["bank_deg"], columns["load_factor"]
        assert (flight.bank_right_deg, -flight.bank_left_deg) == (max(bank.max(), 0.0), min(bank.min(), 0.0))
        assert flight.peak_sideslip_deg == np.abs(columns["sideslip_deg"]).max()
        assert (flight.least_load_factor, flight.greatest_load_factor) == (force.min(), force.max())


@pytest.mark.parametrize("engine", ["rotary", "flat_four"])
def test_each_side_goes_where_its_word_says(flown, engine):
    roll, pull, kick = (flown(name, flown_s=3.0) for name in ("roll-in", "pull", "rudder-kick"))
    assert roll[engine, "right"][0].bank_right_deg > 20.0 > 1.0 > roll[engine, "right"][0].bank_left_deg
    assert roll[engine, "left"][0].bank_left_deg > 20.0 > 1.0 > roll[engine, "left"][0].bank_right_deg
    assert kick[engine, "right"][0].nose_right_deg > 10.0 < kick[engine, "left"][0].nose_left_deg
    up, down = (pull[engine, side][0] for side in ("up", "down"))
    assert up.nose_up_deg > 10.0 < down.nose_down_deg
    assert up.height_gained_m > 5.0 < down.height_lost_m
    assert up.greatest_load_factor > 1.5 > 0.5 > down.least_load_factor


def test_the_time_to_a_quarter_of_a_circle(flown):
    for (_, side), (flight, columns) in flown("turn", flown_s=10.0).items():
        sign = 1.0 if side == "right" else -1.0
        there = np.interp(90.0, sign * (columns["heading_deg"] - columns["heading_deg"][0]), columns["time_s"])
        assert 0.0 <= flight.time_to_90_s - there <= 0.05
