"""What one error would explain a gap: its evidence against quadrature, groups, pilot and fuel."""

from dataclasses import replace
from math import exp

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import multivariate_normal, norm

from sim.airframe.masses import Item, total
from sim.airframe.weighing_data import Weighed
from sim.airframe.weighing_gap import Cause, Gap, explained, gap
from sim.airframe.weighing_suspects import suspects

GAP = Gap(12.0, 9.0, (21.0, 4.0, 30.0), 1.25)
COVARIANCE = [[21.0, 4.0], [4.0, 30.0]]


def by_quadrature(cause, station):
    """Return evidence, mean and standard deviation of the mass at a station, prior times likelihood summed up."""

    def density(mass):
        arm = station - GAP.datum_m
        likely = multivariate_normal.pdf([GAP.mass_kg - mass, GAP.moment_kg_m - mass * arm], cov=COVARIANCE)
        return likely * norm.pdf(mass, cause.mean_kg, cause.deviation_kg)

    allowed = norm.sf(cause.smallest_kg, cause.mean_kg, cause.deviation_kg)
    moments = [
        quad(lambda mass, k=k: mass**k * density(mass), cause.smallest_kg, 80.0, epsabs=1e-14, epsrel=1e-11, limit=400)[
            0
        ]
        for k in range(3)
    ]
    mean = moments[1] / moments[0]
    return moments[0] / allowed, mean, (moments[2] / moments[0] - mean**2) ** 0.5


@pytest.mark.parametrize("station", [0.4, 1.9, 3.5])
@pytest.mark.parametrize(("mean", "deviation", "least"), [(0.0, 25.0, -10.0), (0.0, 8.0, 2.0), (30.0, 5.0, 0.0)])
def test_evidence_and_mass_are_those_of_quadrature(station, mean, deviation, least):
    cause = Cause(((1.0, station),), mean, deviation, least)
    found = explained(GAP, cause)
    evidence, mass, error = by_quadrature(cause, station)
    assert exp(found.evidence) == pytest.approx(evidence, rel=1e-6)
    assert (found.mass_kg, found.error_kg) == pytest.approx((mass, error), rel=1e-6)


def test_a_cause_of_two_places_is_their_mixture():
    cause = Cause(((0.3, 0.4), (0.7, 1.9)), 0.0, 25.0, -10.0)
    found = explained(GAP, cause)
    parts = [(0.3, by_quadrature(cause, 0.4)), (0.7, by_quadrature(cause, 1.9))]
    whole = sum(share * part[0] for share, part in parts)
    assert exp(found.evidence) == pytest.approx(whole, rel=1e-6)
    assert found.mass_kg == pytest.approx(sum(s * e * m for s, (e, m, _) in parts) / whole, rel=1e-6)


def test_the_gap_in_standard_errors():
    pair = np.array([GAP.mass_kg, GAP.moment_kg_m])
    assert GAP.chi_square == pytest.approx(pair @ np.linalg.solve(COVARIANCE, pair))
    assert GAP.probability == pytest.approx(exp(-0.5 * GAP.chi_square))
    assert GAP.evidence == pytest.approx(multivariate_normal.logpdf(pair, cov=COVARIANCE))
    assert GAP.without(GAP.mass_kg, GAP.station_m) == pytest.approx(0.0, abs=1e-12)


def scales_of(mass, station, mass_error=0.3, station_error=0.002, both=0.0):
    covariance = ((mass_error**2, both), (both, station_error**2))
    return Weighed(mass, mass_error, station, station_error, 0.0, 0.0, None, None, covariance)


LIST = [
    Item("wings", "wings", 90.0, 1.6, mass_error_kg=3.0, station_error_m=0.02),
    Item("fuselage", "fuselage", 120.0, 2.4, mass_error_kg=3.0),
    Item("tail", "tail", 20.0, 5.8, mass_error_kg=1.0),
    Item("engine", "engine", 130.0, 0.4),
]


def test_the_covariance_of_a_gap_is_that_of_draws():
    """List and scales drawn 40,000 times: each element within 3 % of the largest."""
    rng, true, draws = np.random.default_rng(5), total(LIST), 40000
    scales = scales_of(true.mass_kg, true.cg_station_m + 0.05, 1.5, 0.01, both=0.008)
    masses, stations = (
        np.array([getattr(i, name) for i in LIST])
        + np.array([getattr(i, error) for i in LIST]) * rng.normal(size=(draws, len(LIST)))
        for name, error in (("mass_kg", "mass_error_kg"), ("station_m", "station_error_m"))
    )
    mass, station = rng.multivariate_normal([scales.mass_kg, scales.cg_station_m], scales.covariance, draws).T
    moment = mass * (station - true.cg_station_m) - (masses * (stations - true.cg_station_m)).sum(axis=1)
    found = gap(LIST, scales)
    a, b, c = found.covariance
    assert [np.mean(mass - masses.sum(axis=1)), np.mean(moment)] == pytest.approx(
        [found.mass_kg, found.moment_kg_m], abs=0.1
    )
    assert np.cov(mass - masses.sum(axis=1), moment) == pytest.approx(np.array([[a, b], [b, c]]), abs=0.03 * c)


def test_what_agrees_within_the_errors_names_nobody():
    true = total([*LIST[:2], replace(LIST[2], mass_kg=21.0), LIST[3]])
    found = suspects(LIST, [], (), scales_of(true.mass_kg, true.cg_station_m))
    assert found.gap_probability > 0.04
    assert (found.suspicions, found.aboard) == ((), None)


def test_a_tail_built_too_heavy_is_the_first_suspect():
    true = total([*LIST[:2], replace(LIST[2], mass_kg=26.0), LIST[3]])
    found = suspects(LIST, [], (), scales_of(true.mass_kg, true.cg_station_m))
    first = found.suspicions[0]
    assert (first.group, first.estimate_kg, first.estimate_error_kg) == ("tail", 20.0, 1.0)
    assert first.correction_kg == pytest.approx(6.0, abs=first.correction_error_kg)
    assert first.correction_moment_n_m == pytest.approx(first.correction_kg * 5.8 * 9.80665)
    assert sum(s.probability for s in found.suspicions) + found.errors_alone_probability == pytest.approx(1.0)
    assert found.one_group_explains


def test_an_engine_without_an_error_may_be_wrong_all_the_same():
    true = total([*LIST[:3], replace(LIST[3], mass_kg=155.0)])
    found = suspects(LIST, [], (), scales_of(true.mass_kg, true.cg_station_m))
    assert found.suspicions[0].group == "engine"
    assert found.suspicions[0].correction_kg == pytest.approx(25.0, abs=4.0)


def test_groups_at_one_station_share_the_probability():
    alike = [*LIST[:3], replace(LIST[3], mass_kg=65.0), Item("oil", "oil", 65.0, 0.4)]
    true = total([*LIST[:3], replace(LIST[3], mass_kg=155.0)])
    found = suspects(alike, [], (), scales_of(true.mass_kg, true.cg_station_m))
    first, second = found.suspicions[:2]
    assert {first.group, second.group} == {"engine", "oil"}
    assert first.probability == pytest.approx(second.probability)


def test_no_group_gets_lighter_than_nothing():
    true = total([replace(LIST[0], mass_kg=60.0), *LIST[1:]])
    light = [*LIST, Item("cover", "cover", 5.0, 1.6)]
    found = suspects(light, [], (), scales_of(true.mass_kg, true.cg_station_m))
    cover = next(s for s in found.suspicions if s.group == "cover")
    assert cover.correction_kg >= -5.0
    assert cover.probability < 0.01 * found.suspicions[0].probability


def test_two_errors_far_apart_are_no_single_group():
    true = total([replace(LIST[0], mass_kg=60.0), LIST[1], replace(LIST[2], mass_kg=45.0), LIST[3]])
    found = suspects(LIST, [], (), scales_of(true.mass_kg, true.cg_station_m))
    assert not found.one_group_explains


def test_exact_scales_under_an_exact_list():
    items = [replace(item, mass_error_kg=0.0, station_error_m=0.0) for item in LIST]
    true = total([*items[:2], replace(items[2], mass_kg=26.0), items[3]])
    found = suspects(items, [], (), scales_of(true.mass_kg, true.cg_station_m, 0.0, 0.0))
    assert found.suspicions[0].group == "tail"
    assert found.suspicions[0].correction_kg == pytest.approx(6.0, rel=1e-3)


CREW = [
    Item("pilot", "pilot", 86.0, 2.1),
    Item("main tank", "fuel", 60.0, 0.9),
    Item("top tank", "fuel", 30.0, 1.2),
]


@pytest.mark.parametrize(
    ("aboard", "group", "items", "whole"),
    [
        (CREW[:1], "pilot", ("pilot",), True),
        (CREW[1:], "fuel", ("main tank", "top tank"), True),
        (CREW[1:2], "fuel", ("main tank",), False),
    ],
)
def test_pilot_and_fuel_aboard_or_left_out_are_guessed(aboard, group, items, whole):
    heavy, light = total([*LIST, *aboard]), total([i for i in (*LIST, *CREW) if i not in aboard])
    came = suspects(LIST, CREW, ("pilot", "fuel"), scales_of(heavy.mass_kg + 2.0, heavy.cg_station_m))
    left = suspects([*LIST, *CREW], [], ("pilot", "fuel"), scales_of(light.mass_kg + 2.0, light.cg_station_m))
    for found, left_out in ((came, False), (left, True)):
        guess = found.aboard
        assert (guess.group, guess.items, guess.whole, guess.left_out) == (group, items, whole, left_out)
        assert guess.probability > 0.5
        assert guess.mass_kg == sum(item.mass_kg for item in aboard)
