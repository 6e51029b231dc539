"""The figures of a cooling receiver and of a rotor's couple: their lines are the answers, in the reader's units."""

import pytest
from airplanes import BIPLANE

from sim.model.model import model
from sim.studies.cooling import cooling as cool
from sim.studies.couple import couple as couple_of_rotor
from sim.studies.couple import over_a_turn
from viz.figures import cooling, couple


@pytest.mark.parametrize(("units", "scale", "zero", "word"), [("us", 1.8, 459.67, "°F"), ("si", 1.0, 273.15, "°C")])
def test_temperatures_are_drawn_on_the_readers_scale(units, scale, zero, word):
    answer = cool(model(BIPLANE), duration_s=1200.0)
    panels = cooling.draw(answer, units).axes
    for panel, cases in zip(panels[:2], (answer.cases[:2], answer.cases[2:]), strict=True):
        for line, case in zip(panel.get_lines(), cases, strict=False):
            assert line.get_xdata()[-1] == pytest.approx(20.0)
            assert line.get_ydata() == pytest.approx([scale * kelvin - zero for kelvin in case.temperature_k])
    assert word in panels[0].get_ylabel()


@pytest.mark.parametrize(
    ("units", "air", "film", "watts", "unit"),
    [
        ("us", "air 2 °F at 90 mph", "12.9 BTU/(h ft² °F)", 3600.0 / 1055.056, "BTU/h"),
        ("si", "air -17 °C at 40 m/s", "73 W/(m² K)", 1.0, "W"),
    ],
)
def test_the_heat_balance_stands_below_the_temperatures(units, air, film, watts, unit):
    answer = cool(model(BIPLANE), duration_s=1200.0)
    panels = cooling.draw(answer, units).axes
    assert air in panels[0].get_title(loc="left")
    assert f"film coefficient {film}" in panels[0].get_title(loc="left")
    for panel, cases in zip(panels[2:], (answer.cases[:2], answer.cases[2:]), strict=True):
        *given_off, by_firing = panel.get_lines()
        for line, case in zip(given_off, cases, strict=True):
            assert list(line.get_ydata()) == pytest.approx([watts * each for each in case.given_off_w])
        assert by_firing.get_ydata()[0] == pytest.approx(75.0 * watts)  # 30 rounds a minute of 150 J
        assert "30 rounds a minute" in by_firing.get_label()
    assert f"[{unit}]" in panels[2].get_ylabel()


@pytest.mark.parametrize(("units", "factor", "unit"), [("us", 1.0 / 1.3558179483314004, "lbf ft"), ("si", 1.0, "N m")])
def test_the_couple_over_a_turn_is_drawn_with_the_words_for_its_signs(units, factor, unit):
    answer = couple_of_rotor(polar_inertia_kg_m2=7.0, spin_rad_s=130.0, yaw_rate_rad_s=0.4, pitch_rate_rad_s=0.1)
    turn = over_a_turn(answer, 2)
    (panel,) = couple.draw(turn, units).axes
    pitch, yaw = panel.get_lines()[:2]
    assert (pitch.get_label(), yaw.get_label()) == (
        "pitching moment, nose up positive",
        "yawing moment, nose right positive",
    )
    assert pitch.get_ydata() == pytest.approx([factor * moment for moment in turn.pitch_n_m])
    assert yaw.get_ydata() == pytest.approx([factor * moment for moment in turn.yaw_n_m])
    assert panel.get_ylabel() == f"moment on the airframe [{unit}]"
