"""What one error would explain a gap: its evidence against quadrature, groups, pilot and fuel."""

from dataclasses import replace
from math import exp

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import chi2, multivariate_normal, norm

from sim.airframe.masses import Item, total
from sim.airframe.weighing_data import Weighed
from sim.airframe.weighing_gap import Cause, Effect, Gap, explained, gap
from sim.airframe.weighing_suspects import suspects

COVARIANCE = ((21.0, 4.0), (4.0, 30.0))
GAP = Gap((12.0, 9.0), COVARIANCE, (1.25,))


def at(share, station):
    """Return the effect of a kilogram at a station."""
    return Effect(share, (1.0, station - GAP.datum[0]), station)


def by_quadrature(cause, station):
    """Return evidence, mean and standard deviation of the mass at a station, prior times likelihood summed up."""

    def density(mass):
        arm = station - GAP.datum[0]
        likely = multivariate_normal.pdf([GAP.values[0] - mass, GAP.values[1] - mass * arm], cov=COVARIANCE)
        return likely * norm.pdf(mass, cause.mean, cause.deviation)

    allowed = norm.sf(cause.smallest, cause.mean, cause.deviation)
    moments = [
        quad(lambda mass, k=k: mass**k * density(mass), cause.smallest, 80.0, epsabs=1e-14, epsrel=1e-11, limit=400)[0]
        for k in range(3)
    ]
    mean = moments[1] / moments[0]
    return moments[0] / allowed, mean, (moments[2] / moments[0] - mean**2) ** 0.5


@pytest.mark.parametrize("station", [0.4, 1.9, 3.5])
@pytest.mark.parametrize(("mean", "deviation", "least"), [(0.0, 25.0, -10.0), (0.0, 8.0, 2.0), (30.0, 5.0, 0.0)])
def test_evidence_and_mass_are_those_of_quadrature(station, mean, deviation, least):
    cause = Cause((at(1.0, station),), mean, deviation, least)
    found = explained(GAP, cause)
    evidence, mass, error = by_quadrature(cause, station)
    assert exp(found.evidence) == pytest.approx(evidence, rel=1e-6)
    assert (found.size, found.size_error) == pytest.approx((mass, error), rel=1e-6)


def test_a_cause_of_two_places_is_their_mixture():
    cause = Cause((at(0.3, 0.4), at(0.7, 1.9)), 0.0, 25.0, -10.0)
    found = explained(GAP, cause)
    parts = [(0.3, by_quadrature(cause, 0.4)), (0.7, by_quadrature(cause, 1.9))]
    whole = sum(share * part[0] for share, part in parts)
    assert exp(found.evidence) == pytest.approx(whole, rel=1e-6)
    assert found.size == pytest.approx(sum(s * e * m for s, (e, m, _) in parts) / whole, rel=1e-6)


def test_the_gap_in_standard_errors():
    pair = np.array(GAP.values)
    assert GAP.chi_square == pytest.approx(pair @ np.linalg.solve(COVARIANCE, pair))
    assert GAP.probability == pytest.approx(exp(-0.5 * GAP.chi_square))
    assert GAP.evidence == pytest.approx(multivariate_normal.logpdf(pair, cov=COVARIANCE))
    assert GAP.without(GAP.values) == pytest.approx(0.0, abs=1e-12)
    assert GAP.station_m == 1.25 + 9.0 / 12.0
    three = Gap((12.0, 9.0, -4.0), ((21.0, 4.0, 1.0), (4.0, 30.0, 2.0), (1.0, 2.0, 9.0)), (1.25, 0.8))
    assert three.chi_square == pytest.approx(three.values @ np.linalg.solve(three.covariance, three.values))
    assert three.probability == pytest.approx(chi2.sf(three.chi_square, 3), rel=1e-12)
    assert three.evidence == pytest.approx(multivariate_normal.logpdf(three.values, cov=three.covariance))


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
    (a, b), (_, c) = found.covariance
    assert [np.mean(mass - masses.sum(axis=1)), np.mean(moment)] == pytest.approx(found.values, abs=0.1)
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
    kinds = found.kinds
    shares = (kinds.listed_mass_probability, kinds.station_probability, kinds.errors_alone_probability)
    assert sum(shares) == pytest.approx(1.0)  # nothing moves with an engine, and no readings are given
    groups = sum(one.probability for one in found.suspicions)
    assert groups == pytest.approx(kinds.listed_mass_probability, abs=0.05)  # the rest is a mass in the other unit
    assert first.probability > 0.8
    assert found.one_cause_explains


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
    """Together they are a mass behind the tail, where nothing of an airplane sits."""
    true = total([replace(LIST[0], mass_kg=70.0), LIST[1], replace(LIST[2], mass_kg=65.0), LIST[3]])
    found = suspects(LIST, [], (), scales_of(true.mass_kg, true.cg_station_m))
    assert not found.one_cause_explains


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


HIGH = [
    replace(item, waterline_m=z, waterline_error_m=0.02) for item, z in zip(LIST, (1.9, 1.1, 1.3, 1.2), strict=True)
]


def scales_with_height(true, station_m=0.0, height_m=0.0):
    """Return scales that read an airplane so far off at two attitudes."""
    covariance = ((0.09, 0.0004, 0.0002), (0.0004, 4e-6, 1e-6), (0.0002, 1e-6, 4e-4))
    at = true.cg_station_m + station_m, true.cg_waterline_m + height_m
    return Weighed(true.mass_kg, 0.3, at[0], 0.002, 0.0, 0.0, at[1], 0.02, covariance)


def test_the_covariance_of_a_gap_with_the_height_is_that_of_draws():
    rng, true, draws = np.random.default_rng(8), total(HIGH), 40000
    scales = scales_with_height(true, 0.03, 0.05)
    found = gap(HIGH, scales)
    drawn = [
        np.array([getattr(i, name) for i in HIGH])
        + np.array([getattr(i, error) for i in HIGH]) * rng.normal(size=(draws, len(HIGH)))
        for name, error in (
            ("mass_kg", "mass_error_kg"),
            ("station_m", "station_error_m"),
            ("waterline_m", "waterline_error_m"),
        )
    ]
    read = rng.multivariate_normal(
        [scales.mass_kg, scales.cg_station_m, scales.cg_waterline_m], scales.covariance, draws
    )
    gaps = np.column_stack(
        [
            read[:, 0] - drawn[0].sum(axis=1),
            *(
                read[:, 0] * (read[:, k] - found.datum[k - 1])
                - (drawn[0] * (drawn[k] - found.datum[k - 1])).sum(axis=1)
                for k in (1, 2)
            ),
        ]
    )
    assert gaps.mean(axis=0) == pytest.approx(found.values, abs=0.15)
    covariance = np.array(found.covariance)
    assert np.cov(gaps.T) == pytest.approx(covariance, abs=0.03 * covariance.max())


def test_the_height_tells_two_groups_at_one_station_apart():
    """As much too heavy high up as low down: the station is the same, the height is not."""
    alike = [*HIGH, replace(HIGH[0], name="gear", group="gear", waterline_m=0.4)]
    true = total([replace(HIGH[0], mass_kg=110.0), *alike[1:]])
    found = suspects(alike, [], (), scales_with_height(true))
    assert found.with_height
    assert found.suspicions[0].group == "wings"
    odds = {one.group: one.probability for one in found.suspicions}
    assert odds["wings"] > 10.0 * odds["gear"]
    blind = suspects([replace(item, waterline_m=0.0) for item in alike], [], (), scales_with_height(true))
    odds = {one.group: one.probability for one in blind.suspicions}
    assert not blind.with_height
    assert odds["wings"] == pytest.approx(odds["gear"])


@pytest.mark.parametrize("off_m", [0.11, -0.09])
def test_an_engine_that_stands_elsewhere_is_told_apart_from_a_wrong_mass(off_m):
    moving = [
        *HIGH[:3],
        replace(HIGH[3], moves_with_engine=True),
        Item("cowl", "cowl", 14.0, 0.2, 1.2, moves_with_engine=True),
    ]
    true = total([replace(i, station_m=i.station_m + off_m * i.moves_with_engine) for i in moving])
    found = suspects(moving, [], (), scales_with_height(true))
    assert found.engine.move_m == pytest.approx(off_m, abs=found.engine.move_error_m)
    assert found.engine.probability > 2.0 * max(one.probability for one in found.suspicions)
    assert found.engine.probability > 2.0 * found.item.probability  # a station of one item makes the same gap
    heavy = total([*moving[:3], replace(moving[3], mass_kg=155.0), moving[4]])
    other = suspects(moving, [], (), scales_with_height(heavy))
    assert other.engine.probability < 0.02 < other.suspicions[0].probability
    assert other.suspicions[0].group in ("engine", "cowl")


def test_no_engine_is_suspected_where_nothing_moves_with_it():
    true = total([*HIGH[:2], replace(HIGH[2], mass_kg=30.0), HIGH[3]])
    assert suspects(HIGH, [], (), scales_with_height(true)).engine is None
