"""Bands of manoeuvres: many flights at once, each as it is alone, to either side; what is certain has no width."""

from dataclasses import replace

import numpy as np
import pytest
from drawn import alone, sure
from shared import built

from sim.flight.actuation import fly
from sim.flight.maneuver import MANEUVERS, adjusted, plan
from sim.flight.many_airplanes import only_of
from sim.studies import bands
from sim.studies.maneuver import maneuver
from sim.studies.maneuver_bands import Asked, banded, drawn_flights
from sim.studies.maneuver_history import history_columns, peaks
from sim.studies.turns import turns
from sim.units.quantities import band_ends

BANK_RAD = np.radians(40.0)
TIMES_S = np.arange(0.0, 5.01, 0.05)
NAMES = ("nose_up_deg", "nose_down_deg", "bank_right_deg", "bank_left_deg", "height_lost_m", "peak_rudder_share")


def asked(name):
    return Asked(name, adjusted(MANEUVERS[name], share=None, held_s=None, flown_s=5.0), BANK_RAD, TIMES_S)


def flown_alone(airplane, travel, question, sign, start, number):
    """Return the largest values of one flight by the functions of one."""
    state, controls = tuple(start.state[:, number].tolist()), start.controls(number)
    ready = plan(
        question.name,
        airplane,
        travel,
        maneuver=question.kind,
        sign=sign,
        bank_rad=BANK_RAD,
        state=state,
        controls=controls,
    )
    history = fly(
        airplane,
        travel,
        ready.control_law,
        state=state,
        controls=controls,
        times_s=TIMES_S,
        breakpoints_s=ready.breakpoints_s,
    )
    return history, peaks(history_columns(history), travel.shares(history))


@pytest.mark.parametrize("name", ["rudder-kick", "pull", "roll-in", "turn", "reversal", "blip", "slam"])
def test_each_of_many_flies_as_it_would_alone(name):
    """In equal steps of 50 ms and in adapted ones: to 0.03° of attitude, 0.2 % of travel, 0.03 m of height."""
    flying, question = built().airplane("rotary"), asked(name)
    few = only_of(bands.drawn_flying(built(), flying, 4).airplane, np.array([0, 0, 3, 3, 9]))
    signs = np.array([1.0, -1.0, 1.0, -1.0, -1.0])
    banked = -signs * BANK_RAD if question.kind.begins_banked else 0.0 * signs
    start = turns(replace(flying, airplane=few), banked, power="idle" if name == "slam" else None)
    held = np.arange(5)
    many = drawn_flights(few, flying.travel, question, start=start, held=held, signs=signs)
    together = peaks(history_columns(many), flying.travel.shares(many))
    for number in held:
        airplane = alone(few, number)
        history, own = flown_alone(airplane, flying.travel, question, signs[number], start, number)
        for quantity in own:
            allowed = 0.002 if quantity.endswith(("share", "factor")) else 0.051 if quantity == "time_to_90_s" else 0.03
            assert together[quantity][number] == pytest.approx(own[quantity], rel=2e-3, abs=allowed), quantity
        assert many.load_factor[number] == pytest.approx(history.load_factor, abs=0.005)
        assert many.rudder_rad[number] == pytest.approx(history.rudder_rad, abs=0.003)


def test_what_is_certain_has_a_band_without_width():
    flying, question = built().airplane("flat_four"), asked("roll-in")
    plain = [one for one in maneuver(built(), "roll-in", flown_s=5.0).flights if one.powerplant == "flat_four"]
    for flight, histories in banded(sure(flying), flying, question, plain, seed=1):
        assert flight.flown_probability == 1.0
        for name in NAMES:
            ends = [getattr(flight, end) for end in band_ends(name)]
            assert ends == pytest.approx([getattr(flight, name)] * 2, rel=1e-3, abs=2e-3)
        low, high = histories["bank_deg"]
        assert low == pytest.approx(high, abs=1e-6)


@pytest.fixture(scope="module")
def kick():
    return maneuver(built(), "rudder-kick", flown_s=4.0, bands=True)


def test_a_number_lies_in_its_band_and_a_history_in_its_own(kick):
    for flight, columns, histories in zip(kick.flights, kick.histories, kick.bands, strict=True):
        assert 0.9 < flight.flown_probability <= 1.0
        for name in ("nose_right_deg" if flight.side == "right" else "nose_left_deg", "peak_sideslip_deg"):
            low, high = (getattr(flight, end) for end in band_ends(name))
            assert low < getattr(flight, name) < high
        low, high = histories["heading_deg"]
        turned = columns["heading_deg"] - columns["heading_deg"][0]
        assert ((low <= turned + 0.01) & (turned <= high + 0.01)).mean() > 0.95
        assert low[0] == high[0] == 0.0


def test_the_ends_are_those_of_airplanes_flown_one_by_one(kick):
    """Of every eighth airplane drawn: the share of them inside the band is 90 %, give or take chance."""
    flying, question = built().airplane("rotary"), asked("rudder-kick")._replace(times_s=np.arange(0.0, 4.01, 0.05))
    many = bands.drawn_flying(built(), flying, 1).airplane
    right = next(one for one in kick.flights if (one.powerplant, one.side) == ("rotary", "right"))
    inside = []
    for number in range(0, bands.DRAWS, 8):
        airplane = alone(many, number)
        start = turns(replace(flying, airplane=airplane), [0.0])
        _, own = flown_alone(airplane, flying.travel, question, 1.0, start, 0)
        inside.append(right.peak_sideslip_low_deg <= own["peak_sideslip_deg"] <= right.peak_sideslip_high_deg)
    assert 0.78 <= np.mean(inside) <= 1.0


def test_a_time_that_is_not_reached_has_no_end(kick):
    assert {(one.time_to_90_s, one.time_to_90_low_s, one.time_to_90_high_s) for one in kick.flights} == {(None,) * 3}


def test_what_cannot_be_trimmed_is_not_flown_and_counted():
    """In a turn of 40 degrees at little more than the stall some of the airplanes drawn cannot begin a reversal."""
    found = maneuver(built(), "reversal", speed_m_s=24.0, bank_deg=40.0, flown_s=3.0, bands=True)
    shares = {(one.powerplant, one.side): one.flown_probability for one in found.flights}
    assert min(shares.values()) < 1.0
    assert all(0.0 < share <= 1.0 for share in shares.values())


def test_a_control_that_works_the_wrong_way_is_no_flight_of_the_pilot():
    from sim.flight.autopilot import gains
    from sim.flight.pilot_functions import MANY

    airplane = built().airplane("rotary").airplane
    some = replace(airplane, derivatives=replace(airplane.derivatives, yaw_rudder=np.array([-0.03, 0.01, -0.02])))
    found = gains(some, speed_m_s=np.full(3, 35.0), altitude_m=np.zeros(3), functions=MANY)
    assert np.isnan(found.aileron_gain).tolist() == [False, True, False]
    one = gains(airplane, speed_m_s=35.0, altitude_m=0.0)
    assert found.elevator_gain == pytest.approx(one.elevator_gain)
