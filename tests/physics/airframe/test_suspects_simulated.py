"""Suspects in simulated airplanes whose error is known, weighed at two attitudes with errors of their own."""

from dataclasses import replace
from math import cos, exp, radians, sin

import numpy as np
import pytest

from sim.airframe.masses import Item, total
from sim.airframe.weighing import weigh
from sim.airframe.weighing_data import Attitude, Reading, Support, Weighing
from sim.airframe.weighing_gap import gap
from sim.airframe.weighing_suspects import suspects
from sim.errors import InputError

CREW = [
    Item("pilot", "pilot", 86.0, 2.1),
    Item("main tank", "fuel", 60.0, 0.9),
    Item("top tank", "fuel", 30.0, 1.2),
]
PLACES = {"left": (0.7, -0.84, 0.0), "right": (0.703, 0.84, 0.0), "tail": (5.334, 0.0, 0.94)}
SIXTEENTH, PITCH, SCALE = 0.0015875, radians(0.1), 0.45


def weighed(rng, true, mains_off_m=0.0):
    """Return what scales say of an airplane at two attitudes, wheels and pitch measured with errors, and the readings.

    The main wheels stand so far aft of where they are written.
    """
    supports = {
        name: Support(*place, station_error_m=SIXTEENTH, waterline_error_m=SIXTEENTH) for name, place in PLACES.items()
    }
    stood = np.array(list(PLACES.values())) + SIXTEENTH * rng.normal(size=(3, 3)) * [1.0, 0.0, 1.0]
    stood[:2, 0] += mains_off_m
    attitudes = []
    for angle in (0.0, radians(12.0)):
        turned = angle + PITCH * rng.normal()
        behind = stood[:, 0] * cos(turned) + stood[:, 2] * sin(turned)
        centre = true.cg_station_m * cos(turned) + true.cg_waterline_m * sin(turned)
        loads = np.linalg.solve([np.ones(3), behind, stood[:, 1]], true.mass_kg * np.array([1.0, centre, 0.0]))
        readings = {
            name: Reading(float(load), SCALE)
            for name, load in zip(PLACES, loads + SCALE * rng.normal(size=3), strict=True)
        }
        attitudes.append(Attitude(f"{angle:.1f}", angle, readings, PITCH))
    return weigh(supports, attitudes), Weighing("any", (), supports, tuple(attitudes))


BIPLANE = {
    "engine": [(123.0, 0.11), (11.0, 0.48), (12.0, 0.05), (9.0, 0.2), (16.0, 0.08), (8.6, -0.24)],
    "electrics": [(11.0, 0.41)],
    "gear": [(30.0, 0.86), (3.2, 5.23)],
    "wings": [(43.5, 1.21), (40.0, 1.66), (15.4, 1.44)],
    "cockpit": [(7.3, 2.18), (10.0, 1.98), (5.4, 1.63), (11.8, 1.37)],
    "fuselage": [(51.0, 2.13), (17.0, 0.84)],
    "cover": [(9.9, 2.44)],
    "tail": [(14.9, 5.18)],
}
"""Mass and station of twenty items in eight groups; wings, cockpit and fuselage overlap."""
COMPACT = {
    "engine": 0.1,
    "electrics": 0.45,
    "gear": 0.86,
    "wings": 1.4,
    "cockpit": 1.9,
    "fuselage": 2.5,
    "cover": 3.2,
    "tail": 5.18,
}
"""Stations of the same groups where each keeps to itself."""
HEIGHTS = {
    "engine": [1.35],
    "electrics": [1.2],
    "gear": [0.45, 0.75],
    "wings": [0.85, 2.2, 1.55],
    "cockpit": [1.0, 1.1, 1.2, 1.3],
    "fuselage": [1.2],
    "cover": [1.25],
    "tail": [1.35],
}
"""Waterlines of their items, the last for all that follow."""
INCH = 0.0254


def listed(rng, share, *, compact, heights=True):
    """Return a list of items of random masses and places.

    Known to a share of their mass, to half an inch of station and an inch of waterline; or without any waterline.
    """
    items = []
    for group, rows in BIPLANE.items():
        for number, (mass, station) in enumerate(rows):
            kg = mass * exp(0.25 * rng.normal())
            place = (COMPACT[group] if compact else station) + 0.1 * rng.normal() * (1.0 - 0.5 * compact)
            height = HEIGHTS[group][min(number, len(HEIGHTS[group]) - 1)] + 0.1 * rng.normal()
            items.append(
                Item(
                    f"{group} {number}",
                    group,
                    kg,
                    place,
                    height if heights else 0.0,
                    mass_error_kg=share * kg,
                    station_error_m=0.5 * INCH,
                    waterline_error_m=INCH if heights else 0.0,
                    moves_with_engine=group == "engine",
                )
            )
    return items


def built(rng, items, culprit, wrong_kg):
    """Return the airplane as built: every item off by its error, and one cause of `wrong_kg` besides.

    One item or all of one group by that mass; or the engine off its place, as far as makes the same moment there as
    that mass makes two metres behind.
    """
    true = [
        replace(
            item,
            mass_kg=max(item.mass_kg + item.mass_error_kg * rng.normal(), 0.1),
            station_m=item.station_m + item.station_error_m * rng.normal(),
            waterline_m=item.waterline_m + item.waterline_error_m * rng.normal(),
        )
        for item in items
    ]
    if not culprit:
        return true
    if culprit == ELSEWHERE:
        off_m = rng.choice([-1.0, 1.0]) * wrong_kg * MOVE_PER_KG
        return [replace(i, station_m=i.station_m + off_m) if i.moves_with_engine else i for i in true]
    own = [place for place, item in enumerate(items) if item.group == culprit]
    one = own if rng.random() < 0.5 else [rng.choice(own, p=_shares([items[k].mass_kg for k in own]))]
    sign = rng.choice([-1.0, 1.0]) if sum(true[k].mass_kg for k in one) > wrong_kg else 1.0
    for place, share in zip(one, _shares([items[k].mass_kg for k in one]), strict=True):
        true[place] = replace(true[place], mass_kg=max(true[place].mass_kg + sign * wrong_kg * share, 0.0))
    return true


def _shares(masses):
    return np.array(masses) / sum(masses)


ELSEWHERE, MOVE_PER_KG = "engine elsewhere", 0.2 * INCH


def weighings(seed, share, wrong_kg, *, compact, airplanes=500, culprits=tuple(BIPLANE), heights=True):
    """Yield (cause in error, item list, what the scales say, their readings) of airplanes."""
    rng = np.random.default_rng(seed)
    for _ in range(airplanes):
        items = listed(rng, share, compact=compact, heights=heights)
        culprit = rng.choice(list(culprits)) if wrong_kg else ""
        try:
            scales, readings = weighed(rng, total(built(rng, items, culprit, wrong_kg)))
        except InputError:
            continue
        yield culprit, items, scales, readings


def simulated(seed, share, wrong_kg, *, under=False, **how):
    """Yield (cause in error, what is suspected) of airplanes, with supports and scales among the causes or not."""
    for culprit, items, scales, readings in weighings(seed, share, wrong_kg, **how):
        yield culprit, suspects(items, CREW, ("pilot", "fuel"), scales, readings=readings if under else None)


def ranked(found):
    """Return every cause that is named, the most probable first, each with its probability."""
    named = [(one.probability, one.group) for one in found.suspicions]
    named += [(found.engine.probability, ELSEWHERE)] if found.engine else []
    named += [(one.probability, f"support {one.supports[0]}") for one in found.supports]
    named += [(one.probability, f"scale {one.support}") for one in found.scales]
    named += [(found.aboard.probability, "aboard")] if found.aboard else []
    return sorted(named, reverse=True)


@pytest.mark.slow
@pytest.mark.parametrize("heights", [True, False])
@pytest.mark.parametrize(("share", "compact"), [(0.02, True), (0.04, False)])
def test_no_group_is_suspected_in_95_of_100_airplanes_without_an_error(share, compact, heights):
    """3.6 to 3.9 % of 8,000; 4,000 tell it to 0.3 %."""
    found = [one for _, one in simulated(11, share, 0.0, compact=compact, airplanes=4000, heights=heights)]
    counted = np.mean([one.with_height for one in found])
    assert counted > 0.99 if heights else counted == 0.0  # beyond three standard errors a height does not count
    assert 0.03 < np.mean([bool(one.suspicions) for one in found]) <= 0.05


@pytest.mark.slow
@pytest.mark.parametrize(
    ("share", "compact", "first", "among_three"),
    [(0.02, True, 0.76, 0.98), (0.02, False, 0.63, 0.95), (0.04, False, 0.46, 0.79)],
)
def test_the_group_that_is_20_kg_wrong_is_found_as_often_as_its_probability_says(share, compact, first, among_three):
    places, said = [], []
    for culprit, found in simulated(4, share, 20.0, compact=compact):
        named = ranked(found)
        names = [name for _, name in named]
        places.append(names.index(culprit) if culprit in names else 99)
        said.append(named[0][0] if named else 0.0)
    hit = np.array(places) == 0
    assert np.mean(hit) >= first
    assert np.mean(np.array(places) < 3) >= among_three
    assert np.mean(hit) == pytest.approx(np.mean(said), abs=0.1)


@pytest.mark.slow
def test_an_engine_four_inches_off_its_place_is_found_with_the_way_that_it_is_off():
    """79.6 % first of all causes; the station of one item, which makes the same gap, takes some."""
    found = [one for _, one in simulated(4, 0.02, 20.0, compact=False, culprits=(ELSEWHERE,))]
    engines = [one.engine for one in found if one.engine]
    first = [bool(named := ranked(one)) and named[0][1] == ELSEWHERE for one in found]
    assert np.mean(first) >= 0.76
    within = [abs(abs(engine.move_m) - 4.0 * INCH) < 2.0 * engine.move_error_m for engine in engines]
    assert np.mean(within) > 0.9


def ideal(items, scales):
    """Return the groups as one ranks them who knows that exactly 20 kg are wrong in one, and how `built` puts them."""
    found = gap(items, scales)
    values, inverse, scores = np.array(found.values), np.array(found.inverse), {}
    for group in BIPLANE:
        own = [item for item in items if item.group == group]
        shares = np.array(_shares([item.mass_kg for item in own]))
        effects = np.array([found.of_mass(item) for item in own])
        places = [(0.5, shares @ effects), *zip(0.5 * shares, effects, strict=True)]
        off = [(share, values - sign * 20.0 * effect) for share, effect in places for sign in (-1.0, 1.0)]
        scores[group] = sum(share * exp(-0.5 * (left @ inverse @ left)) for share, left in off)
    return sorted(scores, key=lambda group: -scores[group])


@pytest.mark.slow
@pytest.mark.parametrize(
    ("share", "compact", "first", "among_three", "short"),
    [(0.02, True, 0.74, 0.98, 0.09), (0.02, False, 0.62, 0.95, 0.03), (0.04, False, 0.48, 0.79, 0.10)],
)
def test_among_the_groups_the_right_one_is_first_nearly_as_often_as_can_be(share, compact, first, among_three, short):
    """80, 66 and 52 % first and 99, 96 and 82 % among three of 500 airplanes; one deviation of such a share is 2 %.

    Who knows that exactly 20 kg are wrong in one group has it first in 82, 69 and 58 %: no ranking does better, for
    this one is by the probabilities of what the airplanes were made with.
    """
    own, best, certain = [], [], 0
    for culprit, items, scales, readings in weighings(4, share, 20.0, compact=compact):
        found = suspects(items, CREW, ("pilot", "fuel"), scales, readings=readings)
        named = [one.group for one in found.suspicions]
        own.append(named.index(culprit) if culprit in named else 99)
        best.append(ideal(items, scales).index(culprit))
        certain += bool(found.aboard and found.aboard.nearly_certain)
    ours, theirs = (np.mean(np.array(places) == 0) for places in (own, best))
    assert ours >= first
    assert np.mean(np.array(own) < 3) >= among_three
    assert theirs - short <= ours <= theirs + 0.03
    assert certain <= 0.01 * len(own)  # pilot and fuel were as listed


@pytest.mark.slow
def test_an_engine_elsewhere_shares_with_the_wheels_which_the_scales_do_not_tell_apart():
    """55 % first of 500 airplanes, 89 % among two."""
    found = simulated(4, 0.02, 20.0, compact=False, culprits=(ELSEWHERE,), under=True)
    named = [[name for _, name in ranked(one)[:2]] for _, one in found]
    assert 0.4 < np.mean([names[:1] == [ELSEWHERE] for names in named]) < 0.65
    assert np.mean([ELSEWHERE in names for names in named]) > 0.85


@pytest.mark.slow
def test_main_wheels_two_inches_off_are_found_with_the_way_and_no_load_is_called_nearly_certain():
    rng, found = np.random.default_rng(6), []
    for _ in range(400):
        items = listed(rng, 0.02, compact=True)
        try:
            scales, readings = weighed(rng, total(built(rng, items, "", 0.0)), mains_off_m=2.0 * INCH)
        except InputError:
            continue
        found.append(suspects(items, CREW, ("pilot", "fuel"), scales, readings=readings))
    named = [one for one in found if one.supports]
    assert len(named) > 0.9 * len(found)
    mains = [one.supports[0] for one in named]
    assert {one.supports for one in mains} == {("left", "right")}  # whose stations were written 3 mm apart
    within = [abs(one.support_move_m - 2.0 * INCH) < 2.0 * one.support_move_error_m for one in mains]
    assert np.mean(within) > 0.9
    assert np.mean(["support left" in [name for _, name in ranked(one)[:2]] for one in named]) > 0.8
    assert np.mean([bool(one.aboard and one.aboard.nearly_certain) for one in named]) <= 0.01
