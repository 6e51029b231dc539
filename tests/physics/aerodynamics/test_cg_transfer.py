"""Given derivatives about another centre of gravity: one transfer for them and for whole airplanes."""

from dataclasses import asdict

import pytest
from airplanes import PARASOL, TRIPLANE

from sim.aerodynamics.cg_transfer import about_moved_cg, given_about_moved_cg
from sim.aerodynamics.derivative import values
from sim.model.model import model

AFT_M = -0.093


@pytest.fixture(scope="module", params=[PARASOL, TRIPLANE], ids=["parasol", "triplane"])
def flying(request):
    return model(request.param).airplane()


def test_all_given_are_moved_as_an_airplane_is(flying):
    given = {
        name: 1.1 * value - 0.01
        for name, value in asdict(values(flying.derivatives)).items()
        if name in flying.derivatives
    }
    polar = flying.airplane.polar
    moved = given_about_moved_cg(given, flying.derivatives, polar, AFT_M)
    whole = about_moved_cg(type(values(flying.derivatives))(**given), polar, AFT_M)
    assert moved == pytest.approx({name: getattr(whole, name) for name in given}, rel=1e-12)


def test_one_that_is_given_is_moved_by_the_force_that_is_estimated(flying):
    """The forces act where they did: Cm gains CL aft/c, Cn gains CY aft/b; the others stay."""
    polar, estimated = flying.airplane.polar, {name: one.value for name, one in flying.derivatives.items()}
    gains = {
        "pitch_alpha": estimated["lift_alpha"] * AFT_M / polar.chord_m,
        "pitch_0": polar.lift_zero * AFT_M / polar.chord_m,
        "pitch_elevator": estimated["lift_elevator"] * AFT_M / polar.chord_m,
        "yaw_beta": estimated["side_beta"] * AFT_M / polar.span_m,
        "yaw_rudder": estimated["side_rudder"] * AFT_M / polar.span_m,
        "lift_alpha": 0.0,
        "side_beta": 0.0,
        "roll_p": 0.0,
    }
    for name, gain in gains.items():
        assert given_about_moved_cg({name: 0.37}, flying.derivatives, polar, AFT_M) == pytest.approx(
            {name: 0.37 + gain}
        )
    slope = given_about_moved_cg({"pitch_alpha": -0.4, "lift_alpha": 5.5}, flying.derivatives, polar, AFT_M)
    assert slope["pitch_alpha"] == pytest.approx(-0.4 + 5.5 * AFT_M / polar.chord_m)


def test_about_the_same_point_they_stay_to_the_last_bit(flying):
    given = {"pitch_q": -8.7, "yaw_r": -0.107}
    assert given_about_moved_cg(given, flying.derivatives, flying.airplane.polar, 0.0) == given
    there = given_about_moved_cg(given, flying.derivatives, flying.airplane.polar, AFT_M)
    assert there["pitch_q"] < given["pitch_q"]  # farther ahead: more damping in pitch and in yaw
    assert there["yaw_r"] < given["yaw_r"]
