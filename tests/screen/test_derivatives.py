"""``derivatives``: values with their origin, JSON keys, and an unknown engine."""

import json

import pytest
from airplanes import BIPLANE, TRIPLANE


def test_derivatives_say_where_they_come_from(run):
    result = run("derivatives", "--set", "derivatives.yaw_beta=0.03", "--set", "derivatives.roll_r=0.11")
    lines = {line.split()[0]: line for line in result.stdout.splitlines() if line.strip()}
    assert lines["roll_r"].split()[2:] == ["0.1099", "given"]  # the CG flown lies 5 mm behind that of the keys
    assert lines["yaw_beta"].split()[2:] == ["0.0299", "given"]
    moved = "Given values are those about the CG that wing.arm is measured from; here they stand about the CG flown"
    assert moved in " ".join(result.stdout.split())
    assert moved not in " ".join(run("derivatives").stdout.split())
    assert lines["roll_p"].endswith("estimated from geometry")
    assert "±" in lines["roll_p"]


def test_derivatives_json(run):
    found = json.loads(run("derivatives", "--json", "--powerplant", "flat_four").stdout)
    assert found["powerplant"] == "flat_four"
    assert len(found["derivatives"]) == 22
    assert set(found["derivatives"]["lift_alpha"]) == {"value", "origin", "band"}
    assert found["span_factor"] == pytest.approx(1.142, abs=0.001)


def test_derivatives_of_an_unknown_engine_are_refused(run):
    result = run("derivatives", "--powerplant", "rotry")
    assert result.exit_code == 2
    assert result.stderr == '--powerplant: must be one of rotary, flat_four, got "rotry"; did you mean rotary?\n'


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE], ids=lambda path: path.stem)
def test_the_sheet_as_a_whole(run, snapshot, airplane, units):
    assert run("--units", units, "derivatives", airplane).output == snapshot
