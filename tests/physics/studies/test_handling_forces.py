"""Forces of handling: straight flight, hands off, and bands that are those of airplanes drawn one by one."""

import math
from dataclasses import fields, replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE
from drawn import alone
from shared import answer, built

from sim.flight.cg_shift import with_cg_moved
from sim.flight.control_forces import control_forces
from sim.flight.control_system import SURFACES, drawn_system
from sim.flight.free_controls import free_controls
from sim.flight.many_airplanes import Draws
from sim.flight.motion import Controls, motion
from sim.studies.bands import BAND, DRAWS, drawn_flying, drawn_turns
from sim.studies.compare import compare
from sim.studies.handling import handling
from sim.studies.handling_forces import SPEED_SHARES, drawn_forces, per_g_n, stick_forces
from sim.studies.turns import turns
from sim.units.quantities import band_ends

REVERSED = set()
NAMES = ("stick_force_n", "stick_side_force_n", "pedal_force_n")


@pytest.fixture(scope="module")
def hayrick():
    return handling(built(PARASOL), banks_deg=(-40.0, 0.0, 40.0))


def test_the_row_at_the_speed_of_the_turns_is_the_turn_without_bank(hayrick):
    for found in hayrick.powerplants.values():
        row, turn = found.forces.straight[SPEED_SHARES.index(1.0)], found.turns[1]
        assert row.speed_m_s == pytest.approx(hayrick.speed_m_s)
        for name in NAMES:
            assert getattr(row, name) == pytest.approx(getattr(turn, name), rel=1e-6)
        assert (row.power, row.force_held) == ("level", turn.force_held)


def test_a_turn_takes_more_for_its_load_factor_than_a_pull_up(hayrick):
    """Its rate of pitch is g (n − 1/n) / V, that of a pull-up g (n − 1) / V: the mean of both sides."""
    for found in hayrick.powerplants.values():
        left, level, right = found.turns
        more = 0.5 * (left.stick_force_n + right.stick_force_n) - level.stick_force_n
        assert more / (left.load_factor - 1.0) > 1.1 * found.forces.stick_force_per_g_n > 0.0


def test_full_throttle_asks_more_of_the_foot_than_idle(hayrick):
    """The swirl of the tube: to one side, by the sense of the propeller."""
    for found in hayrick.powerplants.values():
        level, full, idle = (found.forces.straight[i].pedal_force_n for i in (2, -2, -1))
        assert abs(full) > abs(level) > abs(idle)
        assert full * level > 0.0


def test_hands_off_the_stick_force_vanishes():
    found = answer("handling", TRIPLANE)
    seen = 0
    for name, one in found.powerplants.items():
        flying = built(TRIPLANE).airplane(name)
        for speed in one.forces.hands_off_m_s:
            at = turns(flying, [0.0], speed_m_s=[speed])
            force = float(control_forces(flying.airplane, flying.controls, at).stick_n[0])
            most = max(abs(row.stick_force_n) for row in one.forces.straight)
            assert abs(force) < 0.01 * most
            seen += 1
    assert seen > 0


def grows_alone(flying, controls):
    """Return whether speed, incidence, pitch and shaft speed together have one growing real root or three: statically.

    The sign of the determinant of minus the Jacobian, by differences of the equations of motion with the shaft free.
    """
    found = turns(flying, [0.0])
    state, rates = found.state[:, 0], motion(flying.airplane)

    def at(x):
        moved = state.copy()
        moved[[7, 9, 11, 13]] += x[[0, 1, 2, 4]]
        half = 0.5 * x[3]
        e0, e1, e2, e3 = state[3:7]
        cos, sin = math.cos(half), math.sin(half)
        moved[3:7] = e0 * cos - e2 * sin, e1 * cos - e3 * sin, e2 * cos + e0 * sin, e3 * cos + e1 * sin
        own = controls(moved) if callable(controls) else controls
        rate = rates(tuple(moved.tolist()), Controls(*map(float, own)))
        return np.array([rate[7], rate[9], rate[11], moved[11], rate[13]])

    steps = 1e-4 * np.eye(5)
    jacobian = np.array([(at(step) - at(-step)) / 2e-4 for step in steps]).T
    return bool(np.linalg.det(-jacobian) < 0.0)


@pytest.mark.parametrize("tail_rad", [-0.12, 0.0, 0.05])
@pytest.mark.parametrize("aft_m", [-0.1, 0.0, 0.25])
@pytest.mark.parametrize(("airplane", "name"), [(BIPLANE, "flat_four"), (TRIPLANE, "rotary"), (PARASOL, "rotary")])
def test_what_is_reversed_with_speed_grows_with_controls_held_and_let_go(airplane, name, aft_m, tail_rad):
    """Stick position over speed and a static root with the stick held; stick force and one at an unchanged force."""
    tilt = f"tailplane.incidence={tail_rad} rad"
    flying = built(airplane, tilt).airplane(name)
    flying = replace(flying, airplane=with_cg_moved(flying.airplane, aft_m))
    found, steady = stick_forces(flying), turns(flying, [0.0])
    held = steady.controls(0)
    floating = free_controls(flying.airplane, flying.controls, steady.state[:, 0].tolist(), held)
    seen = grows_alone(flying, held), grows_alone(flying, floating)
    assert seen == (found.position_reversed, found.force_reversed)
    REVERSED.add(seen)


def test_airplanes_of_every_kind_were_among_them():
    assert {(False, False), (False, True), (True, True)} <= REVERSED


def test_the_free_elevator_swings_as_a_pendulum_in_the_air():
    """By the plate's own integral of mass, and a stiffness from the pull that an angle takes at a steady tail."""
    flying = built(BIPLANE, "elevator.mass=4 kg", "elevator.mass_arm=0.2 m").airplane("rotary")
    found, system = stick_forces(flying), flying.controls
    level = turns(flying, [0.0])
    more = replace(level, elevator_rad=level.elevator_rad + 0.01)
    pulls = [float(control_forces(flying.airplane, system, one).stick_n[0]) for one in (level, more)]
    stiffness = (pulls[0] - pulls[1]) / 0.01 / system.elevator_gearing_per_m
    strips = (np.arange(4000) + 0.5) / 4000 * 0.4
    inertia = float((strips**2).mean()) * 4.0
    assert found.elevator_swing_rad_s == pytest.approx(math.sqrt(stiffness / inertia), rel=1e-6)
    balanced = stick_forces(built(BIPLANE, "elevator.mass_arm=0 m").airplane("rotary"))
    assert math.isnan(balanced.elevator_swing_rad_s)


def test_keys_left_out_are_told_and_given_ones_are_not():
    every = answer("handling", BIPLANE).powerplants["rotary"].forces.estimated
    assert every == (
        *("controls.stick_travel", "controls.stick_side_travel", "controls.pedal_travel"),
        *("controls.stick_friction", "controls.pedal_friction", "elevator.mass", "elevator.mass_arm"),
    )
    given = built(BIPLANE, "controls.stick_travel=400 mm", "elevator.mass=8 lb").airplane("rotary").controls.estimated
    assert given == tuple(key for key in every if key not in {"controls.stick_travel", "elevator.mass"})


def one_of(system, number):
    """Return the controls of one of many airplanes, whose numbers are floats."""

    def plain(part):
        arrays = {f.name: v for f in fields(part) if isinstance(v := getattr(part, f.name), np.ndarray)}
        return replace(part, **{name: float(value[number]) for name, value in arrays.items()})

    return replace(plain(system), **{name: plain(getattr(system, name)) for name in SURFACES})


def test_bands_are_those_of_airplanes_drawn_one_by_one():
    model, banks, seed = built(TRIPLANE), np.radians([-40.0, 0.0, 25.0]), 4
    flying = model.airplane("rotary")
    many = drawn_flying(model, flying, seed)
    rows, ends = drawn_forces(many, drawn_turns(many, banks), seed)
    system = drawn_system(flying.controls, Draws(DRAWS, seed))
    for number in (0, 17, 255):
        single = replace(many, airplane=alone(many.airplane, number), controls=one_of(system, number))
        found = control_forces(single.airplane, single.controls, turns(single, banks))
        for name, row in zip(NAMES, found, strict=True):
            assert rows[name][number] == pytest.approx(row, rel=1e-6, abs=1e-6)
    low, high = np.quantile(per_g_n(many, system), BAND)
    assert (ends["stick_force_per_g_low_n"], ends["stick_force_per_g_high_n"]) == pytest.approx((low, high))


def test_what_is_measured_narrows_the_band():
    """Travels without error, an elevator weighed: the band of the force for a load factor grows narrower."""

    def width(*settings):
        found = handling(built(BIPLANE, *settings), banks_deg=(0.0,), bands=True).powerplants["rotary"]
        assert found.forces.stick_force_per_g_low_n < found.forces.stick_force_per_g_n
        assert found.turns[0].pedal_force_low_n < found.turns[0].pedal_force_n < found.turns[0].pedal_force_high_n
        return found.forces.stick_force_per_g_high_n - found.forces.stick_force_per_g_low_n

    known = width("controls.stick_travel=400 mm", "elevator.mass=8 lb", "elevator.mass_arm=8 in")
    assert known < 0.95 * width()


def test_a_tolerance_of_the_travel_is_that_of_the_gearing():
    system = built(BIPLANE, "controls.pedal_travel=200 mm ± 10 mm").airplane("rotary").controls
    assert system.errors["rudder_gearing_per_m"] == pytest.approx(0.05)
    assert system.errors["elevator_gearing_per_m"] == pytest.approx(0.2)


def test_compare_holds_the_same_turns_with_the_same_forces():
    """Value and band, by the same draws."""
    compared = compare(built(TRIPLANE), bands=True)
    handled = handling(built(TRIPLANE), banks_deg=(-45.0, 45.0), bands=True)
    for name, one in compared.powerplants.items():
        by_bank = {turn.bank_deg: turn for turn in one.turns}
        for turn in handled.powerplants[name].turns:
            for field in ("stick_force_n", "pedal_force_n"):
                for part in (field, *band_ends(field)):
                    assert getattr(by_bank[turn.bank_deg], part) == pytest.approx(getattr(turn, part), rel=1e-6)
