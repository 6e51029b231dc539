"""Answers beyond the range of validity say so, and where; within it they say nothing."""

import math

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.flight.turn_limits import limits_met
from sim.flight.validity import passed, passed_in_turns
from sim.model.model import model
from sim.studies.compare import compare
from sim.studies.derivatives import derivatives
from sim.studies.handling import handling
from sim.studies.maneuver import maneuver
from sim.studies.modes import modes
from sim.studies.rotor_effect import rotor_effect
from sim.studies.speeds import speeds
from sim.studies.turns import turns


@pytest.fixture(scope="module")
def triplane():
    return model(TRIPLANE)


@pytest.mark.parametrize("speed_m_s", [20.0, 23.0, 27.0, 36.0])
def test_turns_of_handling_are_marked_where_lift_nears_the_greatest(triplane, speed_m_s):
    """Where attached flow would give CLmax the bounded lift is (1 + 1)^(-1/8) of it: .917."""
    banks = (-60.0, -45.0, -20.0, 0.0, 20.0, 45.0, 60.0)
    answer = handling(triplane, speed_m_s=speed_m_s, banks_deg=banks)
    for flying in triplane.airplanes(speed_m_s=speed_m_s):
        ratio = turns(flying, np.radians(banks)).only_found().lift_ratio
        found = answer.powerplants[flying.name]
        assert ["stall" in turn.beyond for turn in found.turns] == (ratio > 2.0**-0.125).tolist()
        assert ("stall" in found.modes_beyond) == ("stall" in found.turns[3].beyond)


@pytest.mark.slow
def test_every_turn_that_holds_near_the_greatest_lift_is_marked(triplane):
    """Of CLmax .917 is the bound, .98 the limit: between them a turn holds and is marked."""
    between = [
        turn
        for speed in np.arange(19.0, 30.0, 0.25)
        for turn in handling(triplane, speed_m_s=float(speed), banks_deg=(30.0,)).powerplants["geared_six"].turns
        if turn.holds and "stall" in turn.beyond
    ]
    assert between


def test_turns_of_compare_are_marked_like_those_of_handling():
    asked = model(BIPLANE, ["flight.speed=57 mph"])
    turns = handling(asked, banks_deg=(-60.0, -45.0, -30.0, 30.0, 45.0, 60.0)).powerplants
    for name, one in compare(asked).powerplants.items():
        assert [turn.beyond for turn in one.turns] == [turn.beyond for turn in turns[name].turns]
        assert [bool(turn.beyond) for turn in one.turns][1:5] == [False] * 4
    assert any(turn.beyond for one in turns.values() for turn in one.turns)


def test_modes_say_that_their_flight_is_beyond():
    asked = model(BIPLANE)
    near = modes(asked, speed_m_s=0.96 * derivatives(asked).stall_m_s).flights
    far = modes(asked, speed_m_s=1.3 * derivatives(asked).stall_m_s).flights
    assert {flight.beyond for flight in near} == {("stall",)}
    assert {flight.beyond for flight in far} == {()}


@pytest.mark.parametrize("powerplant", ["rotary", "geared_six"])
def test_derivatives_know_the_stall(triplane, powerplant):
    """The stalling speed is that of level flight at the greatest lift, whatever speed is asked for."""
    fast = derivatives(triplane, powerplant=powerplant, speed_m_s=45.0)
    slow = derivatives(triplane, powerplant=powerplant, speed_m_s=12.0)
    assert fast.beyond == ()
    assert slow.beyond == ("stall",)
    assert slow.lift_level > slow.lift_max > fast.lift_level
    assert slow.stall_m_s == pytest.approx(fast.stall_m_s, rel=1e-12)
    assert slow.loads.lift_coefficient == slow.lift_max
    at = derivatives(triplane, powerplant=powerplant, speed_m_s=fast.stall_m_s)
    assert at.lift_level == pytest.approx(at.lift_max, rel=1e-12)
    assert fast.stall_m_s == pytest.approx(speeds(triplane, powerplant=powerplant).stall_m_s, rel=0.02)


def test_a_gentle_flight_is_valid_throughout(triplane):
    for flight in maneuver(triplane, "blip", flown_s=3.0).flights:
        assert (flight.valid_until_s, flight.beyond) == (None, ())


def test_a_history_ends_its_validity_where_sideslip_reaches_the_bound(triplane):
    answer = maneuver(triplane, "rudder-kick", share=1.0, held_s=2.0)
    for flight, columns in zip(answer.flights, answer.histories, strict=True):
        slip = np.abs(columns["sideslip_deg"])
        assert flight.beyond[0] == "sideslip"
        first = np.flatnonzero(columns["time_s"] >= flight.valid_until_s)[0]
        assert slip[first] > 15.0 * math.cos(math.radians(1.0)) > 14.9
        assert slip[: first - 1].max() < 15.0
        assert flight.peak_sideslip_deg > 15.0


def test_speeds_that_pass_a_bound_are_named():
    """A gear ratio that lets the tips of the four-cylinder pass Mach .85, at the same power, at top speed first."""
    plain, fast = (speeds(model(BIPLANE, settings), powerplant="rotary").beyond for settings in ([], FAST))
    assert plain == {"rotary": {}, "flat_four": {}}
    assert "tip Mach" in fast["flat_four"]["top_m_s"]
    assert fast["rotary"] == {}


FAST = ["powerplant.flat_four.propeller.diameter=88 in", "powerplant.flat_four.propeller.pitch=40 in"]


def test_impulse_responses_are_valid_at_cruise():
    for one in compare(model(BIPLANE)).powerplants.values():
        assert [response.valid_until_s for response in one.disturbances] == [None, None]


def test_a_slow_pull_up_passes_the_stall():
    slow = 1.02 * derivatives(model(BIPLANE)).stall_m_s
    for one in compare(model(BIPLANE, [f"flight.speed={slow} m/s"])).powerplants.values():
        pull = next(response for response in one.disturbances if response.input == "pull-up")
        assert pull.beyond[0] == "stall"
        assert 0.0 < pull.valid_until_s < 1.5


def test_bounds_without_a_measure_are_not_compared():
    assert list(passed({"mach": np.array([0.1, 0.4])})) == ["Mach"]
    assert passed({"mach": np.array([0.1, 0.4])})["Mach"].tolist() == [False, True]


@pytest.mark.parametrize("speed_m_s", [20.0, 27.0, 40.0])
def test_the_steepest_banks_are_marked_where_lift_ends_them(speed_m_s):
    """At the bank itself: flown alone it passes the same bounds; where CLmax ends it, that is the stall."""
    asked = model(BIPLANE)
    found = handling(asked, speed_m_s=speed_m_s, banks_deg=(0.0,)).powerplants["flat_four"]
    flying = asked.airplane("flat_four", speed_m_s=speed_m_s)
    for bank, beyond in (
        (found.steepest_left_deg, found.steepest_left_beyond),
        (found.steepest_right_deg, found.steepest_right_beyond),
    ):
        (alone,) = handling(asked, speed_m_s=speed_m_s, banks_deg=(bank,)).powerplants["flat_four"].turns
        assert alone.beyond == beyond
        past = turns(flying, np.radians([bank, 1.002 * bank]))
        assert ("stall" in beyond) is bool(past.lift_ratio[0] > 2.0**-0.125)
        assert "stall" in beyond or limits_met(past, flying.travel)[1] != "CLmax"


def test_the_speed_that_doubles_the_rotors_share_is_marked_like_the_turn_there():
    asked = model(BIPLANE)
    found = rotor_effect(asked).doubling
    flying = asked.airplane(rotor_effect(asked).first.powerplant)
    bank = math.radians(45.0 if found.side == "right" else -45.0)
    there = turns(flying, bank, speed_m_s=[found.speed_m_s, 1.001 * found.slowest_m_s])
    at_doubling, slowest = passed_in_turns(flying.airplane, there)
    assert found.beyond == at_doubling
    assert "stall" in slowest
