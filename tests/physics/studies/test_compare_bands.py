"""Bands of a comparison: each response drawn is that of an airplane alone; rotor and moments have their errors."""

from dataclasses import replace

import numpy as np
import pytest
from drawn import alone, sure
from shared import built

from sim.studies import bands
from sim.studies.compare import compare
from sim.studies.compare_bands import banded, drawn_by_spin
from sim.studies.impulse_response import impulse_response
from sim.units.quantities import band_ends

BY_SPIN = ("pitch_by_spin_deg", "yaw_by_spin_deg")


@pytest.fixture(scope="module")
def found():
    return compare(built(), bands=True)


def ends(row, name):
    return tuple(getattr(row, end) for end in band_ends(name))


def test_each_response_is_that_of_an_airplane_flown_alone():
    """Equal steps of 50 ms beside adapted ones of high order: to 0.01° of what the rotor adds, some degrees."""
    flying = built().airplane("rotary")
    many = bands.drawn_flying(built(), flying, 1)
    drawn, balance = dict(drawn_by_spin(many)), np.flatnonzero(bands.drawn_turns(many, (0.0,)).found)
    for place in (0, 7, 31, 100):
        one = replace(flying, airplane=alone(many.airplane, int(balance[place])))
        for response in impulse_response(one):
            together = drawn[response.input][:, place]
            assert together == pytest.approx([getattr(response, name) for name in BY_SPIN], abs=0.01)
    spread = np.ptp(drawn["pull-up"][1])
    assert spread > 0.1, "they are different airplanes"


def test_what_is_certain_has_bands_without_width():
    flying = built().airplane("rotary")
    plain = compare(built()).powerplants["rotary"]
    one = banded(sure(flying), (flying,), {"rotary": plain}, seed=1)["rotary"]
    for turn in one.turns:
        for name in ("pitch_n_m", "yaw_n_m"):
            assert ends(turn, name) == pytest.approx([getattr(turn, name)] * 2, rel=1e-6)
    for response in one.disturbances:
        for name in BY_SPIN:
            assert ends(response, name) == pytest.approx([getattr(response, name)] * 2, abs=0.01)
    assert ends(one, "polar_inertia_kg_m2") == pytest.approx([one.polar_inertia_kg_m2] * 2, rel=1e-12)


def test_momentum_at_full_speed_errs_as_the_polar_inertia_does(found):
    for name, one in found.powerplants.items():
        error = built().uncertainty(built().airplane(name)).inertia_error
        low, high = ends(one, "angular_momentum_kg_m2_s")
        assert np.divide(ends(one, "polar_inertia_kg_m2"), one.polar_inertia_kg_m2) == pytest.approx(
            np.divide((low, high), one.angular_momentum_kg_m2_s), rel=1e-12
        )
        assert (high - low) / one.angular_momentum_kg_m2_s == pytest.approx(2.0 * 1.645 * error, rel=0.15)
    rotary, fixed = found.powerplants["rotary"], found.powerplants["flat_four"]
    assert rotary.momentum_ratio_low < rotary.momentum_ratio < rotary.momentum_ratio_high
    assert ends(fixed, "momentum_ratio") == (None, None), "one by its meaning"


def test_moments_and_responses_lie_in_their_bands(found):
    for one in found.powerplants.values():
        for turn in one.turns:
            for name in ("pitch_n_m", "yaw_n_m"):
                low, high = ends(turn, name)
                assert low < getattr(turn, name) < high
        kick, pull = one.disturbances
        for response, name in ((kick, "pitch_by_spin_deg"), (pull, "yaw_by_spin_deg")):
            low, high = ends(response, name)
            assert low < getattr(response, name) < high
            assert low * high > 0.0, "its sign is sure"


def test_a_flown_mass_errs_by_the_normal_law(found):
    for name, mass in found.masses.items():
        flown = built().flown_mass(name)
        assert ends(mass, "mass_kg") == pytest.approx(
            [mass.mass_kg + sign * 1.6448536 * flown.mass_error_kg for sign in (-1.0, 1.0)]
        )
        error = 100.0 * flown.cg_error_m / built().mean_chord.chord_m
        assert ends(mass, "cg_percent_mac") == pytest.approx(
            [mass.cg_percent_mac + sign * 1.6448536 * error for sign in (-1.0, 1.0)]
        )
    assert ends(compare(built()).masses["rotary"], "mass_kg") == (None, None)
