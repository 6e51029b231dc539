"""A report against another airplane: a section of differences, and the words that ask for it again."""

import shlex
from pathlib import Path

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

import sim
from sim.scenario.bill_text import bill_text
from sim.scenario.bundled import names
from sim.scenario.reading import load
from viz.report.build import SECTIONS, plan
from viz.report.findings import Findings
from viz.report.other_airplane import OtherAirplane
from viz.report.sections import against, closing
from viz.sheets.blocks import Sentence, Table, Verbatim
from viz.sheets.text import text_of

LEAST = Path(__file__).parents[2] / "scenarios/valid/least.toml"
LONGER = ("wing.span=30 ft 1 in",)


def compared(first, file, changes=()):
    """Return the findings about a scenario, with another one or with the same changed."""
    other = Findings(load(file or first, changes), "si", called="other")
    return Findings(load(first), "si", called=str(first), other=OtherAirplane(other, "other", file, changes))


def blocks(found, monkeypatch, *studies):
    monkeypatch.setattr(against, "STUDIES", [row for row in against.STUDIES if row[1] in studies])
    return list(against.differences(found))


def test_every_answer_has_a_table_with_the_numbers_of_the_single_answers(monkeypatch):
    intro, speeds, windows, *rest = blocks(compared(BIPLANE, None, LONGER), monkeypatch, "speeds", "windows")
    assert rest == []
    assert "other" in text_of(intro, "si")
    assert [text_of(speeds.title, "si"), text_of(windows, "si")] == ["Speeds", "Firing windows: no difference."]
    lines = [[text_of(cell, "si") for cell in row] for row in speeds.rows()]
    stall = [sim.speeds(one).powerplants["rotary"].stall_m_s for one in (BIPLANE, sim.load(BIPLANE, set=LONGER))]
    said = [*(f"{speed:.1f} m/s" for speed in stall), f"{stall[1] - stall[0]:.3f} m/s"]
    assert ["stalling speed in level flight", "rotary", *said] in lines
    assert all(line[0] for line in lines)


def test_bursts_are_compared_too(monkeypatch):
    monkeypatch.setattr("viz.report.findings.ROUNDS", 2000)
    changes = ("powerplant.rotary.speed=1210 rpm",)
    _, table = blocks(compared(BIPLANE, None, changes), monkeypatch, "burst")
    assert text_of(table.title, "si") == "Bursts"
    lines = {line[0]: line[2:] for line in ([text_of(cell, "si") for cell in row] for row in table.rows())}
    assert lines["propeller speed"] == ["1250 rpm", "1210 rpm", "-40.0 rpm"]


@pytest.mark.parametrize(("units", "step_m"), [("us", 0.0127), ("si", 0.01)])
def test_a_report_steps_the_engine_as_the_command_does(units, step_m):
    assert Findings(load(BIPLANE), units, called="").balance.step_m == step_m


def test_what_one_of_them_has_no_answer_to_is_told(monkeypatch):
    told = blocks(compared(BIPLANE, str(LEAST)), monkeypatch, "speeds", "mount")
    assert [type(block) for block in told] == [Sentence, Table, Sentence]
    assert text_of(told[2], "si") == (
        "Engine mount: left out: mount: is missing; give the table mount with firewall and bolts."
    )


def test_the_items_of_the_other_scenario_are_kept(tmp_path):
    text, bill = PARASOL.read_text(encoding="utf-8"), bill_text(load(PARASOL), "si")
    file = tmp_path / "other.toml"
    file.write_text(text[: text.index("[[item]]")] + '[[item]]\nfile = "items.csv"\n', encoding="utf-8")
    (tmp_path / "items.csv").write_text(bill, encoding="utf-8")
    last = list(closing.again(compared(BIPLANE, str(file))))[-1]
    assert (last.title, last.text) == ("Items of the other scenario", bill)


def test_the_section_stands_before_the_assumptions_and_only_when_asked_for():
    names = [name for name, _, _ in plan(compared(BIPLANE, None, LONGER))]
    assert names[names.index("against") + 1] == "assumptions"
    assert [name for name in names if name != "against"] == [name for name, _, _ in SECTIONS]
    assert plan(Findings(load(BIPLANE), "si", called=str(BIPLANE))) == SECTIONS


@pytest.mark.parametrize(("file", "words"), [(str(TRIPLANE), ["--against", str(TRIPLANE)]), (None, [])])
def test_the_command_and_the_other_scenario_are_kept(file, words):
    kept = {
        block.title: block.text
        for block in closing.again(compared(BIPLANE, file, LONGER))
        if isinstance(block, Verbatim)
    }
    wanted = ["report", str(BIPLANE), *words, "--against-set", *LONGER, "--out", "report.html"]
    assert shlex.split(kept["Command"]) == ["whirlgate", "--units", "si", *wanted]
    assert kept.get("The other scenario") == (TRIPLANE.read_text(encoding="utf-8") if file else None)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (
            ["--against", "nosuch", "--set", "wing.spam=3"],
            [
                "--set wing.spam: unknown key; did you mean span?",
                f"--against: nosuch: is neither a file nor a bundled scenario ({', '.join(names())})",
            ],
        ),
        (["--against", ""], ['--against: "": cannot be read: is a directory']),
        (["--against-set", "wing.spam=3"], ["--against-set wing.spam: unknown key; did you mean span?"]),
        (
            ["--against", TRIPLANE, "--against-set", "wing.span=3"],
            ['--against-set wing.span: must have a unit, as in "28 ft 1 in", got "3"'],
        ),
    ],
)
def test_every_fault_of_both_is_told_before_anything_is_written(options, said, run, tmp_path):
    page = tmp_path / "report.html"
    shown = run("report", *options, "--out", page)
    assert (shown.exit_code, shown.stdout) == (2, "")
    assert shown.stderr.splitlines() == said
    assert not page.exists()


def test_a_report_against_the_same_with_other_values_has_the_section(run, read, airplane, tmp_path, monkeypatch):
    section = next(row for row in SECTIONS if row[0] == "again")
    monkeypatch.setattr("viz.report.build.SECTIONS", (("assumptions", "Assumptions", ()), section))
    monkeypatch.setattr(against, "STUDIES", (("Speeds", "speeds"),))
    out = tmp_path / "report.html"
    assert run("report", airplane, "--against-set", *LONGER, "--out", out).exit_code == 0
    page = read(out.read_text(encoding="utf-8"))
    assert page.wrong == []
    assert [text for _, text in page.all("h2")][2:] == ["Against another airplane", "Assumptions", "Reproduction"]
    assert "Speeds" in [text for _, text in page.all("caption")]
