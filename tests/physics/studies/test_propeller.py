"""The study of propellers: what the engine's torque allows, options alone, every wrong parameter."""

import math

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

import sim
from sim.errors import InputError
from sim.model.model import model
from sim.propulsion.thrust import thrust_n
from sim.scenario.reading import load

ALONE = {"diameter_m": 2.13, "pitch_m": 1.62, "chord_m": 0.151}


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
def test_each_propeller_on_its_engine(airplane):
    asked = model(airplane)
    found = sim.propeller(asked)
    assert list(found.powerplants) == list(asked.powerplants)
    for name, own in found.powerplants.items():
        engine = asked.powerplants[name]
        full_rpm = engine.propeller_speed_rad_s(engine.full_speed_rad_s) * 30.0 / math.pi
        assert own.points[0].thrust_n == own.static_thrust_n
        assert own.points[0].rpm == own.static_rpm
        assert 0.2 < own.figure_of_merit < 0.85
        thrusts = [point.thrust_n for point in own.points]
        falling = thrusts[thrusts.index(max(thrusts)) :]  # with stalled blades it rises a little at first
        assert falling == sorted(falling, reverse=True)
        assert own.static_thrust_n > 0.9 * max(thrusts)
        for point in own.points:
            assert point.rpm <= full_rpm * (1.0 + 1e-12)
            assert point.power_w < 1.05 * engine.power_w
            if point.efficiency is not None:
                assert point.efficiency == pytest.approx(point.thrust_n * point.speed_m_s / point.power_w, abs=1e-12)


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
def test_flights_have_the_thrust_of_the_chart(airplane):
    """Through the closed form, at the tip Mach number of cruise; one of these propellers has no measured efficiency."""
    asked, shares = model(airplane), set()
    for name, own in sim.propeller(asked, speeds_m_s=(12.0, 27.0, 41.0), altitude_m=0.0).powerplants.items():
        engine = asked.powerplants[name]
        law = thrust_n(engine.engine_law, engine.propeller_law, 1.225, engine.full_speed_rad_s)
        assert law(0.0) == pytest.approx(own.static_thrust_n, rel=0.03)
        for point in own.points:
            assert law(point.speed_m_s) == pytest.approx(point.thrust_n, abs=0.02 * own.static_thrust_n)
        shares.add(own.thrust_share)
        given = engine.propeller.efficiency
        assert (own.thrust_share == 1.0) == (given is None)
    assert max(shares) <= 1.0


def test_a_measured_efficiency_is_the_best_of_the_chart():
    found = sim.propeller(PARASOL, advance=tuple(0.01 * step for step in range(140))).powerplants
    for name, engine in model(PARASOL).powerplants.items():
        best = max(point.efficiency or 0.0 for point in found[name].coefficients)
        assert best == pytest.approx(engine.propeller.efficiency, rel=0.01)


def test_coarser_blades_slow_the_engine():
    speeds = [
        sim.propeller(TRIPLANE, turn_deg=turn, speeds_m_s=(20.0,)).powerplants["rotary"].points[0].rpm
        for turn in (-2.0, 0.0, 2.0)
    ]
    assert speeds == sorted(speeds, reverse=True)
    assert speeds[0] > speeds[-1]


def test_throttled_points_have_full_speed_and_less_than_full_power():
    own = sim.propeller(BIPLANE, speeds_m_s=(30.0, 43.0, 50.0), altitude_m=0.0).powerplants["rotary"]
    assert own.full_rpm == pytest.approx(1250.0)
    assert [point.rpm >= own.full_rpm for point in own.points] == [False, True, True]
    full_w = model(BIPLANE).powerplants["rotary"].power_w
    assert own.points[1].power_w < full_w
    assert own.points[0].power_w / own.points[0].rpm == pytest.approx(full_w / 1250.0, rel=0.02)


def test_a_remark_on_fast_tips():
    found = sim.propeller(BIPLANE).powerplants
    assert found["rotary"].remarks == ()
    assert max(point.tip_mach for point in found["flat_four"].points) > 0.75
    assert found["flat_four"].remarks[0].startswith("the tips reach Mach 0.7")


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
def test_whether_it_suits_is_what_a_free_engine_does(airplane):
    """The sign of what is left over at full speed, from the points of another answer on either side of full speed."""
    for name, engine in model(airplane).powerplants.items():
        key = f"powerplant.{name}.speed={2.0 * engine.full_speed_rad_s} rad/s"
        power = f"powerplant.{name}.power={2.0 * engine.power_w} W"
        free = sim.propeller(model(airplane, [key, power]), speeds_m_s=(37.0,), design_speed_m_s=37.0).powerplants[name]
        own = sim.propeller(model(airplane), speeds_m_s=(37.0,), design_speed_m_s=37.0).powerplants[name]
        found = own.suitability
        assert free.points[0].rpm / own.full_rpm == pytest.approx(found.rpm_share, rel=0.02)
        expected = "suits" if abs(found.rpm_share - 1.0) <= 0.03 else "over" if found.rpm_share < 1.0 else "under"
        assert found.verdict.partition("-")[0] == expected
        assert (found.full_power_speed_m_s or 0.0) < 37.0 or found.rpm_share <= 1.0
        assert found.design_speed_m_s == 37.0


def test_the_airspeed_is_top_speed_unless_asked():
    flown = sim.speeds("tollgate").powerplants
    for name, own in sim.propeller("tollgate").powerplants.items():
        assert own.suitability.design_speed_m_s == pytest.approx(flown[name].top_m_s, rel=1e-9)
        assert own.suitability.verdict == "suits"
    weak = ["powerplant.rotary.power=9 hp", "flight.speed=61 mph"]
    grounded = sim.propeller(model("tollgate", weak)).powerplants["rotary"].suitability
    assert grounded.design_speed_m_s == pytest.approx(61.0 * 0.44704)


def test_a_suggested_propeller_suits():
    asked = sim.propeller(TRIPLANE, design_speed_m_s=39.0).powerplants["geared_six"]
    assert asked.suitability.verdict == "under-propped"
    pairs = asked.suitability.suggestions
    assert len(pairs) > 4
    for one in (pairs[0], pairs[-1]):
        keys = {"diameter": one.suited_diameter_m, "pitch": one.suited_pitch_m}
        place = "powerplant.geared_six.propeller"
        chord = f"{place}.blade_chord={_chord_m(one.suited_diameter_m)} m"
        fitted = model(TRIPLANE, [chord, *(f"{place}.{key}={value} m" for key, value in keys.items())])
        found = sim.propeller(fitted, speeds_m_s=(39.0,), design_speed_m_s=39.0).powerplants["geared_six"]
        assert found.suitability.verdict == "suits"
        assert found.suitability.rpm_share == pytest.approx(1.0, abs=0.01)
        # its measured efficiency is set again, for blades of another pitch: compare without it
        assert found.points[0].thrust_n / found.thrust_share == pytest.approx(
            one.thrust_n / asked.thrust_share, rel=0.02
        )


def _chord_m(diameter_m):
    """Return the chord at the bore line that makes a propeller of the triplane's planform at another diameter."""
    blade = model(TRIPLANE).powerplants["geared_six"].propeller.blade
    return float(np.interp(2.0 * 14.3 * 0.0254 / diameter_m, blade.radius_share, blade.chord_per_diameter)) * diameter_m


def test_height_above_the_ground_limits_what_is_suggested():
    """The bundled rotary's propeller turns 10 in above it, an inch more than the rule: two inches of diameter."""
    found = sim.propeller("tollgate").powerplants["rotary"].suitability
    assert found.ground_clearance_m == pytest.approx(10.0 * 0.0254, rel=1e-6)
    assert found.least_clearance_m == pytest.approx(9.0 * 0.0254)
    assert max(one.suited_diameter_m for one in found.suggestions) == pytest.approx(104.0 * 0.0254)
    raised = sim.propeller(model("tollgate", ["balance.thrust_line=63 in"])).powerplants["rotary"].suitability
    assert max(one.suited_diameter_m for one in raised.suggestions) > 107.0 * 0.0254


def test_suggestions_of_two_airplanes_are_paired_by_their_diameters():
    low, high = sim.propeller("tollgate"), sim.propeller(model("tollgate", ["balance.thrust_line=63 in"]))
    found = sim.differences(low, high)
    assert len(found.only_in_against) == 2
    pitches = [one for one in found.differences if one.name == "suited_pitch_m" and "rotary" in one.path]
    assert all(abs(one.difference) < 0.01 for one in pitches)


def test_tips_limit_what_is_suggested():
    found = sim.propeller(model("tollgate", ["powerplant.flat_four.speed=2950 rpm"])).powerplants["flat_four"]
    assert 0.8 < max(one.tip_mach for one in found.suitability.suggestions) <= 0.85
    assert found.suitability.tip_mach > 0.85


def test_a_scenario_that_does_not_say_how_it_stands_has_no_clearance():
    found = sim.propeller(PARASOL, design_speed_m_s=30.0).powerplants["rotary"].suitability
    assert (found.ground_clearance_m is None) == (found.least_clearance_m is None)
    bare = model(load(BIPLANE).model_copy(update={"weighing": None}))
    other = sim.propeller(bare, design_speed_m_s=30.0).powerplants["rotary"].suitability
    assert (other.ground_clearance_m, other.least_clearance_m) == (None, None)


def test_the_chord_at_the_bore_line_makes_the_blade():
    """The biplane's flat-four has blades 5 1/4 in wide at 16 in."""
    blade = model(BIPLANE).powerplants["flat_four"].propeller.blade
    chord = np.interp(16.0 / 37.0, blade.radius_share, blade.chord_per_diameter)
    assert chord * 74.0 == pytest.approx(5.25, rel=1e-3)
    assert blade.blades == 2


def test_a_file_and_its_own_numbers_agree(tmp_path):
    from sim.propulsion.blade_geometry import pitched_blade

    blade = pitched_blade(2, 1.62 / 2.13, 0.151 / 2.13)
    rows = zip(blade.radius_share, blade.chord_per_diameter, np.degrees(blade.blade_angle_rad), strict=True)
    lines = [f"{radius!r},{chord!r},{angle!r}" for radius, chord, angle in np.array(list(rows)).tolist()]
    file = tmp_path / "blade.csv"
    file.write_text("\n".join(["radius_share,chord_share,angle_deg", *lines]), encoding="utf-8")
    measured = sim.propeller(None, blade=file, turn_deg=1.5)
    pitched = sim.propeller(None, **ALONE, turn_deg=1.5)
    assert [point.ct for point in measured.points] == pytest.approx([point.ct for point in pitched.points], abs=1e-12)


def test_best_efficiency_is_of_the_points():
    found = sim.propeller(None, **ALONE, blades=3)
    best = max(found.points, key=lambda point: point.efficiency or 0.0)
    assert (found.best_efficiency, found.best_advance_ratio) == (best.efficiency, best.advance_ratio)
    nothing = sim.propeller(None, **ALONE, advance=(2.5,))
    assert (nothing.best_efficiency, nothing.best_advance_ratio) == (None, None)


@pytest.mark.parametrize(
    ("given", "sentences"),
    [
        ({}, [f"{name}: is missing; give `blade`, or `diameter_m` with `pitch_m` and `chord_m`" for name in ALONE]),
        (
            {**ALONE, "blades": 2.5, "turn_deg": 75.0, "advance": (0.2, -0.1)},
            [
                'blades: must be a whole number, got "2.5"',
                'turn_deg: must be -60 to 60, got "75"',
                'advance: must be at least 0, got "-0.1"',
            ],
        ),
        ({**ALONE, "advance": ()}, ["advance: is missing; give at least one advance ratio"]),
    ],
)
def test_wrong_parameters(given, sentences):
    with pytest.raises(InputError) as refused:
        sim.propeller(None, **given)
    assert str(refused.value).splitlines() == sentences
