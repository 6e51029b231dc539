"""``whirlgate maneuver``: every manoeuvre answers, histories go to CSV with units, what a pilot cannot do is said."""

import csv
import json
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built

from sim.model.model import model
from sim.studies.maneuver import maneuver
from viz.figures.maneuver import draw
from viz.present import figure

NAMES = ("rudder-kick", "pull", "roll-in", "turn", "reversal", "blip", "slam", "take-off")


@pytest.mark.parametrize("name", NAMES)
def test_every_manoeuvre_is_flown_with_each_engine(run, name):
    found = json.loads(run("maneuver", name, "--json", "--for", "4 s").stdout)
    sides = [flight["side"] for flight in found["flights"]]
    assert [flight["powerplant"] for flight in found["flights"]] == ["rotary"] * (len(sides) // 2) + ["flat_four"] * (
        len(sides) // 2
    )
    assert sides[: len(sides) // 2] == sides[len(sides) // 2 :]
    assert found["maneuver"] == name


def test_csv_has_units_in_its_head_and_a_row_a_moment(run, tmp_path):
    path = tmp_path / "kick.csv"
    assert run("maneuver", "rudder-kick", "--for", "3 s", "--csv", path).exit_code == 0
    rows = list(csv.reader(path.read_text(encoding="utf-8").splitlines()))
    assert rows[0][:8] == [
        *("powerplant", "side", "time_s [s]", "north_m [m]", "east_m [m]", "altitude_m [m]", "speed_m_s [m/s]"),
        "bank_deg [°]",
    ]
    assert len(rows) == 1 + 4 * 61
    assert rows[1][:3] == ["rotary", "right", "0"]
    assert float(rows[1][5]) == pytest.approx(304.8)


def test_csv_says_to_where_a_flight_is_valid(run, tmp_path):
    path = tmp_path / "kick.csv"
    asked = ("maneuver", "rudder-kick", TRIPLANE, "--share", "1", "--held", "2 s", "--for", "4 s")
    found = json.loads(run(*asked, "--csv", path, "--json").stdout)
    rows = list(csv.DictReader(path.read_text(encoding="utf-8").splitlines()))
    for flight in found["flights"]:
        own = [row for row in rows if (row["powerplant"], row["side"]) == (flight["powerplant"], flight["side"])]
        ended = [float(row["time_s [s]"]) for row in own if row["valid"] == "0"]
        assert min(ended) == pytest.approx(flight["valid_until_s"])
        assert len(ended) == sum(float(row["time_s [s]"]) >= min(ended) - 1e-9 for row in own)


def test_the_sheet_says_when_a_flight_leaves_the_range_of_validity_and_which(run):
    asked = ("maneuver", "rudder-kick", TRIPLANE, "--share", "1", "--held", "2 s", "--for", "4 s")
    found = json.loads(run(*asked, "--json").stdout)["flights"]
    text = run(*asked).stdout
    line = next(line for line in text.splitlines() if "valid until" in line)
    assert line.split()[2::3] == [f"{flight['valid_until_s']:.2f}" for flight in found]
    assert line.split()[4::3] == ["*"] * 4
    assert "* Outside the range of validity, indicative only; air loads by strips: sideslip (" in " ".join(text.split())
    calm = run("maneuver", "blip", TRIPLANE, "--for", "3 s").stdout
    assert "valid until" not in calm
    assert "Outside the range" not in calm


def test_the_figure_shades_from_the_first_flight_that_leaves_the_range_and_marks_each():
    answer = maneuver(model(TRIPLANE), "rudder-kick", share=1.0, held_s=2.0, flown_s=4.0)
    ends = [flight.valid_until_s for flight in answer.flights]
    for panel in figure(answer).axes:
        (shade,) = panel.patches
        assert (shade.get_x(), shade.get_x() + shade.get_width()) == pytest.approx((min(ends), 4.0))
        crosses = [line for line in panel.get_lines() if line.get_marker() == "x"]
        assert [cross.get_xdata()[0] for cross in crosses] == pytest.approx(ends)
        curves = [line for line in panel.get_lines() if not line.get_label().startswith("_")]
        for cross, curve in zip(crosses, curves, strict=True):
            x, y = curve.get_data()
            assert cross.get_ydata()[0] == pytest.approx(np.interp(cross.get_xdata()[0], x, y))
    calm = maneuver(model(TRIPLANE), "blip", flown_s=3.0)
    assert not any(panel.patches for panel in figure(calm).axes)


def test_the_figure_draws_each_column_of_the_history_in_the_units_of_the_reader():
    """Attitude, heading, bank and height; speed, load, incidence and sideslip; shaft and controls."""
    answer = maneuver(model(TRIPLANE), "pull", flown_s=2.0)
    panels = draw(answer, "us").axes
    own, factors = (
        answer.histories[0],
        {"speed_m_s": 1.0 / 0.44704, "altitude_m": 1.0 / 0.3048, "spin_rad_s": 30.0 / np.pi},
    )
    from_start = ("pitch_deg", "heading_deg", "altitude_m")
    wanted = (
        *("pitch_deg", "heading_deg", "bank_deg", "altitude_m", "speed_m_s", "load_factor"),
        *("alpha_deg", "sideslip_deg", "spin_rad_s", "elevator_deg", "aileron_deg", "rudder_deg"),
    )
    assert len(panels) == len(wanted)
    for panel, name in zip(panels, wanted, strict=True):
        values = own[name] - (own[name][0] if name in from_start else 0.0)
        assert panel.lines[0].get_ydata() == pytest.approx(factors.get(name, 1.0) * values)
    words = [" ".join(panel.get_ylabel().split()) for panel in panels]
    assert words[4:7] == ["true airspeed [mph]", "load factor", "angle of attack [°]"]


def test_an_option_that_there_is_not_is_told_with_those_that_there_are(run):
    result = run("maneuver", "take-off", "--duration", "30")
    assert (result.exit_code, result.stdout) == (2, "")
    told = " ".join(result.stderr.split())
    assert "--duration: maneuver takes --set, " in told
    assert "--for, --csv" in told
    assert "; did you mean --bands?" in run("maneuver", "pull", "--band").stderr


def test_what_was_given_is_not_offered_next(run, tmp_path):
    """Of pictures and tables; without either both are."""
    asked = ("maneuver", "blip", "--for", "2 s")
    picture, table = ("--figure", str(tmp_path / "a.svg")), ("--csv", str(tmp_path / "a.csv"))
    told = [" ".join(run(*asked, *files).stdout.split()) for files in ((), picture, (*picture, *table, "--force"))]
    assert "Next: the time histories, by adding --csv FILE or --figure FILE to this command; the modes" in told[0]
    assert "Next: the time histories, by adding --csv FILE to this command; the modes" in told[1]
    assert "Next: the modes behind them" in told[2]


def test_the_rotary_drops_its_nose_in_a_kick_to_the_right(run):
    found = json.loads(run("maneuver", "rudder-kick", "--json").stdout)
    rotary, other = ({f["side"]: f for f in found["flights"] if f["powerplant"] == n} for n in ("rotary", "flat_four"))
    assert rotary["right"]["nose_down_deg"] > other["right"]["nose_down_deg"] + 2.0
    assert rotary["left"]["nose_up_deg"] > other["left"]["nose_up_deg"] + 0.5


def test_stops_and_quick_limbs_are_said(run):
    result = run("maneuver", "rudder-kick", "--share", "1", "--for", "3 s")
    text = " ".join(result.stdout.split())
    assert "rotary right, flat_four right: rudder at its stop; control movement at the pilot's rate limit for" in text


def test_turn_gives_the_time_to_a_quarter_of_a_circle(run):
    found = json.loads(run("maneuver", "turn", "--json", "--for", "12 s").stdout)
    assert all(6.0 < flight["time_to_90_s"] < 9.0 for flight in found["flights"])
    assert [flight["side_to_90"] for flight in found["flights"]] == [flight["side"] for flight in found["flights"]]
    banded = " ".join(run("maneuver", "turn", "--for", "12 s", "--bands").stdout.split())
    assert " s right " in banded
    assert " s left " in banded


def test_figure(run, tmp_path):
    path = tmp_path / "reversal.svg"
    assert run("maneuver", "reversal", "--for", "3 s", "--figure", path).exit_code == 0
    drawn = path.read_text(encoding="utf-8")
    for text in (
        "rotary right",
        "flat_four left",
        "height, up positive [ft]",
        "pitch attitude, nose up",
    ):
        assert text in drawn


def test_an_unknown_manoeuvre_is_refused(run):
    result = run("maneuver", "revrsal")
    assert result.exit_code == 2
    assert result.stderr == (
        "NAME: must be one of rudder-kick, pull, roll-in, turn, reversal, blip, slam, spin-entry, take-off, "
        'got "revrsal"; did you mean reversal?\n'
    )


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (("pull", "--bank", "30 deg"), "--bank: has no use in pull; it takes --share, --held, --for\n"),
        (
            ("turn", "--share", "0.3", "--held", "1 s"),
            "--share: has no use in turn; it takes --bank, --for\n--held: has no use in turn; it takes --bank, --for\n",
        ),
        (("pull", "--csv", "pull.png"), '--csv: must end in .csv, got "pull.png"\n'),
        (("slam", "--held", "2 s"), "--held: has no use in slam; it takes --for\n"),
        (
            ("blip", "--held", "9 s", "--for", "4 s"),
            '--held: must be at most 3 s, what --for leaves after 1 s, got "9 s"\n',
        ),
        (("kick", "--held", "2"), '--held: must have a unit, as in "1 s", got "2"\n'),
    ],
)
def test_an_option_without_use_is_refused(run, asked, told):
    result = run("maneuver", *asked)
    assert (result.exit_code, result.stdout, result.stderr) == (2, "", told)


def test_without_a_name_the_example_is_told(run):
    told = run("maneuver").stderr
    assert "Missing argument 'NAME'. NAME is rudder-kick, pull or roll-in" in told
    assert "hands off, recovery). Give it as in: whirlgate maneuver reversal" in told


def test_no_turn_to_start_from_is_no_answer(run):
    result = run("maneuver", "reversal", "--speed", "42 mph")
    assert result.exit_code == 1
    assert result.stderr == (
        "rotary: no steady turn with 45° of left bank at 42 mph within CLmax; "
        "fly faster, at 42.8 mph or more, or bank 44° or less\n"
        "flat_four: no steady turn with 45° of left bank at 42 mph within CLmax; "
        "fly faster, at 42.8 mph or more, or bank 43° or less\n"
    )
    assert run("maneuver", "reversal", "--speed", "42.8 mph", "--for", "2 s").exit_code == 0


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("airplane", "name"), [(BIPLANE, "rudder-kick"), (TRIPLANE, "blip")])
def test_the_sheet_as_a_whole(run, snapshot, airplane, name, units):
    assert run("--units", units, "maneuver", name, airplane, "--for", "4 s").output == snapshot


def test_bands_stand_below_each_number_and_are_shaded(run, tmp_path):
    result = run("maneuver", "rudder-kick", "--for", "3 s", "--bands", "--figure", tmp_path / "kick.svg")
    assert (result.exit_code, result.stderr) == (0, "")
    answer = maneuver(model(BIPLANE), "rudder-kick", flown_s=3.0, bands=True)
    right = answer.flights[0]
    low, high = (f"{value:.0f}" for value in (right.peak_sideslip_low_deg, right.peak_sideslip_high_deg))
    line = result.stdout.splitlines()[
        next(k for k, line in enumerate(result.stdout.splitlines()) if line.strip().startswith("sideslip")) + 1
    ]
    assert line.split()[:3] in (
        [low, "to", high],
        [f"{right.peak_sideslip_low_deg:.1f}", "to", f"{right.peak_sideslip_high_deg:.1f}"],
    )
    assert "Bands of 90 %: 256 airplanes drawn" in result.stdout
    assert "shaded in colour: 90 % bands" in (tmp_path / "kick.svg").read_text(encoding="utf-8")
    panel = draw(answer, "si").axes[1]
    low, high = answer.bands[0]["heading_deg"]
    box = panel.collections[0].get_paths()[0].get_extents()
    assert (box.ymin, box.ymax) == pytest.approx((low.min(), high.max()), abs=1e-9)


def test_a_take_off_says_when_it_leaves_the_ground_and_takes_no_speed(run):
    found = json.loads(run("maneuver", "take-off", "--json", "--for", "10 s").stdout)["flights"]
    shown = run("--units", "si", "maneuver", "take-off", "--for", "10 s").stdout
    lines = {line.strip()[:14].strip(): line.split() for line in shown.splitlines()}
    assert lines["lift-off after"][2::2] == [f"{flight['lift_off_s']:.1f}" for flight in found]
    assert lines["after a run of"][4::2] == [f"{flight['ground_run_m']:.0f}" for flight in found]
    assert lines["lift-off at"][2::2] == [f"{flight['lift_off_m_s']:.0f}" for flight in found]
    assert lines["climb at"][2::2] == [f"{flight['climb_m_s']:.0f}" for flight in found]
    for one in found:
        said = f"{one['powerplant']} {one['field_lift_off_m_s']:.0f} m/s after {one['field_run_m']:.0f} m, rudder"
        assert f"{said} {100.0 * abs(one['field_rudder_share']):.0f} % right" in " ".join(shown.split())
    assert "take-off at 305 m: from standstill" in " ".join(shown.split())
    assert "turn 90°" not in shown  # no question of a take-off
    wrong = run("maneuver", "take-off", "--speed", "60 mph", "--bands")
    assert (wrong.exit_code, wrong.stdout) == (2, "")
    assert wrong.stderr.splitlines() == [
        "--speed: has no use in take-off, which begins at rest; leave it out",
        "--bands: has no use in take-off; `whirlgate field --bands` gives the bands of its run",
    ]


def test_a_bank_past_upside_down_is_drawn_without_a_line_across():
    """Of a made-up roll right round, and only there."""
    found = maneuver(built(BIPLANE), "roll-in", flown_s=5.0)
    time_s = found.histories[0]["time_s"]
    rolled = (np.linspace(0.0, 500.0, time_s.size) + 180.0) % 360.0 - 180.0
    histories = ({**found.histories[0], "bank_deg": rolled, "heading_deg": 3.0 * rolled}, *found.histories[1:])
    panels = draw(replace(found, histories=histories), "si").axes
    bank, heading = (np.asarray(panels[number].lines[0].get_ydata()) for number in (2, 1))
    assert np.isnan(bank).sum() == 1
    assert np.nanmax(np.abs(np.diff(bank))) < 180.0
    assert np.isfinite(heading).all()


def test_a_spin_entry_says_whether_it_spun_and_draws_no_attitude(run):
    """Verdict and numbers of the answer, words where the rotation had stopped, a warning below sea level."""
    answer = maneuver(built(BIPLANE), "spin-entry", altitude_m=200.0)
    text = run("--units", "si", "maneuver", "spin-entry", BIPLANE, "--altitude", "200 m").stdout
    told, lines = " ".join(text.split()), text.splitlines()
    for verdict in {flight.verdict for flight in answer.flights}:
        assert verdict.split(",")[0] in next(line for line in lines if line.strip().startswith("came to"))
    at = next(k for k, line in enumerate(lines) if line.strip().startswith("radius of the"))
    assert lines[at].split()[3::2] == [f"{flight.helix_radius_m:.0f}" for flight in answer.flights]
    assert any(flight.recovery_s == 0.0 for flight in answer.flights)
    assert "had stopped" in told
    assert "heading right" not in told
    low = [f"{one.powerplant} {one.side}" for one in answer.flights if one.height_lost_m > 200.0]
    assert f"{', '.join(low)}: more height lost than there is above sea level" in told
    assert "not computed: the delay of the stall and its scatter" in told
    panels = draw(answer, "si").axes
    for place, column in ((0, "alpha_deg"), (1, "path_rate_deg_s"), (2, "turned_deg"), (6, "throttle")):
        assert list(panels[place].lines[0].get_ydata()) == pytest.approx(answer.histories[0][column])
    assert len({panel.get_ylabel() for panel in panels}) == len(panels)  # nothing is drawn twice


def test_the_time_to_a_quarter_turn_tells_the_side(run):
    answer = maneuver(built(BIPLANE), "turn")
    lines = run("maneuver", "turn").stdout.splitlines()
    at = next(number for number, line in enumerate(lines) if "time to turn" in line)
    row = " ".join(lines[at : at + 2]).split("least")[0]
    assert all(flight.nose_right_deg >= 90.0 or flight.nose_left_deg >= 90.0 for flight in answer.flights)
    told = [word for word in row.split() if word in ("right", "left")]
    assert sorted(told) == sorted(flight.side for flight in answer.flights)
