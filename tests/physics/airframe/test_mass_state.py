"""The list corrected by the scales: held to a least squares of an independent library, to truth that is known, and to
what must stay as it is."""

from dataclasses import replace
from math import erfc

import numpy as np
import pytest
from scipy.optimize import least_squares

from sim.airframe.engine_position import move_error, move_to_target
from sim.airframe.list_correction import DOUBT, corrected, with_another_engine
from sim.airframe.masses import Item, total
from sim.airframe.weighing_data import Weighed
from sim.errors import InputError

LIST = (
    Item("wing", "wings", 98.0, 1.31, 1.9, mass_error_kg=3.1, station_error_m=0.02, waterline_error_m=0.03),
    Item("body", "fuselage", 71.0, 2.6, 1.1, mass_error_kg=2.2, station_error_m=0.04, waterline_error_m=0.02),
    Item("tail", "tail", 15.0, 5.6, 1.3, mass_error_kg=0.9, station_error_m=0.03, waterline_error_m=0.05),
    Item("wheels", "gear", 33.0, 0.9, 0.3, mass_error_kg=0.7, station_error_m=0.01, waterline_error_m=0.01),
    Item(
        "engine",
        "engine",
        131.0,
        0.13,
        1.4,
        mass_error_kg=1.4,
        station_error_m=0.012,
        waterline_error_m=0.02,
        moves_with_engine=True,
    ),
    Item("pilot", "pilot", 86.0, 2.2, 1.35, mass_error_kg=1.1, station_error_m=0.03, waterline_error_m=0.04),
    Item("fuel", "fuel", 60.0, 0.9, 1.5),
)
THERE = ("wing", "body", "tail", "wheels", "engine", "pilot")
SCALES = np.array([[0.4, 2e-4, -3e-4], [2e-4, 9e-6, 4e-6], [-3e-4, 4e-6, 2.5e-4]])


def weighed(mass_kg, station_m, waterline_m=None, covariance=SCALES):
    known = 2 if waterline_m is None else 3
    covariance = np.asarray(covariance)[:known, :known]
    errors = np.sqrt(np.diag(covariance)).tolist()
    return Weighed(
        mass_kg,
        errors[0],
        station_m,
        errors[1],
        0.0,
        0.0,
        waterline_m,
        None if waterline_m is None else errors[2],
        tuple(map(tuple, covariance.tolist())),
    )


def unknowns(items):
    return np.array([[i.mass_kg for i in items], [i.station_m for i in items], [i.waterline_m for i in items]]).ravel()


def errors(items):
    return np.array(
        [[i.mass_error_kg for i in items], [i.station_error_m for i in items], [i.waterline_error_m for i in items]]
    ).ravel()


def by_library(items, there, scales):
    """Return the same adjustment by a general solver: residuals of list and whitened scales, and their Jacobian."""
    start, spread = unknowns(items), errors(items)
    free = spread > 0.0
    white = np.linalg.inv(np.linalg.cholesky(np.array(scales.covariance)))
    seen = [scales.mass_kg, scales.cg_station_m, *([] if scales.cg_waterline_m is None else [scales.cg_waterline_m])]
    aboard = np.array([item.name in there for item in items])

    def residuals(scaled):
        whole = start.copy()
        whole[free] += scaled * spread[free]
        mass, station, height = whole.reshape(3, -1)
        mass = mass * aboard
        given = [mass.sum(), mass @ station / mass.sum(), mass @ height / mass.sum()][: len(seen)]
        return np.concatenate([scaled, white @ (np.array(given) - seen)])

    found = least_squares(residuals, np.zeros(int(free.sum())), xtol=1e-15, ftol=1e-15, gtol=1e-15)
    whole = start.copy()
    whole[free] += found.x * spread[free]
    covariance = np.zeros((len(start), len(start)))
    inner = np.linalg.inv(found.jac.T @ found.jac) * np.outer(spread[free], spread[free])
    covariance[np.ix_(free, free)] = inner
    return whole, covariance


@pytest.mark.parametrize(
    "scales",
    [weighed(439.0, 1.443, 1.36), weighed(431.0, 1.40, 1.33), weighed(436.0, 1.45)],
    ids=["near", "far", "without height"],
)
def test_the_corrections_are_those_of_a_general_solver(scales):
    ours = corrected(LIST, scales, THERE)
    whole, covariance = by_library(LIST, THERE, scales)
    assert unknowns(ours.items) == pytest.approx(whole, abs=2e-5)
    grown = max(1.0, ours.covariance[0, 0] / covariance[0, 0])
    assert ours.covariance == pytest.approx(grown * covariance, rel=2e-3, abs=3e-7)


def test_the_corrected_list_agrees_with_exact_scales():
    exact = weighed(444.0, 1.47, 1.36, covariance=np.diag([1e-14, 1e-16, 1e-16]))
    found = total(i for i in corrected(LIST, exact, THERE).items if i.name in THERE)
    assert (found.mass_kg, found.cg_station_m, found.cg_waterline_m) == pytest.approx((444.0, 1.47, 1.36), rel=1e-7)


def test_scales_that_know_nothing_leave_the_list_as_it_is():
    blind = weighed(500.0, 2.0, 1.0, covariance=np.diag([1e12, 1e6, 1e6]))
    found = corrected(LIST, blind, THERE)
    assert unknowns(found.items) == pytest.approx(unknowns(LIST), abs=1e-6)
    assert found.whole().mass_error_kg == pytest.approx(total(LIST).mass_error_kg, rel=1e-6)
    assert found.whole().cg_error_m == pytest.approx(total(LIST).cg_error_m, rel=1e-6)
    assert found.whole().cg_waterline_error_m == pytest.approx(total(LIST).cg_waterline_error_m, rel=1e-6)


def test_what_did_not_stand_on_the_scales_stays():
    fuel = corrected(LIST, weighed(436.0, 1.45, 1.26), THERE).items[-1]
    assert fuel == LIST[-1]


def test_the_order_of_the_list_does_not_matter():
    scales = weighed(436.0, 1.45, 1.26)
    backwards = corrected(LIST[::-1], scales, THERE).whole()
    forwards = corrected(LIST, scales, THERE).whole()
    for name in ("mass_kg", "mass_error_kg", "cg_station_m", "cg_error_m", "cg_waterline_error_m"):
        assert getattr(backwards, name) == pytest.approx(getattr(forwards, name), rel=1e-9)


def test_an_item_without_error_is_given_one_and_the_pilot_is_not():
    bare = tuple(
        replace(i, mass_error_kg=0.0, station_error_m=0.0, waterline_error_m=0.0) if i.name in ("tail", "pilot") else i
        for i in LIST
    )
    found = {i.name: i for i in corrected(bare, weighed(440.0, 1.46, 1.26), THERE).items}
    assert found["tail"].mass_kg > 15.0
    assert found["pilot"].mass_kg == 86.0


def test_a_list_that_cannot_be_of_that_airplane():
    said = r"^weighing: cannot be of the airplane in the item list, .* in the list: body would have to weigh less than"
    with pytest.raises(InputError, match=said):
        corrected(LIST, weighed(300.0, 0.2, 1.2), THERE)


def test_errors_of_a_sum_are_those_of_draws():
    """Covariance to weight, centre of gravity, its height and the engine's move, beside 40,000 draws of all items."""
    state = corrected(LIST, weighed(437.0, 1.466, 1.36), THERE)
    draws = np.random.default_rng(5).multivariate_normal(unknowns(state.items), state.covariance, size=40_000)
    mass, station, height = draws.reshape(-1, 3, len(LIST)).transpose(1, 0, 2)
    whole = state.whole()
    weight = mass.sum(axis=1)
    centre = (mass * station).sum(axis=1) / weight
    assert whole.mass_error_kg == pytest.approx(weight.std(), rel=0.02)
    assert whole.cg_error_m == pytest.approx(centre.std(), rel=0.02)
    assert whole.cg_waterline_error_m == pytest.approx(((mass * height).sum(axis=1) / weight).std(), rel=0.02)
    moves = (1.6 - centre) * weight / mass[:, 4]
    assert move_error(state, 1.6) == pytest.approx(moves.std(), rel=0.02)


def test_less_fuel_and_another_pilot_change_mass_and_error_alike():
    state = corrected(LIST, weighed(437.0, 1.466, 1.36), THERE)
    half = state.scaled({"body": 0.5})
    assert half.items[1].mass_kg == 0.5 * state.items[1].mass_kg
    assert half.covariance[1, 1] == pytest.approx(0.25 * state.covariance[1, 1])
    assert half.covariance[0, 1] == pytest.approx(0.5 * state.covariance[0, 1])
    known = state.changed(lambda i: replace(i, mass_kg=70.0, mass_error_kg=0.0) if i.name == "pilot" else i)
    assert not known.covariance[5].any()


def test_moving_the_engine_there_and_back_is_nothing():
    state = corrected(LIST, weighed(437.0, 1.466, 1.36), THERE)
    back = state.moved(0.25).moved(-0.25)
    assert [i.station_m for i in back.items] == pytest.approx([i.station_m for i in state.items], abs=1e-15)
    assert state.moved(0.25).whole().cg_station_m - state.whole().cg_station_m == pytest.approx(
        0.25 * state.items[4].mass_kg / state.whole().mass_kg, rel=1e-12
    )


def test_another_engine_takes_the_airframe_as_it_was_weighed():
    state = corrected(LIST, weighed(439.0, 1.45, 1.25), THERE)
    other = Item("rotary", "engine", 173.0, 0.3, 1.4, mass_error_kg=2.0, station_error_m=0.01, moves_with_engine=True)
    found = with_another_engine(state, (*(i for i in LIST if i.name != "engine"), other))
    by_name = {i.name: i for i in found.items}
    assert by_name["body"] == state.items[1]
    assert by_name["rotary"] == other
    shared = [k for k in range(len(LIST)) if k != 4]
    assert found.covariance[0, 1] == state.covariance[shared[0], shared[1]]
    assert found.covariance[len(shared), len(shared)] == 4.0
    assert found.as_weighed


def airplane(rng):
    """Return the truth, a list whose errors lie within its ±, what scales give of the truth, and who was aboard."""
    groups = ["wings", "wings", "fuselage", "fuselage", "fuselage", "tail", "tail", "gear", "gear", "cockpit", "cover"]
    stations = [1.2, 1.4, 1.5, 3.0, 4.5, 5.5, 5.7, 0.95, 5.2, 2.1, 2.5]
    masses = rng.uniform([30, 30, 20, 15, 8, 5, 4, 20, 2, 15, 6], [60, 60, 45, 30, 15, 10, 9, 35, 5, 40, 14])
    truth = [
        Item(f"{group} {k}", group, m, x + rng.normal(0, 0.1), rng.uniform(0.3, 2.0))
        for k, (group, m, x) in enumerate(zip(groups, masses, stations, strict=True))
    ]
    truth.append(Item("engine", "engine", rng.uniform(110, 170), rng.uniform(0.0, 0.3), 1.3, moves_with_engine=True))
    truth += [
        Item("pilot", "pilot", rng.uniform(65, 95), 2.2, 1.3),
        Item("fuel", "fuel", rng.uniform(40, 70), 0.9, 1.5),
    ]
    listed = [
        replace(
            i,
            mass_kg=i.mass_kg + rng.normal(0, s),
            station_m=i.station_m + rng.normal(0, t),
            waterline_m=i.waterline_m + rng.normal(0, t),
            mass_error_kg=s,
            station_error_m=t,
            waterline_error_m=t,
        )
        if i.group not in ("pilot", "fuel")
        else i
        for i in truth
        for s, t in [(rng.uniform(0.01, 0.05) * i.mass_kg, rng.uniform(0.01, 0.03))]
    ]
    there = [i.name for i in truth if i.group != "fuel"]
    seen = total(i for i in truth if i.name in there)
    error = rng.multivariate_normal(np.zeros(3), SCALES)
    scales = weighed(seen.mass_kg + error[0], seen.cg_station_m + error[1], seen.cg_waterline_m + error[2])
    return truth, listed, scales, there


def test_hidden_truth_lies_in_the_stated_intervals():
    """500 airplanes whose items err within their ±: 95 % intervals of weight, CG and engine position cover 93-97 %."""
    rng, inside = np.random.default_rng(2026), []
    for _ in range(500):
        truth, listed, scales, there = airplane(rng)
        state, true = corrected(listed, scales, there), total(truth)
        whole = state.whole()
        moving = [sum(i.mass_kg for i in items if i.moves_with_engine) for items in (truth, state.items)]
        move_true, move = (
            move_to_target(mass_kg=t.mass_kg, cg_station_m=t.cg_station_m, target_station_m=1.5, moved_mass_kg=m)
            for t, m in zip((true, whole), moving, strict=True)
        )
        inside.append(
            [
                abs(whole.mass_kg - true.mass_kg) <= 1.96 * whole.mass_error_kg,
                abs(whole.cg_station_m - true.cg_station_m) <= 1.96 * whole.cg_error_m,
                abs(whole.cg_waterline_m - true.cg_waterline_m) <= 1.96 * whole.cg_waterline_error_m,
                abs(move - move_true) <= 1.96 * move_error(state, 1.5),
            ]
        )
    covered = np.mean(inside, axis=0)
    assert np.all((covered >= 0.93) & (covered <= 0.97)), covered


def test_twelve_pounds_hidden_aft_are_found_where_they_are():
    """What no item owns up to is spread over the list, but weight and centre of gravity are those of the scales."""
    hidden = [*LIST, Item("lead", "tail", 5.44, 5.5)]
    seen = total(i for i in hidden if i.name != "fuel")
    scales = weighed(seen.mass_kg, seen.cg_station_m, seen.cg_waterline_m)
    whole, true = corrected(LIST, scales, THERE).whole(), total(hidden)
    assert abs(whole.mass_kg - true.mass_kg) < 1.96 * whole.mass_error_kg
    assert abs(whole.cg_station_m - true.cg_station_m) < 1.96 * whole.cg_error_m
    assert abs(total(LIST).cg_station_m - true.cg_station_m) > 5.0 * whole.cg_error_m


def test_the_bound_of_doubt_is_that_of_chance():
    from scipy.stats import chi2

    assert {n: pytest.approx(chi2.isf(0.01, n), rel=1e-12) for n in (2, 3)} == DOUBT


def test_a_gap_beyond_chance_widens_the_errors():
    near, far = (corrected(LIST, weighed(m, 1.455, 1.36), THERE).whole().cg_error_m for m in (434.0, 470.0))
    assert far > 2.0 * near


def test_a_false_inside_is_as_rare_as_stated():
    """500 airplanes, each with an aft limit near its centre of gravity: "inside" is true as often as it says."""
    rng = np.random.default_rng(7)
    called, stated, false = 0, 0.0, 0
    for _ in range(500):
        truth, listed, scales, there = airplane(rng)
        whole, true_m = corrected(listed, scales, there).whole(), total(truth).cg_station_m
        limit_m = true_m + rng.uniform(-0.02, 0.02)
        if whole.cg_station_m <= limit_m:
            called += 1
            stated += 0.5 * erfc((limit_m - whole.cg_station_m) / (whole.cg_error_m * np.sqrt(2.0)))
            false += true_m > limit_m
    assert called > 200
    assert abs(false - stated) < 3.0 * np.sqrt(stated)
