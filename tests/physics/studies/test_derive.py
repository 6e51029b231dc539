"""Every derivation arrives at the figures that the other studies print."""

import math

import pytest
from airplanes import BIPLANE

from sim.errors import InputError
from sim.model.model import model
from sim.studies.compare import compare
from sim.studies.derive import derive
from sim.studies.handling import handling
from sim.studies.modes import modes
from sim.studies.windows import window_rows

NAMES = ("rotary", "flat_four")
MODEL = model(BIPLANE)


def figures(topic, name, asked=MODEL):
    return {result.name: result.value for result in derive(asked, topic, powerplant=name).results}


@pytest.mark.parametrize("name", NAMES)
def test_couple_is_that_of_compare(name):
    turn = next(turn for turn in compare(MODEL).powerplants[name].turns if turn.bank_deg == 45.0)
    for key, value in figures("couple", name).items():
        assert value == pytest.approx(getattr(turn, key), rel=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_turn_is_that_of_handling(name):
    turn = handling(MODEL, banks_deg=(45.0,)).powerplants[name].turns[0]
    found = figures("turn", name)
    assert found["turn_rate_deg_s"] == pytest.approx(turn.turn_rate_deg_s, rel=1e-12)
    assert found["load_factor"] == pytest.approx(turn.load_factor, rel=1e-12)
    assert found["pitch_n_m"] == pytest.approx(turn.gyro_pitch_n_m, rel=1e-12)
    assert found["yaw_n_m"] == pytest.approx(turn.gyro_yaw_n_m, rel=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_modes_are_those_of_modes(name):
    printed = next(flight for flight in modes(MODEL).flights if flight.powerplant == name).modes
    found = derive(MODEL, "modes", powerplant=name).results[1:]
    ours = sorted((real.value, imag.value) for real, imag in zip(found[::2], found[1::2], strict=True))
    theirs = sorted((mode.real_per_s, mode.imag_rad_s) for mode in printed)
    for pair, other in zip(ours, theirs, strict=True):
        assert pair == pytest.approx(other, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize("name", NAMES)
def test_windows_and_rate_are_those_of_windows(name):
    ideal, fixed = (list(window_rows(MODEL.gun_line(name, ideal=ideal)))[-1] for ideal in (True, False))
    found = figures("windows", name)
    assert found.pop("from_deg") == pytest.approx(ideal.windows_deg[0].from_deg, rel=1e-12)
    for row, values in ((ideal, found), (fixed, figures("rate", name))):
        for key, value in values.items():
            assert value == pytest.approx(getattr(row, key), rel=1e-12)


def test_the_rate_of_an_impulse_gun():
    impulse = model(BIPLANE, ["gun.action=impulse"])
    row = list(window_rows(impulse.gun_line("rotary")))[-1]
    assert figures("rate", "rotary", impulse)["rounds_per_min"] == pytest.approx(row.rounds_per_min, rel=1e-12)


def test_nutation_without_air_is_momentum_over_the_mean_inertia():
    body = MODEL.flown_mass("rotary").body
    momentum = derive(MODEL, "modes", powerplant="rotary").numbers[0].value
    expected = momentum / math.sqrt(body.inertia_pitch_kg_m2 * body.inertia_yaw_kg_m2)
    assert figures("modes", "rotary")["nutation_rad_s"] == pytest.approx(expected, rel=1e-14)


def test_an_unknown_powerplant():
    with pytest.raises(InputError) as refusal:
        derive(MODEL, "couple", powerplant="rotory")
    assert str(refusal.value) == 'powerplant: must be one of rotary, flat_four, got "rotory"; did you mean rotary?'
