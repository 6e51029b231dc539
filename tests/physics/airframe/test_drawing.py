import numpy as np
import pytest

from sim.airframe.drawing import Known, Readings, scatter_m, stretch
from sim.airframe.drawing_adjustment import adjust
from sim.errors import InputError

TRUE_M = {"span": 8.53, "length": 5.80, "chord": 1.60, "tail": 2.70, "gap": 1.50, "fin": 1.10}
SHEETS = {
    ("plan", "along"): 1.010 / 24.0,
    ("plan", "across"): 0.995 / 24.0,
    ("side", "along"): 1.020 / 24.0,
    ("side", "across"): 1.005 / 24.0,
}
READ = [
    ("plan", "span", "across"),
    ("plan", "length", "along"),
    ("plan", "chord", "along"),
    ("plan", "tail", "across"),
    ("side", "length", "along"),
    ("side", "gap", "across"),
    ("side", "chord", "along"),
    ("side", "fin", "across"),
]
KNOWN = {"span": Known(8.53, 0.003), "length": Known(5.80), "gap": Known(1.50)}


def readings(*, noise_m=0.0, repeats=3, stated_m=2e-4, off=None, rng=None):
    """Return readings off copies stretched unevenly; `off` maps (view, dimension) to a misreading in metres."""
    made = []
    for view, name, axis in READ:
        on_paper = TRUE_M[name] * SHEETS[view, axis] + (off or {}).get((view, name), 0.0)
        values = [on_paper + (noise_m * float(rng.normal()) if rng else 0.0) for _ in range(repeats)]
        made.append(Readings(name, view, axis, tuple(values), stated_m))
    return made


def sizes(scaled):
    return {dimension.name: dimension.value_m for dimension in scaled.dimensions}


def refusal(made, known, **options):
    with pytest.raises(InputError) as caught:
        adjust(made, known, **options)
    return str(caught.value)


def test_without_noise_every_dimension_comes_out():
    assert sizes(adjust(readings(), KNOWN)) == pytest.approx(TRUE_M, rel=1e-9)


def test_scales_of_a_stretched_copy():
    found = adjust(readings(), KNOWN)
    assert {(s.view, s.axis): s.scale_ratio for s in found.scales} == pytest.approx(
        {place: 1.0 / scale for place, scale in SHEETS.items()}, rel=1e-9
    )
    assert stretch(found, "plan") == pytest.approx(0.995 / 1.010, rel=1e-9)


@pytest.mark.slow
@pytest.mark.parametrize("stated_m", [2e-4, None])
def test_a_noisy_drawing_is_recovered_inside_its_error_bars(stated_m):
    """95 % +- 2 % of 2,000 draws on paper that has not warped, the scatter stated or taken from 30 repeats."""
    rng = np.random.default_rng(2024)
    repeats = 3 if stated_m else 30
    inside, counted = dict.fromkeys(TRUE_M, 0), ("span", "chord", "tail", "fin")
    for _ in range(2000):
        known = {**KNOWN, "span": Known(8.53 + 0.003 * float(rng.normal()), 0.003)}
        made = readings(noise_m=2e-4, repeats=repeats, stated_m=stated_m, rng=rng)
        for found in adjust(made, known, distortion=0.0).dimensions:
            inside[found.name] += abs(found.value_m - TRUE_M[found.name]) < 1.96 * found.error_m
    assert {name: inside[name] / 2000.0 for name in counted} == pytest.approx(dict.fromkeys(counted, 0.95), abs=0.02)


@pytest.mark.parametrize("stated_m", [2e-4, None])
def test_false_alarms_are_rare_whether_the_reading_error_is_stated_or_not(stated_m):
    """Eight readings and three loops, one in 1000 each: near 1 % of drawings."""
    rng = np.random.default_rng(5)
    made = (readings(noise_m=2e-4, rng=rng, stated_m=stated_m) for _ in range(200))
    assert sum(bool(adjust(drawn, KNOWN, distortion=0.0).contradictions) for drawn in made) / 200.0 < 0.035


def test_where_nothing_tells_which_of_a_loop_is_wrong_all_of_it_is_named():
    found = adjust(readings(off={("side", "chord"): 0.004}), KNOWN).contradictions
    assert {(c.view, c.dimension) for c in found} == {(v, d) for v in ("plan", "side") for d in ("chord", "length")}
    assert all(abs(c.normalised_residual) > 3.0 for c in found)


def test_enough_readings_tell_which_one_is_wrong():
    made = readings(off={("side", "chord"): 0.002})
    more = [
        Readings(name, view, "along", (size * SHEETS[view, "along"],), 2e-4)
        for view in ("plan", "side")
        for name, size in (("cowl", 1.0), ("tail arm", 3.9))
    ]
    found = adjust([*made, *more, Readings("chord", "front", "along", (1.60 / 20.0,), 2e-4)], KNOWN).contradictions
    assert {(c.view, c.dimension) for c in found} == {("side", "chord"), ("plan", "chord")}
    more.append(Readings("chord", "plan", "across", (1.60 * SHEETS["plan", "across"],), 2e-4))
    found = adjust([*made, *more], KNOWN).contradictions
    assert [(c.view, c.dimension) for c in found] == [("side", "chord")]
    assert found[0].residual_m == pytest.approx(0.002 / SHEETS["side", "along"], rel=0.05)


def test_one_known_dimension_that_disagrees_is_told_from_two_that_agree():
    made = [Readings(n, "plan", "along", (s / 24.0,), 1e-4) for n, s in (("a", 5.0), ("b", 6.0), ("c", 7.0))]
    found = adjust(made, {"a": Known(5.0, 1e-3), "b": Known(6.0, 1e-3), "c": Known(7.2, 1e-3)})
    assert {c.dimension for c in found.contradictions} == {"c"}
    residual = {d.name: d.residual_m for d in found.dimensions}
    assert residual["c"] == pytest.approx(0.2, rel=0.02)


def test_a_single_known_dimension_has_no_residual():
    found = adjust([Readings("a", "plan", "along", (0.2,), 1e-4)], {"a": Known(5.0)})
    assert found.dimensions[0].residual_m is None


def test_one_scale_serves_a_view_known_in_one_direction():
    made = [Readings("a", "plan", "along", (0.2,), 1e-4), Readings("b", "plan", "across", (0.1,), 1e-4)]
    found = adjust(made, {"a": Known(5.0)}, one_scale=("plan",))
    assert sizes(found)["b"] == pytest.approx(2.5)
    assert stretch(found, "plan") is None


def test_repeats_narrow_the_error_by_their_root():
    once, often = (adjust(readings(repeats=n), KNOWN, distortion=0.0).dimensions[2].error_m for n in (1, 4))
    assert once / often == pytest.approx(2.0, rel=0.01)


def test_repeats_narrow_nothing_that_the_paper_has_done():
    """With a distortion far above the caliper's error four readings are hardly better than one."""
    once, often = (adjust(readings(repeats=n), KNOWN, distortion=0.05).dimensions[2].error_m for n in (1, 4))
    assert once / often == pytest.approx(1.0, rel=0.01)


def test_repeats_that_lie_apart_are_named():
    far = [Readings("door", "plan", "along", (0.0300, 0.0325))]
    found = adjust([*readings(noise_m=2e-4, stated_m=None, rng=np.random.default_rng(1)), *far], KNOWN).contradictions
    assert [(c.view, c.dimension) for c in found] == [("plan", "door")]
    assert found[0].normalised_residual > 3.0
    assert abs(found[0].residual_m) == pytest.approx(0.0025 / SHEETS["plan", "along"], rel=0.02)


def test_a_repeat_that_lies_apart_is_set_against_the_mean_of_the_others():
    made = [Readings("a", "plan", "along", (0.2, 0.2001, 0.1999)), Readings("b", "plan", "along", (0.05, 0.0501, 0.06))]
    (found,) = adjust(made, {"a": Known(5.0)}, error_m=1e-4, distortion=0.0).contradictions
    assert (found.size_m, found.others_m) == pytest.approx((1.5, 25.0 * 0.05005), rel=1e-3)
    assert found.residual_m == pytest.approx(found.size_m - found.others_m, rel=1e-12)


def test_stated_errors_judge_repeats_too():
    made = [Readings("a", "plan", "along", (0.2, 0.201), 1e-4), Readings("b", "plan", "along", (0.1, 0.1001), 1e-4)]
    found = adjust(made, {"a": Known(5.0)}).contradictions
    assert [c.dimension for c in found] == ["a"]
    assert found[0].normalised_residual == pytest.approx(5e-4 / (1e-4 * 0.5**0.5))


def test_scatter_is_pooled():
    made = [Readings("a", "p", "along", (0.10, 0.12)), Readings("b", "p", "along", (0.30, 0.31, 0.32))]
    assert scatter_m(made) == pytest.approx(((0.0002 + 0.0002) ** 0.5 / 3**0.5, 3))


def test_a_direction_that_no_known_dimension_reaches():
    assert refusal(readings(), {"length": KNOWN["length"]}) == (
        "view.plan: no known dimension gives its scale across the sheet; give one, or set one_scale = true\n"
        "view.side: no known dimension gives its scale across the sheet; give one, or set one_scale = true"
    )


def test_a_view_is_reached_through_a_dimension_seen_in_another():
    made = [
        Readings("a", "plan", "along", (0.2,), 1e-4),
        Readings("b", "plan", "along", (0.1,), 1e-4),
        Readings("b", "side", "along", (0.2,), 1e-4),
        Readings("c", "side", "along", (0.4,), 1e-4),
    ]
    assert sizes(adjust(made, {"a": Known(5.0)}))["c"] == pytest.approx(5.0)


def test_no_error_to_go_by():
    assert refusal([Readings("a", "plan", "along", (0.2,))], {"a": Known(5.0)}) == (
        "reading_error: is missing: give it, a ± with each reading, or read some dimensions more than once"
    )
