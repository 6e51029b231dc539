from dataclasses import replace

import numpy as np
import pytest

from sim.airframe.engine_position import (
    HALF_INCH_M,
    ballast_kg,
    ballast_that_serves,
    move_to_target,
    moves_that_serve,
    positions,
)
from sim.airframe.loading import loadings
from sim.airframe.mass_state import MassState
from sim.airframe.masses import Item, total
from sim.airframe.mean_chord import MeanChord
from sim.errors import NoAnswerError

RNG = np.random.default_rng(11)
AIRPLANE = [
    Item("airframe", "airframe", 300.0, 2.3),
    Item("engine", "engine", 130.0, 0.4, moves_with_engine=True),
    Item("pilot", "pilot", 80.0, 2.6),
    Item("main tank", "fuel", 60.0, 1.6),
    Item("gravity tank", "fuel", 12.0, 1.9),
]


def each(items, pilots_kg):
    return [loading.state.whole() for loading in loadings(MassState(tuple(items)), pilots_kg)]


def moved(items, by_m):
    return [replace(item, station_m=item.station_m + by_m) if item.moves_with_engine else item for item in items]


@pytest.mark.parametrize("target", RNG.uniform(1.2, 2.6, 25))
def test_the_move_gives_the_target(target):
    found = total(AIRPLANE)
    move = move_to_target(
        mass_kg=found.mass_kg, cg_station_m=found.cg_station_m, target_station_m=target, moved_mass_kg=130.0
    )
    assert total(moved(AIRPLANE, move)).cg_station_m == pytest.approx(target, abs=1e-12)


def test_every_step_is_what_recomputing_gives():
    found = total(AIRPLANE)
    table = positions(
        mass_kg=found.mass_kg,
        cg_station_m=found.cg_station_m,
        moved_mass_kg=130.0,
        first_move_m=-0.03,
        last_move_m=0.011,
        chord=MeanChord(1.6, 1.9),
    )
    assert [round(step.engine_move_m / HALF_INCH_M, 9) for step in table] == list(range(-3, 2))
    assert [step.cg_percent_mac for step in table] == pytest.approx(
        [100.0 * (step.cg_station_m - 1.9) / 1.6 for step in table]
    )
    assert [step.cg_station_m for step in table] == pytest.approx(
        [total(moved(AIRPLANE, step.engine_move_m)).cg_station_m for step in table], abs=1e-12
    )


def test_ballast_at_the_tail_does_what_the_engine_would():
    found = total(AIRPLANE)
    added = ballast_kg(
        mass_kg=found.mass_kg,
        cg_station_m=found.cg_station_m,
        target_station_m=found.cg_station_m + 0.05,
        ballast_station_m=6.0,
    )
    with_ballast = total([*AIRPLANE, Item("ballast", "ballast", added, 6.0)])
    assert with_ballast.cg_station_m == pytest.approx(found.cg_station_m + 0.05, abs=1e-12)


def test_tail_ballast_cannot_bring_the_centre_forward():
    assert ballast_kg(mass_kg=600.0, cg_station_m=2.0, target_station_m=1.9, ballast_station_m=6.0) is None
    assert ballast_kg(mass_kg=600.0, cg_station_m=2.0, target_station_m=2.0, ballast_station_m=6.0) == 0.0


def test_the_serving_range_is_exactly_where_every_loading_stays_inside():
    points = each(AIRPLANE, (60.0, 110.0))
    found = moves_that_serve(
        points,
        moved_mass_kg=130.0,
        forward_limit_m=1.70,
        aft_limit_m=1.90,
    )

    def inside(by_m):
        reached = [point.cg_station_m for point in each(moved(AIRPLANE, by_m), (60.0, 110.0))]
        return min(reached) >= 1.70 - 1e-12 and max(reached) <= 1.90 + 1e-12

    assert found is not None
    assert all(inside(by_m) for by_m in (*found, 0.5 * sum(found)))
    assert not inside(found[0] - 1e-6)
    assert not inside(found[1] + 1e-6)


def test_limits_nearer_than_the_loadings_are_apart_have_no_position():
    points = each(AIRPLANE, (60.0, 110.0))
    assert moves_that_serve(points, moved_mass_kg=130.0, forward_limit_m=1.80, aft_limit_m=1.801) is None


def test_the_corners_hold_the_extremes_of_every_burn():
    """No amount of fuel in between lies outside the points at full, part-empty and empty."""
    corners = [point.cg_station_m for point in each(AIRPLANE, (60.0, 110.0))]
    for pilot in (60.0, 110.0):
        for main, gravity in [(left, 12.0) for left in np.linspace(0, 60, 40)] + [
            (0.0, x) for x in np.linspace(0, 12, 20)
        ]:
            masses = {"pilot": pilot, "main tank": main, "gravity tank": gravity}
            between = total(replace(i, mass_kg=float(masses.get(i.name, i.mass_kg))) for i in AIRPLANE).cg_station_m
            assert min(corners) - 1e-12 <= between <= max(corners) + 1e-12


def test_the_points_say_who_flies_and_what_is_left():
    assert [point.name for point in loadings(MassState(tuple(AIRPLANE)), (60.0, 110.0))] == [
        "lightest pilot, full tanks",
        "lightest pilot, 1 of 2 tanks empty",
        "lightest pilot, empty tanks",
        "heaviest pilot, full tanks",
        "heaviest pilot, 1 of 2 tanks empty",
        "heaviest pilot, empty tanks",
    ]


def test_nothing_that_moves_has_no_answer():
    with pytest.raises(NoAnswerError) as caught:
        move_to_target(mass_kg=600.0, cg_station_m=2.0, target_station_m=1.9, moved_mass_kg=0.0)
    assert str(caught.value) == (
        "nothing moves with the engine; give the powerplant a mass or set moves_with_engine on its items"
    )


def test_passengers_and_baggage_are_aboard_or_not():
    two = [
        *AIRPLANE,
        Item("front seat", "passenger", 80.0, 1.8),
        Item("rear seat", "passenger", 75.0, 3.1),
        Item("locker", "baggage", 10.0, 3.6),
    ]
    names = [point.name for point in loadings(MassState(tuple(two)), (80.0,)) if point.name.endswith("full tanks")]
    assert names == [
        "pilot, full tanks",
        "pilot, baggage, full tanks",
        "pilot, 1 of 2 passengers, full tanks",
        "pilot, 1 of 2 passengers, baggage, full tanks",
        "pilot, 2 of 2 passengers, full tanks",
        "pilot, 2 of 2 passengers, baggage, full tanks",
    ]
    masses = [round(one.mass_kg, 9) for one in each(two, (80.0,))][::3]
    assert masses == [582.0, 592.0, 662.0, 672.0, 737.0, 747.0]


@pytest.mark.parametrize(("station_m", "forward_m", "aft_m"), [(6.0, 1.75, 2.2), (-0.2, 1.5, 1.8), (6.0, 1.60, 1.95)])
def test_the_range_of_ballast_is_exactly_where_every_loading_stays_inside(station_m, forward_m, aft_m):
    found = ballast_that_serves(
        each(AIRPLANE, (60.0, 110.0)), station_m=station_m, forward_limit_m=forward_m, aft_limit_m=aft_m
    )

    def inside(kg):
        with_it = [*AIRPLANE, Item("lead", "ballast", kg, station_m)]
        reached = [point.cg_station_m for point in each(with_it, (60.0, 110.0))]
        return min(reached) >= forward_m - 1e-9 and max(reached) <= aft_m + 1e-9

    tried = np.linspace(0.0, 120.0, 600)
    serving = [kg for kg in tried if inside(float(kg))]
    if found is None:
        assert not serving
    else:
        assert found[0] == pytest.approx(min(serving), abs=0.3)
        assert min(found[1], 120.0) == pytest.approx(max(serving), abs=0.3)
