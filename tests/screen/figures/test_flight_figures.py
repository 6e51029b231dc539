"""Figures of flight: axes with quantity and unit, curves that are the numbers of the answer, told apart in grey."""

import math
from itertools import combinations

import pytest
from airplanes import TRIPLANE

from sim.model.model import model
from sim.studies.compare import compare
from sim.studies.handling import handling
from sim.studies.maneuver import maneuver
from sim.studies.modes import modes
from sim.studies.speeds import speeds
from viz.figures.inks import INKS
from viz.figures.sheet import rendered
from viz.present import figure

FOOT_M = 0.3048
NAMES = ("rotary", "geared_six")


@pytest.fixture(scope="module")
def answers():
    asked = model(TRIPLANE)
    return {
        "compare": compare(asked),
        "handling": handling(asked, banks_deg=(-60.0, -30.0, 0.0, 30.0, 60.0)),
        "modes": modes(asked, banks_deg=(0.0, -37.0)),
        "maneuver": maneuver(asked, "blip", flown_s=2.0),
        "speeds": speeds(asked),
    }


@pytest.fixture(scope="module")
def drawn(answers):
    return {name: figure(answer, units="us") for name, answer in answers.items()}


def line(panel, label):
    return next(one for one in panel.get_lines() if one.get_label() == label)


@pytest.mark.parametrize("name", ["compare", "handling", "modes", "maneuver", "speeds"])
def test_axes_have_words_and_units_and_the_figure_its_caution(drawn, name):
    for panel in drawn[name].axes:
        assert panel.get_xlabel() == "" or panel.get_xlabel().endswith("]")
        assert panel.get_ylabel().endswith(("]", "load factor"))  # which has no unit
    assert "licensed engineer or mechanic" in " ".join(drawn[name].get_supxlabel().split())


@pytest.mark.parametrize(("name", "labels"), [("compare", 2), ("handling", 2), ("maneuver", 2), ("speeds", 6)])
def test_lines_are_told_apart_without_colour(drawn, name, labels):
    strokes = {one.get_label(): one.get_linestyle() for one in drawn[name].axes[0].get_lines()}
    named = {label: stroke for label, stroke in strokes.items() if not label.startswith("_") and stroke != "None"}
    assert len(named) == labels
    assert len(set(named.values())) >= 2


def test_responses_are_those_of_the_answer(answers, drawn):
    for column in range(2):
        for name, found in answers["compare"].powerplants.items():
            called = "rotary" if name == "rotary" else f"{name} ({found.kind})"
            pitch = line(drawn["compare"].axes[column], called)
            yaw = line(drawn["compare"].axes[2 + column], called)
            assert list(pitch.get_ydata()) == list(found.disturbances[column].pitch_deg)
            assert list(yaw.get_ydata()) == list(found.disturbances[column].yaw_deg)


@pytest.mark.parametrize(("panel", "field"), [(0, "elevator_share"), (1, "rudder_share"), (2, "aileron_share")])
def test_control_travel_is_drawn_in_percent_where_the_turn_holds(answers, drawn, panel, field):
    for name in NAMES:
        turns = answers["handling"].powerplants[name].turns
        shown = line(drawn["handling"].axes[panel], name)
        assert list(shown.get_xdata()) == [turn.bank_deg for turn in turns]
        for value, turn in zip(shown.get_ydata(), turns, strict=True):
            assert value == pytest.approx(100.0 * getattr(turn, field)) if turn.holds else math.isnan(value)


def test_turns_outside_the_range_of_validity_are_crossed():
    """Fast, none is; slow, those that the answer names and that can be held, in every panel and at their shares."""
    banks = tuple(float(bank) for bank in range(-64, 65, 8))
    fast, slow = (handling(model(TRIPLANE), speed_m_s=speed, banks_deg=banks) for speed in (45.0, 25.0))
    for answer in (fast, slow):
        told = [(bank, name) for name in NAMES for bank in banks if beyond(answer, name, bank)]
        assert bool(told) is (answer is slow)
        panels = figure(answer).axes
        for panel, field in zip(panels, ("elevator_share", "rudder_share", "aileron_share"), strict=False):
            crosses = [one for one in panel.get_lines() if one.get_marker() == "x"]
            drawn_at = [point for cross in crosses for point in zip(*cross.get_data(), strict=True)]
            assert drawn_at == [
                (turn.bank_deg, 100.0 * getattr(turn, field))
                for name in NAMES
                for turn in answer.powerplants[name].turns
                if turn.beyond and turn.holds
            ]
            assert bool(drawn_at) is (answer is slow)
        assert ("outside the range" in panels[0].get_legend().get_title().get_text()) is (answer is slow)


def test_responses_have_a_cross_where_their_validity_ends():
    slow = compare(model(TRIPLANE, ["flight.speed=19.5 m/s"]))
    panels, ends = figure(slow).axes, 0
    for index, name in enumerate(slow.powerplants):
        for column, one in enumerate(slow.powerplants[name].disturbances):
            for panel, values in ((panels[column], one.pitch_deg), (panels[2 + column], one.yaw_deg)):
                crosses = {line.get_color(): line for line in panel.get_lines() if line.get_marker() == "x"}
                found = crosses.get(INKS[index])
                assert (found is None) is (one.valid_until_s is None)
                if found is not None:
                    ends += 1
                    assert found.get_xdata()[0] == pytest.approx(one.valid_until_s)
                    assert found.get_ydata()[0] == values[list(one.time_s).index(found.get_xdata()[0])]
    assert ends
    assert "a cross" in panels[1].get_legend().get_title().get_text()


def beyond(answer, name, bank_deg):
    return next(turn for turn in answer.powerplants[name].turns if turn.bank_deg == bank_deg).beyond


def test_each_bank_has_its_map_of_roots(answers, drawn):
    assert [panel.get_title(loc="left") for panel in drawn["modes"].axes] == [
        "Roots in straight flight",
        "Roots in a turn, 37° left bank",
    ]
    for flight in answers["modes"].flights:
        panel = drawn["modes"].axes[0 if flight.bank_deg == 0.0 else 1]
        roots = line(panel, flight.powerplant)
        assert list(zip(roots.get_xdata(), roots.get_ydata(), strict=True)) == [
            (mode.real_per_s, mode.imag_rad_s) for mode in flight.modes
        ]


def test_a_history_is_drawn_from_its_start_in_the_reader_s_units(answers, drawn):
    columns, height = answers["maneuver"].histories[0], line(drawn["maneuver"].axes[3], "rotary")
    assert drawn["maneuver"].axes[3].get_ylabel() == "height, up positive [ft]"
    assert list(height.get_ydata()) == pytest.approx((columns["altitude_m"] - columns["altitude_m"][0]) / FOOT_M)
    assert list(height.get_xdata()) == list(columns["time_s"])


def test_top_speed_is_marked_where_the_power_required_is_met(answers, drawn):
    panel, own = drawn["speeds"].axes[0], answers["speeds"].powerplants["rotary"]
    mark = next(one for one in panel.get_lines() if one.get_label().startswith("rotary, top "))
    assert mark.get_xdata()[0] == pytest.approx(own.top_m_s / 0.44704)
    needed = line(panel, "required in level flight, with rotary")
    nearest = min(range(80), key=lambda k: abs(needed.get_xdata()[k] - mark.get_xdata()[0]))
    assert mark.get_ydata()[0] == pytest.approx(needed.get_ydata()[nearest], rel=0.02)


def test_names_of_roots_do_not_cross_each_other_or_the_edge(drawn):
    panels = [*drawn["modes"].axes, drawn["handling"].axes[3]]
    for name in ("modes", "handling"):
        rendered(drawn[name])
    for panel in panels:
        boxes = [text.get_window_extent() for text in panel.texts if text.get_text()]
        assert len(boxes) >= 5
        assert all(panel.bbox.y0 <= box.y0 for box in boxes)
        assert not any(one.overlaps(other) for one, other in combinations(boxes, 2))


def test_a_band_is_shaded_between_its_ends():
    answer = handling(model(TRIPLANE), banks_deg=(-30.0, 0.0, 30.0), bands=True)
    drawn = figure(answer)
    for panel, name in zip(drawn.axes, ("elevator_share", "rudder_share", "aileron_share"), strict=False):
        for shade, found in zip(panel.collections, answer.powerplants.values(), strict=True):
            corners = {(round(x, 6), round(y, 6)) for x, y in shade.get_paths()[0].vertices.tolist()}
            for turn in found.turns:
                for end in ("low", "high"):
                    assert (turn.bank_deg, round(100.0 * getattr(turn, f"{name}_{end}"), 6)) in corners
        assert -110.0 <= panel.get_ylim()[0] < panel.get_ylim()[1] <= 110.0
