from dataclasses import replace

import numpy as np
import pytest

from sim.airframe.masses import Item, PastBuild, fill_missing, total
from sim.errors import InputError

RNG = np.random.default_rng(7)


def some_items(count=6):
    return [
        Item(
            f"item {k}",
            "airframe",
            float(mass),
            *(float(place) for place in RNG.uniform(-2.0, 3.0, 3)),
            length_m=0.4,
            width_m=0.3,
            height_m=0.2,
        )
        for k, mass in enumerate(RNG.uniform(1.0, 80.0, count))
    ]


def tensor(found):
    i = found.inertia_kg_m2
    return np.array([[i.xx, -i.xy, -i.xz], [-i.xy, i.yy, -i.yz], [-i.xz, -i.yz, i.zz]])


def test_two_weights_balance_where_their_moments_do():
    assert total([Item("a", "g", 3.0, 0.0), Item("b", "g", 1.0, 4.0)]).cg_station_m == 1.0


def test_moving_the_datum_moves_the_centre_and_nothing_else():
    items = some_items()
    here, there = total(items), total([replace(item, station_m=item.station_m + 10.0) for item in items])
    assert there.cg_station_m - here.cg_station_m == pytest.approx(10.0, rel=1e-12)
    assert tensor(there) == pytest.approx(tensor(here), rel=1e-11, abs=1e-9)


def test_parallel_axis_theorem():
    """The inertia about any point is that about the centre of gravity plus the whole mass there."""
    items = [replace(item, length_m=0.0, width_m=0.0, height_m=0.0) for item in some_items()]
    found, point = total(items), np.array([0.7, -0.4, 1.9])
    masses = np.array([item.mass_kg for item in items])
    places = np.array([(-i.station_m, i.buttline_m, -i.waterline_m) for i in items]) - point
    about = sum(m * (r @ r * np.eye(3) - np.outer(r, r)) for m, r in zip(masses, places, strict=True))
    centre = np.array([-found.cg_station_m, found.cg_buttline_m, -found.cg_waterline_m]) - point
    carried = tensor(found) + found.mass_kg * (centre @ centre * np.eye(3) - np.outer(centre, centre))
    assert carried == pytest.approx(about, rel=1e-12)


def test_rotation_leaves_the_invariants():
    """Turning the airplane about its datum leaves trace, second invariant and determinant of the tensor."""
    items = [replace(item, length_m=0.0, width_m=0.0, height_m=0.0) for item in some_items()]
    turn, _ = np.linalg.qr(RNG.normal(size=(3, 3)))

    def turned(item):
        s, w, b = turn @ np.array([item.station_m, item.waterline_m, item.buttline_m])
        return replace(item, station_m=float(s), waterline_m=float(w), buttline_m=float(b))

    before = np.linalg.eigvalsh(tensor(total(items)))
    after = np.linalg.eigvalsh(tensor(total([turned(item) for item in items])))
    assert after == pytest.approx(before, rel=1e-11)


def test_a_box_cut_in_many_weighs_turns_and_balances_the_same():
    whole = Item("beam", "g", 12.0, 1.0, length_m=3.0)
    pieces = [Item(f"{k}", "g", 0.012, 1.0 - 1.5 + 0.003 * (k + 0.5)) for k in range(1000)]
    assert total(pieces).inertia_kg_m2.yy == pytest.approx(total([whole]).inertia_kg_m2.yy, rel=1e-5)


def test_a_high_tail_gives_a_positive_product():
    items = [Item("engine", "g", 100.0, 0.0, 0.0), Item("tail", "g", 100.0, 5.0, 0.5)]
    assert total(items).inertia_kg_m2.xz > 0.0


def test_errors_add_in_quadrature_and_cover_the_truth():
    items = [replace(item, mass_error_kg=0.5, station_error_m=0.01) for item in some_items()]
    found = total(items)
    drawn = [
        total(
            replace(
                item,
                mass_kg=item.mass_kg + float(RNG.normal(0.0, 0.5)),
                station_m=item.station_m + float(RNG.normal(0.0, 0.01)),
            )
            for item in items
        ).cg_station_m
        for _ in range(2000)
    ]
    assert np.std(drawn) == pytest.approx(found.cg_error_m, rel=0.05)
    assert found.mass_error_kg == pytest.approx(0.5 * 6**0.5)


def test_a_negative_weight_and_an_empty_list_are_refused():
    with pytest.raises(InputError) as caught:
        total([Item("ballast", "g", -2.0, 0.0), Item("a", "g", 5.0, 0.0)])
    assert str(caught.value) == 'item.ballast.mass: must be at least 0 kg, got "-2 kg"'
    with pytest.raises(InputError) as caught:
        total([])
    assert str(caught.value) == "item: needs at least one item with a mass above 0"


PAST = [
    PastBuild("first", 300.0, {"tail": 15.0, "wings": 75.0}),
    PastBuild("second", 400.0, {"tail": 24.0, "wings": 100.0}),
    PastBuild("third", 350.0, {"tail": 19.25}),
]


def test_missing_items_take_their_share_of_the_empty_weight_they_complete():
    known = [Item("rest", "rest", 278.0, 1.0)]
    filled = fill_missing(known, [Item("tail", "tail", 0.0, 5.0), Item("wings", "wings", 0.0, 1.5)], PAST)
    empty = 278.0 + sum(item.mass_kg for item in filled)
    assert [item.mass_kg / empty for item in filled] == pytest.approx([0.055, 0.25])
    assert filled[0].mass_error_kg == pytest.approx(
        0.005 * empty * (4.0 / 3.0) ** 0.5 * (4.302653 / 1.959964) * (1.0 + 0.055 / 0.695), rel=1e-6
    )
    assert filled[1].mass_error_kg == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("builds", [2, 3, 5])
def test_the_errors_of_filled_masses_cover_the_next_airplane(builds):
    """In 95 % +- 2 % of 2,000 airplanes whose shares scatter as those of the past ones do, for each of three groups."""
    rng = np.random.default_rng(17)
    shares = {"tail": (0.035, 0.0035), "cover": (0.025, 0.005), "wings": (0.19, 0.019)}
    missing = [Item(group, group, 0.0, 1.0) for group in shares]
    inside = []
    for _ in range(2000):
        drawn = {group: mean + scatter * rng.normal(size=builds + 1) for group, (mean, scatter) in shares.items()}
        past = [
            PastBuild(f"{k}", 350.0 + 20.0 * k, {g: float(drawn[g][k]) * (350.0 + 20.0 * k) for g in shares})
            for k in range(builds)
        ]
        true = {group: 450.0 * float(values[-1]) for group, values in drawn.items()}
        filled = fill_missing([Item("rest", "rest", 450.0 - sum(true.values()), 1.0)], missing, past)
        inside.append([abs(item.mass_kg - true[item.group]) < 1.96 * item.mass_error_kg for item in filled])
    assert np.mean(inside, axis=0) == pytest.approx([0.95] * 3, abs=0.02)


def test_a_share_that_one_build_alone_gives_is_refused():
    with pytest.raises(InputError) as caught:
        fill_missing([Item("rest", "rest", 278.0, 1.0)], [Item("canvas", "tial", 0.0, 2.0)], PAST)
    assert str(caught.value) == (
        'item.canvas.mass: is missing, and fewer than 2 past builds give the group "tial"; did you mean tail?'
    )


def test_shares_that_leave_nothing_are_refused():
    past = [PastBuild("a", 100.0, {"wings": 100.0}), PastBuild("b", 100.0, {"wings": 104.0})]
    with pytest.raises(InputError) as caught:
        fill_missing([Item("rest", "rest", 10.0, 1.0)], [Item("wings", "wings", 0.0, 2.0)], past)
    assert str(caught.value) == "past: the shares of the missing items add up to 102% of empty weight"
