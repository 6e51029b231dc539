"""Causes that one slip makes: which side, which item's station, which unit, which wheel, which support."""

from dataclasses import replace
from math import exp, hypot, pi, radians, sqrt

import pytest
from one_weighing import LIST, on_scales

from sim.airframe.weighing_data import Attitude, Reading, Support, Weighed
from sim.airframe.weighing_sides import OTHER_M, OTHER_SHARE, UNSURE_BUTTLINE_M, Side, side
from sim.airframe.weighing_slips import abreast, other_unit, slips
from sim.airframe.weighing_suspects import suspects


def found(true, **how):
    weighed, readings = on_scales(true, **how)
    return suspects(LIST, [], (), weighed, readings=readings)


def test_the_gap_across_is_scales_less_list_with_the_errors_of_both():
    items = [replace(LIST[0], buttline_m=0.11), *LIST[1:]]
    weighed = Weighed(402.0, 0.5, 1.3, 0.002, 0.017, 0.0012, None, None, ((0.25, 0.0), (0.0, 4e-6)))
    across = side(items, weighed)
    assert across.moment_kg_m == pytest.approx(402.0 * 0.017 - 131.0 * 0.11)
    masses = [one.mass_kg for one in items]
    assert across.error_kg_m == pytest.approx(hypot(402.0 * 0.0012, *(UNSURE_BUTTLINE_M * kg for kg in masses)))


def test_the_density_across_is_a_mixture_of_two_normals():
    def normal(value, deviation):
        return exp(-0.5 * (value / deviation) ** 2) / (deviation * sqrt(2.0 * pi))

    across = Side(3.1, 1.7, 402.0)
    off, error = 3.1 - 5.0 * 0.84, hypot(1.7, 1.2 * 0.84, 5.0 * 0.3)
    wide = hypot(error, OTHER_M * 402.0)
    expected = (1.0 - OTHER_SHARE) * normal(off, error) + OTHER_SHARE * normal(off, wide)
    assert exp(across.evidence(5.0, 1.2, (0.84, 0.3))) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("wheel", ["left", "right"])
def test_the_scale_of_the_side_to_which_the_cg_seems_to_lie_is_named(wheel):
    """14 kg too much at both attitudes: no mass of the list makes it, for nothing else lies to that side."""
    named = found(LIST, more_kg={wheel: 14.0})
    scale = named.scales[0]
    assert (scale.support, scale.named) == (wheel, f"scale under {wheel} too high")
    assert scale.misread_kg == pytest.approx(14.0, abs=2.0 * scale.misread_error_kg)
    assert scale.probability > 0.7 > 10.0 * named.kinds.listed_mass_probability * 0.3
    other = next(one for one in named.scales if one.support not in (wheel, "tail"))
    assert scale.probability > 100.0 * other.probability


def test_a_mass_in_the_middle_leaves_the_wheels_alike():
    heavy = [*LIST[:3], replace(LIST[3], mass_kg=37.0), *LIST[4:]]
    named = found(heavy)
    assert named.suspicions[0].group in ("seat", "body")
    left, right = (next(one for one in named.scales if one.support == wheel) for wheel in ("left", "right"))
    assert left.probability == pytest.approx(right.probability, rel=1e-6)
    assert named.kinds.scales_probability < 0.1 * named.kinds.listed_mass_probability


def test_the_kinds_of_cause_sum_to_one():
    kinds = found(LIST, more_kg={"left": 9.0}).kinds
    assert sum(getattr(kinds, name) for name in kinds.__dataclass_fields__) == pytest.approx(1.0, abs=1e-12)


def test_a_station_in_the_list_is_a_cause_with_the_way_to_where_the_item_is():
    """A battery that sits a metre and a half behind where it is listed."""
    named = found([*LIST[:5], replace(LIST[5], station_m=LIST[5].station_m + 3.1), LIST[6]])
    assert named.kinds.station_probability > named.kinds.listed_mass_probability
    assert LIST[0].station_m <= named.item.station_m + named.item.item_move_m <= LIST[-1].station_m
    listed = next(one for one in LIST if one.name == named.item.item)
    assert listed.mass_kg * named.item.item_move_m == pytest.approx(12.0 * 3.1, rel=0.35)


@pytest.mark.parametrize(("factor", "written"), [(2.20462262, "kilograms, not pounds"), (0.45359237, "pounds, not k")])
def test_a_mass_in_the_other_unit_is_told_by_its_item(factor, written):
    named = found([*LIST[:2], replace(LIST[2], mass_kg=factor * LIST[2].mass_kg), *LIST[3:]])
    slip = named.unit_slip
    assert (slip.item, slip.estimate_kg) == ("body", 88.0)
    assert slip.mass_kg == pytest.approx(factor * 88.0, rel=1e-6)
    assert slip.written.startswith(written)
    assert slip.probability > 0.3 * named.kinds.listed_mass_probability


def test_a_wheel_that_is_not_abreast_of_the_other_is_named_before_what_explains_as_much():
    named = found(LIST, written={"right": 0.09})
    first = named.supports[0]
    assert first.supports == ("right",)
    assert first.support_move_m == pytest.approx(-0.09, abs=0.006)
    rest = (named.engine.probability, named.suspicions[0].probability, named.supports[1].probability)
    assert first.probability > 3.0 * max(rest)


def test_a_support_far_off_explains_the_height_as_well():
    """The tail written 0.6 m too far aft, as 21 for 19 feet."""
    named = found(LIST, written={"tail": 0.61})
    assert not named.with_height
    assert named.explains_height.supports == ("tail",)
    assert named.explains_height.support_move_m == pytest.approx(-0.61, rel=0.1)
    assert found(LIST, written={"right": 0.09}).explains_height is None


@pytest.mark.parametrize(
    ("share", "clause"),
    [
        (0.4536, "the scales read 0.45 times the list, as kilograms written as pounds do"),
        (2.15, "the scales read 2.15 times the list, as pounds written as kilograms do"),
        (0.52, None),
        (1.0, None),
    ],
)
def test_all_readings_in_the_other_unit(share, clause):
    assert other_unit(share * 540.0, 540.0) == clause


def test_a_slip_that_would_push_the_airplane_aside_is_not_offered():
    """Right at level 572 for 527 would balance the sums, and put the centre to the right of where tail low has it."""
    supports = {
        name: Support(*place) for name, place in (("left", (0.7, -0.84)), ("right", (0.7, 0.84)), ("tail", (5.3,)))
    }

    def stood(name, left, right, tail):
        pitch = 0.0 if name == "level" else radians(12.0)
        read = {"left": left, "right": right, "tail": tail}
        return Attitude(name, pitch, {where: Reading(kg, 0.5) for where, kg in read.items()})

    level, low = stood("level", 530.0, 527.0, 60.0), stood("low", 560.0, 512.0, 90.0)
    offered = slips(level, low, 3.0)
    assert [(one.attitude, one.support, one.mass_kg) for one in offered] == [("level", "right", 572.0)]
    assert not abreast(supports, (level, low), offered[0])
    aside = stood("low", 515.0, 557.0, 90.0)  # as far right as the slip undone
    assert abreast(supports, (level, aside), slips(level, aside, 3.0)[0])
