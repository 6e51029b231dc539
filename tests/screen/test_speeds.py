"""``speeds``: keys, the engine asked for, one too weak for level flight, and wrong input refused."""

import pytest
from airplanes import BIPLANE, SESQUIPLANE, TRIPLANE

import sim
from sim.model.model import Model
from sim.scenario.reading import load
from viz.figures.speeds import draw


def test_the_keys_of_speeds(answered):
    found = answered("speeds")
    keys = {
        "stall_m_s",
        "liftoff_m_s",
        "cruise_m_s",
        "top_m_s",
        "best_climb_m_s",
        "climb_rate_m_s",
        "lift_drag_max",
    }
    assert keys <= set(found)
    assert set(found["powerplants"]) == {"rotary", "flat_four"}
    assert all(set(own) == keys for own in found["powerplants"].values())


def test_the_top_of_speeds_is_the_engine_asked_for(answered):
    found = answered("speeds", "--powerplant", "rotary", "--weight", "1300 lb", "--altitude", "2000 ft")
    assert found["top_m_s"] == found["powerplants"]["rotary"]["top_m_s"]
    assert (found["mass_kg"], found["altitude_m"]) == pytest.approx((589.670081, 609.6))


def test_an_engine_too_weak_for_level_flight_is_named_beside_the_other(run):
    shown = " ".join(run("speeds", "--set", "powerplant.flat_four.power=20 hp").stdout.split())
    assert "top speed 106 mph" in shown
    assert "No column: full power of flat_four does not sustain level flight: the least deficit is " in shown


def test_wrong_options_are_refused_at_once(run):
    result = run("speeds", "--weight", "heavy", "--altitude", "90000 ft")
    assert (result.exit_code, result.stdout, result.stderr) == (
        2,
        "",
        (
            '--weight: must be a mass, as in "1350 lb", got "heavy"\n'
            '--altitude: must be -3280.8 to 36089 ft, got "90000 ft"\n'
        ),
    )


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=lambda path: path.stem)
def test_the_sheet_as_a_whole(run, snapshot, airplane, units):
    assert run("--units", units, "speeds", airplane).output == snapshot


def test_engines_that_drag_differently_have_a_curve_each_of_the_power_required():
    scenario = load(SESQUIPLANE)
    engines = {**scenario.powerplant, "radial": scenario.powerplant["flat_four"]}
    answer = sim.speeds(Model(scenario.model_copy(update={"powerplant": engines})))
    (panel,) = draw(answer, "si").axes
    shown = {one.get_label(): one for one in panel.get_lines() if one.get_label().startswith("required")}
    assert list(shown) == ["required in level flight, with flat_four", "required in level flight, with radial"]
    for name, curve in answer.curves.items():
        drawn = shown[f"required in level flight, with {name}"].get_ydata()
        assert list(drawn) == pytest.approx([power / 1000.0 for power in curve.needed_w])
    (panel,) = draw(sim.speeds(SESQUIPLANE), "si").axes
    assert [one.get_label() for one in panel.get_lines() if "required" in one.get_label()] == [
        "required in level flight"
    ]


def test_what_is_built_up_is_printed_with_its_band_and_leads_to_drag(run):
    sheet = run("speeds", SESQUIPLANE).output
    bands = sim.speeds(SESQUIPLANE).bands["flat_four"]
    assert f"± {bands.stall_band_m_s / 0.44704:.2g} mph" in sheet
    assert "whirlgate drag" in " ".join(sheet.split())
    assert "±" not in run("speeds", BIPLANE).output
