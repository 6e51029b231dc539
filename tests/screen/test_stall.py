"""``whirlgate stall``: its sheet, its figure by what it draws, its JSON, and what it refuses."""

import numpy as np
import pytest
from airplanes import BIPLANE, PARASOL
from shared import built

from sim.studies.stall import stall
from viz.figures.stall import draw

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
            for key in ("bank_deg", "stall_m_s", "alpha_deg", "roll_deg", "height_lost_m"):
                assert row[key] == pytest.approx(getattr(entry, key))
    turned = found["autorotation"]["powerplants"]["rotary"]
    assert turned["driven_from_deg"] == answer.autorotation.powerplants["rotary"].driven_from_deg


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_figure_draws_bank_height_and_autorotation(answer, units):
    above, middle, below, last = draw(answer, units).axes
    flight = answer.flights["rotary"][2]
    seen = (flight.time_s >= -2.0) & (flight.time_s <= 7.0)
    line = next(one for one in above.lines if one.get_label() == "rotary, full")
    assert np.asarray(line.get_ydata()) == pytest.approx(flight.bank_deg[seen])
    height = next(one for one in middle.lines if one.get_label() == "rotary, full")
    factor = 1.0 if units == "si" else 1.0 / 0.3048
    assert min(height.get_ydata()) == pytest.approx(
        factor * (flight.height_m[seen].min() - flight.height_m[np.searchsorted(flight.time_s, 0.0)])
    )
    assert list(below.lines[0].get_ydata()) == pytest.approx(answer.autorotation.powerplants["rotary"].curve_damping)
    for line, one in zip(last.lines, answer.autorotation.arrangements, strict=False):
        assert list(line.get_ydata()) == pytest.approx(one.rolls.curve_damping)
        assert line.get_label().startswith(f"gap {one.gap_chords:.2f}, stagger {one.stagger_chords:.2f}")
    assert len(last.lines) == len(answer.autorotation.arrangements) + 1


def test_a_monoplane_has_no_gaps_to_compare(run):
    shown = run("stall", PARASOL, *STRAIGHT).output
    assert "Autorotation, power off" in shown
    assert "at other distances" not in shown


def test_wrong_options_are_told(run):
    found = run("stall", BIPLANE, "--bank", "80 deg", "--reaction", "-1 s")
    assert found.exit_code == 2
    assert found.stderr.splitlines() == [
        '--bank: must be -60 to 60 deg, got "80 deg"',
        '--reaction: must be 0 to 10 s, got "-1 s"',
    ]
    linear = run("stall", BIPLANE, "--set", "flight.air=linear")
    assert (linear.exit_code, linear.stderr) == (
        2,
        'flight.air: must be "strips", got "linear": by linear loads nothing stalls\n',
    )
