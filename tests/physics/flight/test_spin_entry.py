"""Spin entries: mirror images, the rotation about the vertical, and what the pilot does when."""

import json
import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built

from sim.aerodynamics.strips_lift_max import trimmed_lift
from sim.errors import InputError
from sim.flight.actuation import fly
from sim.flight.maneuver import BEGIN_S
from sim.flight.motion import STATE, Controls
from sim.flight.spin_pilot import FORWARD_RAD, FREE_S, FULL_RATE_RAD_S, spin_law
from sim.model.model import model
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor
from sim.studies.field_stance import stalling_rad
from sim.studies.maneuver import maneuver
from sim.studies.maneuver_history import ATTITUDES
from sim.studies.maneuver_spin import VERDICTS, path_columns, spin_numbers, stall_deg, verdict, vertical_rate_deg_s
from sim.studies.stall_entry import level_stall_m_s

MIRRORED = ("bank_deg", "heading_deg", "roll_rate_deg_s", "yaw_rate_deg_s", "sideslip_deg", "east_m")
SAME = ("altitude_m", "speed_m_s", "pitch_deg", "alpha_deg", "load_factor")


def test_an_engine_the_other_way_round_mirrors_the_spins_to_the_last_digits():
    """Right with the one is left with the other, in every column of the record, to 1e-9 of its range in 6 s."""
    turned = [f"powerplant.{name}.rotation='anticlockwise'" for name in built(BIPLANE).powerplants]
    one, other = (
        maneuver(found, "spin-entry", held_s=2.0, flown_s=6.0) for found in (built(BIPLANE), model(BIPLANE, turned))
    )
    for right, left in ((0, 1), (1, 0), (2, 3), (3, 2)):
        ours, theirs = one.histories[right], other.histories[left]
        for name in MIRRORED:
            assert ours[name] == pytest.approx(-theirs[name], abs=1e-9 * max(1.0, np.abs(ours[name]).max()))
        for name in SAME:
            assert ours[name] == pytest.approx(theirs[name], rel=1e-9, abs=1e-9)
    assert one.flights[0].spin_turns == pytest.approx(other.flights[1].spin_turns, rel=1e-9)
    assert abs(one.flights[0].spin_turns - one.flights[1].spin_turns) > 0.01  # the rotor does set them apart


def test_the_entry_is_near_the_stall_and_every_flight_says_that_it_is_indicative():
    found = maneuver(built(TRIPLANE), "spin-entry", held_s=2.0, flown_s=7.0)
    slowest = max(level_stall_m_s(one) for one in built(TRIPLANE).airplanes())
    assert found.speed_m_s == pytest.approx(1.15 * slowest)
    assert all(flight.beyond for flight in found.flights)
    for flight, column in zip(found.flights, found.histories, strict=True):
        assert column["alpha_deg"].max() > 20.0  # it does stall
        assert flight.height_lost_m > 10.0


def test_the_rotation_is_that_of_the_body_about_the_vertical():
    """With the wings level it is the yaw rate, with the nose straight down the roll rate reversed; 60° between."""
    column = {
        "pitch_deg": np.array([0.0, -90.0, -60.0]),
        "bank_deg": np.array([0.0, 0.0, 0.0]),
        "roll_rate_deg_s": np.array([5.0, 40.0, 30.0]),
        "pitch_rate_deg_s": np.array([7.0, 7.0, 7.0]),
        "yaw_rate_deg_s": np.array([11.0, 3.0, 20.0]),
    }
    expected = [11.0, 40.0, 30.0 * math.sin(math.radians(60.0)) + 20.0 * math.cos(math.radians(60.0))]
    assert vertical_rate_deg_s(column) == pytest.approx(expected)


def made_up(rate_deg_s, alpha_deg, **columns):
    """Return the columns of a flight at 20 m/s straight down that rolls about its path, at an angle of attack."""
    time_s = np.arange(0.0, 14.0, 0.05)
    nothing, alpha = np.zeros_like(time_s), np.radians(alpha_deg(time_s))
    rate = rate_deg_s(time_s)
    column = {"time_s": time_s, "alpha_deg": alpha_deg(time_s), "sideslip_deg": nothing, "pitch_rate_deg_s": nothing}
    column |= {"roll_rate_deg_s": rate * np.cos(alpha), "yaw_rate_deg_s": rate * np.sin(alpha)}
    column |= {"pitch_deg": alpha_deg(time_s) - 90.0, "bank_deg": nothing, "heading_deg": np.cumsum(rate) * 0.05}
    column |= {"altitude_m": 900.0 - 20.0 * time_s, "north_m": nothing, "east_m": 2.0 * time_s}
    return (found := column | columns) | path_columns(found)


RECOVER = BEGIN_S + 3.0 + FREE_S


def test_turns_and_times_of_a_made_up_spin():
    """To the left beyond the stall, 90 °/s while crossed, 60 from then, stopped one second into the recovery."""
    pushed = RECOVER + 1.0 - 1e-9

    def rate(time_s):
        stages = [time_s < BEGIN_S - 1e-9, time_s < BEGIN_S + 3.0 - 1e-9, time_s < pushed]
        return np.select(stages, [0.0, -90.0, -60.0])

    def alpha(time_s):
        return np.where((time_s < BEGIN_S - 1e-9) | (time_s >= pushed), 5.0, 30.0)

    level = np.arange(0.0, 14.0, 0.05) - RECOVER - 4.0
    column = made_up(rate, alpha, altitude_m=900.0 + np.maximum(20.0 * level, -20.0 * level))
    found = spin_numbers(column, 3.0, 16.0)
    assert found["autorotation_s"] == pytest.approx(6.0)
    assert found["spin_turns"] == pytest.approx((3.0 * 90.0 + 3.0 * 60.0) / 360.0)
    assert found["crossed_rate_deg_s"] == pytest.approx(90.0)
    assert found["free_rate_deg_s"] == pytest.approx(60.0)
    assert found["crossed_alpha_deg"] == pytest.approx(30.0)
    assert found["spin_axis_deg"] == pytest.approx(0.0, abs=1e-5)  # of a flight path straight down
    assert found["helix_radius_m"] == pytest.approx(2.0 / math.radians(90.0))
    assert (found["free_stop_s"], found["recovery_s"]) == (np.inf, pytest.approx(1.0))
    assert found["level_s"] == pytest.approx(4.0, abs=0.06)
    assert found["pull_out_alpha_deg"] == pytest.approx(5.0)
    assert path_columns(column)["turned_deg"][-1] == pytest.approx(-450.0)
    assert verdict(column, 3.0, 16.0, 6.0) == "spun"
    many = {name: np.stack([one, one]) if name != "time_s" else one for name, one in column.items()}
    for name, values in spin_numbers(many, 3.0, 16.0).items():
        assert values == pytest.approx([float(found[name])] * 2)


def test_a_rotation_that_goes_on_is_told_and_one_that_stops_by_itself():
    on = spin_numbers(made_up(lambda t: 0.0 * t + 90.0, lambda t: 0.0 * t + 30.0), 3.0, 16.0)
    assert (on["free_stop_s"], on["recovery_s"], on["level_s"]) == (np.inf, np.inf, np.inf)
    ends = BEGIN_S + 3.0 + 0.5 - 1e-9
    off = spin_numbers(
        made_up(lambda t: np.where(t < ends, 90.0, 0.0), lambda t: np.where(t < ends, 30.0, 6.0)), 3.0, 16.0
    )
    assert (off["free_stop_s"], off["recovery_s"]) == (pytest.approx(0.5), 0.0)


def test_verdicts_of_made_up_flights():
    """Rotation both ways by turns is no spin; an unstalled turn going down is a spiral; the rest is told as it is."""

    def swinging(t):
        return 60.0 * np.sign(np.sin(np.pi * t))

    stalled = made_up(swinging, lambda t: 0.0 * t + 30.0)
    longest = spin_numbers(stalled, 3.0, 16.0)["autorotation_s"]
    assert longest == pytest.approx(1.0, abs=0.11)
    assert verdict(stalled, 3.0, 16.0, longest) == "stalled, did not spin"
    turning = np.arange(0.0, 14.0, 0.05) * 30.0
    spiral = made_up(
        lambda t: 0.0 * t + 30.0, lambda t: 0.0 * t + 8.0, bank_deg=0.0 * turning - 60.0, heading_deg=turning
    )
    assert spin_numbers(spiral, 3.0, 16.0)["autorotation_s"] == 0.0
    assert verdict(spiral, 3.0, 16.0, 0.0) == "spiral dive"
    for changed in ({"bank_deg": 0.0 * turning + 10.0}, {"heading_deg": 0.1 * turning}, {"altitude_m": turning}):
        assert verdict(spiral | changed, 3.0, 16.0, 0.0) == "did not stall"


def test_the_stall_of_the_criterion_is_where_the_lift_of_the_airplane_is_greatest():
    """By small steps of the lift in trim, apart from what the criterion searches."""
    flown = built(BIPLANE).airplane("rotary").flown
    alpha = np.radians(np.arange(12.0, 28.0, 0.05))
    lift = trimmed_lift(flown.strips, flown.polar, flown.derivatives, alpha)
    greatest = np.degrees(alpha[np.argmax(lift)])
    flying = built(BIPLANE).airplane("rotary")
    assert stall_deg(flying) == pytest.approx(greatest, abs=0.5)
    assert stall_deg(flying) == math.degrees(stalling_rad(flying))  # that of the stance on the field


@pytest.mark.parametrize("path", ["tollgate", BIPLANE, TRIPLANE])
def test_the_recovery_ends_in_level_flight_without_a_second_stall(path):
    """Rotation stopped, never stalled again, load within what is asked for, wings level and height held at the end."""
    ours = model(path)
    found = maneuver(ours, "spin-entry", flown_s=25.0)
    for flight, column in zip(found.flights, found.histories, strict=True):
        stalls = stall_deg(ours.airplane(flight.powerplant))
        stopped = BEGIN_S + 4.0 + (FREE_S + flight.recovery_s if flight.recovery_s else flight.free_stop_s)
        after, end = column["time_s"] >= stopped, column["time_s"] > 20.0
        assert flight.pull_out_alpha_deg == pytest.approx(column["alpha_deg"][after].max())
        assert flight.pull_out_alpha_deg < stalls - 1.0
        assert np.abs(column["path_rate_deg_s"][column["time_s"] > stopped + 3.0]).max() < 30.0
        assert column["load_factor"][column["time_s"] > stopped + 1.0].max() < 2.3
        climb = np.gradient(column["altitude_m"], column["time_s"])[end]
        assert np.abs(climb).max() < 1.0
        assert np.abs(column["bank_deg"][end]).max() < 3.0
        assert np.abs(column["pitch_deg"][end]).max() < 20.0
        assert flight.level_s is not None


def test_attitude_angles_of_a_spin_entry_are_no_numbers_and_height_is():
    found = maneuver(built(BIPLANE), "spin-entry", held_s=2.0, flown_s=7.0)
    for flight in json.loads(found.to_json())["flights"]:
        for name in ATTITUDES:
            assert flight[name] is None
        assert flight["height_lost_m"] > 10.0
        assert flight["verdict"] in VERDICTS
    assert found.air_loads == "strips"


def test_spins_by_linear_loads_are_refused():
    with pytest.raises(InputError, match="by linear loads nothing stalls"):
        maneuver(model(BIPLANE, ["flight.air=linear"]), "spin-entry")


def test_the_pilot_crosses_lets_go_and_recovers():
    flying = built(BIPLANE).airplane("rotary")
    travel, controls = flying.travel, Controls(0.02, 0.01, -0.03, 0.7)
    start = (0.0, 0.0, -800.0, 1.0, 0.0, 0.0, 0.0, 24.0, 0.0, 3.4, 0.0, 0.0, 0.0, 120.0)
    law = spin_law(
        flying.airplane, travel, sign=-1.0, share=0.4, times_s=(1.0, 3.0, 5.0), start=start, controls=controls
    )

    def asked(t, alpha=0.4, yaw=0.0, rates=(0.0,) * 14):
        state = [0.0] * 14
        state[3], state[7], state[9], state[12] = 1.0, 30.0 * math.cos(alpha), 30.0 * math.sin(alpha), yaw
        return law(t, tuple(state), rates, (0.0,) * 4)[0]

    assert asked(0.5) == asked(4.0) == controls[:4]
    assert asked(2.0) == pytest.approx((-travel.elevator_up_rad, -0.4 * travel.aileron_rad, travel.rudder_rad, 0.7))
    polar, slope = flying.airplane.polar, flying.airplane.derivatives.lift_alpha
    breaks = (polar.lift_max - polar.lift_zero) / slope
    forward = asked(6.0, alpha=breaks + 20.0 * FORWARD_RAD, yaw=4.0 * FULL_RATE_RAD_S)
    assert forward == pytest.approx((0.5 * travel.elevator_down_rad, 0.0, travel.rudder_rad, 0.0), abs=5e-3)
    turned = asked(6.0, alpha=breaks + 20.0 * FORWARD_RAD, yaw=-FULL_RATE_RAD_S)
    assert turned[2] == pytest.approx(-travel.rudder_rad / math.sqrt(2.0), abs=5e-3)
    # falling at 10 m/s at one unit of load: more is pulled, the throttle closed; level and slow: it opens
    diving = asked(6.0, alpha=0.1, rates=(0.0, 0.0, 10.0, *(0.0,) * 11))
    level = asked(6.0, alpha=0.1)
    assert diving[0] < level[0]
    assert diving[3] < 0.01 < level[3]


def test_a_flight_too_short_for_the_recovery_is_refused():
    with pytest.raises(InputError) as told:
        maneuver(built(BIPLANE), "spin-entry", flown_s=6.0)
    assert str(told.value) == 'held_s: must be at most 2 s, what `flown_s` leaves after 4 s, got "4 s"'


@pytest.mark.parametrize("rotors", [(), (Rotor(21.0), Rotor(21.0, ratio=-1.0))], ids=["none", "counter-turning"])
def test_without_angular_momentum_and_torque_left_is_the_mirror_image_of_right(rotors):
    """A glider, or one whose rotors turn against each other: every state of the spin to 1e-9 of its range."""
    flying = built(BIPLANE).airplane("rotary")
    bare = replace(flying.flown, rotors=rotors, engine=Engine(), propeller=Propeller())
    state = (0.0, 0.0, -800.0, math.cos(0.03), 0.0, math.sin(0.03), 0.0, 24.0, 0.0, 3.4, 0.0, 0.0, 0.0, 120.0)
    controls, times_s = Controls(elevator_rad=-0.08), np.arange(0.0, 9.0, 0.05)
    right, left = (
        fly(
            bare,
            flying.travel,
            spin_law(
                flying.airplane,
                flying.travel,
                sign=sign,
                share=0.5,
                times_s=(0.5, 3.5, 5.0),
                start=state,
                controls=controls,
            ),
            state=state,
            controls=controls,
            times_s=times_s,
            breakpoints_s=(0.5, 3.5, 5.0),
        ).state
        for sign in (1.0, -1.0)
    )
    odd = [STATE.index(name) for name in ("east", "e1", "e3", "v", "p", "r")]
    sign = np.ones(len(STATE))
    sign[odd] = -1.0
    far = np.abs(right).max(axis=1)
    assert (np.abs(right[odd]).max(axis=1) > 0.1).all()  # it does leave the plane of symmetry
    assert (np.abs(left - sign[:, None] * right).max(axis=1) <= 1e-9 * np.maximum(far, 1.0)).all()


def test_an_accelerated_stall_begins_in_a_steady_turn_to_its_own_side():
    found = maneuver(built(BIPLANE), "spin-entry", bank_deg=40.0, held_s=2.0, flown_s=6.0)
    level = max(level_stall_m_s(one) for one in built(BIPLANE).airplanes())
    assert found.speed_m_s == pytest.approx(1.15 * level / math.sqrt(math.cos(math.radians(40.0))))
    assert found.meaning.startswith("in a turn, stick back")
    for flight, column in zip(found.flights, found.histories, strict=True):
        bank = 40.0 if flight.side == "right" else -40.0
        steady = column["time_s"] < BEGIN_S
        assert column["bank_deg"][steady] == pytest.approx(bank, abs=0.5)
        turning = np.gradient(np.radians(column["heading_deg"]), column["time_s"])[steady][1:-1]
        alpha, pitch, side = (math.radians(column[name][0]) for name in ("alpha_deg", "pitch_deg", "sideslip_deg"))
        roll = math.radians(bank)
        u, w = (found.speed_m_s * math.cos(side) * part for part in (math.cos(alpha), math.sin(alpha)))
        # no force to the side: g cos θ sin φ = r u − p w
        expected = 9.80665 * math.sin(roll) / (math.cos(roll) * u + math.tan(pitch) * w)
        assert turning == pytest.approx(expected, rel=1e-3)
        assert column["load_factor"].max() > 1.5  # it stalls under load
