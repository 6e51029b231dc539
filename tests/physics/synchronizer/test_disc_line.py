"""The line through marks of a disc: least squares of a library, evidence by quadrature, laps that are counted."""

import math

import numpy as np
import pytest
from scipy.integrate import trapezoid
from scipy.stats import multivariate_normal, theilslopes

from sim.errors import NoAnswerError
from sim.synchronizer.disc_fit import disc_fit
from sim.synchronizer.disc_guesses import guesses, mark_lines
from sim.synchronizer.disc_marks import DiscMarks, line_of_medians, with_laps
from sim.synchronizer.disc_shots import DiscShots, fire

RPM = math.tau / 60.0
SPINS = RPM * np.array([520.0, 610.0, 745.0, 900.0, 1010.0, 1180.0, 1365.0])
GUN = DiscShots(opens_rad=-0.9, delay_s=7.3e-3, time_sd_s=0.3e-3, angle_sd_rad=math.radians(1.3), openings=2)


def marks(gun=GUN, rounds=3, seed=8, spins=SPINS):
    return fire(gun, spins, rounds, np.random.default_rng(seed))


def guess(found, **wanted):
    return next(one for one in found if all(getattr(one, name) == value for name, value in wanted.items()))


@pytest.mark.parametrize("time_share", [0.0, 1.0])
def test_a_known_kind_of_scatter_gives_the_least_squares_of_a_library(time_share):
    shot = marks()
    angles = with_laps(shot, 0.03)
    every = list(guesses(shot.spin_rad_s, angles, shot.speeds, shot.period_rad))
    line = guess(every, time_share=time_share, speed_share=0.0, odd=()).line
    middle = math.exp(np.log(shot.spin_rad_s).mean())
    weights = middle / shot.spin_rad_s if time_share else np.ones_like(shot.spin_rad_s)
    values, covariance = np.polyfit(shot.spin_rad_s, angles, 1, w=weights, cov=True)
    assert line.values[::-1] == pytest.approx(values, rel=1e-10)
    assert line.variance_rad2 * line.line_covariance[::-1, ::-1] == pytest.approx(covariance, rel=1e-9)
    assert line.freedoms == len(angles) - 2


def test_the_resistant_line_is_that_of_a_library_and_stays_where_a_fifth_is_anywhere():
    shot = marks()
    angles = with_laps(shot, 0.03)
    level, slope = line_of_medians(shot.spin_rad_s, angles)
    found = theilslopes(angles, shot.spin_rad_s)
    assert slope == pytest.approx(found.slope, rel=1e-12)
    wild = angles.copy()
    wild[::5] += 2.0
    moved = line_of_medians(shot.spin_rad_s, wild)
    assert moved[1] == pytest.approx(slope, abs=1e-3)
    assert abs(np.polyfit(shot.spin_rad_s, wild, 1)[1] - level) > 3.0 * abs(moved[0] - level)


def test_evidence_is_the_integral_over_line_and_scatter():
    design, angles = np.ones((4, 1)), np.array([0.31, 0.36, 0.29, 0.33])
    spread = np.diag([1.0, 1.7, 0.6, 2.2]) + 0.4
    root = np.linalg.cholesky(spread)

    middles, logs = np.linspace(-6.0, 6.6, 40001), np.linspace(math.log(3e-3), math.log(30.0), 400)
    scaled = np.linalg.solve(root, angles[:, None] - middles)
    squares, size = (scaled**2).sum(axis=0), float(np.log(np.diag(root)).sum()) + 2.0 * math.log(math.tau)
    over = [trapezoid(np.exp(-0.5 * squares / math.exp(2.0 * log) - size - 4.0 * log), middles) for log in logs]
    whole = 2.0 * trapezoid(over, logs)  # twice: a step of the logarithm of the variance is two of that of its root
    assert math.exp(mark_lines(design, angles, spread[None])[0].log_evidence) == pytest.approx(whole, rel=1e-3)


def test_evidence_of_two_spreads_differs_as_that_of_all_contrasts():
    """With the variance known, restricted likelihood is the density of the residuals in any basis free of the line."""
    design = np.vander(np.array([1.0, 1.4, 1.9, 2.7, 3.1]), 2, increasing=True)
    angles = np.array([0.2, 0.5, 0.3, 0.9, 0.7])
    basis = np.linalg.svd(design.T)[2][2:]
    one, other = np.diag([1.0, 2.0, 3.0, 4.0, 5.0]), np.eye(5) + 0.7

    def restricted(spread):
        """Integrate the scatter out of the density of contrasts by quadrature, by its logarithm."""
        logs = np.linspace(math.log(1e-3), math.log(1e3), 20001)
        within = basis @ spread @ basis.T
        unit = multivariate_normal(np.zeros(3), within)
        heights = [unit.logpdf(basis @ angles / math.exp(log)) - 3.0 * log for log in logs]
        return math.log(trapezoid(np.exp(heights), logs))

    found = [line.log_evidence for line in mark_lines(design, angles, np.array([one, other]))]
    assert found[1] - found[0] == pytest.approx(restricted(other) - restricted(one), abs=1e-6)


def test_marks_on_a_line_are_read_exactly():
    shot = marks(DiscShots(2.9, 6.1e-3, openings=2), rounds=2)
    found = disc_fit(shot, 0.03)
    assert found.values[0] % shot.period_rad == pytest.approx(2.9 % math.pi, abs=1e-12)
    assert found.values[1] == pytest.approx(6.1e-3, abs=1e-14)
    assert not found.scatters
    assert found.half_widths == pytest.approx([0.0, 0.0], abs=1e-12)


def test_turning_the_disc_turns_the_cam_and_nothing_else():
    shot, turned = marks(), 1.234
    moved = DiscMarks(shot.spin_rad_s, (shot.angle_rad + turned) % math.tau, shot.period_rad)
    first, second = disc_fit(shot, 0.03), disc_fit(moved, 0.03)
    assert math.remainder(second.values[0] - first.values[0] - turned, shot.period_rad) == pytest.approx(0.0, abs=1e-9)
    assert second.values[1] == pytest.approx(first.values[1], abs=1e-12)
    assert second.half_widths == pytest.approx(first.half_widths, rel=1e-7)
    assert second.scatter_rad == pytest.approx(first.scatter_rad, rel=1e-9)


def test_the_order_of_marks_and_the_opening_that_made_them_do_not_matter():
    shot = marks()
    order = np.random.default_rng(3).permutation(len(shot.angle_rad))
    other = shot.angle_rad[order] + shot.period_rad * np.random.default_rng(4).integers(0, 2, len(order))
    first = disc_fit(shot, 0.03)
    second = disc_fit(DiscMarks(shot.spin_rad_s[order], other % math.tau, shot.period_rad), 0.03)
    assert second.values[1] == pytest.approx(first.values[1], abs=1e-12)
    assert second.scatter_error_rad == pytest.approx(first.scatter_error_rad, rel=1e-8)
    assert math.remainder(second.values[0] - first.values[0], shot.period_rad) == pytest.approx(0.0, abs=1e-9)


def test_twice_the_speed_is_half_the_delay():
    """But for hang-fires, whose times are thought of in seconds, and which are improbable here."""
    shot = marks()
    faster = DiscMarks(2.0 * shot.spin_rad_s, shot.angle_rad, shot.period_rad)
    first, second = disc_fit(shot, 0.03), disc_fit(faster, 0.015)
    assert 2.0 * second.values[1] == pytest.approx(first.values[1], rel=1e-5)
    assert 2.0 * second.half_widths[1] == pytest.approx(first.half_widths[1], rel=1e-3)
    assert second.values[0] == pytest.approx(first.values[0], abs=1e-5)


def test_the_spread_of_the_scatter_is_chi_square_where_the_kind_is_known():
    """At one speed there is one kind of scatter: 95 % of the chi-square lie within the ± about the estimate."""
    from scipy.stats import chi2

    shot = marks(DiscShots(0.4, 5e-3, time_sd_s=1e-3), rounds=9, spins=SPINS[:1])
    found = disc_fit(shot, 0.03)
    assert found.probability(lambda one: float(not one.odd)) > 0.98
    assert found.scatter_rad == pytest.approx(np.std(found.angle_rad, ddof=1), rel=0.02)
    share, freedoms = found.scatter_error_rad / found.scatter_rad, len(shot.angle_rad) - 1
    most, least = (freedoms / (1.0 + side * share) ** 2 for side in (-1.0, 1.0))
    assert chi2.cdf(most, freedoms) - chi2.cdf(least, freedoms) == pytest.approx(0.95, abs=1e-2)


def test_laps_of_late_marks_are_counted():
    """A delay of 25 ms turns the propeller by 210° at the highest speed, more than the 180° between two openings."""
    gun = DiscShots(opens_rad=1.1, delay_s=25e-3, angle_sd_rad=math.radians(1.0), openings=2)
    found = disc_fit(marks(gun), 0.03)
    assert found.values[1] == pytest.approx(25e-3, abs=found.half_widths[1])


def test_laps_that_cannot_be_counted_are_said():
    shot = marks(DiscShots(0.4, 5e-3, openings=4), spins=RPM * np.array([400.0, 1400.0]))
    with pytest.raises(NoAnswerError) as caught:
        with_laps(shot, 0.03)
    assert str(caught.value) == (
        "the laps between speeds cannot be counted: delays of 5.0 ms and 20.0 ms fit alike; mark the disc at speeds "
        "closer together, or give a shorter longest delay"
    )


def test_angles_read_the_wrong_way_round_are_said():
    shot = marks()
    with pytest.raises(NoAnswerError) as caught:
        with_laps(DiscMarks(shot.spin_rad_s, -shot.angle_rad, shot.period_rad), 0.03)
    assert str(caught.value) == (
        "the angles fall as the propeller turns faster, as if rounds passed before their release; read them on "
        "the disc from the line of blade 1 against the direction of rotation"
    )
