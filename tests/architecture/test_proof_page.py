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
    note, both = {"row": "a", "mark": ""}, {"row": "b", "mark": "P X"}
    assert proof.mistakes({"test_a.py": ("", []), "test_b.py": ("", [note, note]), "test_c.py": ("", [both])}) == [
        "test_a.py shows no value: pass what it checks through `printed`",
        "test_b.py has two rows named 'a'",
        "test_b.py has no mark P, M, R or X in its docstring",
        "test_c.py calls a row mathematics and published",
    ]


def estimates(*rows):
    notes = [compare(ours, value, row=row, band=band, mark=mark, kind="k")[0] for row, ours, value, band, mark in rows]
    return {"test_a.py": ("", notes)}


def test_an_estimate_may_be_three_of_its_bands_away():
    assert compare(2.29, "2.00", row="x", band=0.1)[1] == ""
    assert compare(2.31, "2.00", row="x", band=0.1)[1] != ""
    assert compare(2.31, "2.00", row="x", band=0.1, within=0.4, why="w")[1] == ""


def test_errors_of_a_kind_leave_out_what_is_from_memory_alone():
    """12 % and 20 % count, the first inside its band of ± 1.645 · 0.08: median 16 %, rms 16.5 %."""
    rows = estimates(
        ("A: k", 1.12, "1.00", 0.08, "P"), ("B: k", -2.4, "-2.00", 0.2, "M R"), ("C: k", 9.0, "3.00", 5.0, "M")
    )
    text = proof.errors(rows)
    assert "| k | 2 | 16 % | 16.5 % | 20 % | 1 of 2 |" in text
    assert "| all estimated derivatives | 2 | 16 % |" in text


def test_the_guide_gets_the_table_of_estimates_and_keeps_the_rest():
    rows = estimates(("A: k", 1.12, "1.00", 0.08, "P"), ("B: k", -2.4, "-2.00", 0.2, "P"))
    old = f"before\n{proof.BOUNDS[0]}| old |\n{proof.BOUNDS[1]}after\n"
    new = proof.with_estimates(old, rows)
    assert new.startswith("before\n")
    assert new.endswith("after\n")
    assert "| `k` | 1.120 ± 0.080, 1.00 (+12 %) | -2.400 ± 0.200, -2.00 (+20 %) | 16 % |" in new
    assert "| old |" not in new
    assert proof.with_estimates(new, rows) == new
