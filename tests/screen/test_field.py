"""``whirlgate field``: its sheet, its figure by what it draws, its JSON, and what it refuses."""

import math

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built

from sim.atmosphere import GRAVITY_M_S2, air
from sim.propulsion.engine_propeller import shaft_loads
from sim.studies.field import field
from sim.studies.field_place import FRICTION
from viz.figures.field import draw

FEET, MPH = 0.3048, 0.44704


@pytest.fixture(scope="module")
def answer():
    return field(built(TRIPLANE))


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, units, airplane, snapshot):
    assert run("--units", units, "field", airplane).output == snapshot


def test_json_holds_what_the_sheet_is_made_of(answered, answer):
    found = answered("field", TRIPLANE)["powerplants"]
    for name, own in answer.powerplants.items():
        for key in ("ground_run_m", "to_50_ft_m", "glide_ratio", "landing_run_m", "tail_down_deg", "nose_over_deg"):
            assert found[name][key] == pytest.approx(getattr(own, key))
        assert found[name]["propeller_clearance_m"] == pytest.approx(own.propeller_clearance_m)


def test_the_stance_is_that_of_the_supports(answer):
    """By hand from contact points and centre of gravity."""
    model = built(TRIPLANE)
    for name, own in answer.powerplants.items():
        stands, whole = model.stance(), model.mass_state(name).whole()
        ahead, below = whole.cg_station_m - stands.station_m, whole.cg_waterline_m - stands.waterline_m
        assert own.nose_over_deg == pytest.approx(math.degrees(math.atan(ahead / below)))
        behind = stands.third_station_m - whole.cg_station_m
        line = math.atan2(0.5 * stands.track_m, ahead + behind)  # from the tail to a main wheel, seen from above
        assert own.overturn_deg == pytest.approx(math.degrees(math.atan2(below, behind * math.sin(line))))


def test_the_glide_is_what_weight_drag_and_propeller_make_of_it(answer):
    """The drag of the airframe by the polar at that airspeed, by hand; the propeller's is the rest, and slows it."""
    model = built(TRIPLANE)
    for name, own in answer.powerplants.items():
        flying = model.airplane(name)
        polar, weight = flying.airplane.polar, flying.airplane.body.mass_kg * GRAVITY_M_S2
        pressed = 0.5 * air(flying.altitude_m).density_kg_m3 * own.glide_m_s**2 * polar.area_m2
        drag = pressed * (polar.drag_zero_lift + polar.induced * (weight / pressed) ** 2)
        assert weight / (drag + own.glide_drag_n) == pytest.approx(own.glide_ratio, rel=1e-9)
        assert own.bare_glide_ratio == pytest.approx(0.5 / math.sqrt(polar.drag_zero_lift * polar.induced), rel=1e-9)
        assert weight / drag <= own.bare_glide_ratio
        loads = shaft_loads(flying.airplane.engine, flying.airplane.propeller)(
            (flying.airplane.engine.rotation * own.glide_spin_rad_s, own.glide_m_s),
            air(flying.altitude_m).density_kg_m3,
            (0.0, 0.0, 0.0, 0.0, 0.0),
        )
        assert -loads.thrust == pytest.approx(own.glide_drag_n, rel=1e-3)


def test_wind_ground_and_height_change_the_runs_as_they_must(answer):
    model, name = built(TRIPLANE), next(iter(answer.powerplants))
    usual = answer.powerplants[name]
    windy = field(model, headwind_m_s=4.0).powerplants[name]
    soft = field(model, surface="soft ground").powerplants[name]
    high = field(model, altitude_m=1800.0).powerplants[name]
    assert windy.ground_run_m < 0.8 * usual.ground_run_m
    assert windy.landing_run_m < 0.7 * usual.landing_run_m
    assert soft.ground_run_m > 1.1 * usual.ground_run_m
    assert soft.landing_run_m < usual.landing_run_m
    assert high.ground_run_m > 1.2 * usual.ground_run_m
    assert FRICTION["concrete"] < FRICTION["short grass"] < FRICTION["long grass"] < FRICTION["soft ground"]


def test_the_run_begins_at_rest_ends_at_the_speed_of_lift_off_and_its_parts_join(answer):
    """In a calm; where one part ends and the next begins is one point of the curve, not two."""
    for own in answer.powerplants.values():
        speeds, far = own.curve_speeds_m_s, own.curve_distances_m
        assert far[0] == 0.0
        assert 0.0 <= speeds[0] < 0.01 * speeds[-1]
        assert far[-1] == pytest.approx(own.ground_run_m)
        assert list(far) == sorted(set(far))
        assert own.tail_up_m_s in [pytest.approx(speed) for speed in speeds]
        assert speeds[-1] == pytest.approx(2.0 * own.tail_up_m_s)  # both raise it at half the speed of lift-off


@pytest.mark.parametrize("raising_s", [0.3, 3.0, 8.0, 20.0])
def test_a_tail_that_comes_up_slowly_may_still_rise_at_lift_off(answer, raising_s):
    found = field(built(TRIPLANE), raising_s=raising_s)
    for name, own in found.powerplants.items():
        assert own.curve_speeds_m_s[-1] == pytest.approx(own.lift_off_m_s)
        assert own.ground_run_m == pytest.approx(answer.powerplants[name].ground_run_m, rel=0.25)


def test_a_stance_too_flat_lifts_off_and_touches_down_faster(run, answered):
    flat = ("--set", "weighing.support.tail.waterline=10 in")
    usual, found = (answered("field", BIPLANE, *words)["powerplants"]["rotary"] for words in ((), flat))
    assert found["tail_down_deg"] < 0.4 * usual["tail_down_deg"]
    assert found["lift_off_m_s"] == found["touchdown_m_s"] > 1.2 * usual["lift_off_m_s"]
    assert found["landing_run_m"] > 1.5 * usual["landing_run_m"]


def test_a_propeller_that_strikes_the_ground_says_that_no_run_can_be_made(run, answered):
    """Level it reaches half its diameter below the line of thrust, whose height above the wheels stays."""
    longer = ("--set", "powerplant.rotary.propeller.diameter=14 ft")
    usual, found = (answered("field", BIPLANE, *words)["powerplants"]["rotary"] for words in ((), longer))
    assert "strikes" not in usual["verdicts"].values()
    assert found["propeller_clearance_m"] < 0.0
    assert found["verdicts"]["propeller_clearance_m"] == "strikes"
    shown = " ".join(run("field", BIPLANE, *longer).stdout.split())
    assert "The propeller of rotary strikes the ground: no run of its column can be made." in shown
    assert "The propeller of flat_four" not in shown


def test_engines_too_weak_to_roll_are_named_with_the_cure_and_more_power_is_one(run):
    """A column that is missing says the same as both do alone, in the field and in the flight."""
    weak = {name: ("--set", f"powerplant.{name}.power=4 hp") for name in ("rotary", "flat_four")}
    said = {
        name: f"full power of {name} does not start the airplane rolling on this ground; take firmer ground, "
        "reduce the weight or give more power"
        for name in weak
    }
    one = run("field", BIPLANE, "--surface", "soft ground", *weak["rotary"])
    assert one.exit_code == 0
    assert f"No column: {said['rotary']}." in " ".join(one.stdout.split())
    for words in (("field", BIPLANE, "--surface", "soft ground"), ("maneuver", "take-off", BIPLANE)):
        both = run(*words, *weak["rotary"], *weak["flat_four"])
        assert (both.exit_code, both.stderr.splitlines()) == (1, list(said.values()))


def test_the_sheet_says_what_friction_its_runs_have(run, answered):
    hard, soft = (answered("field", BIPLANE, "--surface", name) for name in ("concrete", "soft ground"))
    assert (hard["friction"], soft["friction"]) == (FRICTION["concrete"], FRICTION["soft ground"])
    assert hard["tail_friction"] == soft["tail_friction"] > soft["friction"]
    shown = " ".join(run("field", BIPLANE, "--surface", "soft ground").stdout.split())
    assert f"main wheels {soft['friction']:g}, textbooks' value of this ground; tail, as of a skid, 0.35" in shown


def test_rudder_beyond_its_travel_is_told(run):
    shown = " ".join(run("field", BIPLANE, "--set", "rudder.travel=8 deg").stdout.split())
    assert "Full rudder does not keep it straight with rotary" in shown


def test_the_figure_draws_runs_winds_and_rudder(answer):
    figure = draw(answer, "us")
    above, middle, below = figure.axes[:3]
    lines = {line.get_label(): line for line in above.get_lines()}
    bars = sorted(bar.get_width() for bar in below.patches)
    wanted = []
    for name, own in answer.powerplants.items():
        line = lines[f"{name}, to lift-off"]
        assert list(line.get_xdata()) == pytest.approx([at / FEET for at in own.curve_distances_m])
        assert list(line.get_ydata()) == pytest.approx([speed / MPH for speed in own.curve_speeds_m_s])
        wanted += [-100.0 * own.rudder_share, -100.0 * own.raising_share]
    assert bars == pytest.approx(sorted(wanted))
    drawn = [(list(line.get_xdata()), list(line.get_ydata())) for line in middle.get_lines()]
    for own in answer.powerplants.values():
        for wind in own.winds:
            sign = {"left": -1.0, "right": 1.0}[wind.side]
            both = zip(wind.rudder_winds_m_s, wind.aileron_winds_m_s, strict=True)
            speeds = [speed / MPH for speed in wind.wind_speeds_m_s]
            winds = [sign * min(each) / MPH for each in both]
            assert any(x == pytest.approx(speeds) and y == pytest.approx(winds) for x, y in drawn)
            mark = [wind.runs_out_m_s / MPH], [sign * wind.take_off_wind_m_s / MPH]
            assert any(x == pytest.approx(mark[0]) and y == pytest.approx(mark[1]) for x, y in drawn)


def test_wind_held_is_the_least_along_the_run_and_the_swing_takes_from_it(answer):
    """The rotary of the triplane turns anticlockwise: its tail coming up swings the nose right, as wind from there."""
    for own in answer.powerplants.values():
        for wind in own.winds:
            least = [min(both) for both in zip(wind.rudder_winds_m_s, wind.aileron_winds_m_s, strict=True)]
            assert wind.take_off_wind_m_s == min(least)
            assert wind.runs_out_m_s == wind.wind_speeds_m_s[least.index(min(least))]
            assert wind.wind_speeds_m_s[0] == pytest.approx(own.tail_up_m_s)
    slow = field(built(TRIPLANE), raising_s=20.0).powerplants["rotary"]
    quick = field(built(TRIPLANE), raising_s=1.0).powerplants["rotary"]
    against = "left" if quick.raising_share < 0.0 else "right"
    ends = [{wind.side: min(wind.rudder_winds_m_s) for wind in own.winds} for own in (slow, quick)]
    assert ends[1][against] < 0.9 * ends[0][against]


def test_a_landing_run_is_shorter_braked_and_longer_with_the_engine_kept_running(answer):
    for own in answer.powerplants.values():
        assert own.braked_run_m < 0.7 * own.landing_run_m
        assert own.running_run_m is None or own.running_run_m > own.landing_run_m
    assert answer.powerplants["rotary"].blip_share is not None
    others = [own for name, own in answer.powerplants.items() if name != "rotary"]
    assert all(own.blip_share is None for own in others)
    longer = field(built(TRIPLANE), blip_on_s=2.0).powerplants["rotary"]
    assert longer.running_run_m is None
    assert longer.running_thrust_n > 2.0 * answer.powerplants["rotary"].running_thrust_n


def test_the_sheet_with_bands_prints_each_below_its_number(run):
    shown = " ".join(run("field", TRIPLANE, "--bands").stdout.split())
    own = field(built(TRIPLANE), bands=True).powerplants["rotary"]
    assert "Bands of 90 %: 256 airplanes drawn" in shown
    assert own.ground_run_low_m < own.ground_run_m < own.ground_run_high_m
    low, high = (round(value / FEET, -1) for value in (own.ground_run_low_m, own.ground_run_high_m))
    assert f"{low:.0f} to {high:.0f}" in shown
    sizes = sorted(100.0 * abs(end) for end in (own.raising_share_low, own.raising_share_high))
    assert f"% left ({sizes[0]:.0f} to {sizes[1]:.0f}), with the tail not moving" in shown


def test_wrong_input_is_told_with_the_cure(run):
    result = run("field", BIPLANE, "--headwind", "40 m/s", "--surface", "ice")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.splitlines() == [
        '--headwind: must be 0 to 15 m/s, got "40 m/s"',
        '--surface: must be concrete or short grass or long grass or soft ground, got "ice"',
    ]
    stands = run("field", BIPLANE, "--set", "weighing.support.tail.station=10 in")
    assert stands.exit_code == 2
    assert stands.stderr.endswith("must place two main wheels and a tail wheel or skid behind them, to stand on\n")
    always = run("field", BIPLANE, "--blip-on", "3 s", "--blip-every", "2 s")
    assert (always.exit_code, always.stdout) == (2, "")
    assert always.stderr == '--blip-on: must be above 0 s and below --blip-every, 2 s, got "3 s"\n'
    high = [run("--units", units, "field", BIPLANE, "--altitude", "3000").stderr for units in ("si", "us")]
    assert high == [f'--altitude: must have a unit, as in "{one}", got "3000"\n' for one in ("914.4 m", "3000 ft")]
    seed = run("field", BIPLANE, "--seed", "3")
    assert seed.stderr == "--seed: belongs to --bands; give --bands as well, or leave it out\n"


def test_against_another_the_run_is_compared_over_distance_and_the_winds_over_airspeed(answer):
    """Runs whose tails rise at other points: where the second is slower at the same distance, by hand."""
    import sim

    slow = field(built(TRIPLANE), raising_s=8.0)
    found = {one.path: one for one in sim.differences(answer, slow).curves}
    one = found["powerplants.rotary.curve_speeds_m_s"]
    assert one.axis == "curve_distances_m"
    first, second = (each.powerplants["rotary"] for each in (answer, slow))
    apart = [
        np.interp(at, second.curve_distances_m, second.curve_speeds_m_s) - speed
        for at, speed in zip(first.curve_distances_m, first.curve_speeds_m_s, strict=True)
        if at <= second.curve_distances_m[-1]
    ]
    assert abs(one.difference) == pytest.approx(max(map(abs, apart)))
    assert found["powerplants.rotary.winds.1.rudder_winds_m_s"].axis == "wind_speeds_m_s"


def test_the_figure_draws_the_bands_of_run_wind_and_rudder():
    banded = field(built(TRIPLANE), bands=True)
    above, middle, below = draw(banded, "us").axes[:3]

    def drawn(panel, look):
        return [
            sorted(getattr(line, f"get_{look}data")().tolist())
            for line in panel.get_lines()
            if line.get_marker() in "|_"
        ]

    for own in banded.powerplants.values():
        ends = [own.ground_run_low_m / FEET, own.ground_run_high_m / FEET]
        assert any(one == pytest.approx(ends) for one in drawn(above, "x"))
        for name in ("rudder_share", "raising_share"):
            shares = sorted(-100.0 * getattr(own, f"{name}_{end}") for end in ("low", "high"))
            assert any(one == pytest.approx(shares) for one in drawn(below, "x"))
        for wind in own.winds:
            sign = {"left": -1.0, "right": 1.0}[wind.side]
            winds = sorted(sign * end / MPH for end in (wind.take_off_wind_low_m_s, wind.take_off_wind_high_m_s))
            assert any(one == pytest.approx(winds) for one in drawn(middle, "y"))
