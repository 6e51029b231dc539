"""``whirlgate scale``: its sheet, what it writes, its figure, and readings that contradict each other."""

from pathlib import Path

import pytest
import tomlkit
from airplanes import BIPLANE, DRAWING

from sim.model.drawing import drawing
from sim.scenario.bundled import folder
from sim.scenario.reading import load
from sim.studies.scale import scale
from viz.figures.scale import draw


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_sheet(run, snapshot, units):
    result = run("--units", units, "scale")
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


@pytest.mark.parametrize(
    ("units", "span"), [("us", 'span = "28 ft 0.99 in ± 0.22 in"'), ("si", 'span = "8.5596 m ± 0.0056 m"')]
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
    assert load(scenario).tolerances["wing.span"] == pytest.approx(0.0056, abs=1e-4)


def test_a_scenario_is_no_drawing(run):
    result = run("scale", BIPLANE)
    told = f"{BIPLANE}: is a scenario, not a drawing, which has the tables known and reading\n"
    assert (result.exit_code, result.stderr) == (2, told)


def test_contradictory_known_dimensions_are_refused(run):
    result = run("scale", "--set", "known.wing.span=28 ft 9 in ± 1/4 in")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == (
        "known.wing.span: contradicts the rest: the document says 28 ft 9.00 in, the drawing "
        "28 ft 0.99 in, 4.4 standard errors apart, at most 3.3; check the document and its readings\n"
    )


def test_readings_that_contradict_are_named_and_nothing_is_written(run, scenario):
    misread = ("--set", "reading.11.values=['90.6 mm']", "--set", "distortion=0.1 %")
    shown = " ".join(run("scale", *misread).stdout.split())
    assert "Readings inconsistent with the others: measure them again" in shown
    before = scenario.read_text(encoding="utf-8")
    result = run("scale", *misread, "--write", scenario)
    assert (result.exit_code, result.stderr) == (
        2,
        "--write: nothing is written while readings contradict each other (wing.gap); read these again\n",
    )
    assert scenario.read_text(encoding="utf-8") == before


def test_scales_of_no_copy_stand_at_the_head_and_nothing_is_written(run, scenario, tmp_path):
    """Its digits swapped, and the only document that gives the scales across."""
    held = tomlkit.parse((folder() / "drawings" / "tollgate.toml").read_text(encoding="utf-8"))
    held["known"]["wing"]["span"] = "82 ft 1 in ± 1/4 in"
    del held["known"]["powerplant"]
    for row in [each for each in held["reading"] if each["dimension"] == "wheel diameter" and each["axis"] == "across"]:
        held["reading"].remove(row)
    for row in [each for each in held["reading"] if (each["dimension"], each["view"]) == ("wheel diameter", "front")]:
        held["reading"].remove(row)
    file = tmp_path / "swapped.toml"
    file.write_text(tomlkit.dumps(held), encoding="utf-8")
    shown = " ".join(run("scale", file).stdout.split())
    assert shown.startswith("DO NOT USE before wing.span is checked, in the document and on the drawing: ")
    assert shown.count("DO NOT USE") == 1
    assert "--write" not in shown
    assert notes(scale(drawing(file)))["wing.span"] == "nothing checks its document"
    before = scenario.read_bytes()
    result = run("scale", file, "--write", scenario)
    assert (result.exit_code, result.stderr) == (
        2,
        "--write: nothing is written while scales along and across differ as no copy does; check wing.span\n",
    )
    assert scenario.read_bytes() == before
    compared = " ".join(run("drawing", "--over", file).stdout.split())
    assert compared.startswith("DO NOT USE before wing.span is checked, in the document and on the drawing: ")


def test_every_bundled_drawing_can_be_scaled(run):
    drawings = sorted(Path(folder(), "drawings").glob("*.toml"))
    assert drawings
    assert all(run("scale", drawing).exit_code == 0 for drawing in drawings)


def test_a_long_name_breaks_at_its_dots(run):
    lines = [line.split()[0] for line in run("scale").stdout.splitlines() if line.split()]
    first = lines.index("powerplant")
    assert lines[first : first + 4] == ["powerplant", ".rotary", ".propeller", ".diameter"]


@pytest.fixture(scope="module")
def drawn():
    answer = scale(drawing(DRAWING))
    return answer, draw(answer, "us")


def test_every_dimension_has_its_95_percent_limits(drawn):
    answer, figure = drawn
    (panel,) = figure.axes
    assert [label.get_text() for label in panel.get_yticklabels()] == [each.name for each in answer.dimensions]
    bars = [line for line in panel.get_lines() if line.get_linewidth() == 5.0 and len(line.get_xdata())]
    assert [bar.get_xdata()[1] for bar in bars] == pytest.approx(
        [1.96 * each.error_m / 0.0254 for each in answer.dimensions]
    )


def test_documents_stand_where_they_differ(drawn):
    answer, figure = drawn
    marks = [
        line.get_xdata()[0] for line in figure.axes[0].get_lines() if line.get_marker() == "D" and len(line.get_xdata())
    ]
    known = [each for each in answer.dimensions if each.residual_m is not None]
    assert known
    assert marks == pytest.approx([(each.known_m - each.value_m) / 0.0254 for each in known])
    assert [text.get_text() for text in figure.axes[0].texts if "σ" in text.get_text()] == [
        f"{each.normalised_residual:+.1f} σ" for each in known
    ]


def notes(answer):
    """Return what the figure writes behind each dimension, by its name."""
    (panel,) = draw(answer, "us").axes
    names = {place: label.get_text() for place, label in zip(panel.get_yticks(), panel.get_yticklabels(), strict=True)}
    return {names[text.xy[1]]: text.get_text() for text in panel.texts}


def test_the_figure_says_which_sizes_nothing_checks(drawn):
    answer, _ = drawn
    blind = {name for name, note in notes(answer).items() if note == "nothing checks it"}
    checked = {row.name for row in answer.readings if row.least_detectable_m is not None}
    assert "nothing checks its document" not in notes(answer).values()
    assert blind == {each.name for each in answer.dimensions if each.known_m is None} - checked
    assert {"tailplane.span", "wheel track"} < blind


def test_the_figure_says_which_readings_are_off():
    """An outvoted one, by how much; of two that contradict each other neither has limits."""
    misread = ["reading.3.values=['180.1 mm', '180.31 mm']", "reading.1.values=['541.1 mm', '541.3 mm']"]
    answer = scale(drawing("tollgate", misread))
    found, figure = notes(answer), draw(answer, "us")
    off = {(each.dimension, each.view): each.residual_m / 0.0254 for each in answer.contradictions}
    assert found["wing.span"].endswith(f"plan off by {off['wing.span', 'plan']:.2f} in")
    assert found["tailplane.span"].count("off by") == 2
    bars = [line for line in figure.axes[0].get_lines() if line.get_linewidth() == 5.0 and len(line.get_xdata())]
    assert len(bars) == len(answer.dimensions) - 1


def test_readings_that_contradict_each_other_stand_side_by_side_and_give_no_size(run):
    """By hand: each mean of its readings at the scale of its view, and the other view's size beside it."""
    wrong = "reading.3.values=['180.1 mm', '180.31 mm']"
    answer = scale(drawing("tollgate", [wrong]))
    scales = {(one.view, one.axis): one.scale_ratio for one in answer.scales}
    by_view = {view: ratio for (view, _), ratio in scales.items()}
    read = {
        (one.dimension, one.view): one.mean_m * scales.get((one.view, one.axis), by_view[one.view])
        for one in answer.readings
    }
    for one in answer.contradictions:
        assert one.size_m == pytest.approx(read[one.dimension, one.view], rel=1e-3)
        assert one.residual_m == pytest.approx(one.size_m - one.others_m, abs=1e-12)
    first, second = answer.contradictions[:2]
    assert first.others_m == pytest.approx(second.size_m, rel=1e-2)
    shown = run("scale", "tollgate", "--set", wrong).stdout
    line = next(line for line in shown.splitlines() if line.startswith(f"  {first.dimension} "))
    assert line.split()[1] == "contradicted"


def test_the_figure_says_why_a_size_has_no_limits():
    found = notes(scale(drawing(DRAWING, ["reading.1.values=['531.21 mm', '541.34 mm']"])))
    assert found["tailplane.span"] == "no limits: its readings, or those of its scale, contradict each other"
    assert found["tailplane.chord"] == "nothing checks it"


def test_the_sheet_names_the_next_step_when_readings_contradict(run):
    misread = ("--set", "reading.3.values=['180.1 mm', '180.31 mm']")
    shown = " ".join(run("scale", "tollgate", *misread).stdout.split())
    assert "when these are measured again and corrected in the file." in shown
    assert "--write" not in shown


def test_the_figure_carries_units(run, drawn, tmp_path):
    assert "[in]" in drawn[1].axes[0].get_xlabel()
    assert run("scale", "--figure", tmp_path / "scale.png").exit_code == 0
    assert (tmp_path / "scale.png").read_bytes().startswith(b"\x89PNG")


def test_a_misspelt_key_is_told(run, tmp_path):
    text = DRAWING.read_text(encoding="utf-8")
    file = tmp_path / "drawing.toml"
    file.write_text(text.replace('"tailplane.chord"', '"tailplane.cord"'), encoding="utf-8")
    assert file.read_text() != text
    said = "tailplane.cord is a name of its own, and no key of a scenario: did you mean tailplane.chord?"
    assert said in " ".join(run("scale", file).stdout.split())
    assert "no key of a scenario" not in run("scale", DRAWING).stdout


def test_two_repeats_that_differ_are_both_named(run, tmp_path):
    """Which of the two is misread they do not tell; a third repeat or another view would."""
    sound = folder() / "drawings" / "tollgate.toml"
    text = sound.read_text(encoding="utf-8")
    file = tmp_path / "drawing.toml"
    file.write_text(text.replace('"57.07 mm", "56.97 mm"', '"57.07 mm", "65.97 mm"'), encoding="utf-8")
    said = " ".join(run("scale", file).stdout.split())
    assert (
        "fin.chord in view side was read as 57.07 mm and as 65.97 mm: one of them is wrong, and the two do not tell "
        "which. Measure it again."
    ) in said
    assert "was read as" not in run("scale", sound).stdout
