"""An airplane that its scales contradict: ``check`` says so first, and every answer that flies its mass says it too."""

import json
import tomllib
from fractions import Fraction

import numpy as np
import pytest
from airplanes import BIPLANE, TRIPLANE, TWO_SEATER

from sim.scenario.reading import load

POUND_KG, INCH_M = 0.45359237, 0.0254
FORGOTTEN = {"passenger": TWO_SEATER, "fuel": BIPLANE}
FLYING = {
    "handling": ("handling",),
    "modes": ("modes",),
    "maneuver": ("maneuver", "rudder-kick"),
    "compare": ("compare",),
    "speeds": ("speeds",),
    "derivatives": ("derivatives",),
    "drag": ("drag",),
    "mount": ("mount",),
}
SOUND = (BIPLANE, TRIPLANE, TWO_SEATER, "tollgate")


def pounds(text):
    return float(sum(Fraction(part) for part in text.partition(" lb")[0].split()))


def with_forgotten(group, file):
    """Return the text of an airplane whose scales carry a group that its list of who was aboard leaves out.

    By hand: the reactions of three supports to the weight of the group, from the sums of forces and of moments about
    the lateral and the longitudinal axis, in each attitude; a wheel touches under its axle.
    """
    text = file.read_text(encoding="utf-8")
    table, scenario = tomllib.loads(text)["weighing"], load(file)
    stands = scenario.weighing.support
    load_kg = [item for item in scenario.item if item.group == group]
    weight_lb = sum(item.mass_kg for item in load_kg) / POUND_KG
    head, _, readings = text.partition("[[weighing.reading]]")
    rows = readings.split("[[weighing.reading]]")
    for place, row in enumerate(table["reading"]):
        pitch = scenario.weighing.attitude[row["attitude"]]
        along = [
            one.station_m * np.cos(pitch) + (one.waterline_m + one.radius_m) * np.sin(pitch) for one in stands.values()
        ]
        sums = np.array([np.ones(3), along, [one.buttline_m for one in stands.values()]])
        acts = sum(
            item.mass_kg * (item.station_m * np.cos(pitch) + item.waterline_m * np.sin(pitch)) for item in load_kg
        )
        shares_lb = np.linalg.solve(sums, [weight_lb, acts / POUND_KG, 0.0])
        more_lb = pounds(row["scale"]) + shares_lb[list(stands).index(row["support"])]
        rows[place] = rows[place].replace(row["scale"].partition(" lb")[0] + " lb", f"{more_lb:.2f} lb", 1)
    return head + "".join("[[weighing.reading]]" + row for row in rows)


@pytest.fixture(scope="module", params=FORGOTTEN)
def forgotten(request, tmp_path_factory):
    file = tmp_path_factory.mktemp("scales") / f"{request.param}.toml"
    file.write_text(with_forgotten(request.param, FORGOTTEN[request.param]), encoding="utf-8")
    return request.param, file


def said(group, found):
    """Return the sentence, its number from the readings and the list as balance tells them."""
    scales = found["weighing"]
    worst = max(abs(scales[f"{name}_z_score"]) for name in ("mass", "station", "waterline"))
    assert worst > 5.0
    return (
        f"DO NOT USE before the cause is found: scales and item list disagree by {worst:.1f} times their ±. The scales "
        f"suggest: {group} aboard."
    )


def test_check_has_the_line_of_the_balance_as_its_gravest_remark(forgotten, run, answered):
    group, file = forgotten
    line = said(group, answered("balance", file))
    assert " ".join(run("balance", file).stdout.split()).startswith(line)
    whole = f"weighing: {line} See whirlgate balance."
    found = run("check", "--json", file)
    assert found.exit_code == 0
    answer = json.loads(found.stdout)
    assert answer["remarks"][0] == answer["files"][0]["remarks"][0] == {"key": "weighing", "text": whole}
    text = " ".join(run("check", file).stdout.replace("─", "").split())
    assert text.startswith(f"{file}: no faults Remarks {whole}")


@pytest.mark.parametrize("words", FLYING.values(), ids=FLYING)
def test_every_answer_that_flies_the_mass_says_it_first(words, forgotten, run, answered):
    group, file = forgotten
    line = f"weighing: {said(group, answered('balance', file))} See whirlgate balance."
    assert answered(*words, file)["remarks"][0] == line
    text = " ".join(run(*words, file).stdout.split())
    assert text.startswith(line)
    assert text.count("DO NOT USE") == 1


@pytest.mark.parametrize("file", SOUND, ids=lambda file: getattr(file, "stem", file))
def test_a_sound_weighing_is_silent(file, run):
    assert not any(
        "DO NOT USE" in run(*words, file).stdout for words in (("check",), ("modes",), ("speeds",), ("balance",))
    )
    assert "weighing" not in [one["key"] for one in json.loads(run("check", "--json", file).stdout)["remarks"]]
