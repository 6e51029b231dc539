"""``whirlgate couple``: the answer in words and as JSON, and every wrong combination in a sentence."""

import json

import pytest

from sim.units.quantities import caution

RIG = ("couple", "--inertia", "22.5 kg m^2", "--rpm", "1250")
TURN = ("--speed", "80 mph", "--radius", "300 ft", "--turn", "right")


def test_json_keys_and_values(run):
    answer = json.loads(run(*RIG, *TURN, "--blades", "2", "--json").stdout)
    momentum = 22.5 * 1250 * 3.141592653589793 / 30
    rate = 80 * 0.44704 / (300 * 0.3048)
    assert answer == {
        "angular_momentum_kg_m2_s": pytest.approx(momentum),
        "precession_rad_s": pytest.approx(rate),
        "couple_n_m": pytest.approx(momentum * rate),
        "peak_couple_n_m": pytest.approx(2 * momentum * rate),
        "pitch_n_m": pytest.approx(-momentum * rate),
        "yaw_n_m": 0.0,
        "effect": "nose down",
        "cautions": [caution("estimate")],
    }


def test_the_sheet_speaks_the_pilots_words(run):
    shown = run("--units", "si", *RIG, "--pitch-rate", "0.2 rad/s").stdout
    for words in ("2945 kg m²/s clockwise", "11.5 °/s", "589 N m nose right"):
        assert words in shown
    assert "licensed engineer" in shown


def test_mass_with_gyration_radius_is_an_inertia(run):
    built = ("couple", "--mass", "90 kg", "--gyration-radius", "0.5 m", "--rpm", "1250", *TURN, "--json")
    assert run(*built).stdout == run(*RIG, *TURN, "--json").stdout


def test_anticlockwise_turns_it_round(run):
    assert json.loads(run(*RIG, *TURN, "--rotation", "anticlockwise", "--json").stdout)["effect"] == "nose up"


WAYS = "give --speed with --radius and --turn, or --yaw-rate and/or --pitch-rate"
BUILT = "give --inertia, or --mass with --gyration-radius"


@pytest.mark.parametrize(
    ("words", "sentences"),
    [
        ((*RIG,), [f"--speed: is missing; {WAYS}"]),
        (
            ("couple", *TURN),
            [f"--inertia: is missing; {BUILT}", "--rpm: is missing; the speed of the rotor, as in --rpm 1250"],
        ),
        ((*RIG, *TURN, "--mass", "3 kg"), [f"--mass: cannot be used with --inertia; {BUILT}"]),
        (
            ("couple", "--gyration-radius", "1 ft", "--rpm", "1250", *TURN),
            ["--mass: is missing; --gyration-radius needs it, or give --inertia alone"],
        ),
        (
            (*RIG, "--speed", "80 mph"),
            [f"{name}: is missing; a turn needs --speed, --radius and --turn" for name in ("--radius", "--turn")],
        ),
        (
            (*RIG, *TURN, "--yaw-rate", "1 rad/s"),
            [f"--yaw-rate: cannot be used with --speed and --radius and --turn; {WAYS}"],
        ),
        (
            ("couple", "--mass", "400", "--rpm", "1250", "--turn", "rigt", "--blades", "2.5"),
            [
                '--mass: must have a unit, as in "381 lb", got "400"',
                '--turn: must be left or right, got "rigt"; did you mean right?',
                "--gyration-radius: is missing; --mass needs it, or give --inertia alone",
                '--blades: must be a whole number, got "2.5"',
                "--speed: is missing; a turn needs --speed, --radius and --turn",
                "--radius: is missing; a turn needs --speed, --radius and --turn",
            ],
        ),
    ],
)
def test_wrong_combinations(run, words, sentences):
    result = run(*words)
    assert (result.exit_code, result.stderr.splitlines()) == (2, sentences)


def test_the_figure(run, tmp_path):
    file = tmp_path / "couple.svg"
    assert run(*RIG, *TURN, "--blades", "2", "--figure", file).exit_code == 0
    for words in (
        "pitching moment, nose up positive",
        "moment on the airframe [lbf ft]",
        "angle of blade 1",
        "licensed engineer",
    ):
        assert words in file.read_text()


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_sheet(run, snapshot, units):
    result = run(
        "--units",
        units,
        "couple",
        "--inertia",
        "7.3 kg m^2",
        "--rpm",
        "1190",
        "--rotation",
        "anticlockwise",
        "--speed",
        "37 m/s",
        "--radius",
        "110 m",
        "--turn",
        "left",
        "--blades",
        "2",
    )
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout == snapshot
