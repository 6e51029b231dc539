"""What ``balance --write`` and ``balance --move --write`` do to a file, and that it can be taken back."""

import pytest
from airplanes import BIPLANE, PARASOL, TRIPLANE

from sim.model.model import model

AIRPLANES = pytest.mark.parametrize("path", [BIPLANE, TRIPLANE, PARASOL], ids=lambda path: path.stem)
INERTIAS = ("inertia_roll", "inertia_pitch", "inertia_yaw", "inertia_product")
UNITS = pytest.mark.parametrize("units", ["us", "si"])
ALL_PAIRS = [
    (BIPLANE, "us", "\n"),
    (TRIPLANE, "si", "\n"),
    (PARASOL, "us", "\r\n"),
    (BIPLANE, "si", "\r\n"),
    (TRIPLANE, "us", "\r\n"),
    (PARASOL, "si", "\n"),
]
"""Airplane, units and end of line: every two of them stand together in one."""
FILES = pytest.mark.parametrize(("path", "units", "ending"), ALL_PAIRS)


@pytest.fixture
def copied(tmp_path):
    """Return a copy that may be written to, its lines ended so."""

    def copy(path, ending="\n"):
        mine = tmp_path / path.name
        mine.write_bytes(path.read_text(encoding="utf-8").replace("\n", ending).encode())
        return mine

    return copy


@pytest.fixture
def moved(run):
    def move(path, way, units="us"):
        result = run("--units", units, "balance", path, "--move", way, "--write", path, "--json")
        assert (result.exit_code, result.stderr) == (0, "")
        return path.read_bytes()

    return move


def lines(content):
    return content.decode().splitlines()


@FILES
def test_writing_twice_changes_nothing(run, copied, path, units, ending):
    mine = copied(path, ending)
    before = lines(mine.read_bytes())
    assert run("--units", units, "balance", mine, "--write", mine, "--json").exit_code == 0
    once = mine.read_bytes()
    changed = [new for old, new in zip(before, lines(once), strict=True) if old != new]
    assert {line.partition(" ")[0] for line in changed} <= {"mass", "arm", "thrust_arm", *INERTIAS}
    assert len(changed) >= 9
    assert once.count(b"\r\n") == (once.count(b"\n") if ending == "\r\n" else 0)
    assert run("--units", units, "balance", mine, "--write", mine, "--json").exit_code == 0
    assert mine.read_bytes() == once


@FILES
@pytest.mark.parametrize(
    "ways",
    [
        ["2 1/2 in forward", "2 1/2 in aft"],
        ["1/3 in forward", "1/3 in forward", "1/3 in forward", "1 in aft"],
        ["17 mm aft", "1 7/16 in forward", "17 mm forward", "36.5125 mm aft"],
    ],
    ids=["once", "thirds", "both units"],
)
def test_a_move_and_its_way_back_leave_the_file_as_it_was(copied, moved, path, units, ending, ways):
    mine = copied(path, ending)
    before = mine.read_bytes()
    *there, back = ways
    for way in there:
        after = moved(mine, way, units)
        stood, stands = lines(before), lines(after)
        added = [line for line in stands if line not in stood]
        assert len(added) == 1
        assert added[0].startswith('move = "')
        assert len(stands) == len(stood) + 1
        assert after.count(b"\r\n") == (after.count(b"\n") if ending == "\r\n" else 0)
    assert moved(mine, back, units) == before


@AIRPLANES
def test_a_comment_behind_the_move_stays(copied, moved, path):
    mine = copied(path)
    text = mine.read_text(encoding="utf-8")
    key = 'move = "1.5 in"                     # as it stands since the spring\n'
    for name in ("geared_six", "flat_four", "flat_six"):
        head = f"[powerplant.{name}]\n"
        text = text.replace(head, head + key)
    mine.write_text(text, encoding="utf-8")
    before = mine.read_bytes()
    stood = lines(before)
    changed = [line for line in lines(moved(mine, "2 1/4 in forward")) if line not in stood]
    assert changed == ['move = "-0.75 in"                   # as it stands since the spring']
    assert moved(mine, "2 1/4 in aft") == before


ENGINES = ("geared_six", "flat_four", "flat_six")


STOOD = {
    "comment": 'move = "{}"  # as it stands since the spring\n',
    "near": 'move = "{}" # near\n',
    "column": 'move = "{}"                     # in a column\n',
    "quotes": "move = '{}'\n",
    "line": 'move = "{}"\n# the line after it\n',
    "first key": 'move = "{}"\n',
}


@pytest.mark.parametrize(
    ("path", "units", "ending", "stood"),
    [
        pytest.param(*ALL_PAIRS[(number + turn) % len(ALL_PAIRS)], stood, id=f"{name}-{turn}")
        for number, (name, stood) in enumerate(STOOD.items())
        for turn in (0, 1, 2)
    ],
)
def test_a_move_to_the_drawn_place_and_back_keeps_what_stands_beside_it(copied, moved, path, units, ending, stood):
    mine = copied(path)
    text = mine.read_text(encoding="utf-8")
    drawn = {"us": "1.5 in", "si": "0.038 m"}[units]
    for name in ENGINES:
        head = f"[powerplant.{name}]\n"
        text = text.replace(head, head + stood.format(drawn))
    before = text.replace("\n", ending).encode()
    mine.write_bytes(before)
    way = {"us": "1.5 in", "si": "38 mm"}[units]
    were = lines(before)
    (zero,) = [line for line in lines(moved(mine, f"{way} forward", units)) if line not in were]
    assert zero.startswith(("move = ", "move = '"))
    assert zero.partition("=")[2].strip(" \"'")[0] == "0"
    assert were[lines(mine.read_bytes()).index(zero)].partition("#")[1:] == zero.partition("#")[1:]
    after = moved(mine, f"{way} aft", units)
    if "'" not in stood:
        assert after == before
    assert after.replace(b'"', b"'") == before.replace(b'"', b"'")


@AIRPLANES
@UNITS
@pytest.mark.parametrize("way", ["2 1/2 in forward", "17 mm aft", "1/3 in forward"])
def test_the_balance_of_the_moved_airplane_is_the_one_that_was_shown(answered, copied, path, units, way):
    mine = copied(path)
    words = ("--units", units, "balance", mine)
    drawn, shown = answered(*words), answered(*words, "--move", way, "--write", mine)
    written = answered(*words)
    assert abs(shown["cg_station_m"] - drawn["cg_station_m"]) > 1e-3
    assert shown["moved_m"] != 0.0
    assert flat(written) == pytest.approx(flat(shown), rel=1e-8, abs=1e-9)


def flat(value, path=""):
    """Return every number of an answer by its path."""
    if isinstance(value, dict | list):
        rows = value.items() if isinstance(value, dict) else enumerate(value)
        return {key: number for name, inner in rows for key, number in flat(inner, f"{path}.{name}").items()}
    return {path: value} if isinstance(value, float) else {}


@AIRPLANES
def test_a_move_on_a_move_is_told_from_where_the_engine_is_drawn(run, copied, moved, path):
    mine = copied(path)
    moved(mine, "1 1/4 in aft")
    for words, where in (((), "1.25 in aft"), (("--move", "2 in forward"), "0.75 in forward")):
        shown = " ".join(run("balance", mine, *words).stdout.split())
        assert f"Engine {where} from where it is drawn." in shown


@AIRPLANES
def test_keys_of_a_moved_airplane_fly_it_without_its_list(run, copied, moved, path):
    """The move stays a key of its own: what is written besides must not count it again."""
    mine = copied(path)
    moved(mine, "1 1/4 in aft")
    assert run("balance", mine, "--write", mine).exit_code == 0
    text = mine.read_text(encoding="utf-8")
    bare = mine.with_name("bare.toml")
    bare.write_text(text[: text.index("[[item]]")], encoding="utf-8")
    engine = model(mine).usual_powerplant().name
    listed, keyed = (model(file).flown_mass(engine) for file in (mine, bare))
    assert (listed.source == "given", keyed.source) == (False, "given")
    for name in ("propeller_arm_m", "thrust_arm_m", "cg_station_m"):
        assert getattr(keyed, name) == pytest.approx(getattr(listed, name), abs=2e-4)
    assert keyed.body.mass_kg == pytest.approx(listed.body.mass_kg, rel=1e-4)


@AIRPLANES
def test_a_wrong_move_leaves_the_file(run, copied, path):
    mine = copied(path)
    result = run("balance", mine, "--move", "2 in forwards", "--write", mine)
    assert (result.exit_code, mine.read_bytes()) == (2, path.read_bytes())
    assert result.stderr == '--move: must end in forward or aft, as in "2 1/2 in forward", got "2 in forwards"\n'


def test_a_move_with_a_sign_and_a_word_is_refused(run):
    """Two directions: which is meant, nobody knows."""
    result = run("balance", "--move", "-4 in forward")
    told = '--move: must have no sign before forward or aft, as in "2 1/2 in forward", got "-4 in forward"\n'
    assert (result.exit_code, result.stderr) == (2, told)


def test_a_move_too_far_is_told_as_it_was_given(run):
    result = run("balance", "--move", "200 in forward")
    assert (result.exit_code, result.stderr) == (2, '--move: must be -118.11 to 118.11 in, got "200 in forward"\n')
