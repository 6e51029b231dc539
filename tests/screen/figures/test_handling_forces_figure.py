"""Forces in the figure of handling: over bank and speed as answered, between what a pilot can hold; roots let go."""

import math

import numpy as np
import pytest
from airplanes import TRIPLANE

from sim.model.model import model
from sim.studies.handling import handling
from viz.present import figure

POUND_N, MPH_M_S = 4.4482216152605, 0.44704
NAMES = ("rotary", "geared_six")
PANELS = [(4, "stick_force_n", 10.0, 60.0), (6, "stick_side_force_n", 5.0, 30.0), (8, "pedal_force_n", 20.0, 150.0)]


@pytest.fixture(scope="module")
def answer():
    return handling(model(TRIPLANE), banks_deg=(-60.0, -30.0, 0.0, 30.0, 60.0))


@pytest.fixture(scope="module")
def axes(answer):
    return figure(answer, units="us").axes


def line(panel, label):
    return next(one for one in panel.get_lines() if one.get_label() == label)


@pytest.mark.parametrize(("panel", "field", "minutes", "moment"), PANELS)
def test_forces_are_drawn_in_pounds_over_bank(answer, axes, panel, field, minutes, moment):
    for name in NAMES:
        turns = answer.powerplants[name].turns
        for value, turn in zip(line(axes[panel], name).get_ydata(), turns, strict=True):
            assert value * POUND_N == pytest.approx(getattr(turn, field)) if turn.holds else math.isnan(value)
    assert "[lbf]" in axes[panel].get_ylabel()


@pytest.mark.parametrize(("panel", "field", "minutes", "moment"), PANELS)
def test_and_over_speed_where_level_flight_can_be_flown(answer, axes, panel, field, minutes, moment):
    """And as dots those at one throttle, whose slope says whether an airplane let go comes back to its speed."""
    beyond = 0
    for name in NAMES:
        rows = answer.powerplants[name].forces.straight
        level = [row for row in rows if row.power == "level"]
        drawn = line(axes[panel + 1], name)
        assert list(drawn.get_xdata() * MPH_M_S) == pytest.approx([row.speed_m_s for row in level])
        for value, row in zip(drawn.get_ydata(), level, strict=True):
            assert math.isnan(value) if row.limit else value * POUND_N == pytest.approx(getattr(row, field))
            beyond += row.limit is not None
        dots = line(axes[panel + 1], f"_at one throttle, {name}")
        same = [getattr(row, field) for row in rows if row.power == "same"]
        assert [value * POUND_N for value in dots.get_ydata()] == pytest.approx(same)
    assert beyond
    assert axes[panel + 1].get_xlabel() == "true airspeed [mph]"


@pytest.mark.parametrize(("panel", "field", "minutes", "moment"), PANELS)
@pytest.mark.parametrize("over", [0, 1], ids=["bank", "speed"])
def test_what_a_pilot_holds_is_a_line_or_said_to_be_beyond_the_axis(axes, panel, field, minutes, moment, over):
    there = axes[panel + over]
    told = {text.get_text() for text in there.get_legend().get_texts()}
    assert there.get_legend().get_title().get_text().endswith("14 CFR 23.143(c)")
    for word, limit in (("minutes", minutes), ("a moment", moment)):
        label = f"held for {word}: {limit:.0f} lbf"
        drawn = [one for one in there.get_lines() if one.get_label() == label]
        assert {label, f"{label}, beyond this axis"} & told == {label if drawn else f"{label}, beyond this axis"}
        ends = {round(abs(one.get_ydata()[0]), 9) for one in there.get_lines() if one.get_color() == "#3f3f3f"}
        assert (limit in ends) is bool(drawn)


@pytest.mark.parametrize("bands", [False, True])
def test_no_key_lies_over_a_force(bands):
    drawn = figure(handling(model(TRIPLANE), banks_deg=(-60.0, -30.0, 0.0, 30.0, 60.0), bands=bands), units="us")
    drawn.canvas.draw()
    for panel in drawn.axes[4:]:
        key = panel.get_legend().get_window_extent()
        for one in panel.get_lines():
            if one.get_transform() == panel.transData:
                lowest = panel.transData.transform(np.asarray(one.get_xydata(), dtype=float))[:, 1]
                assert np.nanmin(lowest) >= key.y1
        for path in (path for one in panel.collections for path in one.get_paths()):
            assert panel.transData.transform(path.vertices)[:, 1].min() >= key.y1


def test_the_roots_with_the_controls_free_are_among_the_others(answer, axes):
    pluses = [one for one in axes[3].get_lines() if one.get_marker() == "+"]
    drawn = {(x, y) for one in pluses for x, y in zip(*one.get_data(), strict=True)}
    every = [mode for found in answer.powerplants.values() for mode in found.free_modes]
    assert drawn == {(mode.real_per_s, mode.imag_rad_s) for mode in every}
    assert "plus: stick and pedals free" in axes[3].get_legend().get_title().get_text()
