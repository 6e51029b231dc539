"""Spin entries: mirror images, the rotation about the vertical, and what the pilot does when."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built

from sim.errors import InputError
from sim.flight.actuation import fly
from sim.flight.maneuver import BEGIN_S
from sim.flight.motion import STATE, Controls
from sim.flight.spin_pilot import FREE_S, FULL_RATE_RAD_S, STALLED_RAD, spin_law
from sim.model.model import model
from sim.propulsion.engine_propeller import Engine, Propeller, Rotor
from sim.studies.maneuver import maneuver
from sim.studies.maneuver_spin import spin_numbers, vertical_rate_deg_s
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


def test_turns_and_times_of_a_made_up_spin():
    """Flat, 90 °/s to the left while crossed, 60 while free, stopped one second into the recovery."""
    time_s = np.arange(0.0, 12.0, 0.05)
    held, recover = 3.0, BEGIN_S + 3.0 + FREE_S
    yaw = np.select(
        [time_s < BEGIN_S, time_s < BEGIN_S + held, time_s < recover, time_s < recover + 1.0],
        [0.0, -90.0, -60.0, -60.0],
    )
    nothing = np.zeros_like(time_s)
    column = {"time_s": time_s, "yaw_rate_deg_s": yaw, "alpha_deg": np.where(yaw, 30.0, 5.0), "pitch_deg": nothing}
    column |= {"bank_deg": nothing, "roll_rate_deg_s": nothing, "pitch_rate_deg_s": nothing}
    found = spin_numbers(column, held)
    assert found["spin_turns"] == pytest.approx((3.0 * 90.0 + 2.0 * 60.0) / 360.0, abs=0.02)
    assert found["crossed_rate_deg_s"] == pytest.approx(90.0, rel=0.05)
    assert found["free_rate_deg_s"] == pytest.approx(60.0, rel=0.05)
    assert found["recovery_s"] == pytest.approx(1.0, abs=0.06)
    assert spin_numbers(column | {"yaw_rate_deg_s": nothing - 90.0}, held)["recovery_s"] == np.inf


def test_the_pilot_crosses_lets_go_and_recovers():
    flying = built(BIPLANE).airplane("rotary")
    travel, controls = flying.travel, Controls(0.02, 0.01, -0.03, 0.7)
    law = spin_law(travel, sign=-1.0, share=0.4, times_s=(1.0, 3.0, 5.0), controls=controls)

    def asked(t, alpha=0.4, yaw=0.0):
        state = [0.0] * 14
        state[7], state[9], state[12] = math.cos(alpha), math.sin(alpha), yaw
        return law(t, tuple(state), (), (0.0,) * 4)[0]

    assert asked(0.5) == asked(4.0) == controls[:4]
    assert asked(2.0) == pytest.approx((-travel.elevator_up_rad, -0.4 * travel.aileron_rad, travel.rudder_rad, 0.7))
    forward = asked(6.0, alpha=STALLED_RAD[0] + 0.1, yaw=2.0 * FULL_RATE_RAD_S)
    assert forward == pytest.approx((0.5 * travel.elevator_down_rad, 0.0, travel.rudder_rad, 0.0))
    flies = asked(6.0, alpha=STALLED_RAD[1] - 0.05, yaw=-0.5 * FULL_RATE_RAD_S)
    assert flies == pytest.approx((controls.elevator_rad, 0.0, -0.5 * travel.rudder_rad, 0.0))


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
            spin_law(flying.travel, sign=sign, share=0.5, times_s=(0.5, 3.5, 5.0), controls=controls),
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
