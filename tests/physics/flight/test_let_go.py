"""Controls let go: steady by the equations of motion, without force, mirrored, and where the airplane goes in time."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from scipy.integrate import solve_ivp
from shared import answer, built

from sim.flight.control_forces import ControlForces, control_forces
from sim.flight.free_controls import free_controls
from sim.flight.let_go import let_go
from sim.flight.modes import LATERAL, system_matrix
from sim.flight.motion import motion
from sim.studies.controls_let_go import controls_let_go
from sim.studies.turns import turns

NOTHING = ControlForces(0.0, 0.0, 0.0)
CASES = [(BIPLANE, "rotary"), (TRIPLANE, "geared_six"), (PARASOL, "rotary"), (PARASOL, "upright_four")]


@pytest.fixture(params=CASES, ids=lambda case: f"{case[0].stem}-{case[1]}")
def flying(request):
    return built(request.param[0]).airplane(request.param[1])


@pytest.mark.parametrize("hands", [False, True], ids=["pedals", "all"])
def test_it_is_steady_and_takes_no_force(flying, hands):
    """By the right-hand side on floats; the pedals alone let go, airspeed and bank stay. What is not, is told."""
    level = turns(flying, [0.0])
    found = let_go(flying.airplane, flying.controls, level, NOTHING, hands=hands)
    if found is None:
        told = {one.what: one.speed_m_s for one in controls_let_go(flying)}
        assert hands
        assert math.isnan(told["all"])
        assert math.isfinite(told["pedals"])
        return
    rates = motion(flying.airplane)(tuple(found.state[:, 0].tolist()), found.controls(0))
    assert max(map(abs, rates[7:])) < 1e-8
    stick, side, pedal = (float(force[0]) for force in control_forces(flying.airplane, flying.controls, found))
    assert pedal == pytest.approx(0.0, abs=1e-6)
    if hands:
        assert (stick, side) == pytest.approx((0.0, 0.0), abs=1e-6)
        assert abs(found.bank_rad[0]) > 0.05
    else:
        assert np.linalg.norm(found.state[7:10, 0]) == pytest.approx(flying.speed_m_s)
        assert found.bank_rad[0] == pytest.approx(0.0, abs=1e-12)
        assert found.turn_rate_rad_s[0] != 0.0
    assert found.load_factor[0] == pytest.approx(_load_of_a_helix(found), rel=1e-9)


def _load_of_a_helix(found):
    """Return the specific force across the wing: gravity, and the centripetal force, toward the axis of the helix."""
    bank, pitch, turn = (float(x[0]) for x in (found.bank_rad, found.pitch_rad, found.turn_rate_rad_s))
    u, v, w = found.state[7:10, 0]
    across = v * math.cos(bank) - w * math.sin(bank)
    ahead = u * math.cos(pitch) + (v * math.sin(bank) + w * math.cos(bank)) * math.sin(pitch)
    inward, back = turn * ahead / 9.80665, -turn * across / 9.80665
    down = (math.cos(bank) * math.sin(pitch), -math.sin(bank), math.cos(bank) * math.cos(pitch))
    return down[2] - back * down[0] - inward * down[1]


def test_some_of_them_balance_with_nothing_held():
    """So that the test before has something to hold on to."""
    found = [one for path, name in CASES for one in controls_let_go(built(path).airplane(name)) if one.what == "all"]
    assert sum(math.isfinite(one.speed_m_s) for one in found) >= 2


def test_what_leaves_such_a_flight_has_a_name():
    """With the pedals free, the wings held level: the mode told is the root that grows fastest, of side motion."""
    flying = built("tollgate").airplane("rotary")
    told = next(one for one in controls_let_go(flying) if one.what == "pedals")
    assert told.grows == "spiral"
    found = let_go(flying.airplane, flying.controls, turns(flying, [0.0]), NOTHING, hands=False)
    floating = free_controls(flying.airplane, flying.controls, found.state[:, 0].tolist(), found.controls(0))
    steady = found.controls(0)
    matrix = system_matrix(
        flying.airplane, found.state[:, 0].tolist(), lambda at: steady._replace(rudder_rad=floating(at).rudder_rad)
    )
    values, vectors = np.linalg.eig(matrix)
    fastest = int(np.argmax(values.real))
    assert told.time_to_double_s == pytest.approx(math.log(2.0) / values[fastest].real)
    assert abs(values[fastest].imag) < 1e-9  # and in it bank and heading change, not pitch
    assert abs(vectors[LATERAL, fastest][3]) > 4.0 * abs(vectors[3, fastest])


def test_after_a_disturbance_it_goes_there_in_time():
    """Integrated by scipy with elevator and rudder floating: back to that speed, turn and sink, all at one height."""
    flying = built(PARASOL).airplane("rotary")
    level = turns(flying, [0.0])
    pull = control_forces(flying.airplane, flying.controls, level).stick_n
    found = let_go(flying.airplane, flying.controls, level, NOTHING._replace(stick_n=pull), hands=True)
    told = next(one for one in controls_let_go(flying) if one.what == "all, trimmed")
    assert (told.time_to_double_s, told.grows) == (None, "")
    start, rates = found.state[:, 0].copy(), motion(flying.airplane)
    floating = free_controls(flying.airplane, flying.controls, start.tolist(), found.controls(0))

    def rate(_, state):
        own = floating(state)
        own = own._replace(**{name: float(value) for name, value in own._asdict().items()})
        return [0.0, 0.0, 0.0, *rates(tuple(state.tolist()), own)[3:]]

    start[7] += 2.0
    start[10] += 0.05
    start[12] -= 0.03
    flown = solve_ivp(rate, (0.0, 150.0), start, rtol=1e-7, atol=1e-8, t_eval=[1.0, 150.0])
    first, last = flown.y[:, 0], flown.y[:, -1]
    for values, wide in ((first, True), (last, False)):
        speed, yawing = np.linalg.norm(values[7:10]), np.linalg.norm(values[10:13])
        near = abs(speed - told.speed_m_s) < 0.1 and abs(math.degrees(yawing) - abs(told.turn_rate_deg_s)) < 0.1
        assert near is not wide
    sink = rates(tuple(last.tolist()), found.controls(0))[2]
    assert -sink == pytest.approx(told.climb_rate_m_s, abs=0.15)


def test_a_reversed_rotor_goes_to_the_other_side():
    ahead = answer("handling", BIPLANE).powerplants["rotary"].forces.let_go
    turned = built(BIPLANE, "powerplant.rotary.rotation=anticlockwise").airplane("rotary")
    seen = 0
    for one, other in zip(ahead, controls_let_go(turned), strict=True):
        assert one.what == other.what
        if math.isfinite(one.speed_m_s):
            seen += 1
            assert other.speed_m_s == pytest.approx(one.speed_m_s)
            for name in ("turn_rate_deg_s", "sideslip_deg", "aileron_share", "rudder_share"):
                assert getattr(other, name) == pytest.approx(-getattr(one, name), rel=1e-5)
    assert seen


def test_without_pedal_force_the_rudder_trails_and_the_airplane_slips():
    """Closed form of the fin alone: the force vanishes where lift of the fin and deflection balance at the hinge."""
    flying = built(PARASOL).airplane("upright_four")
    level = turns(flying, [0.0])
    heavier = replace(flying.controls, rudder_gearing_per_m=3.0 * flying.controls.rudder_gearing_per_m)
    one, other = (let_go(flying.airplane, system, level, NOTHING, hands=False) for system in (flying.controls, heavier))
    assert other.rudder_rad == pytest.approx(one.rudder_rad), "gearing turns no free rudder"
    assert one.sideslip_rad[0] * level.rudder_rad[0] != 0.0
    assert abs(one.rudder_rad[0]) < abs(level.rudder_rad[0]) + abs(one.sideslip_rad[0])
