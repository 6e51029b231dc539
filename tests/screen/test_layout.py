"""``layout``: the nodes as CSV, and a spar that does not fit."""

import csv

import pytest


def test_nodes_as_csv(run, answered, tmp_path):
    file = tmp_path / "nodes.csv"
    found = answered("layout", "--nodes", file)
    rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
    assert len(rows) == 2 * len(found["nodes"])
    assert set(rows[0]) == {"node", "kind", "side", "station [m]", "waterline [m]", "buttline [m]"}
    assert sum(float(row["buttline [m]"]) for row in rows) == pytest.approx(0.0)
    again = run("layout", "--nodes", file)
    assert (again.exit_code, again.stderr) == (2, f"{file}: is already there; give --force to replace it\n")


def test_a_spar_that_does_not_fit_is_a_sentence(run):
    result = run("layout", "--set", "layout.spar.front.cap=3 in")
    assert (result.exit_code, result.stdout, result.stderr) == (
        1,
        "",
        (
            "no front spar fits at 13 % of the chord: the section is 140.7 mm deep there, and caps and covers take "
            "154.0 mm; move the spar to where the section is deeper or make it narrower\n"
        ),
    )
