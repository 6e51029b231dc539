"""How a round and the blades meet: foretold by the ghost, seen in the picture, marked behind it."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
from stage_shapes import flat, later, seen_over, shapes

from sim.live.gun import wait_rad
from viz.stage.gun_states import crossing, trigger_state
from viz.stage.scenes.line_of_fire import hoop_at
from viz.stage.scenes.rounds import places
from viz.stage.shapes import Block, Disc, Facets, Line, Polygon, Text
from viz.words.say import say

FRAME_S = 1.0 / 60.0
GHOSTS = {"close": "wait", "held": "steel", "clear": "now"}
TOLD = {"close": "wait", "held": "steel", "clear": "now", "through": "now", "hit": "strike"}


def blade_at_line(view, angle_rad):
    """Return whether a blade, as wide as it blocks, is on the line of fire at a propeller angle."""
    line = view.gun.line
    away = [abs(math.remainder(angle_rad + math.tau * blade / line.blades, math.tau)) for blade in range(line.blades)]
    return min(away) < 0.5 * line.blocked_rad


def expected(view, gear):
    """Return how it is by geometry and by asking the gun what it would do, not how the cam is drawn."""
    if view.flying:
        return "close" if blade_at_line(view, view.arrival_rad) else "clear"
    if view.last and view.time_s <= view.last.pass_s + view.gun.line.flight_s:
        return "hit" if blade_at_line(view, view.last.pass_rad) else "through"
    if view.time_s < view.ready_s:
        return "none"
    if blade_at_line(view, view.arrival_rad):
        return "close"
    return "held" if gear != "none" and wait_rad(view.gun, view.angle_rad) > 0.0 else "clear"


@pytest.mark.parametrize("gear", ["interrupter", "none"])
def test_ghost_hoop_and_label_tell_the_same_and_it_is_so(gun, session, stage, gear):
    if gear == "none":
        gun.change_gear()
    seen = set()
    for frame in range(60 * 100):
        session.tick(FRAME_S)
        view = session.snapshot().view
        meets = crossing(view, gear)
        assert meets == expected(view, gear)
        if frame % 40 and meets in seen:
            continue
        seen.add(meets)
        drawn = list(flat(shapes(session, stage)))
        labels = {say("english", f"blades.{key}"): key for key in TOLD}
        assert [labels[one.text] for one in drawn if isinstance(one, Text) and one.text in labels] == (
            [meets] if meets in TOLD else []
        )
        hoop = hoop_at(seen_over(session, stage))
        assert [one.role for one in drawn if isinstance(one, Line) and one.points == hoop] == [
            "keyline",
            TOLD.get(meets, "steel"),
        ]
        ghosts = {one.role for one in drawn if isinstance(one, Line) and len(one.points) == 35} - {"keyline"}
        assert ghosts == ({GHOSTS[meets]} if meets in GHOSTS else set())
        hatched = sum(isinstance(one, Polygon) and one.role == "wait" and len(one.points) == 4 for one in drawn)
        assert (hatched > 0) is (meets == "close")
    assert seen >= ({"close", "held", "clear", "through", "none"} if gear != "none" else {"clear", "through", "hit"})


@pytest.mark.parametrize("gear", ["interrupter", "none"])
def test_the_trigger_is_hatched_wherever_a_press_would_not_fire(gun, session, gear):
    """Held and let go in turns: plain while a round is under way, or where a pressed gun would release one at once."""
    if gear == "none":
        gun.change_gear()
    seen = set()
    for frame in range(60 * 30):
        gun.pull(frame % 700 < 400)
        session.tick(FRAME_S)
        view = gun.view()
        ready = view.time_s >= view.ready_s and (gear == "none" or wait_rad(view.gun, view.angle_rad) == 0.0)
        plain = "none" if gear == "none" else "now"
        assert trigger_state(view, gear) == (plain if view.flying or ready else "not_now")
        seen.add((bool(view.flying), ready))
    assert seen >= {(True, False), (False, True), (False, False)}


def test_it_begins_with_a_blade_that_would_be_in_the_way_and_that_is_seen_for_a_third_of_a_second(gun, session):
    told = []
    while not gun.view().flying:
        session.tick(FRAME_S)
        told.append(crossing(gun.view(), "interrupter"))
    assert [told[at] for at in range(len(told)) if at == 0 or told[at] != told[at - 1]] == [
        "held", "close", "held", "clear",
    ]  # fmt: skip
    assert told.count("close") * FRAME_S > 1.0 / 3.0


def test_a_cam_cut_for_another_speed_says_now_and_the_ghost_says_that_it_will_hit(gun):
    view = gun.view()
    opens, closes = view.gun.windows_rad[0]
    there = replace(view, angle_rad=0.5 * (opens + closes), arrival_rad=0.0, flying=(), last=None)
    assert wait_rad(view.gun, there.angle_rad) == 0.0
    assert crossing(there, "interrupter") == "close"


def covered(over, drawn, place):
    """Return whether a face of the propeller covers a place on the picture."""
    solid = next(one for one in drawn if isinstance(one, Facets) and "blade" in one.roles)
    blade = np.isin(np.array(solid.roles)[solid.role[: len(solid.corners)]], ["blade", "brass", "wood"])
    away = solid.corners[blade] - place
    ahead = np.roll(away, -1, axis=1)
    side = away[..., 0] * ahead[..., 1] - away[..., 1] * ahead[..., 0]
    return bool((np.all(side > 0.0, axis=1) | np.all(side < 0.0, axis=1)).any())


@pytest.mark.parametrize("gear", ["interrupter", "none"])
def test_a_round_is_seen_to_pass_between_the_blades_or_to_meet_one(gun, session, stage, gear):
    """In the frame in which it is at the disc no blade covers the hoop's middle, unless it is a hit."""
    gun._random.seed(4)
    if gear == "none":
        gun.change_gear()
    looked = set()
    for _ in range(60 * 400):
        before = gun.view()
        session.tick(FRAME_S)
        view = gun.view()
        if not (view.last and before.flying and not view.flying):
            continue
        over = seen_over(session, stage)
        blade = covered(over, flat(shapes(session, stage)), over.on_line(0.0))
        if view.last.struck:
            looked.add("hit")
        else:
            looked.add("through")
            assert not blade
        if looked == {"hit", "through"} or (gear != "none" and view.rounds > 4):
            break
    assert looked == ({"through"} if gear != "none" else {"hit", "through"})


def test_the_round_leaves_the_hoop_behind_with_a_trace_from_it_and_a_line_ahead(gun, session, stage):
    for _ in range(60 * 60):
        session.tick(FRAME_S)
        if any(0.3 < x < 0.6 for x in places(gun.view())):
            break
    over, drawn = seen_over(session, stage), list(flat(shapes(session, stage)))
    traces = [one for one in drawn if isinstance(one, Line) and one.role == "round" and one.width > 4.0]
    (x,) = places(gun.view())
    assert traces[-1].points == (over.on_line(0.0), over.on_line(x))
    dashes = [one for one in drawn if isinstance(one, Line) and one.role == "now" and len(one.points) == 2]
    assert len(dashes) >= 5
    way = np.subtract(over.on_line(2.0), over.on_line(0.0))
    for dash in dashes:
        gone = np.subtract(dash.points[1], over.on_line(0.0))
        assert abs(gone[0] * way[1] - gone[1] * way[0]) < 1e-6 * np.hypot(*way) * np.hypot(*gone)


def test_the_arrow_leads_from_a_blade_to_its_ghost(gun, session, stage):
    """About the shaft, by the angle from where the blade is to where it will be."""
    later(session, 3.0)
    while not gun.view().flying:
        session.tick(FRAME_S)
    view, over = gun.view(), seen_over(session, stage)
    (arrow,) = (one for one in flat(shapes(session, stage)) if isinstance(one, Line) and one.role == "ghost")
    lead = view.arrival_rad - view.angle_rad
    near = math.remainder(view.arrival_rad, math.tau / view.gun.line.blades)
    ends = [over.on_disc(0.8 * over.disc_m, over.turn_rad(angle)) for angle in (near - lead, near)]
    assert arrow.points[0] == pytest.approx(ends[0], abs=0.01)
    assert arrow.points[-1] == pytest.approx(ends[1], abs=0.01)


def test_the_last_round_is_ringed_on_the_timing_disc_and_counted(gun, session, stage):
    gun.pace.pick(1.0)
    later(session, 3.0)
    view = gun.view()
    drawn = list(flat(shapes(session, stage)))
    rings = [one for one in drawn if isinstance(one, Disc) and one.role == "ink" and one.rim]
    assert len(rings) == 1
    marks = [one for one in drawn if isinstance(one, Block) and one.role == "now" and one.rect.w < 12]
    assert any(one.rect.center == pytest.approx((rings[0].x, rings[0].y)) for one in marks)
    said = {one.text for one in drawn if isinstance(one, Text)}
    assert view.rounds - len(view.flying) - view.strikes > 10
    assert f"Through: {view.rounds - len(view.flying) - view.strikes}" in said
    assert "Blade" in said


@pytest.mark.parametrize("gear", ["interrupter", "none"])
def test_marks_of_hits_lie_on_the_upper_blade_of_the_timing_disc_and_others_beside_it(gun, session, stage, gear):
    """As in the picture, where the blade that a round has met stands at the line of fire."""
    gun.pace.pick(1.0)
    if gear == "none":
        gun.change_gear()
    later(session, 6.0)
    view, drawn = gun.view(), list(flat(shapes(session, stage)))
    paper = next(one for one in drawn if isinstance(one, Disc) and one.role == "paper")
    places = [one.rect.center for one in drawn if isinstance(one, Block) and one.role == "now" and one.rect.w < 12]
    within = [np.subtract(at, (paper.x, paper.y)) for at in places]
    angles = [math.atan2(x, -y) for x, y in within if math.hypot(x, y) < paper.radius]
    assert len(angles) == len(view.passed) - view.strikes > 10
    assert all(0.5 * view.gun.line.blocked_rad <= abs(angle) <= math.pi / view.gun.line.blades for angle in angles)
    ends = [
        np.array(one.points) - (paper.x, paper.y) for one in drawn if isinstance(one, Line) and one.role == "strike"
    ]
    hits = [math.atan2(x, -y) for x, y in (pair.mean(axis=0) for pair in ends) if math.hypot(x, y) < paper.radius]
    assert len(hits) == 2 * view.strikes
    assert all(abs(angle) <= 0.5 * view.gun.line.blocked_rad for angle in hits)
    assert (view.strikes > 0) is (gear == "none")


def crosses(one, other):
    """Return whether two lines between two points each meet."""

    def side(from_, to, at):
        return np.sign((to[0] - from_[0]) * (at[1] - from_[1]) - (to[1] - from_[1]) * (at[0] - from_[0]))

    return side(*one, other[0]) != side(*one, other[1]) and side(*other, one[0]) != side(*other, one[1])


@pytest.mark.parametrize("size", [(1024, 600), (1920, 1080), (1080, 1920)])
def test_the_line_of_the_label_does_not_cross_the_arrow(gun, session, stage, size):
    """While the ghost goes all about: the gun is ready and its trigger rests."""
    gun.pull(True)
    later(session, 8.0)
    gun.pull(False)
    later(session, 5.0)
    looked = set()
    for _ in range(60):
        session.tick(1.0 / 30.0)
        view = gun.view()
        drawn = list(flat(shapes(session, stage, size)))
        arrow = next(one.points for one in drawn if isinstance(one, Line) and one.role == "ghost")
        words = say("english", f"blades.{crossing(view, gun.gear)}")
        label = next(number for number, one in enumerate(drawn) if isinstance(one, Text) and one.text == words)
        pointer = drawn[label - 3]
        assert isinstance(pointer, Line)
        assert not any(crosses(pointer.points, pair) for pair in itertools.pairwise(arrow))
        looked.add(round(math.remainder(view.arrival_rad, math.pi), 1))
    assert len(looked) > 20
