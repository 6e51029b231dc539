"""``whirlgate sweep``: tables on paper and in files, pictures, every refusal, and a sweep killed in the middle."""

import csv
import io
import json
import os
import subprocess
import sys
import time

import pytest
from airplanes import BIPLANE

from sim.sweeps.grid import SweepRow
from sim.sweeps.outputs import SweepColumn
from viz.files.table import write_table
from viz.sheets.blocks import Column, Table
from viz.sheets.csv import write

STALL = "speeds.powerplants.rotary.stall_m_s"
TOP = "speeds.powerplants.rotary.top_m_s"
ASK = ("sweep", str(BIPLANE), "--vary", "wing.span=26ft:30ft:3", "--collect", STALL)
WHIRLGATE = (sys.executable, "-c", "from viz.cli import main; main()")


def rows(path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.reader(stream))


def test_the_sheet_is_in_the_units_asked_for(run):
    shown = run(*ASK).stdout.split("\n")
    assert shown[:2] == ["Frozen test biplane", "A: wing.span [ft]: from tip to tip"]
    assert shown[2].startswith(f"B: {STALL} [mph]: ")
    assert [line.split() for line in shown if line.startswith(("  2", "  3"))] == [
        ["26.00", "40.84"],
        ["28.00", "39.35"],
        ["30.00", "38.02"],
    ]
    assert "A: wing.span [m]" in run("--units", "si", *ASK).stdout


def test_the_json_is_the_table_in_si(run):
    answer = json.loads(run(*ASK, "--json").stdout)
    assert answer["varied"] == [
        {"key": "wing.span", "name": "span_m", "unit": "m", "meaning": "from tip to tip", "words": False}
    ]
    assert [row["settings"] for row in answer["rows"]] == [[7.9248], [8.5344], [9.144]]
    assert all(row["reason"] == "" for row in answer["rows"])


def test_csv_carries_units_words_and_reasons(run, tmp_path):
    out = tmp_path / "table.csv"
    found = ("--collect", "summary.first.left_rudder_share", "--collect", "compare.powerplants.rotary.kind")
    result = run("sweep", "--vary", "flight.speed=40mph,80mph", *found, "--out", out)
    assert result.exit_code == 0, result.stderr
    head, slow, fast = rows(out)
    assert head == [
        "flight.speed [m/s]",
        "summary.first.left_rudder_share [1]",
        "compare.powerplants.rotary.kind",
        "reason",
    ]
    assert (slow[0], slow[1]) == ("17.8816", "")
    assert slow[3].startswith("summary: rotary: no steady turn with 45° of left bank")
    assert (fast[0], fast[2], fast[3]) == ("35.7632", "rotary", "")
    assert float(fast[1]) > 0.0
    assert list(tmp_path.iterdir()) == [out]
    assert "1 of 2 without an answer: summary: rotary: no steady turn" in result.stdout


def test_parquet_holds_the_same_numbers(run, tmp_path):
    parquet = pytest.importorskip("pyarrow.parquet")
    for ending in ("csv", "parquet"):
        assert (
            run(*ASK, "--collect", "compare.powerplants.rotary.kind", "--out", tmp_path / f"t.{ending}").exit_code == 0
        )
    table = parquet.read_table(tmp_path / "t.parquet")
    head, *body = rows(tmp_path / "t.csv")
    assert table.column_names == head
    kinds = [str(field.type) for field in table.schema]
    assert kinds == ["double", "double", "string", "string"]
    assert [[str(value) for value in row.values()] for row in table.to_pylist()] == body


@pytest.mark.parametrize(
    ("vary", "written"),
    [
        (("wing.span=26ft:30ft:3",), ("wing.span: from tip to tip [ft]", "stalling speed in level flight [mph]")),
        (("gun.action=impulse,interrupter",), ("interrupter",)),
        (("wing.span=26ft:30ft:3", "wing.chord=4ft:5ft:3"), ("wing.chord: mean chord", "[mph]")),
    ],
)
def test_a_figure_is_labelled_in_words_and_units(run, tmp_path, vary, written):
    keys = [word for key in vary for word in ("--vary", key)]
    result = run("sweep", *keys, "--collect", STALL, "--collect", TOP, "--figure", tmp_path / "f.svg")
    assert result.exit_code == 0, result.stderr
    text = (tmp_path / "f.svg").read_text(encoding="utf-8")
    assert all(words in text for words in written)


def test_a_map_with_holes_says_so(run, tmp_path):
    keys = ("--vary", "flight.speed=40mph,80mph", "--vary", "wing.span=26ft,30ft")
    run("sweep", *keys, "--collect", "summary.first.left_rudder_share", "--figure", tmp_path / "f.svg")
    assert "(hatched: no answer)" in (tmp_path / "f.svg").read_text(encoding="utf-8")


@pytest.mark.slow
def test_a_spread_ranks_what_it_hangs_on(run, tmp_path):
    out, figure = tmp_path / "draws.csv", tmp_path / "f.svg"
    result = run("sweep", "--spread", "8", "--seed", "4", "--collect", STALL, "--out", out, "--figure", figure)
    assert result.exit_code == 0, result.stderr
    assert "values with a ± have no effect here." in result.stdout
    assert "powerplant.rotary.mass" in result.stdout  # its weight is carried whole: it was not on the scales
    assert "airplane.mass" not in result.stdout
    assert "total order: alone and with others" in figure.read_text(encoding="utf-8")
    head, *body = rows(out)
    assert {"powerplant.rotary.mass [kg]", "weighing.reading.1.scale [kg]"} < set(head)
    assert "airplane.mass [kg]" not in head  # it follows from the items
    assert head[-2:] == [f"{STALL} [m/s]", "reason"]
    assert len(body) == 8
    again = tmp_path / "again.csv"
    run("sweep", "--spread", "8", "--seed", "4", "--collect", STALL, "--out", again)
    assert again.read_bytes() == out.read_bytes()
    run("sweep", "--spread", "8", "--seed", "5", "--collect", STALL, "--out", again, "--force")
    assert again.read_bytes() != out.read_bytes()


def test_every_wrong_option_is_told_at_once(run, tmp_path):
    there = tmp_path / "there.csv"
    there.write_text("mine", encoding="utf-8")
    wrong = ("--vary", "wing.spam=1m", "--workers", "0", "--sampling", "latn", "--figure", "f.gif", "--out", there)
    result = run("sweep", *wrong)
    assert result.exit_code == 2
    assert result.stderr.splitlines() == [
        '--workers: must be 1 to 256, got "0"',
        '--sampling: must be latin or sobol, got "latn"; did you mean latin?',
        f"{there}: is already there; give --force to replace it",
        '--figure: must end in .svg or .png or .pdf, got "f.gif"',
        '--vary wing.spam: must be a key of the scenario: there is no "spam" in wing; did you mean span?',
        "--collect: is missing: at least one value of a study, as in handling.powerplants.rotary.steepest_left_deg",
    ]
    assert there.read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (("--out", "table.txt"), '--out: must end in .csv or .parquet, got "table.txt"'),
        (("--out", "no/such/t.csv"), '--out: needs the folder "no/such", which is not there; make it first'),
        (
            ("--vary", "wing.chord=4ft", "--vary", "flight.speed=80mph", "--figure", "f.svg"),
            '--figure: draws one or two keys varied, got "3"',
        ),
        (("--spread", "16"), "--spread: cannot be used with --vary: it samples every ± of the scenario"),
    ],
)
def test_wrong_options_are_refused(run, words, sentence):
    result = run(*ASK, *words)
    assert (result.exit_code, result.stderr) == (2, f"{sentence}\n")


def test_words_alone_make_no_figure(run):
    result = run(
        "sweep", "--vary", "wing.span=26ft", "--collect", "compare.powerplants.rotary.kind", "--figure", "f.svg"
    )
    assert (result.exit_code, result.stderr) == (2, "--figure: draws numbers, and only words are collected\n")


@pytest.mark.parametrize(
    ("module", "words", "sentence"),
    [
        (
            "pyarrow",
            ("--out", "t.parquet"),
            '--out: needs the extra parquet for such a file: pip install "whirlgate[parquet]"\n',
        ),
        (
            "distributed",
            ("--cluster", "tcp://127.0.0.1:8786"),
            '--cluster: needs the extra cluster: pip install "whirlgate[cluster]"\n',
        ),
    ],
)
def test_a_missing_extra_is_named_before_any_work(run, monkeypatch, module, words, sentence):
    import importlib.util

    find = importlib.util.find_spec
    lacking = lambda name, *rest: None if name == module else find(name, *rest)  # noqa: E731
    monkeypatch.setattr("viz.files.table.find_spec", lacking)
    monkeypatch.setattr("sim.sweeps.workers.find_spec", lacking)
    result = run(*ASK, *words)
    assert (result.exit_code, result.stderr) == (2, sentence)


def told_on(stderr) -> subprocess.CompletedProcess:
    return subprocess.run([*WHIRLGATE, *ASK], stdout=subprocess.PIPE, stderr=stderr, check=True, text=True)


def test_progress_is_silent_where_nobody_watches():
    assert told_on(subprocess.PIPE).stderr == ""


def test_progress_shows_how_far_and_how_long_on_a_terminal():
    pty = pytest.importorskip("pty")
    watched, stderr = pty.openpty()
    try:
        told_on(stderr)
        shown = os.read(watched, 100_000).decode()
    finally:
        os.close(stderr)
        os.close(watched)
    assert "3/3" in shown
    assert "100%" in shown


def test_progress_says_how_long_it_will_take(monkeypatch):
    from viz.commands.progress import bar

    class Terminal(io.StringIO):
        def isatty(self):
            return True

    stream = Terminal()
    monkeypatch.setattr(sys, "stderr", stream)
    for _ in bar(range(4), 4, "3 of 7 already there, "):
        time.sleep(0.4)
    assert "3 of 7 already there," in stream.getvalue()
    assert "00:00:0" in stream.getvalue()


def test_a_range_without_its_count_is_told_the_form(run):
    result = run("sweep", "--vary", "gun.margin=1deg:3deg", "--collect", "windows.rows.1.open_deg")
    told = '--vary gun.margin: must be FROM:TO:COUNT, as in 26ft:30ft:9, or A,B,C, got "1deg:3deg"\n'
    assert (result.exit_code, result.stderr) == (2, told)


def test_nothing_is_drawn_between_words_and_between_counts():
    import sim
    from viz.figures.sweep import draw

    def drawn(*vary, collect="windows.rows.1.blocked_deg"):
        return draw(sim.sweep(str(BIPLANE), vary=vary, collect=[collect]), "us").axes[0]

    words = drawn("gun.action=interrupter,impulse", collect="windows.rows.1.rounds_per_min")
    assert [line.get_linestyle() for line in words.lines] == ["None"]
    counts = drawn("gun.margin=1deg,2deg,3deg", "powerplant.rotary.propeller.blades=2,4")
    assert [text.get_text() for text in counts.get_xticklabels()] == ["2", "4"]
    assert not counts.texts
    between = drawn("gun.margin=1deg,2deg,3deg", "gun.bullet_diameter=6mm:9mm:3")
    assert between.texts


def test_what_was_drawn_is_not_offered_again(run, tmp_path):
    ask = ("sweep", "--vary", "gun.margin=1deg,3deg", "--collect", "windows.rows.1.open_deg")
    plain = " ".join(run(*ask).stdout.split())
    assert "Next: a picture, by adding --figure sweep.svg to this command; the table as a file" in plain
    both = run(*ask, "--figure", tmp_path / "a.svg", "--out", tmp_path / "a.csv").stdout
    assert "Next:" not in both


def test_no_cell_of_a_table_is_a_formula(tmp_path):
    """Words that a spreadsheet would compute are words; numbers stay numbers, negative ones too."""
    file = tmp_path / "t.csv"
    columns = [SweepColumn("a", "a", "", ""), SweepColumn("b", "b", "", "")]
    write_table(str(file), columns, [SweepRow((-1.5,), ("=1+1",), "@cmd")], force=False)
    assert rows(file)[1:] == [["-1.5", "'=1+1", "'@cmd"]]
    table = Table("-2+3", (Column("+x", ("=A1", "-30")),))
    assert list(csv.reader(io.StringIO(write([table], "si"))))[:4] == [["'-2+3"], ["'+x"], ["'=A1"], ["-30"]]
