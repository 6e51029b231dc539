"""The bundled airplane with both engines: every bank at five speeds is a steady flight or names its limit."""

import math

import numpy as np
import pytest
from airplanes import BIPLANE

from sim.atmosphere import air
from sim.flight.motion import motion
from sim.flight.turn_limits import limits_met
from sim.model.model import model
from sim.propulsion.engine_propeller import shaft_loads
from sim.studies.handling import handling
from sim.studies.handling_forces import SPEED_SHARES
from sim.studies.rotor_effect import rotor_effect, rotor_shares
from sim.studies.speeds import speeds
from sim.studies.turns import missing_power_w, turns, without_rotor

BANKS = np.radians(np.arange(-70.0, 71.0))
LIMITS = {"CLmax", "elevator travel", "aileron travel", "rudder travel", "spin", "power"}


@pytest.fixture(scope="module")
def biplane():
    return model(BIPLANE)


@pytest.mark.parametrize("speed", [20.0, 25.0, 30.0, 36.0, 45.0])
def test_every_bank_holds_or_names_its_limit(biplane, speed):
    for flying in biplane.airplanes(speed_m_s=speed):
        found = turns(flying, BANKS)
        rates = motion(flying.airplane)
        limits = limits_met(found, flying.travel)
        held = [i for i, limit in enumerate(limits) if not limit]
        assert all(max(map(abs, rates(tuple(found.state[:, i].tolist()), found.controls(i))[7:])) < 1e-9 for i in held)
        assert {limit for limit in limits if limit} <= LIMITS
        assert np.abs(found.sideslip_rad[held]).max(initial=0.0) < math.radians(25.0), "no absurd branch"
        assert np.abs(found.alpha_rad[held]).max(initial=0.0) < math.radians(25.0)
        assert held == list(range(held[0], held[-1] + 1)) if held else True, "what holds is one range of banks"


@pytest.mark.parametrize("bank_deg", [0.0, -40.0])
def test_missing_power_is_what_propeller_and_windage_take_beyond_full_throttle(biplane, bank_deg):
    """Shaft power balance at the turn found, by the torques of the shaft alone."""
    for flying in biplane.airplanes(speed_m_s=70.0):
        found = turns(flying, math.radians(bank_deg))
        spin, forward = float(found.spin_rad_s[0]), float(found.state[7, 0])
        density = air(flying.altitude_m).density_kg_m3
        airplane = flying.airplane
        full = shaft_loads(airplane.engine, airplane.propeller)((spin, forward), density, (0.0, 0.0, 0.0, 1.0, 0.0))
        left = full.engine - full.windage - airplane.propeller.ratio * full.propeller
        assert missing_power_w(flying, found, 0) == pytest.approx(-left * spin, rel=1e-6)
        assert missing_power_w(flying, found, 0) > 1e4
    assert missing_power_w(flying, turns(flying, 0.0, speed_m_s=35.0), 0) is None


def test_level_flight_ends_at_the_top_speed_of_an_engine_that_would_overspeed(biplane):
    """`speeds` throttles it back at its full speed, by a power balance: the same speed from both sides."""
    top = speeds(biplane).powerplants["flat_four"].top_m_s
    below, above = (handling(biplane, speed_m_s=share * top, banks_deg=(0.0,)) for share in (0.99, 1.01))
    (slow,), (fast,) = (one.powerplants["flat_four"].turns for one in (below, above))
    most = biplane.airplane("flat_four").powerplant.full_speed_rad_s
    assert (slow.limit, slow.holds, fast.limit, fast.holds) == (None, True, "overspeed", False)
    assert slow.spin_rad_s < most < fast.spin_rad_s
    assert "overspeed" in above.powerplants["flat_four"].modes_not_held
    level = above.powerplants["flat_four"].forces.straight[SPEED_SHARES.index(1.0)]
    assert level.limit == "overspeed"
    assert above.powerplants["flat_four"].steepest_right_limit == "overspeed"


def test_derivatives_follow_the_speed_they_are_asked_at(biplane):
    slow, fast = (biplane.airplane("rotary", speed_m_s=speed).derivatives for speed in (25.0, 50.0))
    assert slow["roll_r"].value > fast["roll_r"].value, "grows with lift"
    assert slow["roll_p"].value == pytest.approx(fast["roll_p"].value, rel=0.03), "all but the same"


def test_without_its_rotor_the_airplane_turns_alike_to_both_sides_but_for_torque(biplane):
    flying = without_rotor(biplane.airplane("rotary"))
    found = turns(flying, np.radians([-45.0, 45.0]))
    assert found.elevator_rad[0] == pytest.approx(found.elevator_rad[1], abs=0.002)


def test_the_rotor_s_share_is_proportional_to_its_inertia_to_first_order(biplane):
    flying = biplane.airplane("flat_four")
    speed = np.array([flying.speed_m_s])
    share = rotor_shares(flying, speed, math.radians(45.0))["rudder"][0]
    doubled = model(BIPLANE, ["powerplant.flat_four.propeller.polar_inertia=2 kg m^2"])
    ratio = doubled.airplane("flat_four").powerplant.polar_inertia_kg_m2 / flying.powerplant.polar_inertia_kg_m2
    again = rotor_shares(doubled.airplane("flat_four"), speed, math.radians(45.0))["rudder"][0]
    assert again / share == pytest.approx(ratio, rel=0.02)


def test_the_summary_agrees_with_the_turns(biplane):
    """Share with the rotor less share without, in the same turn."""
    quoted = rotor_effect(biplane)
    assert quoted.first.powerplant == "rotary"
    had = handling(biplane, banks_deg=(-45.0,)).powerplants["rotary"].turns[0].rudder_share
    flying = without_rotor(biplane.airplane("rotary"))
    bare = turns(flying, math.radians(-45.0)).rudder_rad[0] / flying.travel.rudder_rad
    assert quoted.first.left_rudder_share == pytest.approx(had - bare, abs=1e-9)


def test_at_the_doubling_speed_the_share_has_doubled(biplane):
    found = rotor_effect(biplane).doubling
    flying = biplane.airplane("rotary")
    bank = math.radians(-45.0 if found.side == "left" else 45.0)
    share = rotor_shares(flying, np.array([flying.speed_m_s, found.speed_m_s]), bank)[found.control]
    assert abs(share[1] / share[0]) == pytest.approx(2.0, rel=1e-3)
