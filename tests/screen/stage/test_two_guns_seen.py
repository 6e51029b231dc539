"""Two guns behind one propeller: each as the physics has it, on its own line, with its own cam, all told apart."""

import itertools
import math
from random import Random

import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built
from stage_fit import faults
from stage_shapes import flat, later, of

from sim.live.gun import GunState, advance, touches, wait_rad
from sim.live.scene_data import stage as staged
from viz.stage.gun_states import cam_state, crossing, gun_state, guns, raised, told_cam, told_of, trigger_state
from viz.stage.layout import layout
from viz.stage.scenes.blades import parts, picture_rect
from viz.stage.scenes.line_of_fire import hoop_at
from viz.stage.scenes.over_cowl import lines_of_fire
from viz.stage.scenes.scene import draw
from viz.stage.session import Session
from viz.stage.shapes import Disc, Line, Text
from viz.stage.snapshot import Looks
from viz.words.catalogue import languages
from viz.words.say import say

FRAME_S = 1.0 / 60.0
TOLD = {"close": "wait", "held": "steel", "clear": "now", "through": "now", "hit": "strike", "none": "steel"}
AIRPLANES = {
    "interrupters": (BIPLANE, "gun.offset=5 in", "second_gun.offset=-5 in", "second_gun.link_delay=1.2 ms"),
    "impulses": (TRIPLANE, "second_gun.offset=-5 in", "second_gun.opens=-23 °"),
}


@pytest.fixture(scope="module")
def stages():
    return {name: staged(built(*asked)) for name, asked in AIRPLANES.items()}


@pytest.fixture(params=AIRPLANES)
def stage(request, stages):
    return stages[request.param]


@pytest.fixture
def session(stage):
    return Session(stage, scene="blades")


def drawn(session, stage, size=(1280, 720), font=1.0):
    snapshot = session.snapshot()
    return draw(snapshot, layout(*size, font, snapshot.front), stage.figure, size)


def overs(session, stage):
    at = layout(1280, 720, 1.0)
    return lines_of_fire(session.blades.view(), stage.figure, picture_rect(*parts(at), at.unit))


def test_both_turn_with_one_propeller_each_from_its_own_bore_line(session, stage):
    """The blade that stands on one line of fire is as far from the other as the lines are apart."""
    apart = stage.gun.line.bore_turn_rad - stage.second.gun.line.bore_turn_rad
    assert abs(apart) > 0.4
    for _ in range(300):
        session.tick(FRAME_S)
        first, second = guns(session.blades.view())
        assert math.remainder(second.angle_rad - first.angle_rad - apart, math.tau) == pytest.approx(0.0, abs=1e-9)
        turned = [
            over.turn_rad(view.angle_rad) for over, view in zip(overs(session, stage), (first, second), strict=True)
        ]
        assert math.remainder(turned[0] - turned[1], math.tau) == pytest.approx(0.0, abs=1e-9)


def test_each_fires_as_the_physics_of_its_own_line_and_cam_has_it(stage):
    """Without scatter: releases and passages of both, for five seconds, against each gun advanced alone."""
    session = Session(stage, scene="blades")
    blades = session.blades
    blades.set("delay_sd_s", 0.0)
    for _ in range(120):
        blades.follow(FRAME_S)
    blades._begin()
    blades.follow(0.0)
    begun, alone = guns(blades.view()), []
    for view in begun:
        state, fired = GunState(angle_rad=view.angle_rad), []
        for _ in range(500):
            state = advance(state, view.gun, 0.01, Random(0))
            fired += state.passed
        alone.append(fired)
    blades.pace.pick(1.0)
    seen = [{}, {}]
    while blades.view().time_s < 4.9:
        session.tick(FRAME_S)
        for place, view in enumerate(guns(blades.view())):
            if view.last:
                seen[place][round(view.last.release_s, 6)] = view.last
    for found, expected in zip(seen, alone, strict=True):
        by_time = {round(one.release_s, 6): one for one in expected}
        assert len(found) > 20
        assert set(found) <= set(by_time)
        assert all(one.struck is by_time[at].struck for at, one in found.items())


def physical(view, gear):
    """Return cam and gun by asking the gun what it would do."""
    cam = "none" if gear == "none" else "now" if wait_rad(view.gun, view.angle_rad) == 0.0 else "not_now"
    if any(fired.release_s <= view.time_s < fired.pass_s for fired in view.flying):
        return cam, "fires"
    if view.time_s < view.ready_s:
        return cam, "loads"
    return cam, "waits" if view.trigger else "rests"


@pytest.mark.parametrize("gear", ["timed", "none"])
def test_labels_hoops_chains_and_trigger_are_those_of_each_gun_in_every_frame(session, stage, gear):
    if gear == "none":
        session.blades.change_gear()
    seen, exact = set(), stage.gun.line.action == "interrupter"
    for frame in range(60 * 40):
        session.blades.pull(frame % 900 < 700)
        session.tick(FRAME_S)
        snapshot = session.snapshot()
        views = guns(snapshot.view)
        states = [physical(view, snapshot.gear) for view in views]
        assert [gun_state(view) for view in views] == [doing for _, doing in states]
        if exact:
            assert [cam_state(view, snapshot.gear) for view in views] == [cam for cam, _ in states]
        fires = any(
            doing == "fires" or (doing != "loads" and cam_state(view, snapshot.gear) != "not_now")
            for view, (_, doing) in zip(views, states, strict=True)
        )
        assert (trigger_state(snapshot.view, snapshot.gear) != "not_now") is fires
        if frame % 20:
            continue
        shapes = list(flat(drawn(session, stage)))
        words = {one.text for one in shapes if isinstance(one, Text)}
        for view, over, which in zip(views, overs(session, stage), ("right", "left"), strict=True):
            for doing in ("fires", "waits", "loads", "rests"):
                assert (gun_words("english", which, doing) in words) is (doing == gun_state(view))
            hoop = hoop_at(over)
            assert [one.role for one in shapes if isinstance(one, Line) and one.points == hoop][-1] == (
                TOLD[crossing(view, snapshot.gear)]
            )
            chain = [one.role for one in shapes if isinstance(one, Line) and one.points == over.chain(raised(view))[:3]]
            up = {"now": "now", "not_now": "wait"}.get(cam_state(view, snapshot.gear))
            assert chain == (["keyline", up] if up else [])
        told = told_of(snapshot.view, snapshot.gear)
        assert say("english", f"blades.cam_{told_cam(told, snapshot.gear)}") in words
        meets = crossing(told, snapshot.gear)
        assert [key for key in TOLD if key != "none" and say("english", f"blades.{key}") in words] == (
            [meets] if meets != "none" else []
        )
        seen.add((gun_state(views[0]), gun_state(views[1])))
    assert any(one != other for one, other in seen)
    assert ("fires", "fires") in seen


def gun_words(language, which, doing):
    gun = say(language, f"blades.which_{which}")
    return say(language, "blades.gun", gun=gun, doing=say(language, f"blades.gun_{doing}"))


def test_it_is_told_of_the_gun_whose_bullet_is_in_the_air(session):
    switched = 0
    before = None
    for _ in range(60 * 40):
        session.tick(FRAME_S)
        view = session.blades.view()
        told = told_of(view, session.blades.gear)
        in_air = [one for one in guns(view) if one.flying and one.time_s >= one.flying[0].muzzle_s]
        if in_air:
            assert told.flying[0].pass_s == min(one.flying[0].pass_s for one in in_air)
        switched += before is not None and (told is view) is not before
        before = told is view
    assert 2 <= switched < 40


def test_rounds_of_both_are_counted_and_marked_each_where_it_met_its_own_line(session, stage):
    session.blades.change_gear()
    session.blades.pace.pick(1.0)
    later(session, 6.0)
    first, second = guns(session.blades.view())
    assert min(first.through + first.strikes, second.through + second.strikes) > 40
    assert len(first.passed) == sum(one.through + one.strikes for one in (first, second))
    assert sum(struck for _, struck in first.passed) == first.strikes + second.strikes > 0
    assert all(
        touches(first.gun, angle) is struck or touches(second.gun, angle) is struck for angle, struck in first.passed
    )
    words = {one.text for one in flat(drawn(session, stage)) if isinstance(one, Text)}
    assert f"Through: {first.through + second.through}" in words
    assert f"Blade hits: {first.strikes + second.strikes}" in words


def test_seen_once_more_both_stand_as_they_stood(session):
    """In the replay of the round that passed last the other gun too is where it was, and does what it did."""
    was = []
    while session.blades.view().last is None or len(was) < 60 * 30:
        session.tick(FRAME_S)
        was.append([(one.time_s, one.angle_rad, gun_state(one)) for one in guns(session.blades.view())])
    session.blades.replay()
    looked = 0
    while session.blades.view().replay:
        session.tick(FRAME_S)
        now = session.blades.view()
        if not now.replay:
            break
        near = min(range(len(was)), key=lambda at: abs(was[at][0][0] - now.time_s))
        if near in {0, len(was) - 1} or {each[2] for each in was[near - 1]} != {each[2] for each in was[near + 1]}:
            continue
        for then, view in zip(was[near], guns(now), strict=True):
            turned = view.gun.spin_rad_s * (view.time_s - then[0])
            assert math.remainder(view.angle_rad - then[1] - turned, math.tau) == pytest.approx(0.0, abs=1e-6)
        looked += 1
    assert looked > 60


@pytest.mark.parametrize(("size", "font"), [((1280, 720), 0), ((1024, 600), 2), ((1080, 1920), 1), ((1920, 1080), 0)])
def test_nothing_is_clipped_hidden_or_on_top_of_anything_else(session, stage, size, font):
    for _, language in itertools.product(range(8), languages()):
        later(session, 0.7)
        session.looks = Looks(language, font=font)
        scale = session.looks.font_scale
        assert faults(drawn(session, stage, size, scale), size, scale, least_share=0.75, least_px=8) == []


def test_a_light_runs_along_the_chain_of_the_gun_that_lets_go(session, stage):
    lit = set()
    for _ in range(60 * 20):
        session.tick(FRAME_S)
        inside = [one for one in guns(session.blades.view()) if one.flying and one.time_s < one.flying[0].muzzle_s]
        assert len(of(flat(drawn(session, stage)), Disc, "tape")) == len(inside)
        lit.add(len(inside))
    assert lit >= {0, 1}
