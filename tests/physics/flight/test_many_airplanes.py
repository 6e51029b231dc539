"""Many airplanes as one: each flies as it would alone, and their numbers scatter as their errors say."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL
from drawn import alone

from sim.flight.many_airplanes import Draws, Uncertainty, drawn_airplanes, repeated
from sim.flight.trim import steady_turns
from sim.model.model import model
from sim.studies.turns import turns

BANKS = np.radians([-45.0, 0.0, 30.0])


@pytest.fixture(scope="module")
def biplane():
    return model(BIPLANE)


@pytest.fixture(scope="module")
def flying(biplane):
    return biplane.airplane("rotary")


def known_of(ours, flying, **changes):
    polar = {"drag_zero_lift": 0.004, "span_efficiency": 0.05, "lift_max": 0.08}
    return replace(ours.uncertainty(flying), polar_errors=polar, **changes)


def test_each_turns_as_it_would_alone(biplane, flying):
    many = drawn_airplanes(flying.airplane, known_of(biplane, flying), Draws(7, 3), own="rotary")
    together = steady_turns(repeated(many, len(BANKS)), speed_m_s=38.0, bank_rad=np.tile(BANKS, 7), altitude_m=400.0)
    for number in range(7):
        found = steady_turns(alone(many, number), speed_m_s=38.0, bank_rad=BANKS, altitude_m=400.0)
        part = slice(number * len(BANKS), (number + 1) * len(BANKS))
        for name in ("alpha_rad", "sideslip_rad", "elevator_rad", "aileron_rad", "rudder_rad", "spin_rad_s"):
            assert getattr(together, name)[part] == pytest.approx(getattr(found, name), rel=1e-7, abs=1e-9)


def test_each_turns_at_idle_with_the_throttle_that_it_alone_would_need(biplane, flying):
    many = drawn_airplanes(flying.airplane, known_of(biplane, flying), Draws(5, 3), own="rotary")
    together = turns(replace(flying, airplane=repeated(many, len(BANKS))), np.tile(BANKS, 5), power="idle")
    assert np.ptp(together.throttle) > 1e-3
    for number in range(5):
        found = turns(replace(flying, airplane=alone(many, number)), BANKS, power="idle")
        part = slice(number * len(BANKS), (number + 1) * len(BANKS))
        for name in ("throttle", "spin_rad_s", "climb_rad", "elevator_rad", "rudder_rad"):
            assert getattr(together, name)[part] == pytest.approx(getattr(found, name), rel=1e-7, abs=1e-9)


def test_without_errors_all_are_the_airplane_itself(flying):
    sure = {name: replace(one, errors={}, per_lift_errors={}, band=0.0) for name, one in flying.derivatives.items()}
    many = drawn_airplanes(flying.airplane, Uncertainty(sure, flying.lift), Draws(5, 1))
    assert many == replace(flying.airplane, derivatives=many.derivatives)
    assert many.derivatives == flying.airplane.derivatives


def test_their_numbers_scatter_as_their_errors_say(biplane, flying):
    count = 20000
    known = replace(known_of(biplane, flying), cg_error_m=0.0)
    many = drawn_airplanes(flying.airplane, known, Draws(count, 2), own="rotary")
    for name, one in flying.derivatives.items():
        growth = getattr(many.derivatives, f"{name}_per_lift", 0.0)
        at_lift = getattr(many.derivatives, name) + growth * flying.lift
        assert np.mean(at_lift) == pytest.approx(one.value, abs=4.0 * one.band / count**0.5)
        assert np.std(at_lift) == pytest.approx(one.band, rel=0.025)
    assert np.std(many.body.mass_kg) == pytest.approx(known.mass_error_kg, rel=0.025)
    assert np.std(many.polar.lift_max) == pytest.approx(0.08, rel=0.025)
    assert np.std(many.propeller.thrust_scale) == pytest.approx(0.065, rel=0.025)
    assert np.std(many.propeller.torque_scale) == pytest.approx(0.05, rel=0.025)
    assert abs(np.corrcoef(many.propeller.thrust_scale, many.propeller.torque_scale)[0, 1]) < 0.05
    share = many.rotors[0].polar_inertia_kg_m2 / flying.airplane.rotors[0].polar_inertia_kg_m2
    assert np.std(share) == pytest.approx(known.inertia_error, rel=0.025)


def test_one_source_moves_what_hangs_on_it_together(biplane, flying):
    """More lift of the fin turns the nose into the wind, damps yaw and makes the rudder stronger, all at once."""
    source = {name: one.errors.get("fin_lift", 0.0) for name, one in flying.derivatives.items()}
    assert source["yaw_beta"] > 0.0 > source["yaw_rudder"]
    many = drawn_airplanes(flying.airplane, replace(known_of(biplane, flying), cg_error_m=0.0), Draws(4000, 5))
    assert np.corrcoef(many.derivatives.yaw_r, many.derivatives.yaw_rudder)[0, 1] > 0.5


def test_a_farther_aft_centre_of_gravity_takes_stability_away_in_the_very_airplane_that_has_it(flying):
    sure = {name: replace(one, errors={}, per_lift_errors={}, band=0.0) for name, one in flying.derivatives.items()}
    draws = Draws(50, 4)
    many = drawn_airplanes(flying.airplane, Uncertainty(sure, flying.lift, cg_error_m=0.03), draws, own="rotary")
    aft_m = 0.03 * draws.of("rotary cg")
    margin = -many.derivatives.pitch_alpha / many.derivatives.lift_alpha
    here = -flying.airplane.derivatives.pitch_alpha / flying.airplane.derivatives.lift_alpha
    assert margin == pytest.approx(here - aft_m / flying.airplane.polar.chord_m, rel=1e-12)


def test_a_weaker_propeller_turns_faster_for_the_same_thrust(flying):
    """With the square root of what it lacks, at the same airspeed a little less."""
    sure = {name: replace(one, errors={}, per_lift_errors={}, band=0.0) for name, one in flying.derivatives.items()}
    known, draws = Uncertainty(sure, flying.lift, propeller_errors={"thrust_scale": 0.1}), Draws(60, 8)
    many = drawn_airplanes(flying.airplane, known, draws)
    found = steady_turns(many, speed_m_s=38.0, bank_rad=np.zeros(60), altitude_m=400.0)
    slope = np.polyfit(np.log(many.propeller.thrust_scale), np.log(found.spin_rad_s), 1)[0]
    assert -0.5 < slope < -0.1


def test_draws_hang_on_seed_and_source_alone():
    first, again, other = Draws(9, 1), Draws(9, 1), Draws(9, 2)
    again.of("downwash")
    assert (first.of("fin_lift") == again.of("fin_lift")).all()
    assert (first.of("fin_lift") != other.of("fin_lift")).all()
    assert (first.of("fin_lift") != first.of("rudder")).all()


def test_the_error_of_a_rotor_is_that_of_its_parts():
    """Half the scale of a part's ± halves its share; a propeller's inertia is a sum with the engine's."""
    wide = model(PARASOL, ["powerplant.rotary.propeller.polar_inertia=4 kg m^2 ± 0.4 kg m^2"])
    flying = wide.airplane("rotary")
    error = wide.uncertainty(flying).inertia_error
    plain = model(PARASOL, ["powerplant.rotary.propeller.polar_inertia=4 kg m^2"])
    without = plain.uncertainty(plain.airplane("rotary")).inertia_error
    part = (error**2 - without**2) ** 0.5
    assert part * flying.powerplant.polar_inertia_kg_m2 == pytest.approx(0.4, rel=1e-6)


def test_the_error_of_a_rotor_counts_what_is_built_up_and_not_what_is_given():
    """An engine from parts is good to 10 % in 90 %, a propeller from its mass to 25 %; a swung one has its own ±."""
    plain = model(BIPLANE)
    gear, swung = plain.airplane("flat_four").powerplant, "4 kg m^2"
    engine = sum(part.polar_inertia_kg_m2 * part.ratio for part in gear.contributions[:-1])
    given = model(BIPLANE, [f"powerplant.flat_four.propeller.polar_inertia={swung}"])
    flying = given.airplane("flat_four")
    assert given.uncertainty(flying).inertia_error == pytest.approx(0.06 * engine / (engine + 4.0), rel=1e-9)
    propeller = gear.contributions[-1].polar_inertia_kg_m2 * abs(gear.gear_ratio)
    both = plain.uncertainty(plain.airplane("flat_four")).inertia_error * gear.polar_inertia_kg_m2
    assert both == pytest.approx(math.hypot(0.06 * engine, 0.15 * propeller), rel=1e-9)


def test_the_parts_in_the_slipstream_err_together_and_the_swirl_between_none_and_all(biplane, flying):
    count = 20000
    known = biplane.uncertainty(flying)
    draws = Draws(count, 6)
    many = drawn_airplanes(flying.airplane, replace(known, cg_error_m=0.0), draws, own="rotary")
    slip, one = many.slipstream, flying.airplane.slipstream
    for name in ("wing_share", "tail_share", "fin_share", "fin_above_share"):
        size = getattr(slip, name) / getattr(one, name)
        assert size == pytest.approx(np.maximum(1.0 + known.slipstream_error * draws.of("slipstream"), 0.05), rel=1e-12)
    taken = np.clip(one.recovered_share + known.swirl_error * draws.of("swirl"), 0.0, 1.0)
    assert slip.recovered_share == pytest.approx(taken, rel=1e-12)
    assert {0.0, 1.0} < set(slip.recovered_share.tolist())
    assert np.std(many.disc.share) == pytest.approx(known.disc_error, rel=0.03)
    assert min(known.slipstream_error, known.swirl_error, known.disc_error) > 0.2


def test_a_source_of_the_slipstream_reaches_the_rudder_of_a_turn(flying):
    sure = {name: replace(one, errors={}, per_lift_errors={}, band=0.0) for name, one in flying.derivatives.items()}
    for source in ("slipstream_error", "swirl_error", "disc_error"):
        known = Uncertainty(sure, flying.lift, **{source: 0.25})
        many = drawn_airplanes(flying.airplane, known, Draws(40, 8), own="rotary")
        rudder = np.degrees(steady_turns(many, speed_m_s=38.0, bank_rad=np.zeros(40)).rudder_rad)
        assert 0.01 < np.std(rudder) < 2.0


@pytest.mark.parametrize(
    ("source", "derivative", "number"),
    [
        ("tail_pressure", "pitch_q", "tail_rate_m2"),
        ("tail_pressure", "pitch_alpha", "tail_angle_m2"),
        ("downwash", "pitch_alpha", "tail_angle_m2"),
        ("fin_lift", "yaw_beta", "fin_angle_m2"),
        ("sidewash", "yaw_beta", "fin_angle_m2"),
        ("fin_lift", "yaw_p", "fin_roll_m3"),
        ("fin_lift", "yaw_r", "fin_rate_m2"),
        ("rudder", "yaw_rudder", "rudder_m2"),
    ],
)
def test_what_lies_in_the_slipstream_errs_as_the_derivative_that_it_is_a_part_of(
    biplane, flying, source, derivative, number
):
    """One source alone: moments of the immersed parts at full share change by what the derivative changes."""
    ours, slip, polar = biplane.uncertainty(flying), flying.airplane.slipstream, flying.airplane.polar
    errors = {name: one.errors.get(source, 0.0) for name, one in flying.derivatives.items()}
    only = {name: replace(one, errors={source: errors[name]}) for name, one in flying.derivatives.items()}
    alone_m2 = {name: {source: one[source]} for name, one in ours.immersed_errors.items() if source in one}
    known = Uncertainty(only, 0.0, immersed_errors=alone_m2)
    many = drawn_airplanes(flying.airplane, known, Draws(6, 8))
    change = getattr(many.derivatives, derivative) - getattr(flying.airplane.derivatives, derivative)
    pitch, yaw = polar.area_m2 * polar.chord_m / slip.tail_arm_m, polar.area_m2 * polar.span_m / slip.fin_arm_m
    per = {
        "tail_angle_m2": -pitch,
        "tail_rate_m2": -0.5 * pitch * polar.chord_m / slip.tail_arm_m,
        "fin_angle_m2": yaw,
        "fin_rate_m2": -0.5 * yaw * polar.span_m / slip.fin_arm_m,
        "fin_roll_m3": 0.5 * yaw * polar.span_m,
        "rudder_m2": -yaw,
    }[number]
    moved = getattr(many.slipstream, number) - getattr(slip, number)
    assert np.ptp(moved) > 0.01 * abs(getattr(slip, number))
    assert moved == pytest.approx(per * change, rel=0.02)
    assert many.slipstream.tail_share == slip.tail_share


def test_a_given_derivative_does_not_err_in_the_slipstream_either():
    given = model(BIPLANE, ["derivatives.yaw_rudder=-0.05"])
    known = given.uncertainty(given.airplane("rotary"))
    assert "rudder_m2" not in known.immersed_errors
    assert known.immersed_errors["fin_angle_m2"] == {"fin_lift": 0.22, "sidewash": 0.2}
