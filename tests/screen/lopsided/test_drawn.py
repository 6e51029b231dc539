"""What is drawn of an airplane without neutral values: the data of the artists are numbers computed here once more."""

import math

import numpy as np
import pytest
from airplanes import LOPSIDED
from matplotlib.colors import to_hex
from shared import answer

from viz.figures import handling_controls, layout
from viz.figures import windows as clock
from viz.figures.timing_look import BLOCKED, WINDOW

SECONDS = 1.2e-3 + 4.0e-3 + 1.5e-3 + 54.0 / 12.0 / 2440.0
"""From cam to disc: link, lock, barrel, and 54 in at 2440 ft/s."""


def bars(panel, colour):
    """Return the ends of the bars of a colour, by the radius at which they begin, in degrees."""
    found = {}
    for bar in panel.patches:
        if to_hex(bar.get_facecolor(), keep_alpha=False) == colour:
            ends = math.degrees(bar.get_x()), math.degrees(bar.get_x() + bar.get_width())
            found.setdefault(round(bar.get_y(), 3), []).append(ends)
    return found


def test_windows_stand_where_the_cam_opens_and_a_lead_later():
    """−21° and 46° on, for each of three blades; the faces of the rotary turn anticlockwise, the others clockwise."""
    figure = clock.draw(answer("windows", LOPSIDED), "us")
    panels = [panel for panel in figure.axes if panel.patches]
    speeds = [(600.0, 1), (1150.0, 1), (1250.0, 1), *((0.62 * rpm, -1) for rpm in (1100.0, 3700.0, 4100.0))]
    assert len(panels) == len(speeds)
    for panel, (rpm, direction) in zip(panels, speeds, strict=True):
        assert panel.get_theta_direction() == direction
        release, passage = (ends for _, ends in sorted(bars(panel, WINDOW).items()))
        lead = 6.0 * rpm * SECONDS
        opened = np.array([[-21.0 + 120.0 * k, 25.0 + 120.0 * k] for k in (1, 2, 3)])
        assert np.array(release) == pytest.approx(opened)
        assert np.array(passage) == pytest.approx(opened + lead, abs=0.01)
        ((_, blades),) = bars(panel, BLOCKED["facecolor"]).items()
        assert [0.5 * (low + high) for low, high in blades] == pytest.approx([0.0, 120.0, 240.0], abs=1e-6)


def lines_of(figure):
    """Return the broken lines of a figure, by panel, as arrays of points."""
    return [[np.column_stack(line.get_data()).astype(float) for line in panel.get_lines()] for panel in figure.axes]


@pytest.mark.parametrize(("units", "inch"), [("us", 1.0), ("si", 25.4)])
def test_layout_shows_dihedral_decalage_sweep_and_stagger(units, inch):
    """Front: planes rise by 3.7° and 2.6°. Side: the root chords slope by 1.2° and 2.9°, the upper 20 in ahead."""
    figure = layout.draw(answer("layout", LOPSIDED), units)
    side, front = lines_of(figure)
    long = [line for line in front if len(line) == 2 and abs(line[1][0] - line[0][0]) > 90.0 * inch]
    slopes = [math.degrees(math.atan2(*(line[1] - line[0])[::-1])) for line in long]
    for degrees in (3.7, 2.6):
        assert any(slope == pytest.approx(degrees, abs=0.01) for slope in slopes)
    outlines = [patch.get_xy() for patch in figure.axes[0].patches]
    edges = sorted((outline[:, 0].min(), *outline[np.argmin(outline[:, 0])]) for outline in outlines)
    assert [edge / inch for edge, *_ in edges] == pytest.approx([22.0, 42.0], abs=0.1)
    assert edges[0][2] - edges[1][2] == pytest.approx(56.0 * inch, abs=0.3 * inch)
    for outline, degrees in zip(sorted(outlines, key=lambda each: each[:, 0].min()), (2.9, 1.2), strict=True):
        nose, tail = (outline[pick(outline[:, 0])] for pick in (np.argmin, np.argmax))
        assert math.degrees(math.atan2(nose[1] - tail[1], tail[0] - nose[0])) == pytest.approx(degrees, abs=0.3)
    assert side


def test_controls_are_drawn_over_their_own_travel():
    """Elevator: 18° of it forward, up; 29° back, down. Rudder 23°, left up; aileron 17°, left up."""
    found = answer("handling", LOPSIDED)
    figure = handling_controls.draw(found, "si")
    for panel, (name, up, down) in zip(
        figure.axes, (("elevator", 18.0, 29.0), ("rudder", 23.0, 23.0), ("aileron", 17.0, 17.0)), strict=False
    ):
        assert not panel.yaxis_inverted()
        for powerplant, one in found.powerplants.items():
            (line,) = (each for each in panel.get_lines() if each.get_label() == powerplant)
            angles = np.array([getattr(turn, f"{name}_deg") for turn in one.turns])
            drawn = np.where(
                [turn.holds for turn in one.turns], 100.0 * angles / np.where(angles > 0.0, up, down), np.nan
            )
            assert np.array(line.get_ydata()) == pytest.approx(drawn, nan_ok=True)
            assert np.array(line.get_xdata()) == pytest.approx([turn.bank_deg for turn in one.turns])
