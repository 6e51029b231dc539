"""``whirlgate balance``: its sheet, its keys, what it writes, its figure, and wrong input."""

import re

import pytest
from airplanes import BIPLANE, TRIPLANE, TWO_SEATER

from sim.model.model import model
from sim.scenario.reading import load
from sim.studies.balance import balance
from viz.figures.balance import draw
from viz.figures.inks import MARKS


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=["biplane", "triplane"])
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "balance", airplane, "--items")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_the_centre_of_gravity_over_the_chord_has_the_error_of_its_station(run, answered):
    found = answered("balance", BIPLANE)
    line = next(row for row in run("balance", BIPLANE).stdout.splitlines() if "loaded CG, % of the mean chord" in row)
    shown, error = (float(word) for word in re.findall(r"\d+\.\d+", line))
    assert shown == pytest.approx(found["cg_percent_mac"], abs=0.005)
    assert error == pytest.approx(100.0 * found["cg_error_m"] / found["chord_m"], rel=0.05)


def test_pilots_who_serve_and_do_not_fly_are_told_so(run):
    """With the engine that far aft only those serve who are lighter than the lightest pilot."""
    shown = " ".join(run("balance", "--move", "8 in aft").stdout.split())
    assert (
        "None of the pilots, from 140 lb to 220 lb, keeps every loading inside; pilots from 0 lb to 122 lb would."
    ) in shown


def test_the_keys_of_balance(answered):
    found = answered("balance")
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
    point = {"name", "mass_kg", "cg_station_m", "cg_error_m", "cg_percent_mac", "inside", "inside_probability"}
    assert set(found["envelope"][0]) == {*point, "static_margin_percent_mac"}
    assert found["as_weighed"] is True
    assert {"mass_kg", "cg_percent_mac", "source"} <= set(found["powerplants"]["rotary"])


def test_moves_are_said_in_words(run):
    shown = " ".join(run("balance").stdout.split())
    assert "move the engine 2.69 in forward ± 0.31 in" in shown
    assert "within the limits with the engine from 8.84 in forward to 0.11 in forward of its present position" in shown
    assert "ballast, tail 206.00 in cannot none serves" in shown
    aft = " ".join(run("balance", "--set", "balance.target=33 %").stdout.split())
    assert "6.53 in aft" in aft
    assert "ballast, tail 206.00 in 17 lb none serves" in aft


OUTSIDE = ("balance", "--set", "balance.target=20 %", "--set", "balance.forward_limit=19 %")


def test_a_target_that_leaves_a_loading_outside_says_so_in_the_answer(run, answered):
    found = answered(*OUTSIDE)
    names = "; ".join(found["outside_at_target"])
    assert names
    shown = " ".join(run(*OUTSIDE).stdout.split())
    several = len(found["outside_at_target"])
    count = f"{several} of {len(found['envelope'])} loadings {'is' if several == 1 else 'are'}"
    assert f"At the target there {count} OUTSIDE the limits ({names}); " in shown
    mounted = " ".join(run("mount", *OUTSIDE[1:]).stdout.split())
    assert f"With the engine there loadings lie OUTSIDE the CG limits: {names}; " in mounted


def test_a_written_move_says_what_is_left_to_write_and_is_not_moved_again(run, scenario):
    shown = " ".join(run("balance", scenario, "--move", "2 in forward", "--write", scenario).stdout.split())
    assert (
        "Its mass, moments of inertia and arms are still written for the position before; whirlgate balance "
        f"{scenario} --write {scenario} writes them too." in shown
    )
    assert "--move" not in shown.partition("Next:")[2]
    assert "whirlgate mount" in shown.partition("Next:")[2]
    assert "--move" in run("balance", scenario, "--move", "2 in forward").stdout.partition("Next:")[2]


def test_limits_that_no_engine_position_serves(run):
    shown = run("balance", "--set", "balance.forward_limit=27 %", "--set", "balance.aft_limit=29 %").stdout
    assert "OUTSIDE" in shown
    assert "no position of the engine keeps every loading within the limits" in " ".join(shown.split())


def test_the_items_are_listed_when_asked(run):
    assert "tail surfaces (past builds)" not in run("balance").stdout
    assert "tail surfaces (past builds)" in run("balance", "--items").stdout


@pytest.mark.parametrize(("units", "mass"), [("us", '"1406.2 lb ± 1.1 lb"'), ("si", '"637.83 kg ± 0.48 kg"')])
def test_balance_writes_what_it_settles_and_leaves_the_rest(answered, scenario, units, mass):
    before = scenario.read_text(encoding="utf-8")
    old, found = load(scenario), answered("--units", units, "balance", scenario, "--write", scenario)
    after = scenario.read_text(encoding="utf-8")
    changed = [row for row, was in zip(after.split("\n"), before.split("\n"), strict=True) if row != was]
    assert len(changed) == 12
    assert changed[0] == f"mass = {mass}"
    columns = [[row.find("#") for row in text.split("\n") if row.startswith("inertia_y")] for text in (before, after)]
    assert columns[0] == columns[1]
    new = load(scenario)
    assert new.airplane.mass_kg == pytest.approx(found["mass_kg"], rel=1e-4)
    assert new.airplane.inertia_yaw_kg_m2 == pytest.approx(found["inertia_kg_m2"]["zz"], rel=1e-4)
    apart = [scenario.tailplane.arm_m - scenario.wing.arm_m for scenario in (old, new)]
    assert apart[0] == pytest.approx(apart[1], abs=2e-4)
    assert new.airplane.inertia_product_kg_m2 == pytest.approx(found["inertia_kg_m2"]["xz"], rel=1e-4)
    below_m = found["cg_waterline_m"] - new.balance.thrust_line_m  # positive: the shaft lies below the CG
    for engine in new.powerplant.values():
        disc_m = found["cg_station_m"] - engine.propeller.arm_m
        assert disc_m == pytest.approx(engine.propeller.station_m, abs=1e-4)
        assert engine.thrust_arm_m == pytest.approx(below_m, rel=1e-4)


def test_a_target_far_away_makes_the_steps_longer_not_the_table(run):
    shown = run("balance", "--step", "1/8 in", "--set", "balance.target=33 %").stdout
    assert "in steps of 0.5 in\n" in shown
    moves = re.findall(r"^ +([0-9.]+) in (?:forward|aft) ", shown, re.MULTILINE)
    assert len(moves) <= 25
    assert (moves[0], moves[-1]) == ("2.00", "6.50")


def test_no_inch_on_a_metric_sheet(run):
    shown = run("--units", "si", "balance").stdout
    assert not re.search(r"[0-9] in\b", shown)
    assert "steps of 10 mm" in shown


@pytest.fixture(scope="module")
def drawn():
    answer = balance(model(TRIPLANE))
    return answer, draw(answer, "us")


def test_the_envelope_passes_through_its_points(drawn):
    answer, figure = drawn
    marked = [line for line in figure.axes[0].get_lines() if line.get_marker() in MARKS]
    paths = [line for line in marked if not line.get_label().startswith("_")]
    full = [line for line in marked if line not in paths]  # the large mark where each begins, tanks full
    assert [line.get_xydata().tolist() for line in full] == [[path.get_xydata()[0].tolist()] for path in paths]
    assert min(line.get_markersize() for line in full) > 1.5 * max(path.get_markersize() for path in paths)
    percents = [percent for path in paths for percent in path.get_xdata()]
    pounds = [mass for path in paths for mass in path.get_ydata()]
    assert percents == pytest.approx([point.cg_percent_mac for point in answer.envelope])
    assert pounds == pytest.approx([point.mass_kg / 0.45359237 for point in answer.envelope])


def test_each_line_of_the_envelope_burns_fuel_and_changes_nothing_else():
    """Of a two-seater: one line for every pilot, seat and baggage, none from one load to another; each its label."""
    answer = balance(model(TWO_SEATER), engine_move_m=0.05)
    panel = draw(answer, "us").axes[0]
    lines = [line for line in panel.get_lines() if len(line.get_xdata()) == 2 and line.get_marker() not in ("", "None")]
    ends = iter(answer.envelope)
    assert len(lines) == len(answer.envelope) // 2 == 12
    for line in lines:
        full, empty = next(ends), next(ends)
        assert full.name.removesuffix(", full tanks") == empty.name.removesuffix(", empty tanks")
        assert list(line.get_xdata()) == [full.cg_percent_mac, empty.cg_percent_mac]
    labels = [text.get_text() for text in panel.get_legend().get_texts()]
    names = [point.name.removesuffix(", full tanks") for point in answer.envelope[::2]]
    assert [label for label in labels if "pilot" in label] == names
    looks = {(line.get_color(), line.get_linestyle(), line.get_markerfacecolor()) for line in lines}
    assert len(looks) == len(lines)
    assert panel.get_title(loc="left").endswith(f"engine at station {answer.engine_station_m / 0.0254:.2f} in")


def test_limits_and_target_stand_where_they_are(drawn):
    answer, figure = drawn
    upright = [line.get_xdata()[0] for line in figure.axes[0].get_lines() if len(set(line.get_xdata())) == 1]
    wanted = (answer.forward_limit_percent_mac, answer.aft_limit_percent_mac, answer.target_percent_mac)
    assert upright[:3] == pytest.approx(wanted)


def test_the_steps_of_the_engine_and_the_one_on_target(drawn):
    answer, figure = drawn
    steps, target = figure.axes[1].get_lines()[:2]
    assert list(steps.get_ydata()) == pytest.approx([step.engine_move_m / 0.0254 for step in answer.positions])
    assert list(target.get_ydata()) == pytest.approx([answer.engine_move_m / 0.0254])
    way = "aft" if answer.engine_move_m > 0.0 else "forward"
    assert target.get_label() == f"on target: {abs(answer.engine_move_m) / 0.0254:.2f} in {way}"


def test_axes_carry_quantities_and_units(drawn):
    above, below = drawn[1].axes
    assert (above.get_xlabel(), above.get_ylabel()) == ("centre of gravity [% of the mean chord]", "weight [lb]")
    assert below.get_ylabel().replace("\n", " ") == "engine displacement, aft positive [in]"


def test_a_figure_is_written(run, tmp_path):
    file = tmp_path / "balance.svg"
    assert run("balance", "--figure", file).exit_code == 0
    assert "every loading within the limits" in file.read_text(encoding="utf-8")


REFUSED = {
    ("balance", "--powerplant", "rotery"): (
        2,
        '--powerplant: must be one of rotary, flat_four, got "rotery"; did you mean rotary?\n',
    ),
    ("balance", "--set", "item.pilot.mass=-190 lb"): (
        2,
        '--set item.pilot.mass: must be 0 to 220460 lb, got "-190 lb"\n',
    ),
    ("balance", "--set", "weighing.reading.3.scale=6 lb"): (
        2,
        (
            'weighing.reading: tail at level must be above 0 after tare, got "-2.5 lb": the centre of '
            "gravity would lie outside the wheels; check the reading and its tare\n"
        ),
    ),
    ("balance", "--write", "nowhere/mine.toml"): (
        2,
        '--write: must be a scenario that is there (whirlgate new writes one), got "nowhere/mine.toml"\n',
    ),
}


@pytest.mark.parametrize("words", REFUSED)
def test_wrong_input_and_no_answer(run, words):
    result = run(*words)
    code, sentence = REFUSED[words]
    assert (result.exit_code, result.stdout, result.stderr) == (code, "", sentence)
