"""``whirlgate drawing``: its sheet, its files, its figure, and what it refuses."""

import json
from math import radians, tan
from pathlib import Path

import pytest
from airplanes import BIPLANE, DRAWING, PARASOL, TRIPLANE, TWO_SEATER


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, PARASOL], ids=lambda path: path.stem)
def test_the_sheet(run, snapshot, airplane, units):
    result = run("--units", units, "drawing", airplane)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot


def test_json_holds_dimensions_and_places_and_leaves_out_the_lines(run):
    told = json.loads(run("drawing", "--json", "--powerplant", "rotary").stdout)
    assert told["powerplant"] == "rotary"
    spans = [one for one in told["dimensions"] if one["key"] == "wing.span"]
    assert spans == [{"name": "span", "key": "wing.span", "view": "plan", "drawn_m": 28 * 0.3048 + 0.0254}]
    pilot = next(one for one in told["places"] if one["name"] == "pilot")
    assert (pilot["key"], pilot["station_m"]) == ("item.pilot.station", pytest.approx(85 * 0.0254))
    assert "views" not in told
    assert any("licensed engineer" in caution for caution in told["cautions"])


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE, PARASOL, TWO_SEATER], ids=lambda path: path.stem)
def test_the_files_are_written(run, tmp_path, airplane):
    files = [tmp_path / f"three.{ending}" for ending in ("svg", "pdf", "dxf")]
    result = run("drawing", airplane, *(word for file in files for word in ("--out", file)))
    assert result.exit_code == 0
    assert result.stderr == "".join(f"wrote {file}\n" for file in files)
    heads = [file.read_bytes()[:40] for file in files]
    assert heads[0].startswith(b"<?xml")
    assert heads[1].startswith(b"%PDF")
    assert heads[2].split()[:2] == [b"0", b"SECTION"]


def test_the_same_drawing_gives_the_same_bytes(run, tmp_path):
    for name in ("one", "two"):
        assert run("drawing", "--out", tmp_path / f"{name}.pdf", "--out", tmp_path / f"{name}.svg").exit_code == 0
    for ending in ("pdf", "svg"):
        assert (tmp_path / f"one.{ending}").read_bytes() == (tmp_path / f"two.{ending}").read_bytes()


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--scale", "20:1"), '--scale: must be a scale between 1:1 and 1:500, as in "1:20", got "20:1"'),
        (("--paper", "a5", "--out", "plan.svg"), '--paper: must be a4 or a3 or letter or tabloid, got "a5"'),
        (("--scale", "1:20"), "--scale: is of the three-view that --out writes: give --out FILE with it"),
        (("--paper", "a3"), "--paper: is of the three-view that --out writes: give --out FILE with it"),
        (("--out", "plan.dwg"), '--out: must end in .svg or .pdf or .dxf, got "plan.dwg"'),
        (("--out", "nowhere/plan.pdf"), '--out: needs the folder "nowhere", which is not there; make it first'),
    ],
)
def test_what_is_refused(run, words, sentence):
    result = run("drawing", *words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == sentence + "\n"


def test_another_airplane_is_compared_number_by_number(run):
    told = json.loads(run("drawing", "--json", "--against-set", "wing.span=27 ft 6 in").stdout)
    found = {row["path"]: row["difference"] for row in told["differences"]}
    half_m = 3.5 * 0.0254  # of what the span lost at each tip, which stands lower by the dihedral
    assert found == {
        "dimensions.span.drawn_m": pytest.approx(-2.0 * half_m),
        "dimensions.height, level.drawn_m": pytest.approx(-half_m * tan(radians(3.0))),
    }


def test_the_figure_shows_the_side_view(run, tmp_path):
    file = tmp_path / "side.svg"
    assert run("drawing", "--figure", file).exit_code == 0
    text = file.read_text(encoding="utf-8")
    for word in ("station, aft of the datum [in]", "centre of gravity", "propeller", "licensed engineer"):
        assert word in text


def test_readings_laid_over_it_name_the_wrong_number(run, tmp_path):
    file = tmp_path / "over.svg"
    result = run("drawing", "--over", DRAWING, "--set", "fin.height=4 ft", "--out", file)
    assert result.exit_code == 0
    table = result.stdout.partition("Caliper readings of Frozen test three-view")[2]
    rows = [line.split() for line in table.splitlines() if line.rstrip().endswith(("differs", "agrees"))]
    assert [row[0] for row in rows if row[-1] == "differs"] == ["fin.height"]
    assert len(rows) >= 11
    assert "(read 3 ft 5.9" in file.read_text(encoding="utf-8")


def test_faults_of_the_readings_are_told_under_their_option(run, tmp_path):
    file = tmp_path / "readings.toml"
    file.write_text('title = "a"', encoding="utf-8")
    result = run("drawing", "--over", file)
    assert (result.exit_code, result.stdout) == (2, "")
    assert all(line.startswith(f"--over: {file}") for line in result.stderr.splitlines())
    assert "known: is missing" in result.stderr


def test_readings_that_are_not_there(run):
    result = run("drawing", "--over", "nosuch")
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.startswith("--over: nosuch: is neither a file nor a bundled drawing (tollgate)")


def test_another_airplane_lies_under_it(run, tmp_path):
    file = tmp_path / "both.svg"
    assert run("drawing", "--out", file, "--against", TRIPLANE).exit_code == 0
    text = file.read_text(encoding="utf-8")
    assert 'id="other-airplane"' in text
    assert "Blue: " in text


def test_the_picture_of_the_readme_is_that_of_the_bundled_scenario(run, tmp_path):
    """Byte for byte what the command under it writes; where it is not, that command writes it anew."""
    made = tmp_path / "drawing.svg"
    assert run("drawing", "tollgate", "--paper", "a4", "--out", made).exit_code == 0
    kept = Path(__file__).parents[2] / "viz" / "pictures" / "drawing.svg"
    assert made.read_bytes() == kept.read_bytes()
