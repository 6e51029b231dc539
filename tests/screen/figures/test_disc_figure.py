"""The figure of a test disc: marks where they were read, the line and the stated one, and the sense of rotation."""

import math

import pytest
from airplanes import BIPLANE

import sim
from sim.studies.disc_exercise import disc_exercise, solved
from viz.figures import disc
from viz.figures import disc_exercise as paper
from viz.figures.disc import FITTED, RIM, STATED
from viz.figures.inks import INKS, series

SPINS = [math.tau * speed / 60.0 for speed in (600.0, 800.0, 1000.0, 1200.0, 1200.0)]
ANGLES = [41.0, 49.5, 57.5, 66.0, 64.5]


@pytest.fixture(scope="module")
def answer():
    model = sim.load(BIPLANE, set=["cam.dwell=41 °", "cam.opens=17 °"])
    return sim.disc(model, spin_rad_s=SPINS, angle_deg=ANGLES)


def drawn(panel, ink, *, line):
    """Return the data of what is drawn in an ink: lines, or marks."""
    found = [
        one for one in panel.lines if one.get_color() == INKS[series(ink)] and (one.get_linestyle() != "None") == line
    ]
    return [(list(one.get_xdata()), list(one.get_ydata())) for one in found]


def test_marks_stand_where_they_were_read(answer):
    _, polar = sorted(disc.draw(answer, "us").axes, key=lambda panel: panel.name == "polar")
    chart = next(panel for panel in disc.draw(answer, "us").axes if panel.name != "polar")
    speeds = [600.0, 800.0, 1000.0, 1200.0, 1200.0]
    (inside,) = drawn(polar, 0, line=False)
    assert inside[0] == pytest.approx([math.radians(angle) for angle in ANGLES])
    assert inside[1] == pytest.approx(speeds)
    (ring,) = (one for one in drawn(polar, 5, line=False) if len(one[0]) == len(ANGLES))
    assert ring[1] == pytest.approx([RIM * 1200.0] * len(ANGLES))
    (marks,) = drawn(chart, 0, line=False)
    assert [angle % 360.0 for angle in marks[1]] == pytest.approx(ANGLES)


def test_both_lines_are_angle_at_standstill_and_speed_times_delay(answer):
    chart = next(panel for panel in disc.draw(answer, "us").axes if panel.name != "polar")
    for place, delay_ms, opens_deg in (
        (FITTED, answer.delay_ms, answer.stated_opens_deg + answer.cam_error_deg),
        (STATED, answer.stated_delay_ms, answer.stated_opens_deg),
    ):
        ((speeds, angles),) = drawn(chart, place, line=True)
        assert speeds[0] == 0.0
        assert math.remainder(angles[0] - opens_deg, 360.0 / answer.openings) == pytest.approx(0.0, abs=1e-9)
        assert (angles[-1] - angles[0]) / speeds[-1] == pytest.approx(0.36 / 60.0 * delay_ms)


def test_the_band_is_the_interval_of_the_line(answer):
    line = answer.fitted
    middle = min(range(len(line.rpm)), key=lambda place: line.line_error_deg[place])
    assert 600.0 < line.rpm[middle] < 1200.0
    assert line.line_error_deg[0] == pytest.approx(answer.cam_error_error_deg, rel=1e-6)


@pytest.mark.parametrize(("rotation", "sense"), [("clockwise", 1), ("anticlockwise", -1)])
def test_angles_grow_against_the_rotation_seen_from_the_cockpit(rotation, sense):
    model = sim.load(BIPLANE, set=[f'powerplant.rotary.rotation="{rotation}"'])
    figure = disc.draw(sim.disc(model, spin_rad_s=SPINS, angle_deg=ANGLES), "us")
    (polar,) = (panel for panel in figure.axes if panel.name == "polar")
    assert polar.get_theta_direction() == sense  # matplotlib: 1 is anticlockwise
    assert rotation in polar.get_title(loc="left")


def test_odd_marks_are_crosses_and_stay_on_the_ring():
    answer = solved(disc_exercise(0, cause="hang-fires"))
    odd = [mark for mark in answer.marks if mark.odd_probability > 0.5]
    figure = disc.draw(answer, "us")
    (polar,) = (panel for panel in figure.axes if panel.name == "polar")
    (crosses,) = (one for one in polar.lines if one.get_marker() == "x")
    assert list(crosses.get_ydata()) == [mark.rpm for mark in odd]
    (ring,) = (one for one in drawn(polar, 5, line=False) if len(one[0]) == len(answer.marks))
    assert ring[0] == pytest.approx([math.radians(mark.angle_deg) for mark in answer.marks])


def test_the_paper_of_an_exercise_holds_marks_and_no_answer():
    exercise = disc_exercise(4)
    figure = paper.draw(exercise, "us")
    (polar,) = (panel for panel in figure.axes if panel.name == "polar")
    (chart,) = (panel for panel in figure.axes if panel.name != "polar")
    assert not chart.lines
    assert drawn(polar, FITTED, line=True) == []
    angles = [mark.lapped_deg for mark in solved(exercise).marks]
    least, most = chart.get_ylim()
    assert least <= exercise.stated_opens_deg
    assert most >= exercise.stated_opens_deg + max(angles) - min(angles)
