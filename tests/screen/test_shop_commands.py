"""``scale``, ``layout``, ``balance`` and ``speeds``: keys, signs in words, files written, and wrong input refused."""

import csv
import json
from pathlib import Path

import pytest
from airplanes import BIPLANE

from sim.scenario.bundled import folder
from sim.scenario.reading import load

COMMANDS = ("scale", "layout", "balance", "speeds")
SWUNG = ("swing", "--mass", "40 lb", "--radius", "8 in", "--length", "6 ft", "--swings", "10", "--time", "49 s ± 0.2 s")


@pytest.fixture
def scenario(tmp_path):
    """Return a copy of the bundled scenario that may be written to."""
    copy = tmp_path / "mine.toml"
    copy.write_text(BIPLANE.read_text(encoding="utf-8"), encoding="utf-8")
    return copy


def answer(run, *words):
    result = run(*words, "--json")
    assert (result.exit_code, result.stderr) == (0, "")
    return json.loads(result.stdout)


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("name", COMMANDS)
def test_every_sheet_carries_its_caution(run, name, units):
    result = run("--units", units, name)
    assert result.exit_code == 0
    assert "licensed engineer" in " ".join(result.stdout.split())


@pytest.mark.parametrize("name", COMMANDS)
def test_a_figure_is_drawn(run, name, tmp_path):
    for ending in ("svg", "png"):
        assert run(name, "--figure", tmp_path / f"{name}.{ending}").exit_code == 0
        assert (tmp_path / f"{name}.{ending}").stat().st_size > 5000


def test_the_keys_of_balance(run):
    found = answer(run, "balance")
    assert {
        "mass_kg",
        "cg_station_m",
        "cg_percent_mac",
        "inertia_kg_m2",
        "target_station_m",
        "engine_move_m",
        "cg_per_half_inch_percent_mac",
        "envelope",
    } <= set(found)
    assert {"xx", "yy", "zz", "xz"} <= set(found["inertia_kg_m2"])
    assert set(found["envelope"][0]) == {"name", "mass_kg", "cg_station_m", "cg_percent_mac", "inside"}


def test_the_keys_of_speeds(run):
    found = answer(run, "speeds")
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


def test_the_top_of_speeds_is_the_engine_asked_for(run):
    found = answer(run, "speeds", "--powerplant", "rotary", "--weight", "1300 lb", "--altitude", "2000 ft")
    assert found["top_m_s"] == found["powerplants"]["rotary"]["top_m_s"]
    assert (found["mass_kg"], found["altitude_m"]) == pytest.approx((589.670081, 609.6))


def test_an_engine_too_weak_for_level_flight_is_named_beside_the_other(run):
    shown = " ".join(run("speeds", "--set", "powerplant.flat_four.power=20 hp").stdout.split())
    assert "top 94.6 mph" in shown
    assert "No column: full power of flat_four does not hold level flight: at " in shown


def test_moves_are_said_in_words(run):
    shown = " ".join(run("balance").stdout.split())
    assert "move the engine 0.56 in forward" in shown
    assert "6.63 in forward to 1.93 in aft of the drawn place keeps every loading within the limits" in shown
    assert "Tail ballast cannot do it: none is placed, or the CG must come forward." in shown
    aft = " ".join(run("balance", "--set", "balance.target=30 %").stdout.split())
    assert "3.10 in aft" in aft
    assert "Tail ballast instead: 8.1 lb." in aft


def test_limits_that_no_engine_position_serves(run):
    shown = run("balance", "--set", "balance.forward_limit=27 %", "--set", "balance.aft_limit=29 %").stdout
    assert "OUTSIDE" in shown
    assert "no position of the engine keeps every loading within the limits" in " ".join(shown.split())


def test_the_items_are_listed_when_asked(run):
    assert "tail surfaces (past builds)" not in run("balance").stdout
    assert "tail surfaces (past builds)" in run("balance", "--items").stdout


@pytest.mark.parametrize(("units", "mass"), [("us", '"1394.5 lb ± 10 lb"'), ("si", '"632.54 kg ± 4.6 kg"')])
def test_balance_writes_what_it_settles_and_leaves_the_rest(run, scenario, units, mass):
    before = scenario.read_text(encoding="utf-8")
    old, found = load(scenario), answer(run, "--units", units, "balance", scenario, "--write", scenario)
    after = scenario.read_text(encoding="utf-8")
    changed = [row for row, was in zip(after.split("\n"), before.split("\n"), strict=True) if row != was]
    assert len(changed) == 10
    assert changed[0] == f"mass = {mass}"
    columns = [[row.find("#") for row in text.split("\n") if row.startswith("inertia_y")] for text in (before, after)]
    assert columns[0] == columns[1]
    new = load(scenario)
    assert new.airplane.mass_kg == pytest.approx(found["mass_kg"], rel=1e-4)
    assert new.airplane.inertia_yaw_kg_m2 == pytest.approx(found["inertia_kg_m2"]["zz"], rel=1e-4)
    apart = [scenario.tailplane.arm_m - scenario.wing.arm_m for scenario in (old, new)]
    assert apart[0] == pytest.approx(apart[1], abs=2e-4)
    assert new.airplane.inertia_product_kg_m2 == pytest.approx(found["inertia_kg_m2"]["xz"], rel=1e-4)
    flown = new.powerplant["flat_four"]
    assert found["cg_station_m"] - flown.propeller.arm_m == pytest.approx(flown.propeller.station_m, abs=1e-4)
    below_m = found["cg_waterline_m"] - new.balance.thrust_line_m
    assert flown.thrust_arm_m == pytest.approx(
        below_m, rel=1e-4
    )  # positive: the shaft lies below the centre of gravity


@pytest.mark.parametrize(
    ("units", "span"), [("us", 'span = "28 ft 0.98 in ± 0.21 in"'), ("si", 'span = "8.5594 m ± 0.0054 m"')]
)
def test_scale_writes_keys_with_their_error_and_keeps_the_comments(run, scenario, units, span):
    before = scenario.read_text(encoding="utf-8")
    result = run("--units", units, "scale", "--write", scenario)
    assert result.exit_code == 0
    assert "Not keys of a scenario: spar spacing, wheel diameter, wheel track." in " ".join(result.stdout.split())
    after = scenario.read_text(encoding="utf-8")
    assert span in after
    comments = [[row.partition("#")[2] for row in text.split("\n")] for text in (before, after)]
    assert comments[0] == comments[1]
    assert load(scenario).tolerances["wing.span"] == pytest.approx(0.0054, abs=1e-4)


@pytest.mark.parametrize(
    "written",
    [
        ("scale", "--set", "known={'fuselage.length'='18 ft 8.22 in', 'wing.span'='28 ft 4.37 in'}"),
        ("balance", "--set", "item.pilot.mass=230 lb"),
        (*SWUNG, "--key", "powerplant.rotary.propeller.polar_inertia"),
    ],
    ids=lambda words: words[0],
)
def test_what_the_shop_corrects_moves_the_roots_of_the_airplane(run, scenario, written):
    def roots():
        rotary = answer(run, "modes", scenario)["flights"][0]
        return [mode["real_per_s"] for mode in rotary["modes"]]

    before = roots()
    assert run(*written, "--write", scenario).exit_code == 0
    assert roots() != pytest.approx(before, rel=1e-4)


def test_a_written_dimension_moves_the_other_answers(run, scenario):
    before = answer(run, "layout", scenario)
    written = run(
        "scale", "--write", scenario, "--set", "known={'fuselage.length'='18 ft 8.22 in', 'wing.span'='28 ft 4.37 in'}"
    )
    assert written.exit_code == 0
    after = answer(run, "layout", scenario)
    assert after["chord_m"] / before["chord_m"] == pytest.approx(1.01, abs=0.002)


def test_contradictory_known_dimensions_are_refused(run):
    result = run("scale", "--set", "known.wing.span=28 ft 9 in ± 1/4 in")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        "known.wing.span: contradicts the rest: the document says 8.763 m (28 ft 9.00 in), the drawing 8.557 m "
        "(28 ft 0.90 in), 17.1 standard errors apart, at most 3; check the document and its readings\n"
    )


def test_readings_that_contradict_are_named_and_nothing_is_written(run, scenario):
    misread = ("--set", "reading.11.values=['90.6 mm']", "--set", "reading_error=0.1 mm")
    shown = " ".join(run("scale", *misread).stdout.split())
    assert "Readings that contradict the others: read them again" in shown
    before = scenario.read_text(encoding="utf-8")
    result = run("scale", *misread, "--write", scenario)
    assert (result.exit_code, result.stderr) == (
        2,
        "--write: nothing is written while readings contradict each other (wing.gap); read these again\n",
    )
    assert scenario.read_text(encoding="utf-8") == before


def test_nodes_as_csv(run, tmp_path):
    file = tmp_path / "nodes.csv"
    found = answer(run, "layout", "--nodes", file)
    rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
    assert len(rows) == 2 * len(found["nodes"])
    assert set(rows[0]) == {"node", "kind", "side", "station [m]", "waterline [m]", "buttline [m]"}
    assert sum(float(row["buttline [m]"]) for row in rows) == pytest.approx(0.0)
    again = run("layout", "--nodes", file)
    assert (again.exit_code, again.stderr) == (2, f"{file}: is already there; give --force to replace it\n")


REFUSED = {
    ("balance", "--powerplant", "rotery"): (
        2,
        '--powerplant: must be one of rotary, flat_four, got "rotery"; did you mean rotary?\n',
    ),
    ("balance", "--set", "item.pilot.mass=-190 lb"): (
        2,
        '--set item.21.mass: must be 0 to 220460 lb, got "-190 lb"\n',
    ),
    ("balance", "--set", "weighing.reading.3.scale=6 lb"): (
        2,
        (
            'weighing.reading: tail at level must be above 0 after tare, got "-1.1 kg (-2.5 lb)": the centre of '
            "gravity would lie outside the wheels; check the reading and its tare\n"
        ),
    ),
    ("layout", "--set", "layout.spar.front.cap=3 in"): (
        1,
        (
            "no front spar fits at 13 % of the chord: the section is 140.7 mm deep there, and caps and covers take "
            "154.0 mm; move the spar to where the section is deeper or make it narrower\n"
        ),
    ),
    ("speeds", "--weight", "heavy", "--altitude", "90000 ft"): (
        2,
        (
            '--weight: must be a mass, as in "381 lb", got "heavy"\n'
            '--altitude: must be -3280.8 to 36089 ft, got "90000 ft"\n'
        ),
    ),
}


@pytest.mark.parametrize("words", REFUSED)
def test_wrong_input_and_no_answer(run, words):
    result = run(*words)
    code, sentence = REFUSED[words]
    assert (result.exit_code, result.stdout, result.stderr) == (code, "", sentence)


def test_every_bundled_drawing_can_be_scaled(run):
    drawings = sorted(Path(folder(), "drawings").glob("*.toml"))
    assert drawings
    assert all(run("scale", drawing).exit_code == 0 for drawing in drawings)


def test_a_long_name_breaks_at_its_dots(run):
    lines = [line.split()[0] for line in run("scale").stdout.splitlines() if line.split()]
    first = lines.index("powerplant")
    assert lines[first : first + 4] == ["powerplant", ".rotary", ".propeller", ".diameter"]
