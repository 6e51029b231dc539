"""Bands of modes: each root drawn is that of an airplane flown alone; what is certain has no width."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE
from drawn import alone, sure
from shared import built

from sim.flight.modes import Mode, modes, system_matrix
from sim.model.model import model
from sim.studies import bands
from sim.studies import modes as study
from sim.studies.mode_bands import banded, counterpart, with_bands
from sim.studies.turns import turns
from sim.units.quantities import band_ends

BANKS = (0.0, 35.0)


@pytest.fixture(scope="module")
def found():
    return study.modes(built(), banks_deg=BANKS, bands=True)


def flight_of(answer, powerplant, bank):
    return next(one for one in answer.flights if (one.powerplant, one.bank_deg) == (powerplant, bank))


def mode_of(flight, name):
    return next(mode for mode in flight.modes if mode.name == name)


def root(name, real, imag=0.0):
    frequency = abs(complex(real, imag))
    pair = (-real / frequency, frequency) if imag else (None, None)
    return Mode(name, real, imag, *pair, None, None, 0.0)


def test_a_number_lies_in_its_band_and_bands_are_as_wide_as_they_are_unsure(found):
    for flight in found.flights:
        for mode in flight.modes:
            assert mode.real_low_per_s < mode.real_per_s < mode.real_high_per_s
            assert mode.grows_probability == pytest.approx(0.0, abs=0.06) or mode.name == "spiral"
    roll = mode_of(flight_of(found, "rotary", 0.0), "roll")
    assert roll.time_to_half_low_s < roll.time_to_half_s < roll.time_to_half_high_s
    assert (roll.real_high_per_s - roll.real_low_per_s) / -roll.real_per_s == pytest.approx(0.48, abs=0.1)


def test_the_ends_are_those_of_airplanes_flown_one_by_one(found):
    """Each airplane drawn is trimmed, linearised and named alone; the quantiles are those of these numbers."""
    flying = built().airplane("rotary")
    many = bands.drawn_flying(built(), flying, 1).airplane
    real = []
    for number in range(bands.DRAWS):
        one = replace(flying, airplane=alone(many, number))
        turn = turns(one, np.radians([35.0]))
        if turn.found[0]:
            own = modes(system_matrix(one.airplane, turn.state[:, 0].tolist(), turn.controls(0)))
            real += [mode.real_per_s for mode in own if mode.name == "Dutch roll"]
    banded_mode = mode_of(flight_of(found, "rotary", 35.0), "Dutch roll")
    assert np.quantile(real, (0.05, 0.95)) == pytest.approx(
        (banded_mode.real_low_per_s, banded_mode.real_high_per_s), rel=1e-6
    )


def test_what_is_certain_has_a_band_without_width():
    plain = study.modes(built(), banks_deg=BANKS)
    flying = built().airplane("rotary")
    flights = [one for one in plain.flights if one.powerplant == "rotary"]
    for flight in banded(sure(flying), flying, flights, power=None, category="B", seed=1):
        assert flight.found_probability == 1.0
        for mode in flight.modes:
            for name in ("real_per_s", "imag_rad_s", "damping_ratio", "time_to_half_s", "coupling_share"):
                value = getattr(mode, name)
                ends = tuple(getattr(mode, end) for end in band_ends(name))
                assert ends == ((None, None) if value is None else pytest.approx((value, value), rel=1e-5, abs=1e-7))
            assert mode.level_probability in (None, 1.0)
            assert mode.grows_probability == float(mode.real_per_s > 0.0)


def test_a_time_that_may_never_come_has_no_end(found):
    """The rotary's spiral grows in most airplanes drawn and decays in some: its time to double has no upper end."""
    spiral = mode_of(flight_of(found, "rotary", 0.0), "spiral")
    assert 0.5 < spiral.grows_probability < 1.0
    assert spiral.real_low_per_s < 0.0 < spiral.real_per_s
    assert spiral.time_to_double_high_s is None
    assert spiral.time_to_double_low_s == pytest.approx(np.log(2.0) / spiral.real_high_per_s, rel=0.02)


def test_another_seed_draws_others_and_finds_nearly_the_same_band(found):
    other = study.modes(built(), banks_deg=BANKS, bands=True, seed=2)
    for name in ("Dutch roll", "roll"):
        one, two = (mode_of(flight_of(answer, "flat_four", 35.0), name) for answer in (found, other))
        width = one.real_high_per_s - one.real_low_per_s
        assert 0.0 < abs(one.real_low_per_s - two.real_low_per_s) < 0.2 * width


def test_an_oscillation_and_two_roots_without_one_stand_for_one_another():
    pair, slow, fast = root("short period", -3.0, 2.0), root("short period", -1.0), root("short period", -4.0)
    stands = counterpart(pair, 0, 1, (slow, fast))
    assert (stands.real_per_s, stands.natural_frequency_rad_s) == (-1.0, 2.0)
    assert stands.damping_ratio == pytest.approx(5.0 / 4.0)
    assert counterpart(slow, 0, 2, (pair,)) is counterpart(fast, 1, 2, (pair,)) is pair
    assert counterpart(fast, 1, 2, (slow, fast)) is fast
    grows = counterpart(pair, 0, 1, (root("short period", 0.5), fast))
    assert (grows.real_per_s, grows.damping_ratio) == (0.5, None)


def test_roll_and_spiral_that_swing_together_stand_for_both():
    both, roll, spiral = root("roll and spiral", -2.0, 0.3), root("roll", -7.0), root("spiral", 0.1)
    assert counterpart(roll, 0, 1, (both,)) is counterpart(spiral, 0, 1, (both,)) is both
    assert counterpart(both, 0, 1, (roll, spiral)) is spiral
    assert counterpart(root("phugoid", -0.1, 0.2), 0, 1, (roll, spiral)) is None


def test_without_bands_there_are_none():
    for mode in study.modes(built()).flights[0].modes:
        assert mode.real_low_per_s is mode.grows_probability is None


def test_a_swung_inertia_narrows_the_roll():
    """Roll damping over inertia: built up from boxes to a tenth, swung to a hundredth."""
    boxes = model(BIPLANE)
    roll_kg_m2 = boxes.flown_mass("rotary").body.inertia_roll_kg_m2
    swung = model(BIPLANE, [f"airplane.inertia_roll={roll_kg_m2} kg m^2 ± {0.01 * roll_kg_m2} kg m^2"])

    def width(one):
        (flight,) = (flight for flight in study.modes(one, bands=True).flights if flight.powerplant == "rotary")
        (roll,) = (mode for mode in flight.modes if mode.name == "roll")
        return (roll.real_high_per_s - roll.real_low_per_s) / abs(roll.real_per_s)

    wide, narrow = width(boxes), width(swung)
    assert narrow < 0.9 * wide
    assert wide**2 - narrow**2 == pytest.approx((2.0 * 1.645 * 0.1) ** 2, rel=0.5)


def test_a_draw_that_is_two_roots_is_told_apart_and_does_not_pass_critical_damping(found):
    """The short period of the rotary is near critical damping: two roots stand for it in some of the draws."""
    likely = [mode_of(flight_of(found, "rotary", 0.0), name) for name in ("short period", "Dutch roll")]
    oscillates = (root("short period", -3.0, 2.0), root("Dutch roll", -1.0, 3.0))
    overdamped = (root("short period", -1.0), root("short period", -4.0), root("Dutch roll", -1.0, 3.0))
    short, _ = with_bands(likely, (oscillates, overdamped), "B")
    assert short.two_roots_probability == 0.5
    assert short.damping_ratio_high <= 1.0
    assert short.damping_ratio_low == pytest.approx(0.05 + 0.95 * 3.0 / 13.0**0.5)
    for flight in found.flights:
        for one in flight.modes:
            assert (one.two_roots_probability is None) == (one.imag_rad_s == 0.0)
            if one.damping_ratio is not None:
                assert one.damping_ratio_high <= 1.0
