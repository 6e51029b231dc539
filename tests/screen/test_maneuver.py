"""``whirlgate maneuver``: every manoeuvre answers, histories go to CSV with units, what a pilot cannot do is said."""

import csv
import json

import pytest
from airplanes import BIPLANE, TRIPLANE

NAMES = ("rudder-kick", "pull", "roll-in", "turn", "reversal", "blip", "slam")


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


def test_the_rotary_drops_its_nose_in_a_kick_to_the_right(run):
    found = json.loads(run("maneuver", "rudder-kick", "--json").stdout)
    rotary, other = ({f["side"]: f for f in found["flights"] if f["powerplant"] == n} for n in ("rotary", "flat_four"))
    assert rotary["right"]["nose_down_deg"] > other["right"]["nose_down_deg"] + 2.0
    assert rotary["left"]["nose_up_deg"] > other["left"]["nose_up_deg"] + 1.0


def test_stops_and_quick_limbs_are_said(run):
    result = run("maneuver", "rudder-kick", "--share", "1", "--for", "3 s")
    text = " ".join(result.stdout.split())
    assert "rotary right, flat_four right: rudder at its stop; control movement at the pilot's rate limit for" in text


def test_turn_gives_the_time_to_a_quarter_of_a_circle(run):
    found = json.loads(run("maneuver", "turn", "--json", "--for", "12 s").stdout)
    assert all(6.0 < flight["time_to_90_s"] < 9.0 for flight in found["flights"])
    assert all("time_to_90_s" in flight for flight in found["flights"])


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
        "NAME: must be one of rudder-kick, pull, roll-in, turn, reversal, blip, slam, "
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
    assert "Missing argument 'NAME'. Give it as in: whirlgate maneuver reversal" in run("maneuver").stderr


def test_no_turn_to_start_from_is_no_answer(run):
    result = run("maneuver", "reversal", "--speed", "42 mph")
    assert result.exit_code == 1
    assert result.stderr == (
        "rotary: no steady turn with 45° of left bank at 18.8 m/s (42 mph) within CLmax; fly faster or bank less\n"
    )


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize(("airplane", "name"), [(BIPLANE, "rudder-kick"), (TRIPLANE, "blip")])
def test_the_sheet_as_a_whole(run, snapshot, airplane, name, units):
    assert run("--units", units, "maneuver", name, airplane, "--for", "4 s").output == snapshot
