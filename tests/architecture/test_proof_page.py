"""The proof page cannot be made to agree: what is compared, how it is shown, and what makes a page dishonest."""

import importlib.util
from pathlib import Path

import pytest

FOLDER = Path(__file__).parents[1] / "published"


def module(name):
    spec = importlib.util.spec_from_file_location(f"published_{name}", FOLDER / f"{name}.py")
    loaded = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(loaded)
    return loaded


compare, proof = module("conftest").compare, module("proof")


@pytest.mark.parametrize(("ours", "agrees"), [(11.25, True), (11.2501, False), (11.1499, False), (float("nan"), False)])
def test_half_a_unit_of_the_last_digit(ours, agrees):
    assert (compare(ours, "11.2", row="x")[1] == "") is agrees


@pytest.mark.parametrize(
    ("how", "near", "far"),
    [
        ({"within": 0.2, "why": "w"}, 11.4, 11.41),
        ({"share": 0.5, "why": "w"}, 16.8, 16.9),
        ({"exact": True}, 11.2, 11.2000001),
    ],
)
def test_a_tolerance_of_its_own(how, near, far):
    assert compare(near, "11.2", row="x", **how)[1] == ""
    assert compare(far, "11.2", row="x", **how)[1] != ""


def test_a_tolerance_says_why():
    with pytest.raises(AssertionError, match="x: a tolerance of its own says why"):
        compare(1.0, "1", row="x", within=0.5)


def test_what_is_said_of_a_value_that_differs():
    fault = compare(-13.26123456, "-13.2", "in", row="arm")[1]
    assert fault == "arm: printed -13.2 in, ours −13.2612: −0.0612 apart, allowed half a digit"


def test_words_are_compared_letter_by_letter():
    assert compare("nose up", "nose up", row="x")[1] == ""
    assert compare("nose up", "nose down", row="x")[1] != ""


def test_noise_of_the_machine_is_not_shown():
    rows = [compare(value, "1.9", row="x")[0] for value in (1.93755, 1.93755 + 4e-16, 1.93755 - 4e-16)]
    assert rows[0] == rows[1] == rows[2]


def test_rows_stand_as_in_the_file_whatever_the_order_of_the_run():
    file = "test_hatcher.py"
    names = [f"tests/published/{file}::test_x[{number}]" for number in (2, 9, 10)]
    rows = {name: (file, 7, [compare(1.0, "1", row=name, within=0.1, why="w")[0]]) for name in names}
    shuffled = {name: rows[name] for name in (names[2], names[0], names[1])}
    assert proof.contents(proof.gather(rows)) == proof.contents(proof.gather(shuffled))
    assert [note["row"] for note in proof.gather(shuffled)[file][1]] == names


def test_what_is_dishonest_is_named():
    note = {"row": "a", "mark": ""}
    assert proof.mistakes({"test_a.py": ("", []), "test_b.py": ("", [note, note])}) == [
        "test_a.py shows no value: pass what it checks through `printed`",
        "test_b.py has two rows named 'a'",
        "test_b.py has no mark P, M or E in its docstring",
    ]
