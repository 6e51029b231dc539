"""Redundancy, least detectable errors and advice, each by another route than the conditions that the code goes by."""

import re

import numpy as np
import pytest
from random_drawings import DOCUMENTS_M, SIZES_M, drawn
from scipy import stats

from sim.airframe import drawing_variance
from sim.airframe.drawing import Known, Readings
from sim.airframe.drawing_adjustment import adjust
from sim.airframe.drawing_network import network, solve
from sim.airframe.drawing_variance import USUAL_DISTORTION

CALIPER_M = 8e-5


@pytest.fixture
def sample():
    return drawn(np.random.default_rng(11), distortion=0.001)


def hat(readings, known, distortion):
    """Return the weighted design, the weighted logs and the errors, written anew in a dense form."""
    names = list(dict.fromkeys(each.dimension for each in readings))
    places = list(dict.fromkeys((each.view, each.axis) for each in readings))
    rows, logs, errors = [], [], []
    for each in readings:
        row = np.zeros(len(names) + len(places))
        row[names.index(each.dimension)], row[len(names) + places.index((each.view, each.axis))] = 1.0, -1.0
        mean_m = float(np.mean(each.values_m))
        rows.append(row)
        logs.append(np.log(mean_m))
        errors.append(np.hypot(CALIPER_M / mean_m / len(each.values_m) ** 0.5, distortion))
    for name, size in known.items():
        row = np.zeros(len(names) + len(places))
        row[names.index(name)] = 1.0
        rows.append(row)
        logs.append(np.log(size.value_m))
        errors.append(size.error_m / size.value_m)
    return np.array(rows), np.array(logs), np.array(errors)


def leverages(design):
    """Return the diagonal of the hat matrix: what a unit change of each observation does to its own fit."""
    unit = np.eye(len(design))
    return np.array([(design @ np.linalg.lstsq(design, row, rcond=None)[0])[k] for k, row in enumerate(unit)])


@pytest.mark.parametrize("distortion", [0.0, 0.002])
def test_redundancies_are_one_less_the_leverages(sample, distortion):
    design, _, errors = hat(*sample, distortion)
    found = adjust(*sample, error_m=CALIPER_M, distortion=distortion)
    expected = 1.0 - leverages(design / errors[:, None])
    assert [check.redundancy for check in found.checks] == pytest.approx(expected[: len(sample[0])], abs=1e-9)
    documents = {each.name: each.redundancy for each in found.dimensions if each.known_m}
    assert documents == pytest.approx(dict(zip(sample[1], expected[len(sample[0]) :], strict=True)), abs=1e-9)


def test_redundancies_sum_to_the_degrees_of_freedom(sample):
    found = adjust(*sample)
    documents = sum(each.redundancy for each in found.dimensions if each.known_m)
    assert sum(check.redundancy for check in found.checks) + documents == pytest.approx(found.degrees_of_freedom)
    assert found.degrees_of_freedom == len(sample[0]) + len(DOCUMENTS_M) - len(SIZES_M) - 6


def test_sizes_and_errors_by_lstsq(sample):
    design, logs, errors = hat(*sample, 0.001)
    weighted = design / errors[:, None]
    log_sizes = np.linalg.lstsq(weighted, logs / errors, rcond=None)[0]
    spread = np.sqrt(np.diag(np.linalg.inv(weighted.T @ weighted)))
    found = adjust(*sample, error_m=CALIPER_M, distortion=0.001).dimensions
    names = list(dict.fromkeys(each.dimension for each in sample[0]))
    by_name = {each.name: each for each in found}
    assert [by_name[name].value_m for name in names] == pytest.approx(np.exp(log_sizes[: len(names)]), rel=1e-9)
    relative = [by_name[name].error_m / by_name[name].value_m for name in names]
    assert relative == pytest.approx(spread[: len(names)], rel=1e-7)


def test_the_least_detectable_error_is_baardas_where_errors_are_known(sample):
    _, _, errors = hat(*sample, 0.002)
    found = adjust(*sample, error_m=CALIPER_M, distortion=0.002)
    sizes_m = {each.name: each.value_m for each in found.dimensions}
    noncentrality = stats.norm.ppf(1.0 - 0.0005) + stats.norm.ppf(0.8)
    for reading, check, error in zip(sample[0], found.checks, errors, strict=False):
        expected = noncentrality * error / check.redundancy**0.5 * sizes_m[reading.dimension]
        assert check.least_detectable_m == pytest.approx(expected, rel=1e-6)


def test_a_misreading_of_three_least_detectable_ones_stands_at_three_times_the_noncentrality(sample):
    """12.4 standard errors, give or take the reading's own."""
    readings, known = sample
    before = adjust(readings, known, error_m=CALIPER_M, distortion=0.001)
    share = 3.0 * before.checks[6].least_detectable_m / SIZES_M[readings[6].dimension]
    wrong = Readings(
        readings[6].dimension,
        readings[6].view,
        readings[6].axis,
        tuple(value_m * (1.0 + share) for value_m in readings[6].values_m),
    )
    made = [*readings[:6], wrong, *readings[7:]]
    found = adjust(made, known, error_m=CALIPER_M, distortion=0.001).contradictions
    assert (wrong.dimension, wrong.view) in {(each.dimension, each.view) for each in found}
    assert abs(found[0].normalised_residual) == pytest.approx(3.0 * 4.13, abs=3.0)


def test_neither_the_order_nor_the_size_of_the_paper_matters(sample):
    """Readings backwards; and all of them, with the caliper's error, three times as long."""
    readings, known = sample
    backwards = adjust(readings[::-1], known)
    larger = [
        Readings(each.dimension, each.view, each.axis, tuple(3.0 * value_m for value_m in each.values_m))
        for each in readings
    ]
    first, enlarged = adjust(readings, known), adjust(larger, known)
    for other, ratio in ((backwards, 1.0), (enlarged, 1.0 / 3.0)):
        by_name = {each.name: each for each in other.dimensions}
        assert [by_name[each.name].value_m for each in first.dimensions] == pytest.approx(
            [each.value_m for each in first.dimensions], rel=1e-9
        )
        assert [by_name[each.name].error_m for each in first.dimensions] == pytest.approx(
            [each.error_m for each in first.dimensions], rel=1e-6
        )
        scales = {(each.view, each.axis): each.scale_ratio for each in other.scales}
        assert scales == pytest.approx({(s.view, s.axis): s.scale_ratio * ratio for s in first.scales}, rel=1e-9)


def test_the_restricted_likelihood_is_the_textbook_one(sample):
    """−½ (ln |V| + ln |X'V⁻¹X| + y'Py), up to a constant."""
    readings, known = sample
    whole = network(readings, known, frozenset())

    def textbook(errors, design, logs):
        weighted, target = design / errors[:, None], logs / errors
        left = target - weighted @ np.linalg.lstsq(weighted, target, rcond=None)[0]
        inner = np.linalg.slogdet(weighted.T @ weighted)[1]
        return -0.5 * (2.0 * np.log(errors).sum() + inner + left @ left)

    guesses = (0.0, 0.0005, 0.001, 0.003)
    variances = np.array([hat(readings, known, guess)[2] ** 2 for guess in guesses])
    ours = solve(whole.design, whole.logs, variances).log_likelihood
    design, logs, _ = hat(readings, known, 0.0)
    expected = np.array([textbook(np.sqrt(row), design, logs) for row in variances])
    assert ours - ours[0] == pytest.approx(expected - expected[0], abs=1e-6)


def test_repeats_of_few_degrees_of_freedom_make_students_t():
    """One size, one scale, no condition: all that is uncertain is the scatter of its repeats."""
    values_m = (0.2000, 0.2002, 0.2001, 0.1999)
    made = [Readings("a", "plan", "along", values_m), Readings("b", "plan", "along", (0.1,), 1e-9)]
    found = adjust(made, {"b": Known(1.0, 1e-9)}, distortion=0.0).dimensions[0]
    scatter = np.std(values_m, ddof=1) / 2.0 / np.mean(values_m)
    assert 1.96 * found.error_m / found.value_m == pytest.approx(stats.t.ppf(0.975, 3) * scatter, rel=0.05)


@pytest.mark.parametrize("seed", [3, 4])
def test_the_guesses_are_fine_enough(monkeypatch, seed):
    made = drawn(np.random.default_rng(seed), distortion=0.002)
    coarse = adjust(*made)
    monkeypatch.setattr(drawing_variance, "DISTORTION_GUESSES", 150)
    monkeypatch.setattr(drawing_variance, "SCATTER_GUESSES", 40)
    fine = adjust(*made)
    errors = [[each.error_m for each in found.dimensions] for found in (coarse, fine)]
    assert errors[0] == pytest.approx(errors[1], rel=0.01)
    assert coarse.distortion.distortion == pytest.approx(fine.distortion.distortion, rel=0.02)
    assert coarse.distortion.distortion_high == pytest.approx(fine.distortion.distortion_high, rel=0.06)


@pytest.mark.parametrize("distortion", [0.001, 0.002, 0.004])
def test_the_distortion_is_found(distortion):
    found = [adjust(*drawn(np.random.default_rng(k), distortion=distortion)).distortion for k in range(12)]
    assert np.median([each.distortion for each in found]) == pytest.approx(distortion, rel=0.2)
    assert sum(each.distortion_low < distortion < each.distortion_high for each in found) >= 9
    assert {each.source for each in found} == {"estimated"}


def test_where_nothing_tells_the_distortion_the_usual_one_counts():
    made = [Readings("a", "plan", "along", (0.2,)), Readings("b", "plan", "along", (0.3,))]
    found = adjust(made, {"a": Known(4.0)}, error_m=1e-6)
    assert (found.distortion.source, found.degrees_of_freedom) == ("assumed", 0)
    usual = 2.0**0.5 * USUAL_DISTORTION * found.dimensions[1].value_m
    assert 1.0 < found.dimensions[1].error_m / usual < 1.6


def test_a_distortion_that_is_given_is_taken_as_it_is():
    made = [Readings("a", "plan", "along", (0.2,)), Readings("b", "plan", "along", (0.3,))]
    found = adjust(made, {"a": Known(4.0)}, error_m=1e-6, distortion=0.003)
    assert (found.distortion.source, found.distortion.distortion_high) == ("given", 0.003)
    assert found.dimensions[1].error_m / found.dimensions[1].value_m == pytest.approx(2.0**0.5 * 0.003, rel=1e-3)


def test_a_misreading_that_others_outvote_is_left_out():
    readings, known = drawn(np.random.default_rng(2), blunder={0: 0.02})
    found = adjust(readings, known)
    assert [(each.dimension, each.view) for each in found.contradictions] == [("length", "plan")]
    assert found.contradictions[0].residual_m == pytest.approx(0.02 * SIZES_M["length"], rel=0.15)
    without = adjust([*readings[1:]], known)
    sizes = [{each.name: each.value_m for each in case.dimensions} for case in (found, without)]
    assert sizes[0] == pytest.approx(sizes[1], rel=1e-4)
    assert found.unsure == ()


def test_of_two_readings_that_contradict_neither_gives_a_size_with_an_error():
    """The track is read in two views alone: both are named, and neither touches another size."""
    clean, known = drawn(np.random.default_rng(2))
    place = next(k for k, each in enumerate(clean) if each.dimension == "track")
    wrong, _ = drawn(np.random.default_rng(2), blunder={place: 0.03})
    found, before = adjust(wrong, known), adjust(clean, known)
    assert {(each.dimension, each.view) for each in found.contradictions} == {("track", "plan"), ("track", "front")}
    assert found.unsure == ("track",)
    sizes = [{each.name: each for each in case.dimensions} for case in (found, before)]
    assert np.isnan(sizes[0]["track"].error_m)
    others = SIZES_M.keys() - {"track"}
    apart = {name: abs(sizes[0][name].value_m / sizes[1][name].value_m - 1.0) for name in others}
    assert max(apart.values()) < 5e-4


LINKED = {"a": Known(5.0, 0.002), "b": Known(3.0, 0.002)}


def linked(*more):
    """Return a view with two known sizes and a second one that shows one of them and another."""
    rows = [
        ("a", "plan", "along", 0.5),
        ("b", "plan", "along", 0.3),
        ("c", "plan", "along", 0.2),
        ("a", "side", "along", 0.25),
        ("d", "side", "across", 0.15),
        ("b", "side", "across", 0.12),
        *more,
    ]
    return [Readings(name, view, axis, (value_m,), 1e-4) for name, view, axis, value_m in rows]


def advised(readings, known=LINKED):
    found = adjust(readings, known).checks
    return {
        (each.dimension, each.view): check.advice
        for each, check in zip(readings, found, strict=True)
        if check.least_detectable_m is None
    }


def test_what_would_check_a_reading():
    assert advised(linked()) == {
        ("c", "plan"): "read it along in view side too, or give it from a document",
        ("a", "side"): "read another known dimension along in view side",
        ("d", "side"): "read it along in view plan too, or give it from a document",
        ("b", "side"): "give another dimension that is read across in view side from a document",
    }


def test_advice_that_is_followed_helps():
    """Read again in the view proposed, or documented: the reading is then checked."""
    readings = linked()
    for (name, _), text in advised(readings).items():
        again = re.match(r"read it (along|across) in view (\w+) too", text)
        if again:
            more = linked((name, again[2], again[1], 0.1))
            assert not any(key[0] == name for key in advised(more))
        if "give it from a document" in text:
            assert not any(key[0] == name for key in advised(readings, {**LINKED, name: Known(1.0, 0.01)}))


def test_nothing_is_proposed_that_would_not_help():
    made = [Readings("a", "plan", "along", (0.5,), 1e-4)]
    assert advised(made, {"a": Known(5.0, 0.01)}) == {("a", "plan"): "read another known dimension along in view plan"}
