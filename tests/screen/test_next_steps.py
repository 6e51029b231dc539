"""The commands that a sheet says to run next: they run, and are about the same airplane or the same gun line."""

import shlex

import pytest
from airplanes import BIPLANE, DRAWING
from click.testing import CliRunner

from viz.cli import COMMANDS, main
from viz.sheets import csv, html, terminal
from viz.sheets.blocks import Next, Run, Sentence, Value, next_steps, say
from viz.sheets.text import text_of
from viz.sheets.typst import Pages

SPAN = "wing.span=28 ft 7 in"
FLIGHT = ["--speed", "71 mph", "--altitude", "2500 ft"]
ASKED = {
    "compare": [],
    "handling": [*FLIGHT, "--bank", "31 deg"],
    "modes": FLIGHT,
    "maneuver": FLIGHT,
    "derivatives": FLIGHT,
    "layout": [],
    "drawing": ["--powerplant", "rotary"],
    "structure": ["--powerplant", "rotary"],
    "balance": ["--powerplant", "flat_four"],
    "drag": ["--powerplant", "rotary"],
    "speeds": ["--altitude", "2500 ft"],
    "field": ["--altitude", "2500 ft"],
    "stall": ["--altitude", "2500 ft"],
    "propeller": ["--altitude", "2500 ft"],
    "windows": ["--powerplant", "rotary"],
    "rate": ["--rpm", "900:1210:100", "--powerplant", "rotary"],
    "burst": ["--rounds", "2000", "--rpm", "1110"],
    "safe-range": ["--scatter-ms", "0.3"],
    "disc": ["--mark", "600, 41", "--mark", "900, 52", "--mark", "1100, 57", "--mark", "1200, 66"],
    "cooling": [],
    "link": ["--set", "link.kind='rod'", "--set", "link.length=5 ft"],
    "mount": [],
    "exhibit": [],
}
"""Command about a scenario -> options that it is asked with."""
OTHERS = {
    *("couple", "scale", "swing", "wings", "derive", "sweep", "report", "view", "page", "new", "check", "handbook"),
    "schema",
}
"""Commands whose sheet names none about the same scenario, and those without a sheet."""
GUN = ["--blades", "3", "--blocked-deg", "19.5", "--margin-deg", "3", "--delay-ms", "5.5"]
GUN_RATE, DWELL = ["--gun-rate", "470"], ["--dwell-deg", "41"]


@pytest.fixture
def runs(monkeypatch, tmp_path):
    """Call a command that succeeds, in an empty folder; return the words of each command line to run next."""
    monkeypatch.chdir(tmp_path)
    shown, write = [], terminal.write
    monkeypatch.setattr(terminal, "write", lambda *sheet: shown.append(sheet) or write(*sheet))

    def call(*words):
        shown.clear()
        result = CliRunner().invoke(main, [str(word) for word in words])
        assert (result.exit_code, result.stderr) == (0, "")
        lines = [line for blocks, units in shown for line in _lines(blocks, units)]
        assert [line for line in lines if line not in result.stdout] == []  # broken in two a shell would run half of it
        return [shlex.split(line) for line in lines]

    return call


def _lines(blocks, units):
    steps = [step for block in blocks if isinstance(block, Next) for step in block.slots.values()]
    cells = [cell for step in steps if isinstance(step, Sentence) for cell in step.slots.values()]
    return [text_of(cell, units) for cell in cells if isinstance(cell, Run)]


def test_every_command_is_asked_here():
    assert set(ASKED) | OTHERS == set(COMMANDS)


@pytest.mark.parametrize("name", ASKED)
def test_what_is_next_runs_on_the_same_airplane(runs, name):
    words = [name, "reversal", BIPLANE] if name == "maneuver" else [name, BIPLANE]
    following = runs("--units", "si", *words, "--set", SPAN, *ASKED[name])
    assert len(following) >= (name != "exhibit")
    for program, *line in following:
        assert (program, *line[:2], str(BIPLANE) in line) == ("whirlgate", "--units", "si", True)
        assert line[line.index("--set") + 1] == SPAN
        if "report" in line:
            continue  # takes long; tests/screen/test_whole_job.py runs it
        short = ["--rounds", "200"] if "burst" in line else []
        result = CliRunner().invoke(main, [*line, *short])
        assert (result.exit_code, result.output.startswith("Usage")) == (0, False)


def test_options_that_both_commands_take_are_repeated_and_files_are_not(runs):
    flown = ["--speed", "71 mph", "--altitude", "2500 ft"]
    modes, turn, report = runs(
        "handling", BIPLANE, *flown, "--bank", "31 deg", "--category", "A", "--figure", "turn.svg"
    )
    assert modes == ["whirlgate", "modes", str(BIPLANE), *flown, "--bank", "31 deg", "--category", "A"]
    assert turn == ["whirlgate", "maneuver", "turn", str(BIPLANE), *flown]
    assert report == ["whirlgate", "report", str(BIPLANE), "--out", "report.html"]


@pytest.mark.parametrize(
    ("words", "following"),
    [
        (["windows", "--rpm", "1210", *GUN], []),
        (["windows", "--rpm", "1210", *GUN, *GUN_RATE], [["rate", "--rpm", "1210", *GUN, *GUN_RATE]]),
        (["rate", "--rpm", "910:1210:100", *GUN, *GUN_RATE], [["burst", "--rpm", "1210 rpm", *GUN, *GUN_RATE]]),
        (["safe-range", "--rpm", "910", "--rpm", "1210", *GUN, *DWELL], []),
        (
            ["burst", "--rounds", "200", "--rpm", "1210", *GUN, *GUN_RATE, *DWELL],
            [["safe-range", "--rpm", "1210", *GUN, *GUN_RATE, *DWELL]],
        ),
    ],
)
def test_a_gun_line_of_options_alone_goes_on_where_they_suffice(runs, words, following):
    found = runs(*words)
    assert found == [["whirlgate", *line] for line in following]
    assert [line for _, *line in found if CliRunner().invoke(main, line).exit_code] == []


def test_what_was_written_to_is_next_without_the_settings_of_another_file(runs, scenario):
    ((*layout,),) = runs("scale", DRAWING, "--set", "known.wing.span=28 ft 2 in", "--write", scenario)
    assert layout == ["whirlgate", "layout", scenario.name]
    ([*mount], *_) = runs("balance", BIPLANE, "--set", SPAN, "--write", scenario)
    assert mount == ["whirlgate", "mount", scenario.name]
    ((*write,),) = runs("scale", DRAWING, "--set", "known.wing.span=28 ft 2 in")
    assert write[2:5] == [str(DRAWING), "--set", "known.wing.span=28 ft 2 in"]


def test_an_example_does_not_set_what_is_set(runs):
    (line,) = runs("derivatives", BIPLANE, "--set", "derivatives.yaw_beta=0.05")
    assert line == ["whirlgate", "modes", str(BIPLANE), "--set", "derivatives.yaw_beta=0.05"]


def test_every_writer_shows_the_command_in_one_piece():
    """At 10 m/s; code where there is code, and not broken into lines where a shell would read two."""
    speed = say("--speed '{speed}'", speed=Value("speed_m_s", 10.0, decimals=0))
    line = "whirlgate --units si handling a&b.toml --speed '10 m/s'"
    block = next_steps("think", say("turns, with {run}", run=Run("handling", speed, "a&b.toml")))
    assert terminal.write([block], "si") == f"Next: think; turns, with\n{line}."
    assert csv.write([block], "si") == f'"Next: think; turns, with {line}."\n\n'
    escaped = line.replace("&", "&amp;").replace("'", "&#39;")
    assert f"<p>Next: think; turns, with <code>{escaped}</code>.</p>" in html.write([block], "si")
    assert Pages("si").markup([block]).endswith(f'#raw("{line}");#".";')


def test_the_highest_of_several_speeds_brings_no_caution_about_flight(run):
    """It is a propeller speed of the gun's, not a shaft speed that somebody flies with."""
    plain = ("rate", "--blades", "2", "--blocked-deg", "30", "--gun-rate", "500", "--rpm")
    several, one = (run(*plain, speeds).stdout for speeds in ("900:1500:10", "1500"))
    assert "burst --rpm '1500 rpm' --blades 2" in several
    assert several.splitlines()[-2:] == one.splitlines()[-2:]
    assert "Estimates" not in several
