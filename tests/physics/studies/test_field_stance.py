"""How an airplane stands: the stall beside that of a flight, the nose-over by moments, verdicts on either side."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE, TWO_SEATER
from shared import answer, built

from sim.aerodynamics.strips_lift_max import trimmed_lift
from sim.flight.on_wheels import Gear
from sim.studies.field import field
from sim.studies.field_stance import stalling_rad
from sim.studies.stall_entry import stall_flight, throttles

EACH = [(path, name) for path in (BIPLANE, TRIPLANE, TWO_SEATER) for name in built(path).powerplants]


@pytest.mark.parametrize(("path", "name"), EACH)
def test_the_stall_is_at_the_top_of_the_lift_of_its_strips(path, name):
    flying = built(path).airplane(name)
    polar, d = flying.airplane.polar, flying.airplane.derivatives
    angles = np.radians(np.arange(10.0, 30.0, 0.02))
    lift = trimmed_lift(flying.strips(), polar, d, angles)
    found = answer("field", path).powerplants[name].stall_alpha_deg
    assert found == pytest.approx(math.degrees(angles[np.argmax(lift)]), abs=0.3)
    assert found == math.degrees(stalling_rad(flying))


@pytest.mark.parametrize("path", [BIPLANE, TWO_SEATER])
def test_it_is_that_of_the_stall_that_is_flown_into(path):
    """Level, power off: the flight slows down and its propeller turns in the wind, and lift is flat at the top."""
    flying = built(path).airplanes()[0]
    met = stall_flight(flying, "idle", 0.0, throttle=throttles(flying)["idle"], reaction_s=0.0).entry.alpha_deg
    assert answer("field", path).powerplants[flying.name].stall_alpha_deg == pytest.approx(met, abs=1.0)


def test_without_strips_it_is_where_the_line_meets_the_greatest_lift():
    flying = replace(built(BIPLANE).airplane("rotary"), strips=None)
    polar, slope = flying.airplane.polar, flying.airplane.derivatives.lift_alpha
    assert polar.lift_zero + slope * stalling_rad(flying) == pytest.approx(polar.lift_max)


@pytest.mark.parametrize(("path", "name"), EACH)
def test_that_friction_of_the_wheels_lifts_the_tail(path, name):
    """Moments about the wheels, level: friction at the ground, weight behind; the tail carries what is left."""
    own = answer("field", path).powerplants[name]
    stands, whole = built(path).stance(), built(path).mass_state(name).whole()
    gear = Gear(
        ahead_m=whole.cg_station_m - stands.station_m,
        below_m=whole.cg_waterline_m - stands.waterline_m,
        tail_m=stands.third_station_m - whole.cg_station_m,
        radius_m=stands.radius_m,
        tail_down_rad=stands.pitch_rad,
        track_m=stands.track_m,
    )
    ahead_m, below_m, _ = gear.at(0.0)
    assert own.nose_over_friction * below_m == pytest.approx(ahead_m)
    assert own.nose_over_friction == pytest.approx(math.tan(math.radians(own.nose_over_deg)))


def test_verdicts_lie_on_either_side_of_the_practice():
    """From 16° to 25° behind the wheels, at most 63° up, up to 4° below the stall, and 9 in under the propeller."""
    seen = set()
    for path, name in EACH:
        own = answer("field", path).powerplants[name]
        wanted = {
            "tail_down_deg": 0.0 <= own.stall_alpha_deg - own.tail_down_deg <= 4.0,
            "nose_over_deg": 16.0 <= own.nose_over_deg <= 25.0,
            "overturn_deg": own.overturn_deg <= 63.0,
            "propeller_clearance_m": own.propeller_clearance_m >= 9 * 0.0254,
            "propeller_clearance_tail_down_m": own.propeller_clearance_tail_down_m >= 9 * 0.0254,
        }
        assert own.verdicts == {key: "good" if holds else "poor" for key, holds in wanted.items()}
        seen |= set(own.verdicts.items())
    steep = field(built(BIPLANE, "weighing.support.tail.waterline=54 in")).powerplants["rotary"]
    near = ("weighing.support.left.buttline=-20 in", "weighing.support.right.buttline=20 in")
    narrow = field(built(BIPLANE, *near))
    seen |= set(steep.verdicts.items()) | set(narrow.powerplants["rotary"].verdicts.items())
    assert {("nose_over_deg", "poor"), ("nose_over_deg", "good"), ("propeller_clearance_m", "poor")} <= seen
    assert {("overturn_deg", "poor"), ("overturn_deg", "good"), ("tail_down_deg", "poor")} <= seen
    assert {("tail_down_deg", "good"), ("propeller_clearance_m", "good")} <= seen
