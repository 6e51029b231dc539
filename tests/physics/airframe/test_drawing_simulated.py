"""How often the adjustment is right, counted on drawings made at random: intervals, false alarms, misreadings found.

Each count is compared with the probability that the sheet states, within three standard deviations of the count or
the band that is named. Quick versions stand beside the slow ones.
"""

from functools import lru_cache

import numpy as np
import pytest
from random_drawings import PLACES, SIZES_M, covered, drawn
from scipy import stats

from sim.airframe.drawing_adjustment import adjust

CALIPER_M = 8e-5
SLOW = pytest.mark.slow
MANY = pytest.param(300, marks=SLOW)


@lru_cache(maxsize=4096)
def clean(state, distortion):
    """Return the adjustment of a drawing without a misreading; the slow tests share them."""
    return adjust(*drawn(np.random.default_rng(state), distortion=distortion))


def misread(state, distortion, place, share):
    """Return the adjustment of the same drawing with one misreading, a fraction of length."""
    return adjust(*drawn(np.random.default_rng(state), distortion=distortion, blunder={place: share}))


def least_detectable(state, distortion, place):
    """Return the least detectable error of one reading, a fraction of length."""
    return clean(state, distortion).checks[place].least_detectable_m / SIZES_M[PLACES[place][2]]


def named(found, place):
    """Return whether the reading of that place is among the contradictions."""
    view, _, name = PLACES[place]
    return (name, view) in {(each.dimension, each.view) for each in found.contradictions}


def deviations(share, count, low, high=None):
    """Return how many standard deviations of a count a share lies outside a range of probabilities."""
    high = low if high is None else high
    nearest = min(max(share, low), high)
    return abs(share - nearest) / (nearest * (1.0 - nearest) / count) ** 0.5


@pytest.mark.parametrize("distortion", [0.0, 0.001, 0.002])
@pytest.mark.parametrize("count", [15, MANY])
def test_intervals_hold_whether_the_paper_warped_or_not(distortion, count):
    """95 % intervals hold in 93 to 97 % of sizes; 87 to 100 % of the few of the quick version."""
    inside, of = sum(covered(clean(state, distortion)) for state in range(count))
    low, high = (0.93, 0.97) if count > 100 else (0.87, 1.0)
    assert low < inside / of < high


@pytest.mark.parametrize("distortion", [0.0, 0.002])
@pytest.mark.parametrize("count", [15, MANY])
def test_few_conditions_make_intervals_longer_never_too_short(distortion, count):
    """Two views of eight conditions: 93 % at least, though the usual distortion counts beside what they tell."""
    total = np.zeros(2)
    for state in range(count):
        readings, known = drawn(np.random.default_rng(state), distortion=distortion)
        found = adjust([each for each in readings if each.view != "front"], known)
        assert found.degrees_of_freedom == 8
        total += covered(found)
    assert (0.93 if count > 100 else 0.87) < total[0] / total[1] < 1.0


@SLOW
def test_without_the_estimate_warped_paper_makes_intervals_too_short():
    """What a distortion of 0 given for paper that has warped 0.2 % comes to: the reason for the estimate."""
    rng = np.random.default_rng(31)
    inside, of = sum(covered(adjust(*drawn(rng, distortion=0.002), distortion=0.0)) for _ in range(100))
    assert inside / of < 0.8


@pytest.mark.parametrize("count", [60, MANY])
def test_false_alarms_where_errors_are_known(count):
    """At the stated rate at most (the tests are not independent), and not far below: half of it at least."""
    rng = np.random.default_rng(32)
    found = [adjust(*drawn(rng), error_m=CALIPER_M, distortion=0.0) for _ in range(count)]
    stated = 1.0 - 0.999 ** found[0].tests
    assert deviations(np.mean([bool(each.contradictions) for each in found]), count, 0.5 * stated, stated) < 3.0


@SLOW
@pytest.mark.parametrize("distortion", [0.0, 0.001, 0.002])
def test_false_alarms_where_errors_are_estimated(distortion):
    found = [clean(state, distortion) for state in range(300)]
    stated = 1.0 - 0.999 ** found[0].tests
    assert deviations(np.mean([bool(each.contradictions) for each in found]), 300, 0.0001, stated) < 3.0


@pytest.mark.parametrize("count", [150, pytest.param(2000, marks=SLOW)])
def test_misreadings_are_found_as_often_as_baarda_predicts_for_their_redundancy(count):
    """Known errors, misreadings of 5 standard errors, readings binned by redundancy: Φ(5 √r − 3.29)."""
    rng, seen = np.random.default_rng(34), []
    for _ in range(count):
        place, state = int(rng.integers(len(PLACES))), int(rng.integers(2**32))
        values_m = drawn(np.random.default_rng(state), distortion=0.002)[0][place].values_m
        error = np.hypot(CALIPER_M / np.mean(values_m) / len(values_m) ** 0.5, 0.002)
        wrong = drawn(np.random.default_rng(state), distortion=0.002, blunder={place: 5.0 * error})
        found = adjust(*wrong, error_m=CALIPER_M, distortion=0.002)
        redundancy = found.checks[place].redundancy
        seen.append((redundancy, stats.norm.sf(3.2905 - 5.0 * redundancy**0.5), named(found, place)))
    bins = np.array_split(sorted(seen), 4)
    shares = [(each[:, 2].mean(), each[:, 1].mean(), len(each)) for each in bins]
    assert shares[-1][1] - shares[0][1] > 0.25
    assert all(deviations(share, of, predicted - 0.05, predicted) < 3.0 for share, predicted, of in shares), shares


@SLOW
@pytest.mark.parametrize("distortion", [0.0, 0.002])
def test_the_least_detectable_error_is_found_in_four_of_five(distortion):
    """Estimated errors too; a misreading that another reading is named for first counts as missed."""
    rng, count, seen = np.random.default_rng(35), 300, []
    for state in range(count):
        place = int(rng.integers(len(PLACES)))
        share = least_detectable(state, distortion, place) * rng.choice([-1.0, 1.0])
        seen.append(named(misread(state, distortion, place, share), place))
    assert np.mean(seen) == pytest.approx(0.8, abs=0.06)


@pytest.mark.parametrize("count", [10, MANY])
def test_intervals_hold_beside_a_misreading_of_twice_the_least_detectable(count):
    """It is found and left out; the sizes that only it and another give have no interval."""
    rng, total, seen = np.random.default_rng(36), np.zeros(2), []
    for state in range(count):
        place = int(rng.integers(len(PLACES)))
        found = misread(state, 0.001, place, 2.0 * least_detectable(state, 0.001, place))
        seen.append(named(found, place))
        total += covered(found)
    low, high = (0.93, 0.97) if count > 100 else (0.85, 1.0)
    assert low < total[0] / total[1] < high
    assert np.mean(seen) > 0.97 or count < 100


@pytest.mark.parametrize("count", [8, pytest.param(200, marks=SLOW)])
def test_two_misreadings_do_not_hide_each_other(count):
    """Three times the least detectable each, together they look like warped paper: both are named in nine of ten."""
    rng, seen, total = np.random.default_rng(37), [], np.zeros(2)
    for state in range(count):
        places = [int(place) for place in rng.choice(len(PLACES), 2, replace=False)]
        wrong = {p: 3.0 * least_detectable(state, 0.001, p) * rng.choice([-1.0, 1.0]) for p in places}
        found = adjust(*drawn(np.random.default_rng(state), distortion=0.001, blunder=wrong))
        seen.append(all(named(found, place) for place in places))
        total += covered(found)
    assert np.mean(seen) > 0.9 or count < 100
    assert np.mean(seen) > 0.6
    assert (0.93 if count > 100 else 0.85) < total[0] / total[1]
