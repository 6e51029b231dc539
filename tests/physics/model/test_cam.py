"""The cam of a scenario: one for every command, cut where the rule says, counted from where the key says."""

import math
from fractions import Fraction

import pytest
from airplanes import BIPLANE, TRIPLANE

from sim.errors import InputError
from sim.model.model import model
from sim.studies.burst import burst
from sim.studies.compare import compare
from sim.studies.rate import rate
from sim.studies.safe_range import safe_range
from sim.studies.windows import windows

OFFSET = ("gun.offset=7 in", "cam.opens=12 °")


def opens_deg(built, **named):
    line = built.gun_line(**named)
    return [math.degrees(opening.opens_rad) for opening in line.cam.windows]


@pytest.mark.parametrize("airplane", [BIPLANE, TRIPLANE])
def test_every_command_fires_through_the_same_cam(airplane):
    built = model(airplane)
    said = {
        windows(built).cam,
        windows(built, spin_rad_s=(90.0,)).cam,
        rate(built).cam,
        rate(built, powerplant=list(built.powerplants)[-1]).cam,
        burst(built, rounds=100.0, rounds_per_burst=2.0).cam,
        burst(built, rounds=100.0, rounds_per_burst=2.0, spin_rad_s=(90.0,)).cam,
        safe_range(built).cam,
        safe_range(built, sigmas=1.0).cam,
        compare(built).cam,
    }
    assert len(said) == 1
    assert not said.pop().ideal


def test_the_dwell_changes_all_of_them():
    built = model(BIPLANE, ["cam.dwell=20 °"])
    answers = (windows(built), rate(built), burst(built, rounds=100.0), safe_range(built), compare(built))
    assert {answer.cam.dwell_deg for answer in answers} == {20.0}
    assert windows(built).rows[0].open_deg == 20.0


def test_the_best_opening_leaves_alike_at_both_ends_of_the_engine_for_three_standard_deviations():
    found = safe_range(model(BIPLANE))
    clear = [speed.clearance_deg for speed in found.propellers[0].speeds]
    assert clear[0] == pytest.approx(clear[-1])
    assert clear[0] == pytest.approx(found.spare_deg)


def test_an_opening_from_the_vertical_moves_with_the_bore_line():
    for rotation, sense in (("clockwise", 1.0), ("anticlockwise", -1.0)):
        turning = (*OFFSET, f"powerplant.rotary.rotation={rotation}")
        bore, upright = (model(BIPLANE, [*turning, f"cam.opens_from={way}"]) for way in ("bore line", "vertical"))
        line = bore.gun_line()
        radius = bore.bore_radius_m
        assert line.bore_turn_rad == pytest.approx(sense * math.atan2(7 * 0.0254, radius))
        moved = math.degrees(line.bore_turn_rad)
        assert opens_deg(upright) == pytest.approx([each - moved for each in opens_deg(bore)])
        assert opens_deg(bore) == pytest.approx([12.0, 192.0])


@pytest.mark.parametrize(("impulses", "count", "turns"), [("1/2", 1, 2), ("3/2", 3, 2), ("2/3", 2, 3), ("1", 1, 1)])
def test_impulses_in_any_ratio(impulses, count, turns):
    cam = model(BIPLANE, [f"gun.impulses_per_rev={impulses}"]).gun_line().cam
    assert (len(cam.windows), cam.period_turns) == (count, turns)


def test_a_cam_on_the_engine_of_a_geared_propeller():
    """The propeller turns twice for three turns of the engine: two impulses a turn there are three of its own."""
    geared = ["powerplant.rotary.gear_ratio=0.6666666667", "gun.impulses_per_rev=2"]
    for shaft, openings in (("propeller", Fraction(2)), ("engine", Fraction(3))):
        line = model(BIPLANE, [*geared, f"cam.shaft={shaft}"]).gun_line()
        assert line.openings == openings
    with pytest.raises(InputError) as told:
        model(BIPLANE, ["powerplant.rotary.gear_ratio=0.6180339887", *geared[1:], "cam.shaft=engine"]).gun_line()
    assert str(told.value) == (
        "powerplant.rotary.gear_ratio: must be a ratio of whole numbers up to 40 for a cam on the engine, got "
        '"0.618034"'
    )


def test_impulses_follow_the_blades_where_the_key_is_left_out():
    built = model(BIPLANE, ["powerplant.rotary.propeller.blades=3"])
    assert built.gun_line().openings == 2  # the fixture gives it
    assert model(TRIPLANE, ["gun.impulses_per_rev=1"]).gun_line().openings == 1
    ours = model("tollgate", ["powerplant.rotary.propeller.blades=3"])
    assert (ours.gun_line().openings, ours.gun_line(ideal=True).openings) == (3, 3)
    assert "strike a blade" in windows(built).rows[0].note
    assert windows(ours).rows[0].note == ""


def test_of_uneven_windows_as_many_as_possible_are_served():
    """Of three windows two stand alike to the two blades, 180° apart: the third, at 90°, meets them."""
    uneven = ['cam.windows=["5 °", "95 °", "185 °"]', "cam.dwell=60 °"]
    (row,) = windows(model(BIPLANE, uneven), powerplant="rotary", spin_rad_s=(100.0,)).rows
    assert [window.clearance_deg >= 0.0 for window in row.windows_deg].count(True) == 2
    assert "some rounds of window 2 of 3 strike a blade" in row.note


def test_a_dwell_longer_than_the_way_to_the_next_window():
    with pytest.raises(InputError) as told:
        windows(model(BIPLANE, ['cam.windows=["0 °", "40 °"]']))
    assert str(told.value) == 'cam.dwell: must be at most the 40° from one window to the next, got "70°"'
    with pytest.raises(InputError) as told:
        windows(model(BIPLANE), dwell_deg=181.0)
    assert str(told.value) == 'dwell_deg: must be at most the 180° from one window to the next, got "181°"'


SECOND = ("second_gun.offset=8 in", "gun.offset=-5 in")


def test_a_second_gun_has_its_own_bore_line():
    built = model(BIPLANE, [*SECOND, "cam.opens=12 °", "cam.opens_from=vertical"])
    first, second = built.gun_line(), built.second_gun.gun_line()
    assert first.bore_turn_rad < 0.0 < second.bore_turn_rad
    assert second.blocked_rad < first.blocked_rad  # farther from the shaft
    apart = math.degrees(second.bore_turn_rad - first.bore_turn_rad)
    assert opens_deg(built)[0] - opens_deg(built.second_gun)[0] == pytest.approx(apart)
    assert built.guns == 2


def test_a_second_gun_has_its_own_link_and_opening():
    built = model(BIPLANE, ["second_gun.link_delay=3.1 ms", "second_gun.opens=-8 °"])
    alone = model(BIPLANE, ["gun.link_delay=3.1 ms", "cam.opens=-8 °"])
    assert built.second_gun.gun_line() == alone.gun_line()
    assert built.gun_line() == model(BIPLANE).gun_line()


def test_two_guns_apart_and_together():
    built = model(BIPLANE, [*SECOND, "second_gun.link_delay=3.1 ms", "gun.blade_chord=9 in"])
    found = burst(built, rounds=4000.0, rounds_per_burst=10.0)
    alone = [burst(each, rounds=400.0, rounds_per_burst=10.0, guns=1.0) for each in (built, built.second_gun)]
    assert [each.exact_strikes_per_1000 for each in found.each_gun] == [one.exact.strikes_per_1000 for one in alone]
    assert found.exact.strikes_per_1000 == pytest.approx(sum(one.exact.strikes_per_1000 for one in alone) / 2)
    assert found.exact.rounds_per_min == pytest.approx(sum(one.exact.rounds_per_min for one in alone))
    assert found.rounds_per_min == pytest.approx(sum(each.rounds_per_min for each in found.each_gun), rel=1e-3)
    assert 0.0 < found.shared_gaps.shared_share < 1.0
    assert burst(built, rounds=400.0, guns=1.0).shared_gaps is None


def test_a_window_of_no_length_is_an_impulse_in_every_command():
    """A gun that cycles freely is let go at an instant, as one that is fired by an impulse, if it is ready."""
    shut, impulse = (model(BIPLANE, [key]) for key in ("cam.dwell=0 °", "gun.action=impulse"))
    assert [row.windows_deg for row in windows(shut).rows] == [row.windows_deg for row in windows(impulse).rows]
    assert [row.rounds_per_min for row in windows(shut).rows] == [row.rounds_per_min for row in windows(impulse).rows]
    assert [each.plateaus for each in rate(shut).staircases] == [each.plateaus for each in rate(impulse).staircases]
    fired = [burst(each, rounds=2000.0) for each in (shut, impulse)]
    assert fired[0].exact == fired[1].exact
    assert fired[0].strikes_per_1000 == fired[1].strikes_per_1000
    assert safe_range(shut).propellers == safe_range(impulse).propellers
