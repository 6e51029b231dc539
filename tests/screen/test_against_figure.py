"""``--figure`` beside ``--against``: both airplanes in one figure, or a sentence that the other is not drawn."""

import re

import pytest
from airplanes import BIPLANE, PARASOL


@pytest.mark.parametrize("command", ["balance", "handling", "modes", "speeds"])
def test_a_figure_draws_both_airplanes(command, run, tmp_path):
    alone, both = tmp_path / "alone.svg", tmp_path / "both.svg"
    run(command, BIPLANE, "--figure", alone)
    result = run(command, BIPLANE, "--against", PARASOL, "--figure", both)
    assert (result.exit_code, result.stderr) == (0, "")
    legend = re.sub(r"<[^>]*>|\s", "", both.read_text(encoding="utf-8"))
    assert "thinwithcrosses,markshalffilled:" in legend
    assert PARASOL.name in legend
    assert "theother:" in legend
    assert "theother:" not in re.sub(r"<[^>]*>|\s", "", alone.read_text(encoding="utf-8"))


def test_a_figure_that_cannot_draw_both_says_so(run, tmp_path):
    figure = tmp_path / "windows.svg"
    run(
        "windows",
        BIPLANE,
        "--against-set",
        "wing.span=30 ft 1 in",
        "--against-set",
        "powerplant.rotary.speed=1210 rpm",
        "--figure",
        figure,
    )
    words = " ".join(
        re.sub(r"<[^>]*>", " ", figure.read_text(encoding="utf-8")).split()
    )  # lines are texts of their own
    assert "the other airplane, is not drawn" in words
