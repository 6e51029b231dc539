"""What answers hang on: exact where an answer is a sum of values, and as wide as the draws where it is not."""

import math
import statistics

import pytest
from airplanes import BIPLANE

from sim.errors import NoAnswerError
from sim.model.model import model
from sim.studies.balance import balance
from sim.sweeps.local_sensitivity import sensitivity


@pytest.fixture(scope="module")
def unweighed(tmp_path_factory):
    """Return the biplane before it was weighed: its mass is the sum of its list."""
    file = tmp_path_factory.mktemp("unweighed") / "biplane.toml"
    file.write_text(BIPLANE.read_text(encoding="utf-8").partition("[weighing]")[0], encoding="utf-8")
    return str(file)


@pytest.fixture(scope="module")
def mass(unweighed):
    (found,) = sensitivity(unweighed, collect=["balance.mass_kg"])
    return found


@pytest.fixture(scope="module")
def balanced(unweighed):
    return balance(model(unweighed))


@pytest.fixture(scope="module")
def weight_for_weight(balanced):
    """Return what a kilogram more of one part adds: some parts are shares of the empty weight and grow along."""
    shares = sum(item.mass_kg for item in balanced.items if item.from_past) / balanced.empty_mass_kg
    return 1.0 / (1.0 - shares)


def test_a_weight_moves_the_sum_by_itself_and_what_grows_along(mass, weight_for_weight):
    assert len(mass.inputs) >= 6
    for one_input in mass.inputs:
        assert one_input.change == pytest.approx(weight_for_weight * one_input.tolerance, rel=1e-9)


def test_the_spread_of_a_sum_is_the_root_of_squares(mass, balanced, weight_for_weight):
    assert mass.nominal == balanced.mass_kg
    weights = [one_input.tolerance for one_input in mass.inputs]
    assert mass.spread == pytest.approx(weight_for_weight * math.hypot(*weights), rel=1e-9)


def test_the_strongest_comes_first(mass):
    moves = [abs(one_input.change) for one_input in mass.inputs]
    assert moves == sorted(moves, reverse=True)
    assert mass.inputs[0].column.key == "item.fuselage frame.mass"


def test_a_weighed_airplane_hangs_on_its_scales():
    """Every ± moved alone comes to the stated error, less what the errors add that the file leaves to assumption."""
    (found,) = sensitivity(BIPLANE, collect=["balance.mass_kg"])
    assert found.inputs[0].column.key.startswith("weighing.reading.")
    assert found.spread == pytest.approx(balance(model(BIPLANE)).mass_error_kg, rel=0.1)


def test_what_the_list_settles_is_not_varied_by_itself():
    """Weight, arm and inertia follow from the items: a ± of theirs would move one without the others."""
    (found,) = sensitivity(BIPLANE, collect=["speeds.powerplants.rotary.stall_m_s"])
    keys = {one.column.key for one in found.inputs}
    assert "airplane.mass" not in keys
    assert any(key.startswith("weighing.") for key in keys)


@pytest.mark.slow
@pytest.mark.parametrize(
    "path",
    [
        "speeds.powerplants.rotary.climb_rate_m_s",
        "summary.first.left_rudder_share",
    ],
)
def test_it_is_as_wide_as_draws_of_everything_at_once(path):
    """32 draws tell a standard deviation to about 13 %; three of those are allowed."""
    from sim.sweeps.monte_carlo import spread

    settings = ["item.1.mass=96 lb"]
    (found,) = sensitivity(BIPLANE, collect=[path], settings=settings)
    drawn = spread(BIPLANE, collect=[path], draws=32, settings=settings)
    sd = statistics.stdev(row.results[0] for row in drawn.rows)
    assert found.spread == pytest.approx(sd, rel=0.38)
    assert {one.column.key for one in found.inputs} == {one.column.key for one in drawn.inputs if one.matters}


def test_an_attitude_moves_the_weighed_height_as_the_weighing_itself_says():
    """Scales and supports exact to a thousandth, the error of the tail-low attitude is the error of the height."""
    sharp = [
        f"weighing.reading.{k}.scale={kg} lb ± 0.001 lb" for k, kg in enumerate((556, 554, 106.5, 522, 520, 166), 1)
    ]
    sharp += [
        f"weighing.support.{name}.{key}={value} in ± 0.0001 in"
        for name, places in (("left", (36, -33, 0)), ("right", (36, 33, 0)), ("tail", (210, 0, 37)))
        for key, value in zip(("station", "buttline", "waterline"), places, strict=True)
    ]
    settings = [*sharp, "weighing.attitude.level=0 ° ± 0.0001 °", "weighing.attitude.tail_low=12 ° ± 0.05 °"]
    (found,) = sensitivity(BIPLANE, collect=["balance.weighing.weighed.cg_waterline_m"], settings=settings)
    assert found.inputs[0].column.key == "weighing.attitude.tail_low"
    error_m = balance(model(BIPLANE, settings)).weighing.weighed.cg_waterline_error_m
    assert abs(found.inputs[0].change) == pytest.approx(error_m, rel=0.02)


def test_a_setting_without_tolerance_is_no_lever():
    (found,) = sensitivity(BIPLANE, collect=["balance.mass_kg"], settings=["item.fuselage frame.mass=112 lb"])
    assert "item.fuselage frame.mass" not in {one_input.column.key for one_input in found.inputs}


def test_no_answer_is_a_sentence():
    with pytest.raises(NoAnswerError) as refusal:
        sensitivity(BIPLANE, collect=["summary.first.left_rudder_share"], settings=["flight.speed=30 mph"])
    assert str(refusal.value).startswith("summary: rotary: ")
