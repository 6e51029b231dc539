"""Clock faces of the windows: rings, lead and senses are the answer's, and nothing written stands on anything else."""

import math
from dataclasses import replace

import pytest
from airplanes import BIPLANE
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex

from sim.model.model import model
from sim.studies.windows import windows
from sim.studies.windows_answer import FiringWindow
from viz.figures import windows as clock
from viz.figures.sheet import rendered
from viz.figures.timing_look import BLOCKED, STRIKE, WINDOW
from viz.figures.windows import PASSAGE, RELEASE, RIM


def clocks_of(answer):
    """Return the clock faces that are drawn, laid out as on paper."""
    figure = clock.draw(answer, "us")
    rendered(figure, "png")
    FigureCanvasAgg(figure).draw()
    return figure, [panel for panel in figure.axes if panel.texts]


def arcs(panel, ring):
    """Return colour, start and end of every arc of a ring of a clock face, in degrees."""
    found = [bar for bar in panel.patches if bar.get_y() == pytest.approx(ring[0])]
    return [
        (
            to_hex(bar.get_facecolor(), keep_alpha=False),
            math.degrees(bar.get_x()),
            math.degrees(bar.get_x() + bar.get_width()),
        )
        for bar in found
    ]


def test_the_rings_are_windows_at_release_and_the_same_a_lead_later():
    answer = windows(model(BIPLANE))
    _, faces = clocks_of(answer)
    assert len(faces) == len(answer.rows) == 6
    for panel, row in zip(faces, answer.rows, strict=True):
        ends = [pytest.approx((arc.from_deg, arc.to_deg)) for arc in row.windows_deg]
        later = [pytest.approx((arc.from_deg + row.lead_deg, arc.to_deg + row.lead_deg)) for arc in row.windows_deg]
        for ring, expected in ((RELEASE, ends), (PASSAGE, later)):
            assert [arc[1:] for arc in arcs(panel, ring) if arc[0] == WINDOW] == expected
        blocked = [arc for arc in arcs(panel, PASSAGE) if arc[0] == BLOCKED["facecolor"]]
        assert [high - low for _, low, high in blocked] == pytest.approx([row.blocked_deg] * 2)
        assert [low + high for _, low, high in blocked] == pytest.approx([0.0, 360.0])


def test_the_lead_joins_the_edges_of_a_window_at_release_and_at_passage():
    answer = windows(model(BIPLANE), powerplant="rotary")
    _, faces = clocks_of(answer)
    for panel, row in zip(faces, answer.rows, strict=True):
        joins = [line for line in panel.get_lines() if line.get_ydata()[0] == RELEASE[1]]
        edges = [edge for arc in row.windows_deg for edge in (arc.from_deg, arc.to_deg)]
        assert [math.degrees(line.get_xdata()[0]) for line in joins] == pytest.approx(edges)
        assert {line.get_ydata()[-1] for line in joins} == {PASSAGE[0]}
        turned = [math.degrees(line.get_xdata()[-1] - line.get_xdata()[0]) for line in joins]
        assert turned == pytest.approx([row.lead_deg] * 4)
        assert any(f"lead {row.lead_deg:.0f}°" in text.get_text() for text in panel.texts)


@pytest.mark.parametrize(("gear", "sense", "direction"), [("1", "clockwise", -1), ("-0.5", "anticlockwise", 1)])
def test_angles_grow_as_the_propeller_turns(gear, sense, direction):
    answer = windows(model(BIPLANE, [f"powerplant.flat_four.gear_ratio={gear}"]), powerplant="flat_four")
    assert {row.rotation for row in answer.rows} == {sense}
    figure, faces = clocks_of(answer)
    assert {panel.get_theta_direction() for panel in faces} == {direction}
    assert f"turns {sense}, seen from the cockpit" in figure._suptitle.get_text()
    for panel in faces:  # the arrow, too, points the way in which the angles grow
        (arrow,) = (line for line in panel.get_lines() if line.get_ydata()[0] == RIM)
        assert arrow.get_xdata()[-1] > arrow.get_xdata()[0]


def test_nothing_written_on_a_clock_face_stands_on_anything_else_written():
    figure, faces = clocks_of(windows(model(BIPLANE)))
    renderer = figure.canvas.get_renderer()
    written = [text for panel in faces for text in (*panel.texts, panel.title)] + [figure._suptitle]
    boxes = [text.get_window_extent(renderer) for text in written if text.get_text()]
    boxes += [legend.get_window_extent(renderer) for legend in figure.legends]
    assert len(boxes) == 6 * 6 + 2
    assert not any(one.overlaps(other) for place, one in enumerate(boxes) for other in boxes[:place])
    assert all(figure.bbox.x0 <= box.x0 and box.x1 <= figure.bbox.x1 and box.y1 <= figure.bbox.y1 for box in boxes)


def test_of_many_speeds_a_few_are_drawn_rising_and_the_head_says_so():
    speeds = [math.tau * rpm / 60.0 for rpm in (1250, *range(900, 1501, 100))]
    figure, faces = clocks_of(windows(None, spin_rad_s=speeds, blades=2.0, blocked_deg=24.0))
    said = [text.get_text() for panel in faces for text in panel.texts if "lead" in text.get_text()]
    assert [int(text.split()[0]) for text in said] == [900, 1000, 1200, 1250, 1400, 1500]
    assert "6 of 8 speeds" in figure._suptitle.get_text()
    assert "sense not being given" in figure._suptitle.get_text()


def test_a_round_that_meets_a_blade_is_seen():
    """A window of 10° to 60° at release, with a lead of 100° and a blade of 30° at 180°: the last 5° strike."""
    found = windows(model(BIPLANE), powerplant="rotary")
    row = replace(
        found.rows[0],
        windows_deg=(FiringWindow("window 1", 10.0, 70.0, -5.0),),
        lead_deg=100.0,
        blocked_deg=30.0,
    )
    _, (panel,) = clocks_of(replace(found, rows=(row,)))
    assert [arc[1:] for arc in arcs(panel, PASSAGE) if arc[0] == STRIKE] == [pytest.approx((165.0, 170.0))]


def test_an_impulse_is_drawn_as_an_instant_and_one_lead_joins_it():
    answer = windows(model(BIPLANE), powerplant="rotary", action="impulse")
    figure, faces = clocks_of(answer)
    assert figure._suptitle.get_text().startswith("Fixed cam.")
    for panel, row in zip(faces, answer.rows, strict=True):
        instants = [line for line in panel.get_lines() if line.get_color() == WINDOW]
        places = [math.degrees(line.get_xdata()[0]) for line in instants]
        at = [arc.from_deg for arc in row.windows_deg]
        assert places == pytest.approx([place for each in at for place in (each, each + row.lead_deg)])
        assert len([line for line in panel.get_lines() if line.get_ydata()[0] == RELEASE[1]]) == len(at)


def test_windows_of_several_turns_are_numbered_by_their_turn():
    """Five windows in three turns of a geared propeller, 216° apart from the first: two, two and one."""
    keys = ["powerplant.flat_four.gear_ratio=0.6", "cam.shaft=engine", "gun.impulses_per_rev=1"]
    answer = windows(model(BIPLANE, keys), powerplant="flat_four")
    _, faces = clocks_of(answer)
    for panel, row in zip(faces, answer.rows, strict=True):
        numbers = {text.get_text(): [] for text in panel.texts if text.get_text() in ("1", "2", "3")}
        for text in panel.texts:
            if text.get_text() in numbers:
                numbers[text.get_text()].append(math.degrees(text.get_position()[0]))
        assert [len(numbers[turn]) for turn in "123"] == [2, 2, 1]
        for turn, angles in numbers.items():
            middles = [
                0.5 * (each.from_deg + each.to_deg) for each in row.windows_deg if each.from_deg // 360 + 1 == int(turn)
            ]
            assert angles == pytest.approx(middles)
    _, plain = clocks_of(windows(model(BIPLANE), powerplant="rotary"))
    assert not [text for panel in plain for text in panel.texts if text.get_text() in ("1", "2", "3")]
