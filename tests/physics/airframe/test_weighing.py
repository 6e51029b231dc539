from dataclasses import replace
from math import cos, radians, sin, tan

import numpy as np
import pytest

from sim.airframe.weighing import weigh
from sim.airframe.weighing_data import Attitude, Reading, Support
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


def test_readings_drawn_within_their_errors_are_no_slips():
    """Drawn about what was read they carry the error of the scales twice; three standard errors of one are no limit."""
    read = [attitude("level", 0.0), attitude("tail low", 12.0, mass=510.0)]
    assert refusal(read)
    assert weigh(SUPPORTS, read, as_read=False).mass_kg == pytest.approx(505.0, abs=0.1)


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


TRUE = {"mass": 540.0, "cg": (1.27, 1.3, 0.02)}
MEASURED = {"left": (0.914, -0.84, 0.0), "right": (0.917, 0.84, 0.01), "tail": (5.334, 0.0, 0.94)}
LENGTH, PITCH, SCALE = 0.003175, radians(0.2), 0.45
"""An eighth of an inch, a fifth of a degree, a pound."""


def loads(mass, cg, angle, places):
    """Return the loads under three supports by equilibrium of force, pitching and rolling moment."""

    def behind(station, waterline):
        return station * cos(angle) + waterline * sin(angle)

    rows = [[1.0] * 3, [behind(s, w) for s, _, w in places], [b for _, b, _ in places]]
    return np.linalg.solve(rows, mass * np.array([1.0, behind(cg[0], cg[1]), cg[2]]))


def drawn_weighing(rng, angles, *, one_axle):
    """Return supports and attitudes as measured of an airplane whose wheels stand elsewhere and tilt otherwise."""
    measured = dict(MEASURED, right=(0.914, 0.84, 0.0)) if one_axle else MEASURED
    shifts = {name: LENGTH * rng.normal(size=3) for name in measured}
    if one_axle:
        shifts["right"][[0, 2]] = shifts["left"][[0, 2]]
    supports = {
        name: Support(*place, station_error_m=LENGTH, buttline_error_m=LENGTH, waterline_error_m=LENGTH)
        for name, place in measured.items()
    }
    attitudes = []
    for angle in angles:
        places = [np.array(place) + shifts[name] for name, place in measured.items()]
        shown = loads(TRUE["mass"], TRUE["cg"], angle + PITCH * rng.normal(), places) + SCALE * rng.normal(size=3)
        readings = {name: Reading(float(load), SCALE) for name, load in zip(measured, shown, strict=True)}
        attitudes.append(Attitude(f"{angle:.2f}", angle, readings, PITCH))
    return supports, attitudes


@pytest.mark.parametrize(
    ("degrees_up", "one_axle"),
    [
        ((11.0,), True),
        ((0.0, 12.0), False),
        pytest.param((0.0,), False, marks=pytest.mark.slow),
        pytest.param((0.0, 12.0), True, marks=pytest.mark.slow),
        pytest.param((0.0, 5.0, 12.0), False, marks=pytest.mark.slow),
    ],
)
def test_errors_of_supports_and_attitudes_cover_the_truth(degrees_up, one_axle):
    """95 % +- 2 % of 2,000 simulated weighings, for each number; and the covariance for all of them together."""
    rng, assumed_error = np.random.default_rng(11), 0.03
    inside, together = [], []
    for _ in range(2000):
        weighed_with = drawn_weighing(rng, [radians(angle) for angle in degrees_up], one_axle=one_axle)
        height = TRUE["cg"][1] + assumed_error * float(rng.normal())
        try:
            found = weigh(*weighed_with, assumed_waterline_m=height, assumed_waterline_error_m=assumed_error)
        except InputError:
            continue
        off = [found.mass_kg - TRUE["mass"], found.cg_station_m - TRUE["cg"][0]]
        errors = [found.mass_error_kg, found.cg_error_m]
        if found.cg_waterline_m is not None:
            off.append(found.cg_waterline_m - TRUE["cg"][1])
            errors.append(found.cg_waterline_error_m)
        together.append(off @ np.linalg.solve(found.covariance, off))
        aside = abs(found.cg_buttline_m - TRUE["cg"][2]) < 1.96 * found.cg_buttline_error_m
        inside.append([*(abs(o) < 1.96 * e for o, e in zip(off, errors, strict=True)), aside])
    assert len(inside) > 1960
    assert np.mean(inside, axis=0) == pytest.approx([0.95] * len(inside[0]), abs=0.02)
    assert np.mean(together) == pytest.approx(len(off), rel=0.08)


def test_the_covariance_holds_the_errors():
    found = weigh(*drawn_weighing(np.random.default_rng(2), [0.0, 0.2], one_axle=False))
    diagonal = [found.covariance[place][place] ** 0.5 for place in range(3)]
    assert diagonal == pytest.approx([found.mass_error_kg, found.cg_error_m, found.cg_waterline_error_m])
    assert all(type(number) is float for row in found.covariance for number in row)


def test_one_attitude_has_no_height_in_its_covariance():
    found = weigh(SUPPORTS, [attitude("level", 0.0)])
    assert [len(row) for row in found.covariance] == [2, 2]


def test_an_error_of_the_main_axle_moves_the_centre_by_the_load_it_carries():
    """Level, scales exact: x = f x1 + (1 - f) x2, so one axle's error counts f, two independent wheels f / sqrt 2."""
    level = attitude("level", 0.0, error=0.0)
    share = 1.0 - level.readings["tail"].net_kg / 500.0
    axle = {**SUPPORTS, **{k: replace(SUPPORTS[k], station_error_m=0.003) for k in ("left", "right")}}
    wheels = {**axle, "right": replace(axle["right"], station_m=1.0 + 1e-9)}
    assert weigh(axle, [level]).cg_error_m == pytest.approx(0.003 * share)
    assert weigh(wheels, [level]).cg_error_m == pytest.approx(0.003 * share / 2.0**0.5)


def test_an_error_of_a_level_attitude_moves_the_centre_by_its_height_over_the_supports():
    level = replace(attitude("level", 0.0, error=0.0), pitch_error_rad=0.002)
    tail = level.readings["tail"].net_kg / 500.0
    height = 1.1 - (0.2 * (1.0 - tail) + 0.6 * tail)
    assert weigh(SUPPORTS, [level], assumed_waterline_m=1.1).cg_error_m == pytest.approx(0.002 * height)


def test_a_tail_low_airplane_takes_the_error_of_the_assumed_height():
    found = weigh(
        SUPPORTS, [attitude("tail low", 12.0, error=0.0)], assumed_waterline_m=1.1, assumed_waterline_error_m=0.02
    )
    assert found.cg_error_m == pytest.approx(0.02 * tan(radians(12.0)))


def test_a_level_attitude_with_an_error_asks_for_the_height():
    level = replace(attitude("level", 0.0), pitch_error_rad=0.002)
    assert refusal([level]) == (
        "weighing.attitude: needs an assumed height for the error of the level attitude, or two attitudes a degree or "
        "more apart"
    )


def test_an_attitude_that_does_not_agree_is_named():
    wrong = replace(attitude("half", 6.0), pitch_rad=radians(5.0))
    said = refusal([attitude("level", 0.0), wrong, attitude("tail low", 12.0)])
    assert said == (
        "weighing.attitude: half does not agree with the other attitudes: its resultant lies 9.9 mm (0.39 in) from "
        "the adjusted one, with a standard error of 1.5 mm (0.06 in); check its pitch, and stations and "
        "waterlines of the supports"
    )
