"""The timing figures: their lines are the answers, no label stands on a mark, and strikes can be seen."""

import math
from dataclasses import replace

import numpy as np
import pytest
from airplanes import BIPLANE
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_hex
from matplotlib.patches import Rectangle

from sim.model.model import model
from sim.studies.burst import burst as fire
from sim.studies.rate import rate as rate_of_fire
from sim.studies.safe_range import safe_range
from sim.studies.windows import windows
from sim.synchronizer.rate import interrupter_rate
from viz.figures import burst, rate
from viz.figures import safe_range as band
from viz.figures import windows as clock
from viz.figures.burst import BORE, LONGEST, SEEN
from viz.figures.sheet import rendered
from viz.figures.timing_look import STRIKE, WINDOW


@pytest.fixture(scope="module")
def cam():
    return safe_range(model(BIPLANE))


def rounds_drawn(answer):
    """Return the bars of a burst's figure: colour, middle on the propeller [°], and length."""
    panel = burst.draw(answer, "us").axes[0]
    found = [bar for bar in panel.patches if isinstance(bar, Rectangle) and bar.get_y() == pytest.approx(BORE)]
    middles = (math.degrees(bar.get_x() + 0.5 * bar.get_width()) for bar in found)
    return panel, [
        (to_hex(bar.get_facecolor()), middle, bar.get_height()) for bar, middle in zip(found, middles, strict=True)
    ]


def test_a_few_strikes_in_many_rounds_are_seen_on_the_blades_at_the_bore_line():
    answer = fire(model(BIPLANE), rounds=200_000)
    assert answer.strikes > 0
    panel, found = rounds_drawn(answer)
    struck = [(middle, length) for colour, middle, length in found if colour == STRIKE]
    assert struck
    assert min(length for _, length in struck) >= SEEN - 1e-12
    assert all(abs(math.remainder(middle, 180.0)) <= 0.5 * answer.blocked_deg for middle, _ in struck)
    crosses = [line for line in panel.get_lines() if line.get_marker() == "x"]
    assert {float(line.get_ydata()[0]) for line in crosses} == {BORE}
    assert len(crosses) == len(struck)


def test_rounds_are_marked_where_they_go_through_a_turning_propeller():
    """A round that passes when blade 1 has gone by an angle goes through the propeller so far behind it."""
    answer = fire(spin_rad_s=[130.0], blades=3, blocked_deg=40.0, delay_s=0.005, natural_rate_per_s=9.0, rounds=20_000)
    _, found = rounds_drawn(answer)
    behind_1 = [(-middle, length**2) for _, middle, length in found if -120.0 < middle < 0.0]
    mean = sum(angle * weight for angle, weight in behind_1) / sum(weight for _, weight in behind_1)
    assert mean == pytest.approx(answer.pass_angle_deg.mean, abs=0.6)
    assert abs(mean - 60.0) > 3.0


def test_of_a_cam_that_stands_to_one_blade_alone_it_is_said_that_all_blades_are_laid_over_each_other():
    """Both blades bear the rounds of one blade interval: the answer has no blade that they met, and that is said."""
    answer = fire(model("tollgate", ["gun.impulses_per_rev=1"]), rounds=20_000)
    _, found = rounds_drawn(answer)
    shares = [share for share in answer.passed_share if share > 0.0]
    assert len(found) == answer.blades * len(shares)
    said = (
        f"Left, the {answer.blades} blades are laid over each other: every bar and cross stands {answer.blades} times"
    )
    assert said in burst.draw(answer, "us").get_suptitle()
    for fired in (answer, replace(answer, untimed=True)):
        drawn = burst.draw(fired, "us")
        renderer = FigureCanvasAgg(drawn).get_renderer()
        (words,) = (text for text in drawn.texts if "laid over" in text.get_text())
        assert words.get_window_extent(renderer).x1 < drawn.bbox.x1
    alone = fire(spin_rad_s=[130.0], blades=1, blocked_deg=40.0, natural_rate_per_s=9.0, rounds=2000)
    assert "laid over" not in burst.draw(alone, "us").get_suptitle()


def test_beside_it_stands_the_same_gun_without_its_gear():
    """Without the gear rounds pass anywhere alike: strikes over the blocked share of the circle, on the same scale."""
    answer = fire(model(BIPLANE), rounds=20_000)
    timed, untimed = burst.draw(answer, "us").axes
    found = [bar for bar in untimed.patches if isinstance(bar, Rectangle) and bar.get_y() == pytest.approx(BORE)]
    (height,) = {bar.get_height() for bar in found}
    assert height == pytest.approx(LONGEST * math.sqrt(1.0 / len(answer.passed_share) / max(answer.passed_share)))
    struck = sum(bar.get_width() for bar in found if to_hex(bar.get_facecolor()) == STRIKE)
    assert 1000.0 * struck / math.tau == pytest.approx(answer.untimed_strikes_per_1000, abs=10.0)
    assert sum(bar.get_width() for bar in found) == pytest.approx(math.tau)
    assert f"strikes per 1000 rounds: {answer.untimed_strikes_per_1000:.3g} (exact)" in untimed.get_title()
    assert f"strikes per 1000 rounds: {answer.strikes_per_1000:.3g} simulated, exact: 0.0" in timed.get_title()
    assert answer.exact.strikes_per_1000 == pytest.approx(
        float(timed.get_title().split("exact: ")[1].split()[0]), rel=0.05
    )


@pytest.mark.parametrize("peak_deg", [0.0, 90.0])
def test_without_the_gear_more_rounds_pass_where_a_rippling_propeller_turns_slower(peak_deg):
    """Alike at any time: the share of a part of a turn is that of the time in it, and of the blades what is said."""
    answer = fire(model(BIPLANE), speed_ripple=0.2, ripple_per_rev=2, ripple_peak_deg=peak_deg, rounds=2000)
    drawn = burst.bars(answer, burst._anywhere(answer), met=True)
    weights = [bar.length**2 for bar in drawn]
    struck = sum(bar.length**2 for bar in drawn if bar.struck) / sum(weights)
    assert 1000.0 * struck == pytest.approx(answer.untimed_strikes_per_1000, rel=0.1)
    even = 2.0 * answer.blocked_deg / 360.0 * 1000.0
    assert (struck * 1000.0 < even) == (peak_deg == 0.0)
    assert abs(answer.untimed_strikes_per_1000 / even - 1.0) > 0.1


def test_where_no_round_struck_none_is_drawn_so():
    """With a margin of half a degree the rounds pass in parts of a turn of which the middle belongs to the blade."""
    gun = {"spin_rad_s": [130.0], "blades": 2, "delay_s": 0.005, "natural_rate_per_s": 9.0}
    answer = fire(**gun, blocked_deg=40.7, margin_deg=0.5, rounds=20_000)
    assert answer.strikes == 0
    assert {colour for colour, _, _ in rounds_drawn(answer)[1]} == {WINDOW}


def test_the_edges_of_the_band_are_on_the_paper(cam):
    for panel, propeller in zip(band.draw(cam, "us").axes, cam.propellers, strict=True):
        (safe,) = propeller.bands
        low, high = panel.get_xlim()
        assert low < safe.from_rpm < safe.to_rpm < high
        inner = f"{math.ceil(safe.from_rpm)} to {math.floor(safe.to_rpm)} rpm"  # what is printed is safe
        assert any(inner in text.get_text() for text in panel.texts)


def test_the_words_on_the_safe_range_stand_clear_of_arcs_and_rounds(cam):
    figure = band.draw(cam, "si")
    rendered(figure, "png")
    FigureCanvasAgg(figure).draw()
    renderer = figure.canvas.get_renderer()
    for panel in figure.axes:
        arcs = [patch.get_window_extent(renderer) for patch in panel.patches if patch.get_hatch()]
        rounds = [line.get_window_extent(renderer) for line in panel.get_lines() if line.get_color() == WINDOW]
        (words,) = (text.get_window_extent(renderer) for text in panel.texts)
        assert arcs
        assert not any(words.overlaps(other) for other in (*arcs, *rounds))


def test_where_rounds_of_a_fixed_cam_meet_a_blade_the_figure_shows_it(cam):
    """Inside a safe range nothing is drawn as a strike; outside, from its ends on."""
    for panel, propeller in zip(band.draw(cam, "us").axes, cam.propellers, strict=True):
        (safe,) = propeller.bands
        strikes = [each for each in panel.collections if to_hex(each.get_facecolor()[0]) == STRIKE]
        speeds = [x for each in strikes for path in each.get_paths() for x in path.vertices[:, 0]]
        step = panel.get_xlim()[1] / 300
        assert not any(safe.from_rpm + step < x < safe.to_rpm - step for x in speeds)
        assert max(x for x in speeds if x < safe.from_rpm + step) == pytest.approx(safe.from_rpm, abs=step)
        assert min(x for x in speeds if x > safe.to_rpm - step) == pytest.approx(safe.to_rpm, abs=step)


def test_the_part_of_the_delay_that_is_an_angle_moves_rounds_at_every_speed(cam):
    """7° more of lead, ± 3° beside the scatter in time: seen alone where the propeller stands still."""
    moved = replace(cam, angle_part_deg=7.0, angle_limit_deg=3.0)
    for panel, before in zip(band.draw(moved, "us").axes, band.draw(cam, "us").axes, strict=True):
        edges, were = (
            [line.get_ydata() for line in one.get_lines() if len(line.get_xdata()) > 2] for one in (panel, before)
        )
        assert [line[0] for line in edges] == pytest.approx([cam.opens_deg + 4.0, cam.opens_deg + cam.dwell_deg + 10.0])
        assert [line[0] for line in were] == pytest.approx([cam.opens_deg, cam.opens_deg + cam.dwell_deg])
        middle, was = (0.5 * (low[-1] + high[-1]) for low, high in (edges, were))
        assert middle - was == pytest.approx(7.0)


def test_the_angles_of_a_figure_end_with_a_turn():
    """At 3000 rpm and a delay of 25 ms rounds pass more than a turn after their release."""
    answer = safe_range(spin_rad_s=[100.0, 314.0], blades=2, blocked_deg=30.0, delay_s=0.025, dwell_deg=20.0)
    (panel,) = band.draw(answer, "us").axes
    assert panel.get_ylim()[1] > 450.0
    assert [panel.yaxis.get_major_formatter()(tick, 0) for tick in (90.0, 270.0, 360.0, 450.0)] == [
        *("90", "270", "0", "90")
    ]


def test_the_staircase_is_drawn_plateau_by_plateau():
    answer = rate_of_fire(model(BIPLANE), powerplant="rotary", longest=3)
    (stairs,) = answer.staircases
    rates, blades = rate.draw(answer, "us").axes
    steps = [line for line in rates.get_lines() if line.get_color() == WINDOW]
    assert [tuple(line.get_xdata()) for line in steps] == [(step.from_rpm, step.to_rpm) for step in stairs.plateaus]
    assert [tuple(line.get_ydata()) for line in steps] == [
        (step.from_rounds_per_min, step.to_rounds_per_min) for step in stairs.plateaus
    ]
    (scattered,) = (line for line in rates.get_lines() if line.get_linestyle() == "--")
    assert list(scattered.get_ydata()) == [row.scattered_rounds_per_min for row in stairs.rows]
    assert (rates.get_ylabel(), blades.get_xlabel()) == ("steady rate of fire [1/min]", "propeller speed [rpm]")
    assert {text.get_text() for text in blades.texts} >= {"1 : 3", "1 : 4"}


@pytest.mark.parametrize("blocked_deg", [24.0, 95.0])
def test_a_dip_is_as_deep_as_it_looks_and_its_size_is_said(blocked_deg):
    """A rate's axis begins at 0; the least stands where a plateau begins, or at an end of the speeds."""
    speeds = [math.tau * rpm / 60.0 for rpm in range(900, 1501, 10)]
    answer = rate_of_fire(spin_rad_s=speeds, blades=2, blocked_deg=blocked_deg, natural_rate_per_s=500.0 / 60.0)
    figure = rate.draw(answer, "si")
    rendered(figure, "png")
    rates = figure.axes[0]
    assert rates.get_ylim()[0] == 0.0
    dense = interrupter_rate(2.0 * np.linspace(900.0, 1500.0, 600_001), 500.0, blocked=blocked_deg, interval=180.0)
    least = float(dense.rounds_per_min.min())
    (said,) = rates.texts
    assert said.xy[1] == pytest.approx(least, rel=1e-5)
    assert said.get_text().startswith(f"least: {least:.0f} at {said.xy[0]:.0f} rpm,\n{100 - least / 5:.0f} % below")
    FigureCanvasAgg(figure).draw()
    renderer = figure.canvas.get_renderer()
    assert not said.get_window_extent(renderer).overlaps(rates.get_legend().get_window_extent(renderer))


def test_the_rate_of_an_uneven_cam_is_drawn_plateau_by_plateau():
    airplane = model(BIPLANE, ['cam.windows=["0 °", "100 °"]', "cam.dwell=30 °"])
    answer = rate_of_fire(airplane, powerplant="rotary")
    (stairs,) = answer.staircases
    rates, blades = rate.draw(answer, "us").axes
    drawn = [list(line.get_ydata()) for line in rates.get_lines() if line.get_color() == WINDOW]
    assert drawn == [[step.from_rounds_per_min, step.to_rounds_per_min] for step in stairs.plateaus]
    heights = [step.intervals_per_pattern / step.rounds_per_pattern for step in stairs.plateaus]
    assert [line.get_ydata()[0] for line in blades.get_lines()] == heights
    assert len(heights) > 4


def test_speeds_without_a_plateau_are_drawn_speed_by_speed():
    """Between 1100 and 1107 rpm no pattern of one round holds: 2 blades of 24°, a gun of 550 rounds a minute."""
    speeds = [math.tau * (1100.5 + step / 4.0) / 60.0 for step in range(20)]
    given = {"blades": 2, "blocked_deg": 24.0, "natural_rate_per_s": 550.0 / 60.0, "longest": 1}
    answer = rate_of_fire(spin_rad_s=speeds, **given)
    (stairs,) = answer.staircases
    assert stairs.plateaus == ()
    rates, blades = rate.draw(answer, "us").axes
    (drawn,) = (line for line in rates.get_lines() if line.get_label() == "synchronized")
    assert list(drawn.get_ydata()) == [row.rounds_per_min for row in stairs.rows]
    (below,) = blades.get_lines()
    shown = [
        (row.rpm, row.intervals_per_pattern / row.rounds_per_pattern) for row in stairs.rows if row.rounds_per_pattern
    ]
    kept = [(x, y) for x, y in zip(below.get_xdata(), below.get_ydata(), strict=True) if not math.isnan(y)]
    assert kept == shown
    assert len(shown) > 10


def test_the_map_is_a_row_for_each_rate_of_the_gun():
    answer = rate_of_fire(
        spin_rad_s=[90.0, 100.0, 110.0], blades=2, blocked_deg=40.0, natural_rate_per_s=9.0, over_rates=True
    )
    mesh = rate.draw(answer, "us").axes[2].collections[0]
    assert mesh.get_array().tolist() == [list(row) for row in answer.staircases[0].over_rates.kept_share]


def test_maps_of_two_engines_have_one_scale_of_colour_and_labels_stay_within_their_panels():
    answer = rate_of_fire(model("tollgate"), over_rates=True)
    figure = rate.draw(answer, "us")
    meshes = [panel.collections[0] for panel in (figure.axes[2], figure.axes[5])]
    least = min(min(row) for each in answer.staircases for row in each.over_rates.kept_share)
    assert [mesh.get_clim() for mesh in meshes] == [(least, 1.0)] * 2
    FigureCanvasAgg(figure).draw()
    renderer = figure.canvas.get_renderer()
    for panel in (figure.axes[1], figure.axes[4]):
        box = panel.get_window_extent(renderer)
        assert len(panel.texts) > 4
        for text in panel.texts:
            own = text.get_window_extent(renderer)
            assert box.x0 - 1.0 <= own.x0 < own.x1 <= box.x1 + 1.0


def test_an_ideal_cam_is_named_so_in_every_figure():
    airplane = model(BIPLANE)
    figure = clock.draw(windows(airplane, ideal=True), "us")
    assert figure._suptitle.get_text().startswith("Ideal cam, fitted to each speed.")
    for ideal in (True, False):
        rates = rate.draw(rate_of_fire(airplane, powerplant="rotary", longest=3, ideal=ideal), "us").axes[0]
        assert ("ideal cam" in rates.get_title(loc="left")) == ideal
        disc = burst.draw(fire(airplane, rounds=2000, ideal=ideal), "us").axes[0]
        assert ("ideal cam" in disc.get_title()) == ideal


@pytest.mark.parametrize("blades", [2, 3])
def test_of_windows_alike_the_one_nearest_to_the_bore_line_is_drawn(blades):
    """Its rounds pass a lead after it opens: at standstill that is the angle part alone, less its scatter."""
    answer = safe_range(model("tollgate", [f"powerplant.rotary.propeller.blades={blades}"]), powerplant="rotary")
    (panel,) = band.draw(answer, "us").axes
    first = min(
        line.get_ydata()[0] for line in panel.get_lines() if line.get_color() == WINDOW and len(line.get_xdata()) > 2
    )
    opens = min((math.remainder(angle, 360.0) for angle in answer.cam.opens_deg), key=abs)
    assert abs(opens) <= 180.0 / blades
    assert first == pytest.approx(opens + answer.angle_part_deg - answer.angle_limit_deg)
