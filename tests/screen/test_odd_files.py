"""Files that are no text, too large, or hold what nobody means: every command says what is wrong with them."""

import pytest
from fuzzed import in_time

BYTES = {
    b"\x80 = 1": "{}:1: is not UTF-8 text: byte 0x80 belongs to no letter; save it as UTF-8\n",
    b"#" * 1_000_001: "{}: is not a scenario: it is larger than 1 MB\n",
}


@pytest.mark.parametrize("command", ["compare", "drag", "windows", "check"])
@pytest.mark.parametrize("data", BYTES, ids=["no letter", "large"])
def test_a_file_that_is_no_text_is_told_by_every_command(run, tmp_path, command, data):
    file = tmp_path / "odd.toml"
    file.write_bytes(data)
    done = run(command, file)
    assert (done.exit_code, done.stderr) == (2, BYTES[data].format(file))


QUICK_S = 10.0
"""A processor has read them within this; with the square of their length it would take minutes."""
LARGE = {
    "quotes": 'a = "' + '\\"' * 450_000,
    "brackets": "a = " + "[" * 900_000,
    "triple quotes": "a = " + '"""' * 300_000 + "x",
    "parts of a header": "[" + ".".join("a" * 450_000) + "]",
    "unknown keys": "[wing]\n" + "".join(f"k{number} = 1\n" for number in range(100_000)),
}


@pytest.mark.parametrize("name", LARGE)
def test_a_large_file_of_nonsense_is_refused_at_once(run, tmp_path, name):
    file = tmp_path / "large.toml"
    file.write_text(LARGE[name])
    with in_time(QUICK_S):
        done = run("check", file)
    assert done.exit_code == 2
    assert all(line.startswith((str(file), "and ")) for line in done.stderr.splitlines())


def test_tables_that_are_nested_too_deep_are_told_with_their_line(run, tmp_path):
    file = tmp_path / "deep.toml"
    file.write_text("a = 1\n[" + "b." * 100 + "b]\n")
    assert run("check", file).stderr == f"{file}:2: cannot be read: its tables are nested too deep\n"


@pytest.mark.parametrize(
    "words", [("propeller", "--blade"), ("balance", "--write"), ("exhibit", "--out")], ids=" ".join
)
def test_a_name_that_none_may_have_is_told(run, words):
    done = run(*words, "a\0b.toml")
    told = f"{words[1]}: cannot be the name of a file: it holds a letter that no name may\n"
    assert (done.exit_code, done.stderr) == (2, told)


def test_a_wrong_count_of_impulses_is_told_once(run):
    done = run("windows", "--impulses-per-rev", "-1")
    assert (done.exit_code, done.stderr) == (2, '--impulses-per-rev: must be above 0 and at most 12, got "-1"\n')
