"""Bands of runs: the airplanes drawn as one batch are those flown one by one, friction of wheels and skid with them."""

from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE
from drawn import alone
from shared import built

from sim.flight.landing_run import Blip
from sim.studies.bands import DRAWS, drawn_flying
from sim.studies.field import field
from sim.studies.field_landing import landing
from sim.studies.field_place import FieldPlace
from sim.studies.field_wind import approach_held, rolling_held, touchdown_held

BLIP = Blip(0.5, 3.0)


@pytest.fixture(scope="module")
def drawn():
    model = built(BIPLANE)
    many = drawn_flying(model, model.airplane("rotary"), 1)
    return FieldPlace(model, many, model.stance(), surface="short grass", headwind_m_s=2.0, seed=1)


def one_of(drawn, number):
    """Return one of the airplanes drawn, alone on the same field."""
    model = built(BIPLANE)
    flying = replace(drawn.flying, airplane=alone(drawn.airplane, number))
    place = FieldPlace(model, flying, model.stance(), surface="short grass", headwind_m_s=2.0)
    only = slice(number, number + 1)
    gear = replace(place.gear, ahead_m=drawn.gear.ahead_m[only], tail_m=drawn.gear.tail_m[only])
    ground = replace(drawn.ground, friction=drawn.ground.friction[only], tail_friction=drawn.ground.tail_friction[only])
    place.gear, place.ground = gear, ground
    return place


@pytest.mark.parametrize("number", [0, 17, 255])
def test_of_many_each_runs_as_alone(drawn, number):
    place = one_of(drawn, number)
    off, many = place.take_off(2.0), drawn.take_off(2.0)
    assert many.run.distance_m[number] == pytest.approx(off.run.distance_m[0], rel=1e-7)
    assert many.tail_up_m_s[number] == pytest.approx(off.tail_up_m_s[0], rel=1e-7)
    landed, lands = landing(place, BLIP), landing(drawn, BLIP)
    for name in ("run_m", "braked_m", "running_m", "running_thrust_n", "blip_share", "blip_end_share"):
        assert getattr(lands, name)[number] == pytest.approx(getattr(landed, name)[0], rel=1e-6, nan_ok=True)
    for sign in (-1.0, 1.0):
        both = rolling_held(place, off, 2.0, sign)[1], rolling_held(drawn, many, 2.0, sign)[1]
        for name in ("rudder_m_s", "ailerons_m_s"):
            assert getattr(both[1], name)[:, number] == pytest.approx(getattr(both[0], name)[:, 0], abs=1e-5)
        assert approach_held(drawn, sign)[0].wind_m_s[number] == pytest.approx(
            approach_held(place, sign)[0].wind_m_s[0], rel=1e-6, nan_ok=True
        )
        assert touchdown_held(drawn, sign).rudder_m_s[0, number] == pytest.approx(
            touchdown_held(place, sign).rudder_m_s[0, 0], abs=1e-5
        )


def test_friction_mass_and_centre_of_gravity_are_drawn(drawn):
    assert drawn.count == DRAWS
    for values, wanted in ((drawn.ground.friction, 0.05), (drawn.ground.tail_friction, 0.35)):
        assert np.mean(values) == pytest.approx(wanted, rel=0.1)
        assert np.std(values) == pytest.approx(0.3 * wanted, rel=0.2)
    assert np.std(drawn.mass_kg) > 0.0
    assert np.std(drawn.gear.ahead_m) > 0.0
    assert np.ptp(drawn.gear.ahead_m + drawn.gear.tail_m) < 1e-9


def test_bands_hold_the_numbers_and_are_the_same_each_time():
    own = field(built(BIPLANE), bands=True).powerplants["rotary"]
    again = field(built(BIPLANE), bands=True).powerplants["rotary"]
    for name, unit in (
        ("ground_run", "_m"),
        ("to_50_ft", "_m"),
        ("landing_run", "_m"),
        ("braked_run", "_m"),
        ("from_50_ft", "_m"),
        ("lift_off", "_m_s"),
        ("glide_ratio", ""),
        ("raising_share", ""),
    ):
        low, high = (getattr(own, f"{name}_{end}{unit}") for end in ("low", "high"))
        assert low < getattr(own, f"{name}{unit}") < high
        assert low == getattr(again, f"{name}_low{unit}")
    for wind in own.winds:
        assert wind.take_off_wind_low_m_s < wind.take_off_wind_m_s < wind.take_off_wind_high_m_s
        assert wind.approach_wind_low_m_s < wind.approach_wind_m_s < wind.approach_wind_high_m_s
        assert wind.touchdown_wind_low_m_s < wind.touchdown_wind_m_s < wind.touchdown_wind_high_m_s
    assert own.take_off_probability == 1.0
