"""Bands of speeds: many airplanes in one batch, each as it flies alone; what is certain has no width."""

from dataclasses import fields, replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL
from drawn import alone, sure
from shared import built

from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.many_speeds import ManySpeeds
from sim.flight.speeds import speeds as speeds_of_one
from sim.model.model import model
from sim.propulsion.thrust import thrust_n
from sim.studies import bands
from sim.studies.speeds import speeds
from sim.studies.speeds_bands import banded, many_powers
from sim.units.quantities import band_ends

NAMES = tuple(one.name for one in fields(ManySpeeds))
DENSITY = air(500.0).density_kg_m3


@pytest.fixture(scope="module")
def rough():
    """Return a biplane whose drag, lift and mass are known badly."""
    known = ("drag.zero_lift=0.05 ± 0.006", "lift.max=1.35 ± 0.1", "drag.span_efficiency=0.75 ± 0.06")
    return built(PARASOL, *known)


def flying_of(ours):
    return ours.airplane("rotary", altitude_m=500.0)


def by_itself(one):
    """Return the speeds of one airplane by the equations of one."""
    own = one.powerplant
    full, cruise = (
        thrust_n(one.airplane.engine, one.airplane.propeller, DENSITY, most)
        for most in (own.full_speed_rad_s, own.cruise_speed_rad_s)
    )
    return speeds_of_one(
        one.airplane.polar,
        weight_n=one.airplane.body.mass_kg * GRAVITY_M_S2,
        density_kg_m3=DENSITY,
        full_thrust_n=full,
        cruise_thrust_n=cruise,
    )


def test_each_airplane_of_the_batch_is_as_fast_as_alone(rough):
    many = bands.drawn_flying(rough, flying_of(rough), 3)
    drawn = many_powers(many, None, 500.0).speeds()
    for number in range(0, bands.DRAWS, 15):
        one = by_itself(replace(many, airplane=alone(many.airplane, number)))
        for name in NAMES:
            tolerance = 1e-4 if name == "best_climb_m_s" else 1e-7
            assert getattr(drawn, name)[number] == pytest.approx(getattr(one, name), rel=tolerance)


def test_the_ends_are_those_of_airplanes_flown_one_by_one(rough):
    found = speeds(rough, powerplant="rotary", altitude_m=500.0, bands=True, seed=3).powerplants["rotary"]
    many = bands.drawn_flying(rough, flying_of(rough), 3)
    alone_each = [by_itself(replace(many, airplane=alone(many.airplane, number))) for number in range(bands.DRAWS)]
    for name in ("stall_m_s", "climb_rate_m_s", "top_m_s"):
        ends = np.quantile([getattr(one, name) for one in alone_each], bands.BAND)
        assert [getattr(found, end) for end in band_ends(name)] == pytest.approx(ends, rel=1e-6)


def test_what_is_certain_has_a_band_without_width():
    """The numbers of one airplane, by other functions than those of many, to what each search ends at."""
    plain = speeds(built(), altitude_m=500.0)
    for name, own in plain.powerplants.items():
        model_of_one = sure(built().airplane(name))
        model_of_one.airplane = built().airplane
        now = (own, plain.bands[name], plain.curves[name])
        found, _, curve = banded(model_of_one, name, now, mass_kg=None, altitude_m=500.0, seed=1)
        for quantity in NAMES:
            value = getattr(own, quantity)
            tolerance = 1e-4 if quantity == "best_climb_m_s" else 1e-7
            ends = tuple(getattr(found, end) for end in band_ends(quantity))
            assert ends == pytest.approx((value, value), rel=tolerance)
        assert curve.full_low_w == pytest.approx(curve.full_w, rel=1e-9)
        assert curve.needed_high_w == pytest.approx(curve.needed_w, rel=1e-12)
        assert (found.level_flight_probability, found.cruise_probability) == (1.0, 1.0)


def test_a_number_lies_in_its_band(rough):
    for own in speeds(rough, bands=True).powerplants.values():
        for name in NAMES:
            low, high = (getattr(own, end) for end in band_ends(name))
            assert low < getattr(own, name) < high


def test_a_stall_scatters_as_the_square_root_of_lift_and_mass(rough):
    """1.645 standard deviations to each side: half of the relative ones of greatest lift and of mass."""
    own = speeds(rough, bands=True).powerplants["rotary"]
    mass = rough.flown_mass("rotary")
    share = 0.5 * np.hypot(0.1 / 1.35, mass.mass_error_kg / mass.body.mass_kg)
    width = (own.stall_high_m_s - own.stall_low_m_s) / own.stall_m_s
    assert width == pytest.approx(2.0 * 1.645 * share, rel=0.12)


def test_a_mass_that_is_given_is_not_drawn():
    wide = model(PARASOL, ["airplane.mass=600 kg ± 60 kg"])
    own, given = (
        speeds(wide, mass_kg=mass, bands=True).powerplants["rotary"]
        for mass in (None, wide.flown_mass("rotary").body.mass_kg)
    )
    assert own.stall_low_m_s < 0.996 * own.stall_m_s < 1.004 * own.stall_m_s < own.stall_high_m_s
    assert (given.stall_low_m_s, given.stall_high_m_s) == pytest.approx((own.stall_m_s, own.stall_m_s), rel=1e-12)


def test_another_seed_finds_nearly_the_same_band(rough):
    one, two = (speeds(rough, bands=True, seed=seed).powerplants["rotary"] for seed in (1, 2))
    width = one.climb_rate_high_m_s - one.climb_rate_low_m_s
    assert 0.0 < abs(one.climb_rate_low_m_s - two.climb_rate_low_m_s) < 0.15 * width


def test_power_that_is_not_known_widens_climb_and_not_the_stall():
    """The climb is the power to spare: a sixth of the power is more than drag and propeller leave unknown."""
    known, unsure = (
        speeds(model(BIPLANE, [f"powerplant.rotary.power=125 hp ± {error} hp"]), bands=True).powerplants["rotary"]
        for error in (0.01, 20.0)
    )
    assert unsure.stall_low_m_s == pytest.approx(known.stall_low_m_s, rel=1e-9)
    wide = unsure.climb_rate_high_m_s - unsure.climb_rate_low_m_s
    assert wide > 1.5 * (known.climb_rate_high_m_s - known.climb_rate_low_m_s)


def test_a_best_climb_held_by_a_kink_of_the_power_has_no_first_order_error():
    """The engine just reaches full speed there: a little more or less drag does not move it."""
    held, free = (
        speeds(model("tollgate", [f"powerplant.flat_four.propeller.pitch={inches} in"])).bands["flat_four"]
        for inches in (52, 58)
    )
    assert held.best_climb_band_m_s is None
    assert free.best_climb_band_m_s > 0.3
