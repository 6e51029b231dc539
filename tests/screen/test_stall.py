"""``whirlgate stall``: its sheet, its figure by what it draws, its JSON, and what it refuses."""

import csv
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL
from shared import built

from sim.studies.stall import stall
from viz.figures.stall import draw
from viz.present import sheet

STRAIGHT = ("--bank", "0 deg")


@pytest.fixture(scope="module")
def answer():
    return stall(built(BIPLANE), banks_deg=(0.0,))


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_sheet(run, units, snapshot):
    assert run("--units", units, "stall", BIPLANE, *STRAIGHT, "--bands").output == snapshot


def test_json_holds_what_the_sheet_is_made_of(answered, answer):
    found = answered("stall", BIPLANE, *STRAIGHT)
    for name, own in answer.powerplants.items():
        rows = found["powerplants"][name]["entries"]
        assert [row["power"] for row in rows] == ["idle", "cruise", "full"]
        for row, entry in zip(rows, own.entries, strict=True):
            assert row["first_panel"] == entry.first_panel
            for key in (
                "bank_deg",
                "stall_m_s",
                "load_factor",
                "alpha_deg",
                "most_bank_deg",
                "roll_deg",
                "height_lost_m",
            ):
                assert row[key] == pytest.approx(getattr(entry, key))
    assert set(rows[0]["curve"]) == {"time_s", "speed_m_s", "alpha_deg", "bank_deg", "pitch_deg", "altitude_m"}
    turned = found["autorotation"]["powerplants"]["rotary"]
    assert turned["driven_from_deg"] == answer.autorotation.powerplants["rotary"].driven_from_deg


def test_speed_gained_into_a_stall_is_explained_where_there_is_any(answer):
    """Of a made-up stall in a turn; of those flown straight every one loses speed and warns."""
    own = answer.powerplants["rotary"]
    assert all(one.slowing_m_s2 > 0.0 and one.warning_m_s > 0.0 for one in own.entries)
    gaining = replace(own, entries=(replace(own.entries[0], warning_m_s=-0.1), *own.entries[1:]))
    made_up = replace(answer, powerplants={**answer.powerplants, "rotary": gaining})
    told = [" ".join(str(sheet(one)).split()) for one in (answer, made_up)]
    assert ["it gains speed into the stall" in one for one in told] == [False, True]


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_figure_draws_bank_height_and_autorotation(answer, units):
    above, middle, below, last = draw(answer, units).axes
    flight = answer.flights["rotary"][2]
    columns = flight.columns
    seen = columns["time_s"] >= -2.0
    line = next(one for one in above.lines if one.get_label() == "rotary, full")
    assert np.asarray(line.get_ydata()) == pytest.approx(columns["bank_deg"][seen])
    height = next(one for one in middle.lines if one.get_label() == "rotary, full")
    factor = 1.0 if units == "si" else 1.0 / 0.3048
    assert min(height.get_ydata()) == pytest.approx(-factor * (flight.entry.height_lost_m))
    later = columns["time_s"] >= 0.0
    lowest = columns["time_s"][later][columns["altitude_m"][later].argmin()]
    assert above.get_xlim()[1] == middle.get_xlim()[1] >= lowest + 0.99  # the recovery is seen to its lowest point
    assert "before the pilot reacts" in [text.get_text() for text in above.get_legend().get_texts()]
    first, second = (below.lines[number] for number in (0, 2))
    assert first.get_linewidth() > 3.0 * second.get_linewidth()  # the same values, and both are seen
    assert list(below.lines[0].get_ydata()) == pytest.approx(answer.autorotation.powerplants["rotary"].curve_damping)
    for line, one in zip(last.lines, answer.autorotation.arrangements, strict=False):
        assert list(line.get_ydata()) == pytest.approx(one.rolls.curve_damping)
        assert line.get_label().startswith(f"gap {one.gap_chords:.2f}, stagger {one.stagger_chords:.2f}")
    assert len(last.lines) == len(answer.autorotation.arrangements) + 1


def test_a_monoplane_has_no_gaps_to_compare(run):
    shown = run("stall", PARASOL, *STRAIGHT).output
    assert "Autorotation, power off" in shown
    assert "at other distances" not in shown


def test_a_column_for_each_bank_and_wide_panels_below():
    turned = stall(built(PARASOL), banks_deg=(0.0, 20.0, -20.0))
    figure = draw(turned, "us")
    assert [one.get_title(loc="left") for one in figure.axes] == [
        "wings level",
        "20° right",
        "20° left",
        "",
        "",
        "",
        "",
    ]
    for engine, flights in turned.flights.items():
        line = next(one for one in figure.axes[2].lines if one.get_label() == f"{engine}, full")
        flight = next(one for one in flights if (one.entry.power, one.entry.bank_deg) == ("full", -20.0))
        assert np.asarray(line.get_ydata())[-1] == flight.columns["bank_deg"][-1]
    wide, narrow = (figure.axes[number].get_subplotspec().get_position(figure).width for number in (6, 0))
    assert wide > 3.0 * narrow


def test_csv_holds_every_stall_in_time(run, tmp_path, answer):
    path = tmp_path / "stall.csv"
    assert run("stall", BIPLANE, *STRAIGHT, "--csv", str(path)).exit_code == 0
    rows = list(csv.DictReader(path.read_text().splitlines()))
    own = [row for row in rows if (row["powerplant"], row["power"]) == ("rotary", "full")]
    columns = answer.flights["rotary"][2].columns
    assert len(own) == columns["time_s"].size
    for name, head in (("bank_deg", "bank_deg [°]"), ("altitude_m", "altitude_m [m]")):
        assert [float(row[head]) for row in own] == pytest.approx(columns[name].tolist(), rel=1e-6, abs=1e-6)
    assert {row["valid"] for row in own if float(row["time_s [s]"]) < 0.0} == {"1"}
    again = run("stall", BIPLANE, *STRAIGHT, "--csv", str(path))
    assert (again.exit_code, "stall.csv" in again.stderr) == (2, True)


def test_json_holds_every_stall_in_time(answered, answer):
    """From five seconds before to the end of the recovery, the stall at 0: the numbers of its row are read off it."""
    for row in answered("stall", BIPLANE, *STRAIGHT)["powerplants"]["rotary"]["entries"]:
        curve = {name: np.array(values) for name, values in row["curve"].items()}
        (at,) = np.flatnonzero(curve["time_s"] == 0.0)
        assert (curve["time_s"][0], np.ptp(np.diff(curve["time_s"]))) == (
            pytest.approx(-5.0),
            pytest.approx(0.0, abs=1e-9),
        )
        assert curve["speed_m_s"][at] == pytest.approx(row["stall_m_s"])
        assert curve["alpha_deg"][at] == pytest.approx(row["alpha_deg"])
        assert curve["bank_deg"][at + 10] - curve["bank_deg"][at] == pytest.approx(row["roll_deg"], abs=1e-6)
        assert curve["pitch_deg"][at:].min() == pytest.approx(row["pitch_deg"], abs=0.3)
        lost = curve["altitude_m"][at] - curve["altitude_m"][at:].min()
        assert lost == pytest.approx(row["height_lost_m"], abs=0.1)
    full = answer.flights["rotary"][2].columns
    assert curve["altitude_m"] == pytest.approx(full["altitude_m"][full["time_s"] >= -5.0 - 1e-9][::2])


def test_wrong_options_are_told(run):
    found = run("stall", BIPLANE, "--bank", "80 deg", "--reaction", "-1 s", "--pull", "1 s")
    assert found.exit_code == 2
    assert found.stderr.splitlines() == [
        '--bank: must be -60 to 60 deg, got "80 deg"',
        '--reaction: must be 0 to 10 s, got "-1 s"',
        '--pull: must be 10 to 120 s, got "1 s"',
    ]
    linear = run("stall", BIPLANE, "--set", "flight.air=linear")
    assert (linear.exit_code, linear.stderr) == (
        2,
        'flight.air: must be "strips", got "linear": by linear loads nothing stalls\n',
    )
