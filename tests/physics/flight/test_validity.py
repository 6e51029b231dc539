"""Range of validity: each bound from both sides, on a flight made for it, and what the answers say of it."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.aerodynamics.forces import bounded_lift
from sim.atmosphere import air
from sim.flight.trim import steady_turns
from sim.flight.validity import BOUNDS, bound, measures, passed, passed_in_turns, valid_part
from sim.model.model import model
from sim.units.quantities import quantity

DOWN_M, U, V, W, P, Q, SPIN = 2, 7, 8, 9, 10, 11, 13
NAMES = [one.name for one in BOUNDS]


@pytest.fixture(scope="module", params=["rotary", "geared_six"])
def airplane(request):
    """Return an anticlockwise rotary, and an engine whose gear turns the propeller the other way."""
    return model(TRIPLANE).airplane(request.param).airplane


def cruise(airplane):
    """Return one level flight well within every bound, as a column, and its elevator."""
    found = steady_turns(airplane, speed_m_s=36.0, bank_rad=0.0, altitude_m=600.0)
    return found.state.copy(), found.elevator_rad.copy()


def stalling(airplane, state, elevator, share):
    """Turn the wind up until the lift of attached flow is a share of CLmax."""
    polar, d = airplane.polar, airplane.derivatives
    alpha = (share * polar.lift_max - polar.lift_zero - d.lift_elevator * elevator[0]) / d.lift_alpha
    state[[U, V, W, Q], 0] = 36.0 * math.cos(alpha), 0.0, 36.0 * math.sin(alpha), 0.0


def slipping(airplane, state, elevator, share):
    state[V, 0] = math.hypot(state[U, 0], state[W, 0]) * math.tan(math.radians(15.0) * share)


def rolling(airplane, state, elevator, share):
    speed = np.sqrt((state[U : W + 1, 0] ** 2).sum())
    state[P, 0] = math.tan(math.radians(10.0) * share) * speed / (0.5 * airplane.polar.span_m)


def driven(airplane, state, elevator, share):
    """Turn the propeller so that it meets a share of the advance that the fit covers: 1.1 of that without thrust."""
    tilt = airplane.shaft_tilt_rad
    along = state[U, 0] * math.cos(tilt) - state[W, 0] * math.sin(tilt)
    turning = along / (1.1 * share * airplane.propeller.advance_m_rad)
    state[SPIN, 0] = airplane.engine.rotation * turning / abs(airplane.propeller.ratio)


def racing(airplane, state, elevator, share):
    """Turn the propeller so that its tips move at a share of Mach .85 along the helix."""
    speed = math.sqrt((state[U : W + 1, 0] ** 2).sum())
    tips = math.sqrt((0.85 * share * air(600.0).sound_m_s) ** 2 - speed**2)
    turning = tips / (0.5 * airplane.propeller.diameter_m)
    state[SPIN, 0] = airplane.engine.rotation * turning / abs(airplane.propeller.ratio)


def diving(airplane, state, elevator, share):
    """Fly at a share of Mach .3 with the lift and the advance ratio of cruise, at the tip Mach number allowed."""
    state[U : W + 1, 0] *= 0.3 * share * air(600.0).sound_m_s / 36.0
    state[SPIN, 0] *= 1.5


def climbing(airplane, state, elevator, share):
    state[DOWN_M, 0] = -11000.0 * share


def sunken(airplane, state, elevator, share):
    state[DOWN_M, 0] = 2000.0 * share


WAYS = {
    "stall": (stalling,),
    "sideslip": (slipping,),
    "roll rate": (rolling,),
    "advance ratio": (driven,),
    "tip Mach": (racing,),
    "Mach": (diving,),
    "altitude": (climbing, sunken),
}
CASES = [(name, way, sign) for name, ways in WAYS.items() for way in ways for sign in (1.0, -1.0)]
ONE_SIDED = {driven, racing, diving, climbing, sunken}


def beyond(airplane, state, elevator):
    return [name for name, where in passed(measures(airplane, state, elevator)).items() if where[0]]


def test_every_bound_has_its_way():
    assert list(WAYS) == NAMES


def test_cruise_is_within_every_bound(airplane):
    assert beyond(airplane, *cruise(airplane)) == []


@pytest.mark.parametrize(("name", "way", "sign"), [case for case in CASES if case[2] > 0 or case[1] not in ONE_SIDED])
def test_each_bound_is_passed_beyond_it_and_not_before(airplane, name, way, sign):
    for share, told in ((0.999, False), (1.001, True)):
        state, elevator = cruise(airplane)
        way(airplane, state, elevator, sign * share)
        assert (name in beyond(airplane, state, elevator)) is told


@pytest.mark.parametrize("spin", [0.0, -50.0], ids=["stopped", "backward"])
def test_a_propeller_that_does_not_turn_its_own_way_is_beyond_the_fit(airplane, spin):
    state, elevator = cruise(airplane)
    state[SPIN, 0] = airplane.engine.rotation * spin
    assert "advance ratio" in beyond(airplane, state, elevator)


def test_no_propeller_passes_no_bound_of_advance(airplane):
    state, elevator = cruise(airplane)
    state[SPIN, 0] = 0.0
    without = replace(airplane, propeller=replace(airplane.propeller, thrust_rotation=()))
    assert beyond(without, state, elevator) == []


def test_lift_of_attached_flow_is_that_which_trim_bounds(airplane):
    """`steady_turns` bounds the same lift at CLmax: its ratio is .917 at the bound (1 + 1)^(-1/8)."""
    found = steady_turns(airplane, speed_m_s=np.linspace(18.0, 30.0, 25), bank_rad=0.4, altitude_m=600.0)
    linear = measures(airplane, found.state, found.elevator_rad)["linear_lift_ratio"]
    assert bounded_lift(linear, 1.0, np.sqrt) == pytest.approx(found.lift_ratio, rel=1e-9, nan_ok=True)
    stalled = ["stall" in names for names in passed_in_turns(airplane, found)]
    assert stalled == (found.lift_ratio > 2.0 ** (-1.0 / 8.0)).tolist()
    assert any(stalled)
    assert not all(stalled)


def test_mirrored_flights_pass_mirrored_bounds(airplane):
    for way in (slipping, rolling):
        found = []
        for sign in (1.0, -1.0):
            state, elevator = cruise(airplane)
            state[V], state[P] = 0.0, 0.0
            way(airplane, state, elevator, sign)
            found.append(measures(airplane, state, elevator))
        for name in ("sideslip_rad", "tip_incidence_rad"):
            assert found[0][name] == pytest.approx(-found[1][name], abs=1e-12)


def test_a_flight_that_does_not_exist_passes_nothing(airplane):
    state, elevator = cruise(airplane)
    state[:] = np.nan
    assert beyond(airplane, state, elevator * np.nan) == []


def test_a_history_is_valid_until_the_first_bound(airplane):
    """Sideslip grows by 2.03° a second from 0, roll rate jumps at 9 s: the bound of 15° is passed after 7.39 s."""
    state, elevator = cruise(airplane)
    times = np.linspace(0.0, 10.0, 101)
    states, elevators = np.repeat(state, 101, axis=1), np.repeat(elevator, 101)
    states[V] = np.hypot(states[U], states[W]) * np.tan(np.radians(2.03 * times))
    states[P] = np.where(times > 9.0, 6.0, 0.0)
    valid = valid_part(airplane, times, states, elevators)
    assert valid.valid_until_s == pytest.approx(7.4)
    assert valid.beyond == ("sideslip", "roll rate")
    within = valid_part(airplane, times[:70], states[:, :70], elevators[:70])
    assert (within.valid_until_s, within.beyond) == (None, ())


def test_bounds_stand_in_the_table_of_quantities_and_name_their_source():
    for one in BOUNDS:
        assert quantity(one.quantity).meaning
        assert one.source
        assert one.missing
        assert one.least < one.most


def test_tips_and_air_are_those_of_independent_formulas():
    asked = model(BIPLANE).airplane("flat_four").airplane
    state, elevator = cruise(asked)
    found = measures(asked, state, elevator)
    sound = math.sqrt(1.4 * 287.05287 * (288.15 - 0.0065 * 600.0))
    speed = math.sqrt((state[U : W + 1, 0] ** 2).sum())
    turning = abs(state[SPIN, 0] * asked.propeller.ratio)
    assert found["mach"][0] == pytest.approx(speed / sound, rel=1e-6)
    assert found["tip_mach"][0] == pytest.approx(math.hypot(turning * asked.propeller.diameter_m / 2.0, speed) / sound)
    assert bound("Mach").most == 0.3
    assert 1.0 / math.sqrt(1.0 - bound("Mach").most ** 2) == pytest.approx(1.05, abs=0.005)
