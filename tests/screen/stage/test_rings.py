"""The challenge: rings for one engine and then the other, what is said of them, and both flights in one picture."""

import math
import random

import numpy as np
import pytest
from stage_eyes import worst
from stage_shapes import flat, flown_through, later, of, shapes

from sim.live.course import towards_rad
from sim.live.effort import Effort, further
from viz.stage.actions import Action
from viz.stage.bank_pad import BankPad
from viz.stage.controls import widgets
from viz.stage.input import Hands
from viz.stage.kiosk import IDLE_S, Kiosk
from viz.stage.layout import layout
from viz.stage.palette import colour
from viz.stage.scenes import rings
from viz.stage.scenes.camera import chase
from viz.stage.session import Session
from viz.stage.shapes import Block, Clip, Facets, Polygon, texts
from viz.stage.snapshot import BenchView, Looks, RingsView, TurningView
from viz.stage.widgets import Button
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.rings import LATE_S, ORDER
from viz.stage.worlds.world import STEP_S
from viz.words.catalogue import languages
from viz.words.say import say

SIZE = (1280, 720)


def among(session):
    session.to_rings()
    return session.rings


@pytest.fixture(scope="module")
def over(stage):
    """Return a session whose two flights are over."""
    session = Session(stage)
    among(session)
    flown_through(session)
    later(session, 4.0)
    return session


def touched(session, font=1.0):
    return widgets(session.snapshot(), layout(*SIZE, font, session.front))


def test_one_way_in_by_touch_and_one_by_key(stage):
    session = Session(stage)
    hands = Hands(session, SIZE)
    session.to_bench(True)
    (way,) = (one for one in touched(session) if getattr(one, "action", None) is Action.RINGS)
    hands.touch(1, *way.rect.center)
    assert isinstance(session.snapshot().view, RingsView)
    session = Session(stage, scene="engine")
    Hands(session, SIZE).press("j")
    assert isinstance(session.snapshot().view, RingsView)
    assert session.scene == "turning"


@pytest.mark.parametrize("action", [Action.MANEUVER, Action.LET_GO, Action.FULL_CONTROL, Action.TURNING])
def test_every_other_part_of_the_scene_leads_out_of_it(session, action):
    among(session)
    session.tick(1.0)
    session.act(action)
    assert isinstance(session.snapshot().view, BenchView if action is Action.TURNING else TurningView)


def test_never_more_than_five_things_to_touch_beside_tabs_and_tools(session, over):
    among(session)
    for one, most in ((session, 4), (over, 2)):
        at = layout(*SIZE, 1.0, one.front)
        own = [each for each in touched(one) if each.rect.y > at.top.bottom]
        assert 0 < len(own) <= most
    assert not [one for one in touched(over) if isinstance(one, BankPad)]


def test_pad_and_keys_set_the_bank_that_the_pilot_flies(session):
    world, hands = among(session), Hands(session, SIZE)
    (pad,) = (one for one in touched(session) if isinstance(one, BankPad))
    hands.touch(1, pad.rect.right - 2, pad.rect.center[1])
    later(session, 2.0)
    assert world.view().told_rad > math.radians(30.0)
    hands.lift(1)
    hands.press("left")
    later(session, 2.0)
    assert world.view().told_rad < -math.radians(10.0)


def test_the_sums_are_those_of_the_flight_and_nothing_is_flown_beside_it(session):
    """Both airplanes fly the equations of the scene: the sums are those of the states that were shown."""
    world = among(session)
    done, now = Effort(), world._plane.state
    session.stick(0.5, 0.0)
    for _ in range(180):
        world.follow(STEP_S)
        world.step()
        done, now = further(done, world._flyers["rotary"], now, world._plane.state, step_s=STEP_S), world._plane.state
    assert world._effort == done
    assert done.wander_rad > 0.0


def test_who_flies_towards_the_rings_gets_through_most_with_either_engine(over):
    runs = over.rings.view().runs
    assert [run.who for run in runs] == list(ORDER)
    assert all(run.rings == 5 and run.through >= 3 for run in runs)


@pytest.mark.parametrize("share", [0.0, -1.0, 1.0])
def test_who_misses_loses_nothing_and_comes_to_the_end_in_bounded_time(session, share):
    world, said = among(session), []
    frames = 0
    while not world.done and frames < 60 * 90:
        session.stick(share, 0.0)
        session.tick(1.0 / 60.0)
        said.append(world.caption().key)
        frames += 1
    assert world.done
    last_s = world.view().rings[-1].due_s + LATE_S
    assert frames / 60.0 < 2.0 * (last_s + 4.0)
    assert {"caption.rings_past", "caption.rings_past_last", "caption.rings_fixed"} <= set(said)
    later(session, 4.0)
    assert world.caption().key == "caption.rings_straight"


@pytest.mark.parametrize("seed", range(3))
def test_a_random_hand_flies_both_without_a_crash(session, seed):
    world, dice = among(session), random.Random(seed)
    lowest = math.inf
    for frame in range(60 * 80):
        if frame % 120 == 0:
            session.stick(dice.uniform(-1.0, 1.0), dice.uniform(-1.0, 1.0))
        session.tick(1.0 / 60.0)
        lowest = min(lowest, world.view().plane.height_m)
    assert world.done
    assert lowest > 200.0


def test_a_sentence_stands_long_enough(session):
    world, told = among(session), []
    for _ in range(60 * 70):
        view = world.view()
        left = view.rings[len(view.passed) :]
        wanted = towards_rad(left[0], world._plane.state) if left else 0.0
        session.stick(0.5 * ((wanted > 0.17) - (wanted < -0.17)), 0.0)
        session.tick(1.0 / 60.0)
        if not told or told[-1][0] != world.caption():
            told.append([world.caption(), 0])
        told[-1][1] += 1
    assert len(told) > 8
    assert all(frames >= 60 * HOLD_S - 1 for _, frames in told[:-1])


@pytest.mark.parametrize("steady", [True, False])
def test_rings_are_sorted_among_the_faces_and_stand_where_they_are(session, stage, steady):
    """Every piece of a ring is in the one list that is sorted by distance, at the angle at which it is seen."""
    session.looks = Looks(steady=steady)
    world = among(session)
    later(session, 2.0)
    view = world.view()
    drawn = shapes(session, stage)
    (body,) = (shape for shape in flat(drawn) if isinstance(shape, Facets))
    free = next(shape for shape in drawn if isinstance(shape, Clip)).rect
    camera = chase(free, view.camera_heading_rad, stage.figure.span_m)
    role = {name: place for place, name in enumerate(body.roles)}
    of_rods = body.role[len(body.corners) :]
    bright = body.ends[of_rods == role[rings.NEXT]]
    assert bright.shape == (rings.PIECES, 2, 2)
    expected = camera.project(camera.seen(rings.pieces_m(view.rings[0], view.plane).reshape(-1, 3)))
    assert bright.reshape(-1, 2) == pytest.approx(expected)
    assert np.ptp(bright[:, :, 0]) > 40.0
    later_ones = int(np.count_nonzero(of_rods == role[rings.LATER]))
    assert later_ones == (0 if steady else 4 * rings.PIECES)
    rank = np.empty(len(body.order), dtype=int)
    rank[body.order] = np.arange(len(body.order))
    rods = rank[len(body.corners) :]
    assert rods[of_rods == role[rings.NEXT]].max() < np.median(rank[: len(body.corners)]), "a far ring is drawn first"
    edge = rods[of_rods == role[rings.EDGE]][: rings.PIECES]
    assert (edge < rods[of_rods == role[rings.NEXT]]).all(), "the dark edge lies behind its piece"


@pytest.mark.parametrize("contrast", ["normal", "high"])
def test_a_ring_as_it_is_lit_is_told_from_its_dark_edge_by_all_eyes(session, stage, contrast):
    among(session)
    later(session, 3.0)
    (body,) = (shape for shape in flat(shapes(session, stage)) if isinstance(shape, Facets))
    rods = body.light[len(body.corners) :], body.role[len(body.corners) :]
    lit = {
        role: np.array(colour(role, contrast)) * rods[0][rods[1] == body.roles.index(role)][0]
        for role in (rings.NEXT, rings.LATER, rings.EDGE)
    }
    assert all(worst(lit[role], lit[rings.EDGE]) >= 3.0 for role in (rings.NEXT, rings.LATER))


def test_an_arrow_shows_the_side_of_a_ring_that_is_out_of_sight(session, stage):
    world = among(session)
    session.stick(1.0, 0.0)
    later(session, 8.0)
    view = world.view()
    off_rad = towards_rad(view.rings[len(view.passed)], world._plane.state)
    (head,) = of(flat(shapes(session, stage)), Polygon, rings.NEXT)
    tip = head.points[0]
    assert off_rad < 0.0
    assert tip[0] < 60.0
    assert all(tip[0] < x for x, _ in head.points[1:])


def test_both_flights_are_compared_by_lengths_in_one_picture(over, stage):
    view = over.snapshot().view
    picture = next(shape for shape in shapes(over, stage) if isinstance(shape, Clip))
    bars = {who: of(picture.items, Block, who) for who in ORDER}
    assert all(len(found) == len(rings.BARS) for found in bars.values())
    for place, what in enumerate(rings.BARS):
        wide = [bars[who][place].rect.w for who in ORDER]
        asked = [rings.measure(what, run) for run in view.runs]
        assert wide[0] / wide[1] == pytest.approx(asked[0] / asked[1], rel=0.03)
    said = [text.text for text in texts([picture])]
    assert all(rings.told(over.looks, what, run) in said for what in rings.BARS for run in view.runs)
    filled, hollow = (bars[who][0].rim for who in ORDER)
    assert filled == 0.0 < hollow, "told apart without colour"


@pytest.mark.parametrize("language", languages())
def test_the_sentence_says_the_ratios_of_the_picture(over, stage, language):
    over.looks = Looks(language)
    view, caption = over.snapshot().view, over.rings.caption()
    rotary, fixed = (run.effort for run in view.runs)
    assert caption.key in {"caption.rings_left", "caption.rings_right"}
    ways = [one.feet_left_share / one.feet_right_share for one in (rotary, fixed)]
    if caption.key == "caption.rings_right":
        ways = [1.0 / one for one in ways]
    expected = (*ways, rotary.wander_rad / fixed.wander_rad)
    assert tuple(map(float, caption.values.values())) == pytest.approx(expected, abs=0.051)
    words = say(language, caption.key, **caption.values)
    assert words in [text.text for text in texts(shapes(over, stage))]
    assert ("," in words.replace(", ", "")) is (language != "english")


def test_once_more_begins_with_the_first_engine(stage):
    session = Session(stage)
    world = among(session)
    later(session, 3.0)
    (again,) = (one for one in touched(session) if isinstance(one, Button) and one.action is Action.RESTART)
    Hands(session, SIZE).touch(1, *again.rect.center)
    assert (world.time_s, world.who, world.view().runs, world._effort) == (0.0, "rotary", (), Effort())


def test_an_idle_stand_forgets_the_rings(stage):
    session = Session(stage)
    kiosk = Kiosk(session)
    session.wake()
    session.now_s += 1.0
    session.act(Action.RINGS)
    assert isinstance(session.snapshot().view, RingsView)
    kiosk.tick(IDLE_S + 1.0)
    assert session.attract
    assert not isinstance(session.snapshot().view, RingsView)
    session.wake()
    assert isinstance(session.snapshot().view, BenchView)
