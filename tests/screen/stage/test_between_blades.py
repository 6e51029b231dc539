"""The gun scene: its labels against the physics, its captions, what is seen of a round, and who holds the trigger."""

import itertools
import math
from dataclasses import replace

import pytest
from stage_shapes import SIZE, later, shapes

from sim.live.gun import wait_rad
from viz.stage.controls import widgets
from viz.stage.gun_states import cam_state, gun_state
from viz.stage.input import Hands
from viz.stage.layout import layout
from viz.stage.scenes.rounds import places
from viz.stage.scenes.tally import chances
from viz.stage.shapes import texts
from viz.stage.snapshot import Looks
from viz.stage.worlds.hold import HOLD_S
from viz.words.say import say

FRAME_S = 1.0 / 60.0
HOUR_S = 3600.0


def physical(view, gear):
    """Return the states by asking the gun what it would do, not how its cam is drawn."""
    cam = "now" if wait_rad(view.gun, view.angle_rad) == 0.0 else "not_now"
    cam = "none" if gear == "none" else cam
    if any(fired.release_s <= view.time_s < fired.pass_s for fired in view.flying):
        return cam, "fires"
    if view.time_s < view.ready_s:
        return cam, "loads"
    return cam, "waits" if view.trigger else "rests"


@pytest.mark.slow
def test_cam_and_gun_are_told_as_they_are_in_every_frame_of_an_hour(gun):
    """With and without the gear, the trigger held and let go, at the scenario's speed and at others."""
    gun.pace.pick(1.0)
    told = set()
    for frame in range(round(HOUR_S / FRAME_S)):
        if frame % 1801 == 0:
            gun.change_gear()
        if frame % 97 == 0:
            gun.pull(frame % 194 == 0)
        if frame % 2999 == 0:
            gun.set("spin_rad_s", (0.37 * frame) % 1.0)
        gun.follow(FRAME_S)
        gun.advance(FRAME_S)
        view = gun.view()
        said = cam_state(view, gun.gear), gun_state(view)
        assert said == physical(view, gun.gear)
        told.add(said)
    assert {cam for cam, _ in told} == {"now", "not_now", "none"}
    assert {doing for _, doing in told} == {"fires", "waits", "loads", "rests"}


def told(cam, doing):
    """Return the key of what is to be said of a cam: nothing about now while a gun loads, or has been let go by it."""
    return "cam_turns" if doing == "loads" or (doing == "fires" and cam == "not_now") else f"cam_{cam}"


def test_what_is_written_is_what_is_so_while_time_is_slow(gun, session, stage):
    """Labels on the picture in three languages: of the cam in words that fit what the gun does, and of the gun."""
    keys = {f"cam_{name}" for name in ("now", "not_now", "turns", "none")}
    doings, seen = ("fires", "waits", "loads", "rests"), set()
    for frame in range(900):
        session.tick(FRAME_S)
        if frame % 3:
            continue
        language = ("english", "german", "french")[frame % 9 // 3]
        session.looks = Looks(language=language)
        view = session.snapshot().view
        cam, doing = physical(view, "interrupter")
        words = {text.text for text in texts(shapes(session, stage))}
        said = {key for key in keys if say(language, f"blades.{key}") in words}
        gun_said = {key for key in doings if gun_words(language, "only", key) in words}
        assert said == {told(cam, doing)}
        assert gun_said == {doing}
        seen |= {(cam, doing)}
    assert {doing for _, doing in seen} == {"fires", "waits", "loads"}
    assert {("now", "loads"), ("not_now", "loads"), ("now", "fires"), ("not_now", "waits")} <= seen


def gun_words(language, which, doing):
    gun = say(language, f"blades.which_{which}")
    return say(language, "blades.gun", gun=gun, doing=say(language, f"blades.gun_{doing}"))


@pytest.mark.parametrize("gear", ["interrupter", "none"])
def test_a_sentence_stands_for_two_seconds_at_least(gun, session, gear):
    if gear == "none":
        gun.change_gear()
    captions, since, now = [], 0.0, 0.0
    before = session.snapshot().caption
    for frame in range(4500):
        if frame % 1300 == 650:
            gun.replay()
        if frame % 500 in {100, 300}:
            gun.pull(frame % 500 == 300)
        session.tick(FRAME_S)
        now += FRAME_S
        caption = session.snapshot().caption
        if caption != before:
            captions.append((before.key, now - since))
            before, since = caption, now
    assert len({key for key, _ in captions}) >= 4
    assert min(stood for _, stood in captions[1:]) >= HOLD_S - FRAME_S


SAID = {
    "fires": {"caption.lead", "caption.lead_free"},
    "waits": {"caption.holding"},
    "loads": {"caption.through", "caption.through_free", "caption.struck", "caption.struck_free"},
}


@pytest.mark.parametrize("gear", ["interrupter", "none"])
def test_the_sentence_is_true_in_every_frame_from_the_first_on(gun, session, gear):
    """While nobody touches anything: that the gun waits is said while it does, the first wait among them."""
    if gear == "none":
        gun.change_gear()
    seen = set()
    for _ in range(90 * 60):
        session.tick(FRAME_S)
        state = gun_state(gun.view())
        seen.add(state)
        assert gun.caption().key in SAID[state]
    assert seen == {"fires", "loads"} | ({"waits"} if gear == "interrupter" else set())


def test_a_round_is_seen_for_a_third_of_the_time_and_time_says_how_slow_it_is(gun, session):
    """While firing, from muzzle to a little beyond the disc; the pace goes down from release to passage by itself."""
    seen, paces = 0, {}
    for _ in range(3600):
        session.tick(FRAME_S)
        snapshot = session.snapshot()
        view = snapshot.view
        found = places(view)
        seen += any(-1.10 <= x <= 1.10 for x in found)
        on_the_way = view.flying and view.time_s >= view.flying[0].muzzle_s
        paces.setdefault("flight" if on_the_way else gun_state(view), set()).add(snapshot.pace)
    assert view.rounds >= 6
    assert seen / 3600 >= 0.3
    assert max(paces["flight"]) <= 0.2 * max(paces["loads"])


def test_the_ghost_stands_where_the_blade_is_when_the_round_arrives(gun, session):
    foretold = {}
    for _ in range(2400):
        session.tick(FRAME_S)
        view = gun.view()
        if view.flying:
            foretold[view.flying[0].release_s] = view.arrival_rad
        elif view.last and view.last.release_s in foretold:
            assert math.remainder(foretold[view.last.release_s] - view.last.pass_rad, math.tau) == pytest.approx(
                0.0, abs=1e-6
            )
    assert len(foretold) >= 3


@pytest.mark.parametrize(("settings", "font"), list(itertools.product([False, True], range(3))))
def test_five_things_are_to_be_touched_in_the_scene(gun, session, settings, font):
    session.looks = Looks(font=font)
    if settings:
        gun.toggle_settings()
    parts = layout(*SIZE, session.looks.font_scale)
    assert len([each for each in widgets(session.snapshot(), parts) if each.rect.y > parts.top.bottom]) == 5


def test_the_gun_fires_while_a_hand_holds_the_trigger_and_no_longer(gun, session):
    """Untouched it shows what it does; the finger, the key, and the key that presses what is in focus are alike."""
    hands = Hands(session, SIZE)
    assert session.snapshot().view.trigger
    fire = next(place for place, each in enumerate(hands._touchable()) if each.rect.h > 100)
    rect = hands._touchable()[fire].rect
    gun.pace.pick(1.0)

    def fired(seconds=1.0):
        before = gun.view().rounds
        later(session, seconds)
        return gun.view().rounds - before

    session.focus = fire
    ways = [
        (lambda: hands.touch(1, *rect.center), lambda: hands.lift(1)),
        (lambda: hands.press("t"), lambda: hands.release("t")),
        (lambda: hands.press("return"), lambda: hands.release("return")),
        (lambda: hands.press("t"), hands.let_go),
        (lambda: hands.pad_button(2), lambda: hands.pad_button(2)),
    ]
    hands.press("t")
    hands.release("t")
    for pull, let_go in ways:
        assert fired() == 0
        pull()
        assert fired() >= 7
        let_go()
        later(session, 0.2)
    assert not gun.view().trigger


def test_a_gun_pulled_long_after_it_was_ready_is_not_counted_as_held_for_that(gun):
    """A hold is a wait for the cam, not for the hand."""
    gun.change_gear()
    gun.pull(True)
    gun.pull(False)
    gun.pace.pick(1.0)
    for _ in range(120):
        gun.advance(FRAME_S)
    gun.pull(True)
    for _ in range(120):
        gun.advance(FRAME_S)
    assert gun.view().rounds > 10
    assert gun.view().holds == 0


def test_the_last_round_is_seen_once_more_and_changes_no_count(gun, session):
    gun.replay()
    assert not gun.view().replay
    later(session, 20.0)
    while gun.view().last is None or gun.view().flying:
        later(session, 0.1)
    before = gun.view()
    gun.replay()
    seen, on_the_way = 0, set()
    while gun.view().replay and seen < 3600:
        session.tick(FRAME_S)
        view = gun.view()
        seen += 1
        if view.flying:
            on_the_way.add(round(view.arrival_rad - before.last.pass_rad, 6) % math.tau)
    after = gun.view()
    assert 2.0 < seen * FRAME_S < 20.0
    assert {min(each, math.tau - each) for each in on_the_way} == {0.0}
    assert (after.rounds, after.strikes, after.time_s) == (before.rounds, before.strikes, before.time_s)


@pytest.mark.parametrize("struck", [True, False])
def test_a_round_that_met_a_blade_is_seen_once_more_when_the_synchronizer_is_back(gun, session, struck):
    if struck:
        gun.change_gear()
    while gun.view().last is None or gun.view().flying or gun.view().last.struck is not struck:
        later(session, 0.1)
    if not struck:
        gun.change_gear()
    assert not gun.view().replay
    gun.change_gear()
    assert gun.gear != "none"
    assert gun.view().replay is struck


def test_the_chances_are_those_of_the_physics(gun, stage):
    """Untimed: blades times blocked arc over a turn. Timed: the exact share of continuous fire, one in how many."""
    view = gun.view()
    line = stage.gun.line
    assert view.untimed_share == pytest.approx(line.blades * line.blocked_rad / math.tau, rel=1e-9)
    told = chances(replace(view, untimed_share=1.0 / 7.2, strike_share=1.0 / 81234.0), "english")
    assert "out of 7 " in told
    assert "80,000" in told
    assert chances(replace(view, strike_share=0.0), "english").endswith("none.")
    assert "with it" not in chances(replace(view, strike_share=math.nan), "english")
