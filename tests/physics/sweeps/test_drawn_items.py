"""The ± of an item reaches mass, centre of gravity, arms and stability together, in every draw, as it must."""

import re

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.model.model import Model, model
from sim.scenario.reading import load, read_text
from sim.studies.balance import balance
from sim.studies.derivatives import derivatives
from sim.sweeps.monte_carlo import spread
from sim.sweeps.parameters import drawn_tolerances

ASKED = {
    "balance.mass_kg": lambda ours: balance(ours).mass_kg,
    "balance.cg_percent_mac": lambda ours: balance(ours).cg_percent_mac,
    "balance.powerplants.rotary.static_margin_percent_mac": lambda ours: (
        balance(ours).powerplants["rotary"].static_margin_percent_mac
    ),
    "derivatives.derivatives.pitch_alpha.value": lambda ours: derivatives(ours).derivatives["pitch_alpha"].value,
}
"""Path of a sweep -> the same number, asked of the study."""
ITEMS = {
    "a wheel, ahead": (PARASOL, "item.gear.mass={} kg ± 1.3 kg", 34.0, 1.3),
    "a tail, aft": (PARASOL, "item.tail.mass={} kg ± 0.8 kg", 17.0, 0.8),
    "the place of a cockpit": (PARASOL, "item.cockpit.station={} m ± 0.03 m", 2.19, 0.03),
    "the tail of a weighed airplane": (BIPLANE, "item.tail skid.mass={} lb ± 1.1 lb", 7.0, 1.1),
    "an engine weighed apart": (TRIPLANE, "powerplant.rotary.mass={} lb ± 4 lb", 307.0, 4.0),
}


@pytest.fixture
def exact(tmp_path):
    """Return an airplane without a single ± but those of its scales, and without measured derivatives."""

    def write(path):
        text = re.sub(r"(?ms)^\[derivatives\].*?(?=^\[|^# ---)", "", path.read_text(encoding="utf-8"))
        plain, scales, readings = text.partition("[[weighing.reading]]")
        copy = tmp_path / path.name
        copy.write_text(re.sub(r' ±[^"\n]*"', '"', plain) + scales + readings, encoding="utf-8")
        return copy

    return write


def without_scales(path):
    """Take the weighing out of a file: each ± of a reading is drawn as well."""
    text = path.read_text(encoding="utf-8")
    path.write_text(text[: text.index("[weighing]")] if "[weighing]" in text else text, encoding="utf-8")
    return path


def results(found):
    return np.array([row.results for row in found.rows], dtype=float).T


@pytest.mark.parametrize("name", ITEMS)
def test_the_spread_is_the_derivative_times_the_tolerance(exact, name):
    path, key, nominal, tolerance = ITEMS[name]
    airplane = without_scales(exact(path))
    found = spread(str(airplane), collect=list(ASKED), draws=16, settings=[key.format(nominal)])
    assert [one.column.key for one in found.inputs if one.matters] == [key.partition("=")[0]]
    step = 0.05 * tolerance
    above, below = (
        np.array([ask(model(airplane, [key.format(nominal + way * step)])) for ask in ASKED.values()])
        for way in (1.0, -1.0)
    )
    slope = (above - below) / (2.0 * step) * tolerance / found.inputs[0].tolerance
    drawn = np.array([row.settings for row in found.rows], dtype=float).T[0]
    assert results(found).std(axis=1) == pytest.approx(abs(slope) * drawn.std(), rel=0.02, abs=1e-12)
    moved = abs(slope) * drawn.std() > 1e-4
    assert moved.tolist() == [".station" not in key and "rotary" not in key, "rotary" not in key, True, True]


@pytest.mark.parametrize(("item", "sign"), [("gear", -1.0), ("tail", 1.0), ("fuel", -1.0)])
def test_what_is_heavier_ahead_brings_the_centre_of_gravity_forward(exact, item, sign):
    airplane = exact(PARASOL)
    mass_kg = next(row.mass_kg for row in load(airplane).item if row.name == item)
    setting = f"item.{item}.mass={mass_kg!r} kg ± 0.7 kg"
    found = spread(str(airplane), collect=list(ASKED)[:2], draws=16, settings=[setting])
    assert np.corrcoef(results(found))[0, 1] == pytest.approx(sign, abs=1e-3)


def test_two_items_together_are_correlated_as_their_places_say(exact):
    """To first order dm = a + b and M dx = a (x_a − X) + b (x_b − X), a and b independent with their ±.

    What is drawn for a and b is known, so that few draws tell the correlation to the second order in them.
    """
    airplane = exact(PARASOL)
    errors = {"tail": 0.9, "gear": 1.3}  # in the order of the file, as the columns of the draws
    rows = {row.name: row for row in load(airplane).item}
    settings = [f"item.{name}.mass={rows[name].mass_kg!r} kg ± {error!r} kg" for name, error in errors.items()]
    found = spread(str(airplane), collect=list(ASKED)[:2], draws=64, sampling="sobol", settings=settings)
    station = balance(model(airplane)).cg_station_m
    by_mass = np.array(list(errors.values()))
    by_place = np.array([error * (rows[name].station_m - station) for name, error in errors.items()])
    expected = by_mass @ by_place / np.sqrt((by_mass @ by_mass) * (by_place @ by_place))
    assert 0.2 < expected < 0.9
    nominal = np.array([rows[name].mass_kg for name in errors])
    assert [one.column.key for one in found.inputs] == [f"item.{name}.mass" for name in errors]
    drawn = np.array([row.settings for row in found.rows], dtype=float) - nominal
    assert np.corrcoef(drawn.T)[0, 1] == pytest.approx(0.0, abs=0.1)
    by_draw = np.corrcoef(drawn.sum(axis=1), drawn @ (by_place / by_mass))[0, 1]
    assert by_draw == pytest.approx(expected, abs=0.1)
    assert np.corrcoef(results(found))[0, 1] == pytest.approx(by_draw, abs=0.002)


def test_a_scale_reading_is_drawn_into_mass_and_centre_together(exact):
    """The tail scale alone: heavier there is heavier, and aft."""
    airplane = exact(TRIPLANE)
    text = airplane.read_text(encoding="utf-8")
    airplane.write_text(re.sub(r'(scale = "[^±"]*) ±[^"]*"', r'\1"', text), encoding="utf-8")
    key = "weighing.reading.3.scale"
    found = spread(str(airplane), collect=list(ASKED)[:2], draws=16, settings=[f"{key}=92 lb ± 0.5 lb"])
    assert [one.column.key for one in found.inputs if one.matters] == [key]
    assert np.corrcoef(results(found))[0, 1] > 0.99


DERIVED = ("airplane.mass", "wing.arm")


@pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
def test_what_follows_from_the_list_is_not_drawn_by_itself(path):
    stated, drawn = load(path).tolerances, drawn_tolerances(load(path))
    assert set(DERIVED) <= set(stated)
    assert set(stated) - set(drawn) == set(DERIVED)
    numbers = [key for key in stated if key.startswith("item.")]
    assert len(numbers) > 10
    assert set(numbers) <= set(drawn)


def test_a_mass_that_is_set_is_drawn_and_flown(exact):
    set_mass = "airplane.mass=1450 lb ± 10 lb"
    assert drawn_tolerances(load(BIPLANE, [set_mass]))["airplane.mass"] == pytest.approx(4.5359237, rel=1e-9)
    airplane = without_scales(exact(BIPLANE))
    paths = [f"speeds.masses.{name}.mass_kg" for name in ("rotary", "flat_four")]
    found = spread(str(airplane), collect=paths, draws=16, settings=[set_mass])
    assert [one.column.key for one in found.inputs if one.matters] == ["airplane.mass"]
    (drawn,) = np.array([row.settings for row in found.rows], dtype=float).T
    assert results(found) == pytest.approx(np.array([drawn, drawn]), rel=1e-12)
    assert (drawn.mean(), drawn.std()) == (pytest.approx(657.709, abs=1.5), pytest.approx(4.536, abs=1.5))


def bare(path):
    """Return the text of a file without a ± and without scales."""
    text = re.sub(r' ±[^"\n]*"', '"', path.read_text(encoding="utf-8"))
    return text[: text.index("[weighing]")] if "[weighing]" in text else text


def test_the_mass_of_the_keys_is_drawn_for_the_engine_without_a_list_and_for_no_other(tmp_path):
    """The rotary has no station: it flies by airplane.mass, the flat-four by the items."""
    text = bare(BIPLANE).replace('mass = "1400 lb"', 'mass = "1400 lb ± 15 lb"', 1)
    head = text.index("[powerplant.rotary]")
    station = re.compile(r"^station = .*\n", re.MULTILINE).search(text, head)
    mixed = tmp_path / "mixed.toml"
    mixed.write_text(text[: station.start()] + text[station.end() :], encoding="utf-8")
    masses = {name: model(mixed).flown_mass(name) for name in ("rotary", "flat_four")}
    assert [mass.source for mass in masses.values()] == ["given", "item list"]
    paths = [f"speeds.masses.{name}.mass_kg" for name in masses]
    found = spread(str(mixed), collect=paths, draws=16)
    assert [one.column.key for one in found.inputs if one.matters] == ["airplane.mass"]
    (drawn,) = np.array([row.settings for row in found.rows], dtype=float).T
    by_keys, by_list = results(found)
    assert by_keys == pytest.approx(drawn, rel=1e-12)
    assert by_list == pytest.approx(masses["flat_four"].body.mass_kg, rel=1e-12)
    assert drawn.std() == pytest.approx(15.0 * 0.45359237, rel=0.2)


def test_a_moment_of_inertia_that_stands_beside_the_list_is_drawn_with_what_the_engine_changes(tmp_path):
    """The triplane's inertia in yaw is 27 % more than its boxes: the table's serves, its ± is that of each engine."""
    swung = tmp_path / "swung.toml"
    keys = {"roll": ("472", 9.0), "yaw": ("987", 31.0)}
    text = bare(TRIPLANE)
    for axis, (value, error) in keys.items():
        old = f'inertia_{axis} = "{value} slug ft^2"'
        assert old in text
        text = text.replace(old, f'{old[:-1]} ± {error} slug ft^2"')
    swung.write_text(text, encoding="utf-8")
    flown = {name: model(swung).flown_mass(name) for name in ("rotary", "geared_six")}
    assert all(mass.inertia_stated for mass in flown.values())
    assert set(drawn_tolerances(load(swung))) == {"airplane.inertia_roll", "airplane.inertia_yaw"}
    modes_of = [f"modes.flights.{flight}.modes.{mode}.real_per_s" for flight in (1, 2) for mode in (1, 2, 3)]
    found = spread(str(swung), collect=modes_of, draws=16)
    assert {one.column.key for one in found.inputs if one.matters} == {"airplane.inertia_roll", "airplane.inertia_yaw"}
    row = found.rows[3]
    scenario = load(swung)
    drawn = read_text(
        scenario.source.text,
        drawn=[f"airplane.inertia_{axis}={value!r} kg m^2" for axis, value in zip(keys, row.settings, strict=True)],
    )
    for name, mass in flown.items():
        body, stated = Model(drawn).flown_mass(name).body, scenario.airplane
        for axis, value in zip(keys, row.settings, strict=True):
            changed = getattr(mass.body, f"inertia_{axis}_kg_m2") - getattr(stated, f"inertia_{axis}_kg_m2")
            assert getattr(body, f"inertia_{axis}_kg_m2") == pytest.approx(value + changed, rel=1e-12)
    assert results(found).std(axis=1).max() > 1e-3


def test_moments_of_inertia_by_the_list_are_not_drawn_by_themselves(tmp_path):
    text = bare(BIPLANE).replace('inertia_yaw = "1030 slug ft^2"', 'inertia_yaw = "1030 slug ft^2 ± 40 slug ft^2"')
    listed = tmp_path / "listed.toml"
    listed.write_text(text, encoding="utf-8")
    assert not any(model(listed).flown_mass(name).inertia_stated for name in model(listed).powerplants)
    assert "airplane.inertia_yaw" in load(listed).tolerances
    assert drawn_tolerances(load(listed)) == {}
