"""The engines on the bench: words and arrows tell how they move, and a visitor gets there and on to the flight."""

import math
import random
from dataclasses import replace
from itertools import combinations

import pytest
from stage_shapes import flat, later, of, shapes

from viz.stage.actions import Action
from viz.stage.controls import widgets
from viz.stage.input import Hands
from viz.stage.layout import layout
from viz.stage.scenes.bench import turn
from viz.stage.session import Session
from viz.stage.shapes import Disc, Line, Polygon, Text
from viz.stage.snapshot import BenchView, TurningView
from viz.stage.widgets import Button, Slider, Stick, moving, still
from viz.stage.worlds.bench import IDLE_S, MOST_RAD, BenchWorld
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.narrator import WAYS

SIZE = (1280, 720)
TICK_S = 1.0 / 60.0
PUSHES = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}
ANSWERS = {"left": "nose_up", "right": "nose_down", "up": "nose_right", "down": "nose_left"}


@pytest.fixture
def bench(session):
    session.to_bench(True)
    return session


def said(world):
    caption = world.caption()
    return caption.key.removeprefix("caption."), {name: key.split(".")[1] for name, key in caption.words.items()}


@pytest.mark.parametrize("way", PUSHES)
def test_pushed_to_a_side_the_rotary_answers_at_right_angles_and_the_other_one_follows(bench, way):
    bench.stick(*PUSHES[way])
    later(bench, 3.0)
    view = bench.snapshot().view
    right, down = PUSHES[way]
    assert view.fixed.right_rad == pytest.approx(right * math.hypot(view.fixed.up_rad, view.fixed.right_rad), abs=1e-9)
    assert view.fixed.up_rad == pytest.approx(-down * math.hypot(view.fixed.up_rad, view.fixed.right_rad), abs=1e-9)
    across = -down * view.rotary.up_rad + right * view.rotary.right_rad
    assert abs(across) < 0.2 * math.hypot(view.rotary.up_rad, view.rotary.right_rad)
    assert said(bench.bench) == ("bench_push", {"cause": f"nose_{way}", "effect": ANSWERS[way]})


def test_of_the_other_rotation_it_answers_to_the_other_side(stage):
    """Seen from ahead of a mirror: left of one is left of the other, and up of one is down of the other."""
    other = replace(stage.rotary_engine, spin_rad_s=-stage.rotary_engine.spin_rad_s)
    worlds = [BenchWorld(engine, stage.fixed_engine) for engine in (stage.rotary_engine, other)]
    for world in worlds:
        world.stick(-1.0, 0.0)
        for _ in range(180):
            world.follow(TICK_S)
            world.advance(TICK_S)
    one, two = (world.view().rotary for world in worlds)
    assert one.up_rad > 0.1
    assert two.up_rad == pytest.approx(-one.up_rad)
    assert two.right_rad == pytest.approx(one.right_rad)
    assert [said(world)[1]["effect"] for world in worlds] == ["nose_up", "nose_down"]


def test_words_are_true_in_every_frame_of_a_random_hand_and_stand_long_enough(bench):
    """What is said of push and answer lies within 60° of both; sentences change only where they would be false."""
    hand, world = random.Random(3), bench.bench
    seen, since_s, before, seen_end = set(), 0.0, said(world), ""
    for frame in range(60 * 90):
        if frame % 150 == 0:
            bench.stick(hand.uniform(-1, 1) * hand.randint(0, 1), hand.uniform(-1, 1) * hand.randint(0, 1))
        bench.tick(TICK_S)
        view, (key, words) = world.view(), said(world)
        seen.add(key)
        push, rate = (view.push_up, view.push_right), (view.rotary.up_rate, view.rotary.right_rate)
        if key == "bench_push":
            other = (view.fixed.up_rate, view.fixed.right_rate)
            for name, move in (("cause", push), ("cause", other), ("effect", rate)):
                up, right = WAYS[words[name]]
                assert move[0] * up + move[1] * right >= 0.49 * math.hypot(*move) > 0.0
        if key == "bench_end" and seen_end != key:
            assert max(math.hypot(side.up_rate, side.right_rate) for side in (view.rotary, view.fixed)) < 0.09
        seen_end = key
        if key == "bench_back":
            assert (view.asked_up, view.asked_right) == (0.0, 0.0)
        since_s += TICK_S
        if said(world) != before:
            always = before[0] in {"bench_spins", "bench_ask"}
            assert since_s >= HOLD_S - 2 * TICK_S or not always
            since_s, before = 0.0, said(world)
    assert seen == {f"bench_{name}" for name in ("spins", "ask", "push", "end", "back")}


def test_no_push_takes_a_nose_beyond_its_end_and_letting_go_brings_it_back(bench):
    for way in PUSHES.values():
        bench.stick(*way)
        later(bench, 8.0)
        view = bench.snapshot().view
        for side in (view.rotary, view.fixed):
            assert math.hypot(side.up_rad, side.right_rad) < 1.5 * MOST_RAD
    bench.stick(0.0, 0.0)
    later(bench, 6.0)
    view = bench.snapshot().view
    assert all(math.hypot(side.up_rad, side.right_rad) < 0.01 for side in (view.rotary, view.fixed))


def test_the_picture_turns_the_nose_as_it_is_told(bench):
    bench.stick(-1.0, 0.0)
    later(bench, 3.0)
    rotary = bench.snapshot().view.rotary
    north, east, down = turn(rotary)[:, 0]
    assert north > 0.8
    assert -down == pytest.approx(math.sin(rotary.up_rad))
    assert math.atan2(east, north) == pytest.approx(rotary.right_rad)


@pytest.mark.parametrize("way", PUSHES)
def test_both_arrows_are_named_at_their_ends_and_point_as_told(bench, stage, way):
    """The push comes from the other side to the mark of the nose, the answer leaves it; no label is over another."""
    bench.stick(*PUSHES[way])
    later(bench, 3.0)
    drawn = list(flat(shapes(bench, stage)))
    named = [text for text in of(drawn, Text, "on_colour") if text.text in {"you push", "it answers"}]
    assert sorted(text.text for text in named) == ["it answers", "it answers", "you push", "you push"]
    assert not any(one.rect.overlaps(other.rect) for one, other in combinations(named, 2))
    right, down = PUSHES[way]
    marks = {who: next(one for one in of(drawn, Disc, who) if not one.rim) for who in ("rotary", "fixed")}
    heads = {role: [one.points[0] for one in of(drawn, Polygon, role)] for role in ("ink", "rotary", "fixed")}
    for who, tip in zip(("rotary", "fixed"), heads["ink"], strict=True):
        assert math.dist(tip, (marks[who].x, marks[who].y)) < 1e-6
    off = {who: (heads[who][0][0] - marks[who].x, heads[who][0][1] - marks[who].y) for who in ("rotary", "fixed")}
    assert off["fixed"][0] * right + off["fixed"][1] * down > 0.99 * math.hypot(*off["fixed"])
    assert abs(off["rotary"][0] * right + off["rotary"][1] * down) < 0.25 * math.hypot(*off["rotary"])


def test_one_bent_arrow_goes_round_the_rotary_as_it_spins(bench, stage):
    """Clockwise as the pilot sees it, from behind, where the shaft turns so; the stopped engine has none."""
    for sense in (1.0, -1.0):
        turned = replace(stage.rotary_engine, spin_rad_s=sense * abs(stage.rotary_engine.spin_rad_s))
        bench.bench = BenchWorld(turned, stage.fixed_engine)
        (arc,) = [line for line in of(flat(shapes(bench, stage)), Line, "turning") if len(line.points) > 5]
        (x0, y0), (x1, y1), (x2, y2) = (arc.points[place] for place in (0, len(arc.points) // 2, -1))
        assert max(x0, x1, x2) < 0.5 * SIZE[0]
        assert sense * ((x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)) > 0.0


@pytest.mark.parametrize("way", PUSHES)
def test_the_knob_of_the_pad_hides_no_word_at_its_ends(bench, way):
    pad = next(each for each in widgets(bench.snapshot(), layout(*SIZE, 1.0)) if isinstance(each, Stick))
    roll, pitch = PUSHES[way]
    pad = pad._replace(roll=roll, pitch=pitch)
    (knob,) = of(moving(pad, 1.0), Disc, "knob")
    for text in of(still(pad, 1.0, False), Text, "ink_quiet"):
        x, y, half_high = text.rect.x, text.rect.center[1], 0.5 * text.size
        x = text.rect.right - 0.7 * text.size * len(text.text) if text.align == "right" else x
        near = min(max(knob.x, x), x + 0.7 * text.size * len(text.text)), min(max(knob.y, y - half_high), y + half_high)
        assert math.dist(near, (knob.x, knob.y)) > knob.radius, text.text


def test_a_nose_that_is_let_go_goes_back_and_answers_nothing(bench, stage):
    bench.stick(-1.0, 0.0)
    later(bench, 3.0)
    bench.stick(0.0, 0.0)
    later(bench, 1.0)
    told = [text.text for text in of(flat(shapes(bench, stage)), Text, "on_colour")]
    assert told.count("goes back") == 2
    assert "it answers" not in told


def test_a_nose_that_nobody_pushes_is_named(bench, stage):
    later(bench, 1.0)
    assert [text.text for text in of(flat(shapes(bench, stage)), Text, "on_colour")].count("nose") == 2


def test_finger_keys_and_pad_push_it_and_five_things_are_touched_at_most(bench):
    hands = Hands(bench, SIZE)
    touched = widgets(bench.snapshot(), layout(*SIZE, 1.0))
    pad = next(each for each in touched if isinstance(each, Stick))
    assert not [each for each in touched if isinstance(each, Slider)]
    hands.touch(1, pad.rect.x + 2, pad.rect.center[1])
    later(bench, 1.0)
    assert bench.snapshot().view.push_right == -1.0
    hands.lift(1)
    hands.press("up")
    later(bench, 1.0)
    assert bench.snapshot().view.push_up == pytest.approx(0.6)
    hands.release("up")
    hands.pad_axis(0, 1.0)
    later(bench, 1.0)
    assert bench.snapshot().view.push_right == 1.0


@pytest.mark.parametrize("action", [Action.TURNING, Action.MANEUVER, Action.LET_GO, Action.FULL_CONTROL])
def test_it_is_left_by_a_touch_for_the_flight(bench, action):
    assert isinstance(bench.snapshot().view, BenchView)
    bench.act(action)
    assert isinstance(bench.snapshot().view, TurningView)


def test_its_button_leads_to_the_flight_and_the_scene_s_own_tab_back(bench):
    hands = Hands(bench, SIZE)
    fly, *_ = [
        each
        for each in widgets(bench.snapshot(), layout(*SIZE, 1.0))
        if isinstance(each, Button) and each.rect.y > 0.5 * SIZE[1]
    ]
    hands.touch(1, *fly.rect.center)
    assert not bench.on_bench
    later(bench, 2.0)
    bench.act(Action.TURNING)
    assert bench.on_bench


def test_it_is_left_by_itself_when_nobody_pushes_and_not_before(bench):
    later(bench, IDLE_S - 1.0)
    bench.stick(0.5, 0.0)
    later(bench, 2.0)
    bench.stick(0.0, 0.0)
    later(bench, IDLE_S - 1.0)
    assert bench.on_bench
    later(bench, 2.0)
    assert not bench.on_bench


def test_a_visitor_who_wakes_the_stand_begins_there_and_another_scene_s_does_not(stage):
    for scene, there in (("turning", True), ("engine", False)):
        session = Session(stage, scene=scene)
        session.attract = True
        session.wake()
        assert session.on_bench is there
        session.restart()
        assert not session.on_bench


def test_real_time_is_not_said_beside_a_shaft_that_is_drawn_slower(bench, stage):
    """Another pace, and a pause, are."""

    def said_of_pace():
        return [one.text for one in of(flat(shapes(bench, stage)), Text, "caution") if one.bold]

    assert said_of_pace() == []
    bench.act(Action.SLOWER)
    assert len(said_of_pace()) == 1
    assert "slow" in said_of_pace()[0].lower()
    bench.act(Action.PAUSE)
    assert said_of_pace() == ["Paused"]
