"""``propeller``: sheet, JSON and figure, alone and on engines; wrong input refused."""

import json
import math

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE

import sim
from sim.units.quantities import caution
from viz.figures.propeller import draw

ALONE = ("propeller", "--diameter", "74 in", "--pitch", "50 in", "--chord", "5 in")
POINT = {"advance_ratio", "ct", "cp", "efficiency"}


def test_the_keys_of_a_propeller_alone(answered):
    found = answered(*ALONE, "--blades", "3", "--turn", "5 deg", "--advance", "0:1.2:0.1")
    assert [point["advance_ratio"] for point in found["points"]] == [round(0.1 * step, 1) for step in range(13)]
    assert all(set(point) == POINT for point in found["points"])
    assert (found["blades"], found["turn_deg"], found["cautions"]) == (3, 5.0, [caution("estimate")])


def test_the_keys_of_propellers_on_engines(answered):
    found = answered("propeller", BIPLANE, "--speed", "0 mph", "--speed", "60 mph", "--altitude", "2000 ft")
    assert found["altitude_m"] == pytest.approx(609.6)
    assert set(found["powerplants"]) == {"rotary", "flat_four"}
    for own in found["powerplants"].values():
        assert [point["speed_m_s"] for point in own["points"]] == pytest.approx([0.0, 26.8224])
        keys = {"speed_m_s", "rpm", "thrust_n", "power_w", "tip_mach", "efficiency"}
        assert all(set(point) == keys for point in own["points"])
        assert own["static_thrust_n"] == own["points"][0]["thrust_n"]


def test_why_it_slows_as_it_begins_to_move_is_told_and_so(run, answered):
    """Lift of a blade at an incidence β − φ leans by φ, so that its torque grows as (β − φ) φ up to φ = β / 2.

    By the actuator disc at three quarters of the radius: before that at rest, past it where the engine is slowest.
    """
    asked = ("propeller", BIPLANE)
    text = " ".join(run(*asked).stdout.split())
    for own in answered(*asked)["powerplants"].values():
        rest, slowest = own["points"][0], min(own["points"], key=lambda point: point["rpm"])
        assert slowest["speed_m_s"] > 5.0
        assert f"turns it slower, {rest['rpm']:.0f} rpm to {slowest['rpm']:.0f} rpm: the flow" in text
        assert slowest["power_w"] / slowest["rpm"] ** 3 > 1.03 * rest["power_w"] / rest["rpm"] ** 3
        leaning = []
        for point in (rest, slowest):
            radius, speed = 0.5 * own["diameter_m"], point["speed_m_s"]
            pressed = point["thrust_n"] / (2.0 * 1.19 * math.pi * radius**2)  # (V + w) w
            inflow = 0.5 * (speed + math.sqrt(speed**2 + 4.0 * pressed))
            across = 0.75 * radius * point["rpm"] * math.pi / 30.0
            pitch = math.atan(own["pitch_m"] / (1.5 * math.pi * radius))
            leaning.append(math.atan(inflow / across) / pitch)
        assert leaning[0] < 0.5 < leaning[1], leaning


def test_whether_it_suits_and_which_would(answered, run):
    words = ("propeller", TRIPLANE, "--design-speed", "85 mph")
    found = answered(*words)["powerplants"]
    suits = found["geared_six"]["suitability"]
    assert (suits["verdict"], suits["design_speed_m_s"]) == ("under-propped", pytest.approx(37.9984))
    pair = {
        "suited_diameter_m",
        "suited_pitch_m",
        "thrust_n",
        "efficiency",
        "static_thrust_n",
        "static_rpm_share",
        "tip_mach",
    }
    assert all(set(one) == pair for one in suits["suggestions"])
    lines = run(*words).output.splitlines()
    told = " ".join(run(*words).output.split())
    assert "geared_six: propellers of 3 blades that absorb full power at full speed at 85.0 mph" in told
    first = suits["suggestions"][0]
    assert any(
        line.split()[:4:2] == [f"{first['suited_diameter_m'] / 0.0254:.1f}", f"{first['suited_pitch_m'] / 0.0254:.1f}"]
        for line in lines
    )


def test_no_propeller_of_about_that_size_suits(run):
    out = run("propeller", BIPLANE, "--set", "powerplant.flat_four.power=600 hp", "--design-speed", "60 mph").output
    told = " ".join(out.split())
    assert (
        "absorb full power at full speed at 60.0 mph: none within 60 % of the present diameter; give it other blades "
        "or another gear, or ask at another --design-speed."
    ) in told
    assert "At no airspeed does it absorb full power at full speed." in told


def test_where_none_of_about_that_size_suits_the_nearest_are_told(run, answered):
    words = ("propeller", BIPLANE, "--set", "powerplant.rotary.propeller.diameter=5 ft")
    told = " ".join(run(*words).output.split())
    assert "None is within 12 % of the present diameter: these are the nearest." in told
    own = answered(*words)["powerplants"]["rotary"]["suitability"]["suggestions"]
    diameters = [one["suited_diameter_m"] for one in own]
    assert 1 <= len(diameters) <= 6
    assert diameters == sorted(diameters)
    assert diameters[0] > 1.12 * 60 * 0.0254
    narrower = answered(*words[:2], "--set", "powerplant.rotary.propeller.diameter=6 ft 6 in")
    more = narrower["powerplants"]["rotary"]["suitability"]["suggestions"]
    assert all(any(abs(one - other["suited_diameter_m"]) < 0.3 for other in more) for one in diameters)


def test_the_speed_at_rest_is_one_number_wherever_it_stands(run, answered):
    key = "powerplant.rotary.propeller.pitch=60 in"
    share = answered("propeller", BIPLANE, "--set", key)["powerplants"]["rotary"]["suitability"]["static_rpm_share"]
    for words in (("check",), ("speeds",), ("compare",)):
        told = " ".join(run(*words, BIPLANE, "--set", key).stdout.split())
        assert f"turns it at rest, over full speed, is {100.0 * share:.1f} %; usual is" in told


def test_options_alone_need_no_scenario_and_nothing_means_the_bundled_airplane(run):
    assert json.loads(run(*ALONE, "--json").stdout)["blades"] == 2
    assert json.loads(run("propeller", "--json").stdout)["title"] == "Tollgate single-seater"


def test_the_airplane_as_set_is_asked_about(answered):
    coarse, fine = (
        answered("propeller", BIPLANE, "--set", f"powerplant.flat_four.propeller.pitch={pitch} in")
        for pitch in (60, 45)
    )
    rpm = [found["powerplants"]["flat_four"]["static_rpm"] for found in (coarse, fine)]
    assert rpm[0] < rpm[1]


WAYS = "give --blade, or --diameter with --pitch and --chord"


@pytest.mark.parametrize(
    ("words", "sentences"),
    [
        (("propeller", "--pitch", "4 ft"), [f"--{name}: is missing; {WAYS}" for name in ("diameter", "chord")]),
        (
            (*ALONE, "--blade", "x.csv", "--blades", "2.5"),
            [
                '--blades: must be a whole number, got "2.5"',
                *(f"--{name}: cannot be used with --blade; {WAYS}" for name in ("diameter", "pitch", "chord")),
            ],
        ),
        (
            ("propeller", BIPLANE, "--blades", "3"),
            ["--blades: cannot be used with a scenario, whose propellers are its own; set its keys instead"],
        ),
        (
            (*ALONE, "--design-speed", "90 mph"),
            ["--design-speed: needs the engine of a scenario; leave it out, or name a scenario and no blade"],
        ),
        (
            (*ALONE, "--turn", "90 deg", "--advance", "0:1"),
            [
                '--turn: must be -60 to 60 deg, got "90 deg"',
                '--advance: must be one ratio or FROM:TO:STEP with TO above FROM and at most 100000 steps, got "0:1"',
            ],
        ),
    ],
)
def test_wrong_input(run, words, sentences):
    result = run(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sorted(result.stderr.splitlines()) == sorted(sentences)


def test_what_the_figure_draws():
    alone = draw(sim.propeller(None, diameter_m=1.9, pitch_m=1.3, chord_m=0.12), "si")
    thrust, power, efficiency = alone.axes
    assert (len(thrust.lines), len(power.lines), len(efficiency.lines)) == (2, 2, 2)
    found = sim.propeller(TRIPLANE)
    panels = draw(found, "us").axes
    for line, (name, own) in zip(panels[3].lines, found.powerplants.items(), strict=True):
        assert line.get_label() == name
        assert len(line.get_xdata()) > 60
        for point in own.points:
            place = np.argmin(np.abs(line.get_xdata() - point.speed_m_s / 0.44704))
            assert line.get_xdata()[place] == pytest.approx(point.speed_m_s / 0.44704)
            assert line.get_ydata()[place] == pytest.approx(point.thrust_n / 4.4482216)
    for number, own in enumerate(found.powerplants.values()):
        pairs, fitted = panels[5].lines[2 * number : 2 * number + 2]
        suggested = own.suitability.suggestions
        assert pairs.get_xdata() == pytest.approx([one.suited_diameter_m / 0.0254 for one in suggested])
        assert pairs.get_ydata() == pytest.approx([one.suited_pitch_m / 0.0254 for one in suggested])
        assert (fitted.get_xdata()[0], fitted.get_ydata()[0]) == pytest.approx(
            (own.diameter_m / 0.0254, own.pitch_m / 0.0254)
        )
    assert panels[4].lines[1].get_ydata()[0] == pytest.approx(list(found.powerplants.values())[1].static_rpm)


def test_lines_bend_only_where_the_engine_reaches_its_full_speed():
    """Slopes of neighbouring pieces are alike but within a thousandth of the axis from where full speed is reached."""
    for own in sim.propeller(BIPLANE).powerplants.values():
        speed, rpm = np.array([(point.speed_m_s, point.rpm) for point in own.curve]).T
        assert len(speed) > 60
        bend = np.abs(np.diff(np.diff(rpm) / np.diff(speed)))
        reached = speed[np.argmax(rpm >= own.full_rpm)]
        corner = np.abs(speed[1:-1] - reached) < 1e-3 * speed[-1]
        assert bend[~corner].max() < 0.2 * bend[corner].max()
        ratio, ct = np.array([(point.advance_ratio, point.ct) for point in own.coefficient_curve]).T
        assert len(ratio) > 60
        assert np.abs(np.diff(np.diff(ct) / np.diff(ratio))).max() < 0.1 * np.ptp(np.diff(ct) / np.diff(ratio))


def test_air_that_drives_the_propeller_is_told_as_that(run, answered):
    """Friction of the fixed engine is 35 lbf ft by the scenario, and it has no windage; the air gives more."""
    words = ("propeller", BIPLANE, "--speed")
    fast = answered(*words, "400 mph")["powerplants"]["flat_four"]
    assert fast["points"][0]["power_w"] < -fast["closed_power_w"] < 0.0
    full_rad_s = fast["full_rpm"] * math.pi / 30.0
    assert fast["closed_power_w"] == pytest.approx(35.0 * 1.3558179 * full_rad_s, rel=1e-3)
    assert fast["points"][0]["thrust_n"] < 0.0
    told = " ".join(run(*words, "400 mph").stdout.split())
    assert "throttled back" not in told
    assert "Power below zero: the air drives the propeller (windmilling), and through it the engine. At 400 mph" in told
    assert f"the {fast['closed_power_w'] / 745.69987:.1f} hp that friction and windage take" in told
    level = " ".join(run(*words, "115 mph", "--speed", "130 mph").stdout.split())
    assert "windmilling" not in level
    assert "throttled back" in level


def test_the_figure_in_a_file(run, tmp_path):
    file = tmp_path / "propeller.svg"
    assert run("propeller", BIPLANE, "--figure", file).exit_code == 0
    for words in ("Thrust at full throttle", "propeller speed [rpm]", "flat_four", "licensed engineer"):
        assert words in file.read_text()


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("words", [(*ALONE, "--turn", "-3 deg"), ("propeller", BIPLANE), ("propeller", TRIPLANE)])
def test_the_sheet_as_a_whole(run, snapshot, words, units):
    assert run("--units", units, *words).output == snapshot


def test_what_asks_about_an_engine_needs_a_scenario(run):
    alone = ("--diameter", "2 m", "--pitch", "1.3 m", "--chord", "14 cm")
    result = run("propeller", *alone, "--speed", "30 m/s", "--altitude", "500 m", "--design-speed", "30 m/s")
    cure = "needs the engine of a scenario; leave it out, or name a scenario and no blade"
    assert (result.exit_code, result.stderr) == (
        2,
        f"--speed: {cure}\n--design-speed: {cure}\n--altitude: {cure}\n",
    )
