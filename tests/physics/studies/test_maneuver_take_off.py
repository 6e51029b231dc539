"""A take-off in time: beside the run of `field`, its swing by the rotor, its mirror, and what it refuses."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL
from shared import answer, built

from sim.errors import InputError, NoAnswerError
from sim.model.model import model
from sim.studies.maneuver import maneuver
from sim.studies.maneuver_history import history_columns
from sim.studies.maneuver_take_off import taken_off

TIMES_S = np.arange(0.0, 12.01, 0.05)


@pytest.fixture(scope="module")
def flown():
    """Return a take-off with each engine, its columns beside it."""
    found = {}
    for name in ("rotary", "flat_four"):
        off = taken_off(built(BIPLANE), built(BIPLANE).airplane(name), TIMES_S)
        found[name] = off, history_columns(off.history)
    return found


@pytest.mark.parametrize("name", ["rotary", "flat_four"])
def test_up_to_the_speed_of_lift_off_it_is_the_run_of_the_field(flown, name):
    """That run knows of no springs, of no rudder's drag and of the ground's share of the induced drag."""
    own, (_, columns) = answer("field", BIPLANE).powerplants[name], flown[name]
    at = int(np.argmax(columns["speed_m_s"] >= own.lift_off_m_s))
    assert columns["time_s"][at] == pytest.approx(own.take_off_time_s, rel=0.05)
    assert columns["north_m"][at] == pytest.approx(own.ground_run_m, rel=0.05)
    assert columns["pitch_deg"][0] == pytest.approx(own.tail_down_deg)


@pytest.mark.parametrize("name", ["rotary", "flat_four"])
def test_it_rolls_leaves_the_ground_and_climbs_straight(flown, name):
    off, columns = flown[name]
    height = columns["altitude_m"] - columns["altitude_m"][0]
    rolled = columns["time_s"] < off.lift_off_s
    assert np.abs(height[rolled]).max() < 0.5  # the centre of gravity rises and sinks with the tail
    assert height[-1] > 15.0
    assert (np.diff(height[columns["time_s"] > off.lift_off_s + 1.0]) > 0.0).all()
    assert off.ground_run_m == pytest.approx(np.interp(off.lift_off_s, columns["time_s"], columns["north_m"]))
    assert np.abs(columns["heading_deg"]).max() < 8.0
    assert np.abs(columns["east_m"]).max() < 4.0
    assert columns["load_factor"][0] == pytest.approx(1.0, abs=0.15)


def test_the_nose_swings_left_as_the_tail_comes_up_and_more_with_the_rotary(flown):
    least = {}
    for name, (_, columns) in flown.items():
        rises = np.gradient(columns["pitch_deg"], columns["time_s"]) < -2.0
        least[name] = columns["heading_deg"][rises].min()
    assert least["rotary"] < 1.7 * least["flat_four"] < 0.0


def test_an_engine_that_turns_the_other_way_mirrors_it(flown):
    flying = built(BIPLANE).airplane("rotary")
    engine = replace(flying.airplane.engine, rotation=-flying.airplane.engine.rotation)
    times = TIMES_S[TIMES_S < 7.0]
    off = taken_off(built(BIPLANE), replace(flying, airplane=replace(flying.airplane, engine=engine)), times)
    columns, own = history_columns(off.history), flown["rotary"][1]
    for name, sign in (
        ("north_m", 1.0),
        ("pitch_deg", 1.0),
        ("heading_deg", -1.0),
        ("east_m", -1.0),
        ("bank_deg", -1.0),
    ):
        assert columns[name] == pytest.approx(sign * own[name][: times.size], abs=1e-4)


def test_the_answer_holds_lift_off_and_run(flown):
    found = maneuver(built(BIPLANE), "take-off", flown_s=12.0)
    for flight in found.flights:
        off, columns = flown[flight.powerplant]
        assert (flight.lift_off_s, flight.ground_run_m) == (off.lift_off_s, off.ground_run_m)
        assert flight.nose_left_deg == pytest.approx(-columns["heading_deg"].min())
    short = maneuver(built(BIPLANE), "take-off", flown_s=3.0)
    assert [flight.lift_off_s for flight in short.flights] == [None, None]


def test_what_it_refuses():
    with pytest.raises(InputError) as told:
        maneuver(built(BIPLANE), "take-off", speed_m_s=20.0, bands=True, bank_deg=30.0)
    assert [fault.where for fault in told.value.faults] == ["bank_deg", "speed_m_s", "bands"]
    with pytest.raises(InputError, match="must place two main wheels and a tail wheel or skid"):
        maneuver(built(PARASOL), "take-off")
    weak = model(BIPLANE, ("powerplant.rotary.power=9 hp", "powerplant.rotary.windage_power=1 hp"))
    with pytest.raises(NoAnswerError, match=r"rotary: .* on this ground"):
        maneuver(weak, "take-off")
