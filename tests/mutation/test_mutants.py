"""The mutants are the slips that they are meant to be, and what the tests say of one is told aright."""

import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("cosmic_ray", reason="needs cosmic-ray")

from judged import Judged, add, read, table
from mutants import mutants_of
from reached import users
from score import EQUIVALENT, ROOT, below_the_floor
from touching import nearest_tests

SOURCE = '''"""Words - of no weight: 3 > 2."""
def force(mass: float, *, rate: float | None = None) -> float:
    return mass * 9.8 - 2 if rate is None else 0.0
def forces(*masses: float, share=0.5, **rest: float) -> list[float]:
    return [force(*masses, **rest), {**rest}]
'''


def test_every_operator_and_number_of_what_computes_is_changed_once(tmp_path):
    (tmp_path / "one.py").write_text(SOURCE, encoding="utf-8")
    found = mutants_of(tmp_path, "one.py")
    assert {one.line for one in found} == {3, 4}
    assert {one.change(SOURCE)[1] for one in found if one.line == 4} == {
        "def forces(*masses: float, share= 1.5, **rest: float) -> list[float]:",
        "def forces(*masses: float, share= -0.5, **rest: float) -> list[float]:",
    }
    found = [one for one in found if one.line == 3]
    changed = {one.change(SOURCE)[1].removeprefix("return ") for one in found}
    for slip in (
        "mass / 9.8 - 2 if rate is None",
        "mass * 9.8 + 2 if rate is None",
        "mass * 9.8 - 2 if rate is not None",
    ):
        assert f"{slip} else 0.0" in changed
    assert sum("9.8 -" not in words and "9.8 +" not in words for words in changed) == 2  # the number a little off


def test_what_touches_a_file_begins_with_what_is_named_after_it():
    example, *tests = nearest_tests(ROOT, "sim/display/drive.py")
    assert example.endswith("says[sim.display.drive]")
    assert tests[0] == "tests/physics/display/test_drive.py"
    assert all((ROOT / name).is_file() for name in tests)
    assert "tests/physics/studies/test_exhibit.py" in tests
    assert nearest_tests(ROOT, "viz/sheets/mount.py")[0] == "tests/screen/test_mount.py"
    named_in_a_table = "sim/model/plausibility/centre_of_gravity.py"
    assert "tests/physics/model/test_remarks.py" in nearest_tests(ROOT, named_in_a_table)


@pytest.mark.parametrize(
    ("test", "verdict"),
    [
        ("def test_it(): pass", "True"),
        ("def test_it(): assert 0", "False"),
        ("import nothing_of_the_kind", "False"),
        ("import os\ndef test_it(): os.abort()", "False"),
    ],
)
def test_a_mutant_is_killed_by_a_failure_an_import_or_a_crash(tmp_path, test, verdict):
    (tmp_path / "test_one.py").write_text(test, encoding="utf-8")
    code = (
        "import sys, pathlib, trial; print(trial.ended(trial.Run(pathlib.Path(sys.argv[1]), ('test_one.py',))).passed)"
    )
    told = subprocess.run(
        [sys.executable, "-c", code, tmp_path], cwd=Path(__file__).parent, capture_output=True, text=True
    )
    assert (told.stdout.strip(), told.stderr) == (verdict, "")


def test_a_run_that_the_time_cuts_short_passed_but_was_not_whole(tmp_path):
    """The first test takes a tenth of a second of a processor, all that there is; nobody asks the second."""
    busy = "import time\ndef test_one():\n    while time.process_time() < 0.1: pass\ndef test_two(): assert 0"
    (tmp_path / "test_one.py").write_text(busy, encoding="utf-8")
    code = "import sys, pathlib, trial; print(trial.ended(trial.Run(pathlib.Path(sys.argv[1]), ('test_one.py',), 0.1)))"
    told = subprocess.run(
        [sys.executable, "-c", code, tmp_path], cwd=Path(__file__).parent, capture_output=True, text=True
    )
    assert "passed=True, whole=False" in told.stdout, told.stderr


REACHED = """LIMIT = 3.0
def far(x):
    if (
        x > 2.0
    ):
        return 1.0
    return LIMIT * x
class Row:
    size = 2.0
"""


@pytest.mark.parametrize(("line", "lines"), [(1, [7]), (4, [3, 4, 5]), (6, [6]), (7, [7]), (9, [11])])
def test_a_line_is_reached_where_its_statement_runs_or_in_functions_that_name_what_it_gives(tmp_path, line, lines):
    (tmp_path / "viz").mkdir()
    (tmp_path / "sim").mkdir()
    (tmp_path / "sim" / "one.py").write_text(REACHED + "def made():\n    return Row()\n", encoding="utf-8")
    assert users(tmp_path, "sim/one.py", line) == [("sim/one.py", sum(1 << each for each in lines))]


def test_the_table_counts_the_last_outcome_of_each_mutant(tmp_path):
    log = tmp_path / "judged.jsonl"
    for place, outcome in ((1, "survived"), (2, "killed"), (3, "not judged"), (1, "killed"), (4, "survived")):
        add(log, Judged("sim/rotor/one.py", place, "NumberReplacer", f"x = {place}.0", "x = 9.0", 7, outcome))
    head, room, every = table(read(log).values()).splitlines()
    assert head.split()[:3] == ["room", "sampled", "killed"]
    assert room.split() == ["sim/rotor", "4", "2", "0", "1", "0", "1", "2/3"]
    assert every.split()[1:] == room.split()[1:]


@pytest.mark.parametrize(
    ("caught", "tries", "below"),
    [(0, 0, False), (0, 3, False), (0, 4, True), (7, 15, False), (6, 15, True), (65, 100, False)],
)
def test_a_sample_fails_where_chance_does_not_explain_it(caught, tries, below):
    """At .75 none of 3 is as rare as 1 in 64, none of 4 1 in 256; of 15 seven or fewer 1 in 58, six 1 in 240."""
    assert below_the_floor(caught, tries, 0.75) == below
    assert not below_the_floor(caught, tries, 0.0)


def test_survivors_that_were_argued_still_stand_in_their_files():
    for one in EQUIVALENT:
        lines = [line.strip() for line in (ROOT / one["path"]).read_text(encoding="utf-8").splitlines()]
        assert one["before"] in lines
        assert one["after"] not in lines
        assert len(one["reason"]) > 20
