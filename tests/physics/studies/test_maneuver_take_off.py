"""A take-off in time: beside the run of `field`, its swing by the rotor, its mirror, and what it refuses."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.errors import InputError, NoAnswerError
from sim.flight.crosswind import rudder_share
from sim.flight.motion import Controls, motion_of_floats
from sim.model.model import model
from sim.studies.field_place import FieldPlace
from sim.studies.maneuver import maneuver
from sim.studies.maneuver_history import history_columns
from sim.studies.maneuver_take_off import take_off_rates, taken_off
from sim.studies.stall_entry import level_stall_m_s

TIMES_S = np.arange(0.0, 12.01, 0.05)
EACH = tuple((path, name) for path in (BIPLANE, TRIPLANE, TWO_SEATER) for name in built(path).powerplants)
"""Rotaries that turn either way, fixed engines, geared and not; light and heavy airplanes."""


@cache
def off_by(path, name):
    """Return a take-off with one engine, its columns beside it."""
    off = taken_off(built(path), built(path).airplane(name), TIMES_S)
    return off, history_columns(off.history)


@pytest.fixture(scope="module")
def flown():
    """Return a take-off of the biplane with each engine."""
    return {name: off_by(BIPLANE, name) for name in ("rotary", "flat_four")}


@pytest.mark.parametrize(("path", "name"), EACH)
def test_it_answers_as_the_run_of_the_field_does(path, name):
    """Run within 5 %, speed of lift-off within 4 %, greatest rudder on the ground within 12 % of the travel.

    The nose takes its time here, which lengthens the run, and the strips and the slipstream lift a little; the tail
    comes up faster in the middle of its way than at the even rate of `field`, and its swing is greater by as much.
    """
    own, (off, columns) = answer("field", path).powerplants[name], off_by(path, name)
    assert off.ground_run_m == pytest.approx(own.ground_run_m, rel=0.05)
    assert off.lift_off_m_s == pytest.approx(own.lift_off_m_s, rel=0.04)
    rolls = off.lift_off_s > TIMES_S
    share = off.history.rudder_rad[rolls] / built(path).airplane(name).travel.rudder_rad
    most = share[np.argmax(np.abs(share))]
    assert most == pytest.approx(own.raising_share, abs=0.12)
    assert abs(most) > 0.95 * abs(own.raising_share)
    said = off.field_lift_off_m_s, off.field_run_m, off.field_rudder_share
    assert said == pytest.approx((own.lift_off_m_s, own.ground_run_m, own.raising_share))
    stall_m_s = level_stall_m_s(built(path).airplane(name))
    assert off.climb_m_s == pytest.approx(max(1.2 * stall_m_s, own.lift_off_m_s))
    assert columns["speed_m_s"][-1] == pytest.approx(off.climb_m_s, rel=0.1)  # still settling


@pytest.mark.parametrize(("path", "name"), EACH)
def test_where_the_tail_comes_up_fastest_its_rudder_is_that_of_the_balance_of_moments(path, name):
    """At that speed, attitude and rate the nose turns evenly, so that the pilot's rudder is what holds the swing."""
    off, _ = off_by(path, name)
    flying, history = built(path).airplane(name), off.history
    fastest = int(np.argmin(history.state[11]))
    held = rudder_share(
        FieldPlace(built(path), flying, built(path).stance(), surface="short grass", headwind_m_s=0.0).wheels(1.0),
        flying.travel,
        Controls(elevator_rad=history.elevator_rad[fastest], throttle=1.0),
        speed_m_s=np.array([np.linalg.norm(history.state[7:10, fastest])]),
        pitch_rad=np.radians(history_columns(history)["pitch_deg"][fastest]),
        pitching_rad_s=history.state[11][fastest],
        spin_rad_s=history.state[13][fastest],
    )
    assert history.rudder_rad[fastest] / flying.travel.rudder_rad == pytest.approx(float(held[0]), abs=0.035)


@pytest.mark.parametrize(("path", "name"), EACH)
def test_where_the_nose_comes_up_the_strips_take_over_without_a_jump(path, name):
    off, columns = off_by(path, name)
    flying, history = built(path).airplane(name), off.history
    before = int(np.argmax(columns["speed_m_s"] > 0.9 * off.field_lift_off_m_s))
    controls = Controls(history.elevator_rad[before], history.aileron_rad[before], history.rudder_rad[before], 1.0)
    state = tuple(history.state[:, before])
    rates = [np.array(motion_of_floats(one)(state, controls)[7:13]) for one in (flying.airplane, flying.flown)]
    assert rates[1] == pytest.approx(rates[0], rel=0.01, abs=0.01)


def test_beyond_the_stall_it_flies_the_strips_and_slower_than_the_nose_comes_up_attached_flow():
    flying = built(BIPLANE).airplane("rotary")
    half = 0.5 * np.radians(45.0)
    stalled = (0.0, 0.0, -900.0, np.cos(half), 0.0, np.sin(half), 0.0, 12.0, 0.0, 16.0, 0.1, 0.2, 0.05, 120.0)
    controls = Controls(-0.2, 0.05, 0.1, 1.0)
    attached, strips = (motion_of_floats(one)(stalled, controls) for one in (flying.airplane, flying.flown))
    assert np.linalg.norm(np.subtract(strips[7:13], attached[7:13])) > 1.0
    assert take_off_rates(flying, (), 19.9)(stalled, controls) == strips
    assert take_off_rates(flying, (), 20.1)(stalled, controls) == attached


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
    assert least["rotary"] < 1.5 * least["flat_four"] < 0.0


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
        rudder = off.history.rudder_rad / built(BIPLANE).airplane(flight.powerplant).travel.rudder_rad
        most = float(rudder[np.argmax(np.abs(rudder))])
        assert flight.peak_rudder_share == pytest.approx(most), "with its side, that of the swing of field"
        assert most * flight.field_rudder_share > 0.0
        assert flight.peak_elevator_share > 0.0, "stick forward lifts the tail"
    short = maneuver(built(BIPLANE), "take-off", flown_s=3.0)
    assert [flight.lift_off_s for flight in short.flights] == [None, None]


def test_what_it_refuses():
    with pytest.raises(InputError) as told:
        maneuver(built(BIPLANE), "take-off", speed_m_s=20.0, bands=True, bank_deg=30.0)
    assert [fault.where for fault in told.value.faults] == ["bank_deg", "speed_m_s", "bands"]
    with pytest.raises(InputError, match="must place two main wheels and a tail wheel or skid"):
        maneuver(built(PARASOL), "take-off")
    weak = model(BIPLANE, ("powerplant.rotary.power=9 hp", "powerplant.rotary.windage_power=1 hp"))
    with pytest.raises(NoAnswerError, match=r"full power of rotary .* on this ground; take firmer ground"):
        maneuver(weak, "take-off")
