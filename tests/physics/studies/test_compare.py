"""The side-by-side: every number in it is one that another study or a symmetry gives as well."""

import math

import pytest
from airplanes import BIPLANE

from sim.errors import NoAnswerError
from sim.model.model import Model, model
from sim.scenario.reading import load
from sim.studies.compare import BANKS_DEG, compare
from sim.studies.handling import handling


@pytest.fixture(scope="module")
def answer():
    return compare(model(BIPLANE))


def test_the_rotary_spins_heavier(answer):
    rotary, fixed = answer.powerplants["rotary"], answer.powerplants["flat_four"]
    assert rotary.momentum_ratio == rotary.angular_momentum_kg_m2_s / fixed.angular_momentum_kg_m2_s > 3.0
    assert fixed.momentum_ratio == 1.0
    assert rotary.angular_momentum_kg_m2_s == pytest.approx(rotary.polar_inertia_kg_m2 * rotary.spin_rad_s, rel=1e-15)


@pytest.mark.parametrize("name", ["rotary", "flat_four"])
def test_the_couples_are_those_of_handling(answer, name):
    turns = handling(model(BIPLANE), banks_deg=BANKS_DEG).powerplants[name].turns
    for ours, theirs in zip(answer.powerplants[name].turns, turns, strict=True):
        assert (ours.pitch_n_m, ours.yaw_n_m) == pytest.approx((theirs.gyro_pitch_n_m, theirs.gyro_yaw_n_m), rel=1e-9)


def test_a_left_turn_lifts_the_nose_and_a_right_turn_lowers_it(answer):
    for one in answer.powerplants.values():
        for turn in one.turns:
            assert math.copysign(1.0, turn.pitch_n_m) == -math.copysign(1.0, turn.bank_deg)
            assert turn.yaw_n_m > 0.0


def test_two_blades_pulse_by_their_own_share_and_four_do_not(answer):
    """The pulse of a two-blade propeller is its own angular momentum times the rate; an even rotor has none."""
    rotary = answer.powerplants["rotary"]
    share = rotary.turns[0].peak_couple_n_m / rotary.turns[0].couple_n_m - 1.0
    propeller = load(BIPLANE).powerplant["rotary"].propeller.polar_inertia_kg_m2
    assert share == pytest.approx(propeller / rotary.polar_inertia_kg_m2, rel=1e-9)
    even = compare(model(BIPLANE, ["powerplant.rotary.propeller.blades=4", "gun.impulses_per_rev=2"]))
    turn = even.powerplants["rotary"].turns[0]
    assert turn.peak_couple_n_m == turn.couple_n_m


def test_the_other_rotation_mirrors_the_turns(answer):
    mirrored = compare(model(BIPLANE, ["powerplant.rotary.rotation=anticlockwise"])).powerplants["rotary"]
    for ours, other in zip(answer.powerplants["rotary"].turns, reversed(mirrored.turns), strict=True):
        assert (ours.pitch_n_m, ours.yaw_n_m) == pytest.approx((other.pitch_n_m, -other.yaw_n_m), rel=1e-9)


def test_the_spin_of_the_kick_and_the_pull(answer):
    """Nose swung right: the spin lowers it. Nose pulled up: the spin swings it right."""
    kick, pull = answer.powerplants["rotary"].disturbances
    assert (kick.effect, pull.effect) == ("nose down", "nose right")
    assert abs(kick.pitch_by_spin_deg) > 1.0 < abs(pull.yaw_by_spin_deg)


def test_the_kick_begins_as_a_couple_on_a_free_airframe(answer):
    """At first the heading grows with t², and pitch, from θ̈ = −h r / Jy, with its integral: −h ψ t / 3 Jy."""
    one, pitch_inertia = answer.powerplants["rotary"], load(BIPLANE).airplane.inertia_pitch_kg_m2
    kick, turn = one.disturbances[0], one.turns[2]
    momentum = turn.couple_n_m / math.radians(abs(turn.turn_rate_deg_s))
    expected = -momentum * kick.yaw_deg[1] * kick.time_s[1] / (3.0 * pitch_inertia)
    assert kick.pitch_deg[1] == pytest.approx(expected, rel=0.1)


def test_half_the_little_spin_adds_half():
    """What the spin adds goes with the angular momentum while it is small, so that none adds nothing."""
    scenario = load(BIPLANE)
    rotary = scenario.powerplant["rotary"]

    def added(inertia_kg_m2):
        propeller = rotary.propeller.model_copy(update={"polar_inertia_kg_m2": inertia_kg_m2})
        light = rotary.model_copy(update={"parts": None, "polar_inertia_kg_m2": inertia_kg_m2, "propeller": propeller})
        own = {"powerplant": {"rotary": light}, "item": [], "weighing": None, "balance": None}
        alone = Model(scenario.model_copy(update=own))
        return compare(alone).powerplants["rotary"].disturbances

    (kick, pull), (half_kick, half_pull) = added(0.1), added(0.05)
    assert kick.pitch_by_spin_deg == pytest.approx(2.0 * half_kick.pitch_by_spin_deg, rel=0.02)
    assert pull.yaw_by_spin_deg == pytest.approx(2.0 * half_pull.yaw_by_spin_deg, rel=0.02)


def test_too_slow_to_fly():
    with pytest.raises(NoAnswerError) as refusal:
        compare(model(BIPLANE, ["flight.speed=30 mph"]))
    assert str(refusal.value) == (
        "rotary: no steady straight flight at 13.41 m/s (30 mph) within CLmax; "
        "fly faster, at 16.4 m/s (36.6 mph) or more\n"
        "flat_four: no steady straight flight at 13.41 m/s (30 mph) within CLmax; "
        "fly faster, at 16.6 m/s (37.2 mph) or more"
    )


def test_a_turn_beyond_the_engine_says_so(answer):
    assert {turn.limit for one in answer.powerplants.values() for turn in one.turns} == {None}
    fast = compare(model(BIPLANE, ["flight.speed=300 mph"]))
    assert {turn.limit for one in fast.powerplants.values() for turn in one.turns} == {"power"}


def test_a_turn_that_the_spin_leaves_no_balance_for_has_no_couple():
    heavy = model(BIPLANE, ["flight.speed=60 mph", "powerplant.rotary.propeller.polar_inertia=400 lb ft^2"])
    left = compare(heavy).powerplants["rotary"].turns[0]
    assert (left.bank_deg, left.limit, left.effect) == (-60.0, "spin", "none")
    assert math.isnan(left.pitch_n_m)


def test_an_airplane_without_a_gun_is_compared_without_windows():
    unarmed = Model(load(BIPLANE).model_copy(update={"gun": None}))
    assert [one.timing for one in compare(unarmed).powerplants.values()] == [(), ()]
