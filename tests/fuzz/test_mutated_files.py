"""Whatever becomes of a scenario or of a drawing's readings: a sentence, in time, with no number that is none."""

from pathlib import Path

import pytest
from fuzzed import ends_well, examples, in_time
from hypothesis import given
from hypothesis import strategies as st
from mutated import mutated

from sim.scenario.bundled import folder

FROZEN = Path(__file__).parents[1] / "fixtures"
SCENARIOS = sorted([*FROZEN.glob("*.toml"), *folder().glob("*.toml")])
DRAWINGS = sorted([*FROZEN.glob("drawings/*.toml"), *folder().glob("drawings/*.toml")])
LONGEST_S = 10
"""Nobody who has mistyped a key waits longer; of a processor, whatever else the machine does."""
STUDIES = ("windows", "compare", "balance", "drag", "rate", "cooling", "propeller", "link", "exhibit", "layout")


def texts(files):
    return [file.read_text(encoding="utf-8") for file in files]


def told(run, file, *words):
    """Run a command on a file and hold that it answers or says why not, and of each fault where it stands."""
    with in_time(LONGEST_S):
        result = run(*words[:1], file, *words[1:])
    ends_well(result)
    if words[0] == "check" and result.exit_code:
        assert all(line.startswith((str(file), "and ")) for line in result.stderr.splitlines())


@pytest.mark.parametrize("files", [SCENARIOS, DRAWINGS], ids=["scenarios", "drawings"])
def test_no_change_to_a_file_ends_otherwise_than_in_sentences(run, tmp_path, files):
    @examples(100)
    @given(mutated(texts(files)))
    def hold(data):
        file = tmp_path / "changed.toml"
        file.write_bytes(data)
        told(run, file, "check")

    hold()


def test_no_study_of_a_changed_file_does(run, tmp_path):
    @examples(40)
    @given(mutated(texts(SCENARIOS)), st.sampled_from(STUDIES), st.sampled_from(((), ("--json",))))
    def hold(data, study, more):
        file = tmp_path / "changed.toml"
        file.write_bytes(data)
        told(run, file, study, *more)

    hold()


def test_no_scale_of_a_changed_drawing_does(run, tmp_path):
    @examples(20)
    @given(mutated(texts(DRAWINGS)), st.sampled_from(((), ("--json",))))
    def hold(data, more):
        file = tmp_path / "changed.toml"
        file.write_bytes(data)
        told(run, file, "scale", *more)

    hold()
