"""``speeds``: keys, the engine asked for, one too weak for level flight, and wrong input refused."""

import pytest
from airplanes import BIPLANE, SESQUIPLANE, TRIPLANE

import sim
from sim.model.model import Model
from sim.scenario.reading import load
from sim.units.quantities import band_ends, error_of
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
    ends = {end for name in keys for end in band_ends(name)}
    shares = {"level_flight_probability", "cruise_probability"}
    assert all(set(own) == keys | ends | shares for own in found["powerplants"].values())
    assert all(own[name] is None for own in found["powerplants"].values() for name in ends | shares)


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
    for name in ("stall_m_s", "liftoff_m_s", "best_climb_m_s", "cruise_m_s", "top_m_s"):
        assert f" ± {getattr(bands, error_of(name)) / 0.44704:.2g} mph" in sheet
    assert f" ± {bands.climb_rate_band_m_s / 0.3048 * 60.0:.2g} ft/min" in sheet
    assert "whirlgate drag" in " ".join(sheet.split())
    assert "±" not in run("speeds", BIPLANE).output


def test_bands_stand_below_each_number_and_are_shaded(run, answered):
    own = answered("speeds", "--bands")["powerplants"]["rotary"]
    shown = run("speeds", "--bands").output
    knots = [own[name] / 0.44704 for name in ("stall_m_s", *band_ends("stall_m_s"))]
    assert f"{knots[0]:.0f} mph" in shown or f"{knots[0]:.1f} mph" in shown
    assert f"{knots[1]:.1f} to {knots[2]:.1f}" in shown or f"{knots[1]:.0f} to {knots[2]:.0f}" in shown
    answer = sim.speeds(BIPLANE, bands=True)
    (panel,) = draw(answer, "si").axes
    shaded = [band.get_paths()[0].get_extents() for band in panel.collections]
    assert len(shaded) == 3
    top = [max(curve.full_high_w) / 1000.0 for curve in answer.curves.values()]
    assert [one.ymax for one in shaded[:2]] == pytest.approx(top, rel=1e-6)
    assert not draw(sim.speeds(BIPLANE), "si").axes[0].collections


def test_an_airplane_that_may_not_fly_level_says_in_what_share_it_does(run):
    shown = " ".join(run("speeds", "--bands", "--set", "powerplant.flat_four.power=54 kW").stdout.split())
    assert "flat_four: full power sustains level flight in 83 %" in shown
    assert "% of the airplanes drawn; the bands of what it needs are of these." in shown
    assert "flat_four: cruise power sustains level flight in " in shown
