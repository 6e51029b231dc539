"""What ``scale``, ``balance`` and ``swing`` write into a scenario moves the answers of other commands."""

import pytest
import tomlkit
from airplanes import PARASOL

from sim.scenario.reading import load
from viz.files.scenario_keys import set_key

SWUNG = ("swing", "--mass", "40 lb", "--radius", "8 in", "--length", "6 ft", "--swings", "10", "--time", "49 s ± 0.2 s")


@pytest.mark.parametrize(
    "written",
    [
        ("scale", "--set", "known={'fuselage.length'='18 ft 8.22 in', 'wing.span'='28 ft 4.37 in'}"),
        ("balance", "--powerplant", "rotary", "--move", "3 in forward"),
        (*SWUNG, "--key", "powerplant.rotary.propeller.polar_inertia"),
    ],
    ids=lambda words: words[0],
)
def test_what_the_shop_corrects_moves_the_roots_of_the_airplane(run, answered, scenario, written):
    def roots():
        rotary = answered("modes", scenario)["flights"][0]
        return [mode["real_per_s"] for mode in rotary["modes"]]

    before = roots()
    assert run(*written, "--write", scenario).exit_code == 0
    assert roots() != pytest.approx(before, rel=1e-4)


def test_a_written_dimension_moves_the_other_answers(run, answered, scenario):
    before = answered("layout", scenario)
    written = run(
        "scale", "--write", scenario, "--set", "known={'fuselage.length'='18 ft 8.22 in', 'wing.span'='28 ft 4.37 in'}"
    )
    assert written.exit_code == 0
    after = answered("layout", scenario)
    assert after["chord_m"] / before["chord_m"] == pytest.approx(1.01, abs=0.002)


DRAWN = """
title = "stations"
reading_error = "0.1 mm"
[known]
wing.span = "28 ft 1 in"
[view.plan]
one_scale = true
"""
READING = """
[[reading]]
dimension = "{name}"
view = "plan"
axis = "along"
values = "{value}"
"""
SIZES = {"wing.span": "535 mm", "item.upper wing.station": "75.3 mm", "weighing.support.left.station": "57.3 mm"}


def drawing_of(folder, sizes):
    """Write a drawing of one view, 1 : 16, in which these sizes were read."""
    path = folder / "drawing.toml"
    rows = (READING.format(name=name, value=value) for name, value in sizes.items())
    path.write_text(DRAWN + "".join(rows), encoding="utf-8")
    return path


def test_stations_of_items_and_supports_are_written_and_weigh(run, answered, scenario, tmp_path):
    before = answered("balance", scenario)
    assert run("scale", drawing_of(tmp_path, SIZES), "--write", scenario).exit_code == 0
    written = load(scenario)
    ratio = written.wing.span_m / 0.535
    wing = next(item for item in written.item if item.name == "upper wing")
    assert wing.station_m == pytest.approx(0.0753 * ratio, rel=1e-3)
    assert written.weighing.support["left"].station_m == pytest.approx(0.0573 * ratio, rel=1e-3)
    assert written.weighing.support["right"].station_m == pytest.approx(0.9144, rel=1e-6)
    assert answered("balance", scenario) != before


@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_writing_twice_changes_nothing(run, scenario, tmp_path, ending):
    drawing = drawing_of(tmp_path, SIZES | {"item.2.waterline": "60 mm", "fin.height": "67 mm"})
    scenario.write_bytes(scenario.read_text(encoding="utf-8").replace("\n", ending).encode())
    lines = scenario.read_bytes().split(b"\n")
    assert run("scale", drawing, "--write", scenario).exit_code == 0
    once = scenario.read_bytes()
    assert sum(old != new for old, new in zip(lines, once.split(b"\n"), strict=True)) == 5
    assert once.count(b"\r\n") == (once.count(b"\n") if ending == "\r\n" else 0)
    assert run("scale", drawing, "--write", scenario).exit_code == 0
    assert scenario.read_bytes() == once


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        (
            "item.uper wing.station",
            'must name an item, 1 to 23 or by its name, got "uper wing"; did you mean upper wing?',
        ),
        (
            "weighing.support.lft.station",
            'support must be one of left, right, tail, got "lft"; did you mean left?',
        ),
        (
            "powerplant.rotry.propeller.diameter",
            'powerplant must be one of rotary, flat_four, got "rotry"; did you mean rotary?',
        ),
    ],
)
def test_an_item_or_support_that_the_scenario_has_not(run, scenario, tmp_path, name, sentence):
    before = scenario.read_bytes()
    result = run("scale", drawing_of(tmp_path, {"wing.span": "535 mm", name: "60 mm"}), "--write", scenario)
    assert (result.exit_code, result.stderr) == (2, f"{name}: cannot be written: {sentence}\n")
    assert scenario.read_bytes() == before


def test_a_table_of_which_one_key_alone_would_stand_is_not_begun(run, scenario, tmp_path):
    scenario.write_bytes(PARASOL.read_bytes())
    drawing = drawing_of(tmp_path, {"wing.span": "535 mm", "weighing.support.left.station": "60 mm"})
    result = run("scale", drawing, "--write", scenario)
    assert result.exit_code == 2
    assert result.stderr.startswith("weighing.attitude: is missing: a table, pitch of each attitude")
    assert scenario.read_bytes() == PARASOL.read_bytes()


def test_an_item_of_a_bill_of_items_is_changed_in_the_bill(run, scenario, tmp_path):
    (tmp_path / "items.csv").write_text("name,group,mass [lb],station [in]\npilot,pilot,180,90\n", encoding="utf-8")
    text = PARASOL.read_text(encoding="utf-8")
    scenario = tmp_path / "camp.toml"
    scenario.write_text(f'{text}\n[[item]]\nfile = "items.csv"\n', encoding="utf-8")
    before = scenario.read_bytes()
    drawing = drawing_of(tmp_path, {"wing.span": "535 mm", "item.pylot.station": "60 mm"})
    result = run("scale", drawing, "--write", scenario)
    assert result.exit_code == 2
    assert result.stderr.endswith("; those of items.csv are changed there\n")
    assert scenario.read_bytes() == before
    known = drawing_of(tmp_path, {"wing.span": "535 mm"})
    assert run("scale", known, "--write", scenario).exit_code == 0


@pytest.mark.parametrize(
    ("written", "comment"),
    [("8.6 m", 32), ("28 ft 1 1/16 in", 32), ("28 ft 1 in, as it was measured", 42)],
    ids=["shorter", "longer", "too long for the column"],
)
def test_a_comment_stays_in_its_column_or_leaves_it_where_there_is_no_room(written, comment):
    """It begins in column 32; behind a value that reaches past it stand three blanks."""
    table = tomlkit.parse('span = "28 ft 1 in"             # from tip to tip\nchord = "4 ft"  # close\n')
    set_key(table, "span", written)
    set_key(table, "chord", "1.25 m")
    span, chord = tomlkit.dumps(table).splitlines()
    assert span.partition("#")[0].rstrip() == f'span = "{written}"'
    assert (span.index("#"), span[span.index("#") :]) == (comment, "# from tip to tip")
    assert chord == 'chord = "1.25 m"  # close'
