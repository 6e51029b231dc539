"""Every bundled airplane: commented key by key, without remarks, within its limits, and taken by every command."""

import re

import pytest

from sim.model.model import model
from sim.scenario.bundled import fetch, names
from sim.scenario.reading import load
from sim.studies.balance import balance
from sim.studies.mount import mount
from sim.studies.speeds import speeds
from sim.studies.structure import structure
from viz.cli import COMMANDS

MANEUVERS = ("rudder-kick", "pull", "roll-in", "turn", "reversal", "blip", "slam")
TOPICS = ("couple", "turn", "modes", "windows", "rate")
WORDS = {"maneuver": [("maneuver", name) for name in MANEUVERS], "derive": [("derive", topic) for topic in TOPICS]}
"""Commands that ask for a word before the scenario."""
ELSEWHERE = {
    *("couple", "wings", "swing", "scale", "schema", "new", "disc", "sweep", "report", "view", "page", "handbook"),
}
"""They take no scenario, or are tried below and in tests of their own with what they need besides."""
ASKED = [words for name in COMMANDS if name not in ELSEWHERE for words in WORDS.get(name, [(name,)])]
OF_A_GUN = dict.fromkeys(("windows", "rate", "burst", "safe-range", "link"), "gun")
OF_A_GUN |= {"cooling": "warmth", "exhibit": "the scenario has no [exhibit] table"}
"""Commands, and topics of ``derive``, that have no answer without a gun, and how they begin to say so."""


@pytest.fixture(scope="module", params=names())
def name(request):
    return request.param


@pytest.fixture(scope="module")
def airplane(name):
    return model(name)


def uncommented(text):
    """Yield each key that no comment explains where it first stands, by its line."""
    seen, headed, before = set(), False, ""
    for number, line in enumerate(text.splitlines(), 1):
        if re.match(r"\[+[\w.]+\]+", line):
            headed = "#" in line or before.startswith("#")
        elif found := re.match(r"(\w+) = (.*)", line):
            key, value = found.groups()
            if (headed and value.startswith("{")) or "#" in re.sub(r'"[^"]*"', "", value):
                seen.add(key)
            elif key not in seen:
                yield f"{number}: {line}"
        before = line or before


def test_every_key_is_explained_where_it_first_stands(name):
    assert list(uncommented(fetch(name).text)) == []
    assert list(uncommented('[wing]\nspan = "9 m" # tip to tip\nchord = "#1"\n')) == ['3: chord = "#1"']


def test_check_has_nothing_to_say(name, run):
    assert run("check", name).output == f"{name}: no faults\n"


def test_the_keys_say_what_the_items_come_to(name, airplane):
    """The remark on both allows more."""
    found, keys = balance(airplane), load(name).airplane
    assert keys.mass_kg == pytest.approx(found.mass_kg, rel=0.006)
    for axes, key in (("xx", "roll"), ("yy", "pitch"), ("zz", "yaw")):
        assert getattr(keys, f"inertia_{key}_kg_m2") == pytest.approx(getattr(found.inertia_kg_m2, axes), rel=0.006)
    assert keys.inertia_product_kg_m2 == pytest.approx(found.inertia_kg_m2.xz, abs=0.5 * 1.3558)


def test_every_loading_is_stable_and_inside_the_limits(airplane):
    for powerplant in airplane.powerplants:
        for point in balance(airplane, powerplant=powerplant).envelope:
            assert point.inside, (powerplant, point.name)
            assert point.static_margin_percent_mac > 5.0, (powerplant, point.name)


def test_wing_and_mount_hold_at_the_lower_end_of_their_bands(airplane):
    wing = structure(airplane)
    weakest = min(wing.members, key=lambda member: member.margin_low)
    assert weakest.margin_low > 0.0, weakest.name
    assert (
        0.5 < wing.frame_mass_kg / wing.wing_mass_kg < 0.8
    )  # common practice, no source: ribs and cover weigh the rest
    hung = mount(airplane)
    for part in (*hung.worst_tubes, *hung.worst_bolts):
        assert part.margin_low > 0.0, part
    for place in hung.isolators.clearances if hung.isolators else ():
        assert place.left_m > 0.0, place


def test_it_flies_with_each_engine(airplane):
    """Common practice, no source: such airplanes cruise above 1.6 times their stall and climb 400 ft/min and more."""
    for powerplant in airplane.powerplants:
        found = speeds(airplane, powerplant=powerplant)
        assert 1.6 < found.cruise_m_s / found.stall_m_s < 3.5
        assert found.climb_rate_m_s > 2.0


@pytest.mark.slow
@pytest.mark.parametrize("words", ASKED, ids="-".join)
def test_every_command_answers_without_a_remark(name, words, airplane, run, tmp_path):
    shown = run(*words, name)
    if not airplane.has_gun and words[-1] in OF_A_GUN:
        assert shown.exit_code in {1, 2}
        assert shown.stderr.startswith(OF_A_GUN[words[-1]])
        assert "tollgate" in shown.stderr
        return
    assert (shown.exit_code, shown.stderr) == (0, "")
    if (name, *words) == ("tollgate", "balance"):  # its masses of past builds are to be weighed
        assert shown.stdout.count("\n  Masses marked (past builds)") == 1
        return
    assert "  Remarks\n" not in shown.stdout
    assert not re.search(r"\bnan\b|\binf\b|None", shown.stdout)


@pytest.mark.slow
def test_the_report_and_the_handout_are_written(name, run, tmp_path):
    shown = run("report", name, "--out", tmp_path / "report.html", "--handout", tmp_path / "handout.html")
    assert shown.exit_code == 0
    assert load(name).title in (tmp_path / "report.html").read_text("utf-8")
    visitors = (tmp_path / "handout.html").read_text("utf-8")
    assert "Left out" not in visitors
    assert ("a gun fire" in visitors) == model(name).has_gun


@pytest.mark.parametrize("scene", ["turning", "engine", "blades"])
def test_the_stage_draws_it(name, scene, run, tmp_path, monkeypatch):
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    if scene == "blades" and not model(name).has_gun:
        return
    shown = run("view", name, "--scene", scene, "--snapshot", tmp_path / "stage.png", "--size", "960x540")
    assert (shown.exit_code, shown.stderr) == (0, "")
    assert (tmp_path / "stage.png").stat().st_size > 10_000
