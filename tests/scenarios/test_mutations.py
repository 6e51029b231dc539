"""Whatever becomes of a scenario file, the command line ends with 0, 1 or 2 and in sentences."""

import re
from functools import cache

import pytest
from airplanes import BIPLANE
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

JUNK = st.one_of(
    st.sampled_from(
        [
            *(
                '""',
                '"nan m"',
                '"-1 m"',
                '"0 kg"',
                '"1e400 m"',
                '"5 ft 4 3/8 in"',
                '"1 in ± 1/16"',
                '"1/0 m"',
                '"± 1 m"',
            ),
            *("0", "-1", "nan", "inf", "-inf", "1e308", "99999999999999999999999", "true", "false", "0x10", "1_000"),
            *("[]", "{}", "[[]]", "[1, 'a']", "{ a = 1 }", "1979-05-27", "07:32:00", "3 ft", "", "'", '"', "#", "="),
            *('"Ω Ж 𝔘 \\u202e"', '"\\u0000"', "'''\n\n'''", '"' + "9" * 400 + ' m"', "9" * 5000, '"1 m^999999999"'),
        ]
    ),
    st.text(max_size=20).map(lambda text: '"' + text.replace("\\", "").replace('"', "") + '"'),
    st.text(max_size=20),
    st.floats().map(repr),
    st.integers().map(str),
)
ROWS = [row for row in BIPLANE.read_text(encoding="utf-8").split("\n") if row.partition("#")[0].strip()]


def drop(_row: str, _junk: str) -> str:
    return ""


def twice(row: str, _junk: str) -> str:
    return f"{row}\n{row}"


def rename(row: str, junk: str) -> str:
    return re.sub(r"[a-z_]+", lambda _: junk, row, count=1)


def revalue(row: str, junk: str) -> str:
    return f"{row.partition('=')[0]}= {junk}" if "=" in row else f"[{junk}]"


def scale(row: str, _junk: str) -> str:
    return re.sub(r"\d+", lambda number: number.group() + "000", row, count=1)


def retype(row: str, _junk: str) -> str:
    return row.replace('"', "") if '"' in row else re.sub(r"= *([^#]*)", r'= "\1"', row)


def cut(row: str, _junk: str) -> str:
    return row[: len(row) // 2]


def insert(row: str, junk: str) -> str:
    return f"{junk}\n{row}"


CHEAP = (("check",), ("windows", "--json"))
"""Commands that answer within milliseconds."""


@cache
def commands() -> list[tuple[str, ...]]:
    """Those of them that read a scenario."""
    from viz.cli import main

    def reads(name: str) -> bool:
        command = main.get_command(None, name)
        return command is not None and any(param.name in ("scenario", "files") for param in command.params)

    return [words for words in CHEAP if reads(words[0])]


CHANGES = st.tuples(
    st.integers(0, len(ROWS) - 1), st.sampled_from([drop, twice, rename, revalue, scale, retype, cut, insert]), JUNK
)


@pytest.mark.parametrize("examples", [100, pytest.param(2000, marks=pytest.mark.slow)])
def test_no_change_to_a_scenario_ends_in_a_traceback(run, tmp_path, examples):
    @settings(max_examples=examples, suppress_health_check=[HealthCheck.too_slow])
    @given(st.lists(CHANGES, min_size=1, max_size=4), st.sampled_from(commands()))
    def hold(changes, command):
        ends_in_sentences(run, tmp_path / "changed.toml", changes, command)

    hold()


def ends_in_sentences(run, path, changes, command):
    rows = list(ROWS)
    for place, change, junk in changes:
        rows[place] = change(rows[place], junk)
    path.write_bytes("\n".join(rows).encode("utf-8", "surrogatepass"))
    name, *options = command
    result = run(name, path, *options)
    assert result.exit_code in (0, 1, 2), result.exception
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert (result.exit_code == 0) == (result.stderr == "")
    if result.exit_code == 2 and name == "check":
        assert all(str(path) in line for line in result.stderr.splitlines())
