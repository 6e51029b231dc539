from math import cos, radians, sin

import numpy as np
import pytest

from sim.airframe.masses import Item, total
from sim.airframe.weighing import Attitude, Reading, Support, weigh
from sim.airframe.weighing_residuals import suspicions
from sim.errors import InputError

SUPPORTS = {"left": Support(1.0, -0.7, 0.2), "right": Support(1.0, 0.7, 0.2), "tail": Support(6.0, 0.0, 0.6)}
RNG = np.random.default_rng(3)


def attitude(name, degrees_up, *, cg=(1.5, 1.1), mass=500.0, error=0.2, noise=0.0, tare=0.0):
    """Return what the scales show under an airplane of known weight and centre of gravity."""
    angle = radians(degrees_up)

    def level(station, waterline):
        return station * cos(angle) + waterline * sin(angle)

    tail = mass * (level(*cg) - level(1.0, 0.2)) / (level(6.0, 0.6) - level(1.0, 0.2))
    true = {"left": (mass - tail) / 2.0, "right": (mass - tail) / 2.0, "tail": tail}
    return Attitude(
        name, angle, {k: Reading(v + tare + noise * float(RNG.normal()), error, tare) for k, v in true.items()}
    )


def refusal(attitudes, supports=SUPPORTS, **options):
    with pytest.raises(InputError) as caught:
        weigh(supports, attitudes, **options)
    return str(caught.value)


def test_level_readings_give_back_the_station():
    found = weigh(SUPPORTS, [attitude("level", 0.0)])
    assert (found.mass_kg, found.cg_station_m) == pytest.approx((500.0, 1.5), abs=1e-12)
    assert found.cg_waterline_m is None


def test_two_attitudes_give_back_the_height_too():
    found = weigh(SUPPORTS, [attitude("level", 0.0), attitude("tail low", 12.0)])
    assert (found.cg_station_m, found.cg_waterline_m) == pytest.approx((1.5, 1.1), abs=1e-12)


def test_three_attitudes_are_adjusted_together():
    found = weigh(SUPPORTS, [attitude("level", 0.0), attitude("half", 6.0), attitude("tail low", 12.0)])
    assert (found.cg_station_m, found.cg_waterline_m) == pytest.approx((1.5, 1.1), abs=1e-12)


def test_a_tail_low_airplane_goes_by_the_assumed_height():
    found = weigh(SUPPORTS, [attitude("tail low", 12.0)], assumed_waterline_m=1.1)
    assert found.cg_station_m == pytest.approx(1.5, abs=1e-12)


def test_tare_is_taken_off():
    found = weigh(SUPPORTS, [attitude("level", 0.0, tare=4.5)])
    assert (found.mass_kg, found.cg_station_m) == pytest.approx((500.0, 1.5), abs=1e-12)


def test_a_heavy_right_side_lies_right():
    readings = {"left": Reading(200.0, 0.1), "right": Reading(250.0, 0.1), "tail": Reading(50.0, 0.1)}
    assert weigh(SUPPORTS, [Attitude("level", 0.0, readings)]).cg_buttline_m == pytest.approx(0.07)


def test_the_stated_errors_cover_the_truth():
    """In 95 % +- 2 % of 2,000 weighings the truth lies within 1.96 standard errors; one in 370 is refused by chance."""
    inside, refused = np.zeros(3), 0
    for _ in range(2000):
        try:
            found = weigh(SUPPORTS, [attitude("level", 0.0, noise=0.2), attitude("tail low", 12.0, noise=0.2)])
        except InputError:
            refused += 1
            continue
        inside += [
            abs(found.mass_kg - 500.0) < 1.96 * found.mass_error_kg,
            abs(found.cg_station_m - 1.5) < 1.96 * found.cg_error_m,
            abs(found.cg_waterline_m - 1.1) < 1.96 * found.cg_waterline_error_m,
        ]
    assert refused < 20
    assert inside / (2000.0 - refused) == pytest.approx([0.95] * 3, abs=0.02)


def test_readings_that_do_not_balance():
    said = refusal([attitude("level", 0.0), attitude("tail low", 12.0, mass=510.0)])
    assert said == (
        "weighing.reading: the readings do not balance: tail low adds up to 510.0 kg (1124.4 lb), "
        "level to 500.0 kg (1102.3 lb); they may differ by 1.5 kg (3.2 lb), three standard errors; "
        "check tares and what was aboard"
    )


def test_a_tail_that_lifts_has_its_centre_outside_the_wheels():
    lifted = attitude("level", 0.0, cg=(0.99, 1.1))
    assert refusal([lifted]) == (
        'weighing.reading: tail at level must be above 0 after tare, got "-1.0 kg (-2.2 lb)": '
        "the centre of gravity would lie outside the wheels; check the reading and its tare"
    )


def test_every_missing_reading_is_named():
    level = Attitude("level", 0.0, {"left": Reading(250.0, 0.2)})
    assert refusal([level]) == (
        "weighing.reading: right is missing at level; every support must stand on a scale\n"
        "weighing.reading: tail is missing at level; every support must stand on a scale"
    )


def test_one_station_and_no_attitude():
    assert refusal([], {"left": Support(1.0), "right": Support(1.0)}) == (
        "weighing.support: needs supports at two stations at least, the main wheels and the tail or nose"
    )
    assert refusal([]) == "weighing.attitude: needs the readings of at least one attitude"


def test_tail_low_alone_says_nothing_of_the_level_station():
    assert refusal([attitude("tail low", 12.0)]) == (
        "weighing.attitude: needs a level attitude, or two a degree or more apart"
    )


ESTIMATE = [
    Item("wings", "wings", 90.0, 1.6, mass_error_kg=3.0),
    Item("fuselage", "fuselage", 120.0, 2.4, mass_error_kg=3.0),
    Item("tail", "tail", 20.0, 5.8, mass_error_kg=3.0),
    Item("engine", "engine", 130.0, 0.4),
]


def test_the_corrections_bring_the_list_to_the_scales():
    found = suspicions(ESTIMATE, mass_kg=367.0, mass_error_kg=0.0, cg_station_m=1.7, cg_error_m=0.0)
    now = total(ESTIMATE)
    assert now.mass_kg + sum(s.correction_kg for s in found) == pytest.approx(367.0, rel=1e-9)
    shift_n_m = sum(s.correction_moment_n_m for s in found)
    assert now.mass_kg * now.cg_station_m + shift_n_m / 9.80665 == pytest.approx(367.0 * 1.7, rel=1e-9)


def test_a_tail_built_too_heavy_is_the_first_suspect():
    true = total([*ESTIMATE[:2], Item("tail", "tail", 26.0, 5.8), ESTIMATE[3]])
    found = suspicions(
        ESTIMATE, mass_kg=true.mass_kg, mass_error_kg=0.2, cg_station_m=true.cg_station_m, cg_error_m=0.001
    )
    assert found[0].group == "tail"
    assert found[0].correction_kg == pytest.approx(6.0, abs=0.5)


def test_what_has_no_error_is_not_suspected():
    found = suspicions(ESTIMATE, mass_kg=370.0, mass_error_kg=0.2, cg_station_m=1.6, cg_error_m=0.001)
    assert next(s for s in found if s.group == "engine").correction_kg == 0.0


def test_scales_no_better_than_the_list_move_it_half_way():
    one = [Item("all", "all", 100.0, 2.0, mass_error_kg=1.0)]
    found = suspicions(one, mass_kg=102.0, mass_error_kg=1.0, cg_station_m=2.0, cg_error_m=1e-9)
    assert found[0].correction_kg == pytest.approx(1.0, rel=1e-6)
