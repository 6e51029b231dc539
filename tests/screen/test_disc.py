"""``whirlgate disc``: marks from options and files, the keys, sheet and figure, exercises, and wrong inputs."""

import pytest
from airplanes import BIPLANE

from sim.studies.disc_exercise import disc_exercise, solved
from sim.units.quantities import caution

MARKS = ("600 rpm, 41 °", "rpm 600, angle 42.5 °", "900, 52", "900 rpm at 51 deg", "1200, 1.13 rad", "20 rev/s, 63")
GIVEN = ("disc", *(word for mark in MARKS for word in ("--mark", mark)))
KEYS = {
    *("delay_ms", "delay_error_ms", "scatter_ms", "scatter_error_ms", "scatter_deg", "scatter_rpm", "cam_error_deg"),
    *("cam_error_error_deg", "stated_opens_deg", "stated_delay_ms", "delay_difference_ms", "openings", "causes"),
    *("candidates", "marks", "remarks", "hidden", "powerplant", "cautions"),
}


@pytest.fixture
def file(tmp_path):
    """Return a function that writes a file of marks."""

    def write(text):
        path = tmp_path / "marks.csv"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_the_keys_and_the_numbers(answered):
    found = answered(*GIVEN)
    assert set(found) == KEYS
    assert (found["openings"], found["hidden"], found["powerplant"]) == (1, None, "")
    assert found["cautions"] == [caution("history")]
    assert [(mark["rpm"], mark["angle_deg"]) for mark in found["marks"]][:4] == [
        (600, 41),
        (600, 42.5),
        (900, 52),
        (900, 51),
    ]
    assert found["delay_ms"] == pytest.approx(6.2, abs=0.3)
    assert found["cam_error_deg"] == pytest.approx(19.0, abs=2.0)
    assert {cause["name"] for cause in found["candidates"]} == {
        *("gear slack", "ammunition or lock"),
        *("hang-fires", "misread mark"),
    }
    assert set(found["candidates"][0]) == {"name", "probability", "prior_probability"}


@pytest.mark.parametrize(
    "text",
    [
        "rpm,angle_deg\n600,41\n600,42.5\n900,52\n900,51\n1200,64\n1200,63\n",
        "angle_deg;who;rpm\n41;a;600\n42,5;b;600\n52;;900\n51;;900\n64;;1200\n63;;1200\n\n",
    ],
    ids=["commas", "semicolons"],
)
def test_a_file_says_the_same_as_options(answered, file, text):
    whole = ("600,41", "600,42.5", "900,52", "900,51", "1200,64", "1200,63")
    typed = answered("disc", *(word for mark in whole for word in ("--mark", mark)))
    assert answered("disc", "--marks", file(text)) == typed
    half = answered("disc", "--mark", "600,41", "--marks", file(text.replace("600,41\n", "").replace("41;a;600\n", "")))
    assert half == typed


def test_too_few_marks_of_a_file_name_the_option_of_the_file(run, file):
    result = run("disc", "--mark", "600,41", "--marks", file("rpm,angle_deg\n900,52\n"))
    allowed = "must be 3 to 500 marks, so that a line and what scatters about it can be told"
    assert (result.exit_code, result.stderr) == (2, f"--marks: {allowed}, got 2\n")


def test_every_wrong_mark_of_a_file_has_its_line(run, file):
    path = file("rpm,angle_deg\n600,41 °\n-3,41\n900,400\n")
    result = run("disc", "--marks", path)
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        f'{path}:2: angle_deg: must be a number without a unit, as in "45.5", got "41 °"',
        f'{path}:3: rpm: must be above 0 and at most 10000, got "-3"',
        f'{path}:4: angle_deg: must be -360 to 360, got "400"',
    ]


@pytest.mark.parametrize(
    ("words", "lines"),
    [
        (("disc",), ['--mark: is missing; give each mark, as in --mark "600 rpm, 41 °", or --marks or --exercise']),
        (
            ("disc", "--mark", "600 41", "--mark", "600, 41 mm", "--mark", "0, 4"),
            [
                '--mark: must be a speed and an angle with a comma between, as in "600 rpm, 41 °", got "600 41"',
                '--mark: must be an angle, as in "12 °", got "41 mm", which is a length',
                '--mark: must be above 0 and at most 10000 rpm, got "0"',
            ],
        ),
        (
            (*GIVEN[:5],),
            ["--mark: must be 3 to 500 marks, so that a line and what scatters about it can be told, got 2"],
        ),
        ((*GIVEN, "--solution"), ["--solution: is of an exercise; give --exercise with a number as well"]),
        (
            ("disc", BIPLANE, "--exercise", "1.5", "--stated-delay-ms", "8"),
            [
                '--exercise: must be a whole number, got "1.5"',
                "SCENARIO: has no use with --exercise, which brings marks, cam and delay of its own",
                "--stated-delay-ms: has no use with --exercise, which brings marks, cam and delay of its own",
            ],
        ),
        (
            (*GIVEN, "--powerplant", "rotary"),
            ["--powerplant: is of a scenario; name that as well, as in whirlgate disc tollgate"],
        ),
    ],
)
def test_wrong_options(run, words, lines):
    result = run(*words)
    assert (result.exit_code, result.stderr.splitlines()) == (2, lines)


def test_no_answer_is_a_sentence_with_the_cure(run):
    backwards = ("600, 319", "600, 317.5", "900, 308", "1200, 295")
    result = run("disc", *(word for mark in backwards for word in ("--mark", mark)))
    assert result.exit_code == 1
    assert result.stderr == (
        "the angles fall as the propeller turns faster, as if rounds passed before their release; read them on the "
        "disc from the line of blade 1 against the direction of rotation\n"
    )


def test_a_scenario_states_cam_and_delay(answered):
    found = answered(*GIVEN, "--stated-opens-deg", "20")
    beside = answered("disc", BIPLANE, *GIVEN[1:], "--powerplant", "flat_four", "--set", "gun.link_delay=2 ms")
    assert (found["stated_opens_deg"], found["stated_delay_ms"]) == (20, None)
    assert beside["powerplant"] == "flat_four"
    assert beside["delay_difference_ms"] == pytest.approx(beside["delay_ms"] - beside["stated_delay_ms"])


def test_the_second_gun_has_a_delay_of_its_own(run, answered):
    second = ("--set", "second_gun.offset=5 in", "--set", "second_gun.link_delay=3.5 ms")
    delays = [answered("disc", BIPLANE, *GIVEN[1:], *second, "--which-gun", which) for which in ("first", "second")]
    apart = answered("windows", BIPLANE, *second, "--rpm", 1000)["rows"][0]["lead_deg"]
    own = answered("windows", BIPLANE, *second, "--rpm", 1000, "--which-gun", "second")["rows"][0]["lead_deg"]
    stated = [found["stated_delay_ms"] for found in delays]
    assert 6.0 * (stated[1] - stated[0]) == pytest.approx(own - apart, rel=1e-9)
    assert stated[1] != stated[0]
    result = run("disc", BIPLANE, *GIVEN[1:], "--which-gun", "second")
    assert result.stderr == (
        "--which-gun: must be first where there is no second; give the table second_gun in the scenario\n"
    )


def test_the_same_marks_against_another_delay(answered):
    found = answered("disc", BIPLANE, *GIVEN[1:], "--against-set", "gun.lock_time=6 ms")
    paths = {row["path"]: row["difference"] for row in found["differences"]}
    assert paths["delay_difference_ms"] == pytest.approx(-paths["stated_delay_ms"])
    assert "delay_ms" not in paths


def test_an_exercise_hides_its_cause_until_it_is_asked(run, answered):
    hidden = disc_exercise(7).hidden
    asked = answered("disc", "--exercise", 7)
    assert set(asked) == {"seed", "stated_opens_deg", "stated_delay_ms", "sound_scatter_ms", "marks", "cautions"}
    shown = run("disc", "--exercise", 7).stdout
    assert hidden.cause not in shown
    read = answered("disc", "--exercise", 7, "--solution")
    assert read["hidden"] == {
        "cause": hidden.cause,
        "delay_ms": hidden.delay_ms,
        "cam_error_deg": hidden.cam_error_deg,
        "sound_scatter_ms": hidden.sound_scatter_ms,
        "seed": 7,
    }
    assert read["delay_ms"] == pytest.approx(hidden.delay_ms, abs=1.5 * read["delay_error_ms"])


def test_the_scatter_of_a_sound_gun_is_no_second_fault(run):
    """The exercise tells it beforehand, and the solution says of it that it is none, where the marks speak for it."""
    spoke = 0
    for seed in range(1, 12):
        asked = " ".join(run("disc", "--exercise", seed).stdout.split())
        assert "scatter too, here by 0.2 ms from round to round (one standard deviation), which is no fault." in asked
        exercise, found = disc_exercise(seed), solved(disc_exercise(seed))
        told = " ".join(run("disc", "--exercise", seed, "--solution").stdout.split())
        others = {cause.name for cause in found.causes} - {exercise.hidden.cause}
        assert ("is that of a sound gun" in told) is bool(others & {"ammunition or lock", "gear slack"})
        spoke += "is that of a sound gun, 0.20 ms from round to round: no fault." in told
        assert f"whirlgate disc --exercise {seed + 1}, a disc to read oneself" in told
    assert spoke >= 5


def test_the_marks_of_an_exercise_go_through_a_file(run, answered, tmp_path):
    path = tmp_path / "marks.csv"
    assert run("disc", "--exercise", 3, "--write-marks", path).exit_code == 0
    solution = answered("disc", "--exercise", 3, "--solution")
    read = answered("disc", "--marks", path)
    assert read["marks"] == solution["marks"]
    again = run("disc", "--exercise", 3, "--write-marks", path)
    assert (again.exit_code, again.stderr) == (2, f"{path}: is already there; give --force to replace it\n")


def test_marks_of_a_lamp_set_by_eye(answered):
    """At hand speed the delay is that of an eye: 0.2 s at 10 to 40 rpm is 12 to 48 degrees past the cam's 100."""
    marks = ("10, 112.3", "15, 117.6", "20, 124.2", "25, 130.3", "30, 135.6", "35, 142.2", "40, 147.9")
    found = answered("disc", *(word for mark in marks for word in ("--mark", mark)), "--longest-delay-ms", "1000")
    assert found["delay_ms"] == pytest.approx(200.0, abs=found["delay_error_ms"])
    assert found["cam_error_deg"] == pytest.approx(100.0, abs=found["cam_error_error_deg"])


@pytest.mark.parametrize("words", [(BIPLANE, *GIVEN[1:]), ("--exercise", "2"), ("--exercise", "2", "--solution")])
def test_the_figure(run, tmp_path, words):
    assert run("disc", *words, "--figure", tmp_path / "disc.svg").exit_code == 0
    drawn = (tmp_path / "disc.svg").read_text(encoding="utf-8")
    assert "Angle against speed" in drawn
    assert ("line through the marks" in drawn) == (words != ("--exercise", "2"))
    assert ("blade 1" in drawn) == (BIPLANE in words or "line of blade 1" in drawn)


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_sheet(run, snapshot, units):
    result = run("--units", units, *GIVEN, "--stated-opens-deg", "20", "--stated-delay-ms", "5.5 ms ± 0.3 ms")
    assert (result.exit_code, result.stderr) == (0, "")
    assert caution("history") in " ".join(result.stdout.split())
    assert result.stdout == snapshot


def test_the_sheet_of_an_exercise(run, snapshot):
    assert run("disc", "--exercise", 7).stdout == snapshot
