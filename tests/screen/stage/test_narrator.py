"""Words about a flight: as the arrow on the picture shows it, held long enough to be read, never while false."""

import math
import random

import pytest
from airplanes import BIPLANE
from shared import built
from stage_shapes import later, of, shapes

from sim.live.flight import SCRIPTS
from sim.live.scene_data import stage as scene
from viz.stage.attitude import on_picture
from viz.stage.session import Session
from viz.stage.shapes import Clip, Line, Polygon
from viz.stage.snapshot import Caption
from viz.stage.worlds.hold import HOLD_S
from viz.stage.worlds.narrator import WAYS, Narrator, still, word

LEVEL = Caption("caption.level")


def spoken(session, seconds, before_each=lambda frame: None):
    """Return each caption with how long it was shown, and the pushes at its frames, on the picture."""
    told = []
    for frame in range(round(60 * seconds)):
        before_each(frame)
        session.tick(1.0 / 60.0)
        caption, view = session.turning.caption(), session.turning.view()
        plane = view.rotary
        push = on_picture(plane.attitude, view.camera_heading_rad, up=plane.pitch_n_m, right=plane.yaw_n_m)
        if not told or told[-1][0] != caption:
            told.append((caption, []))
        told[-1][1].append(push)
    return told


@pytest.mark.parametrize("script", SCRIPTS)
def test_a_sentence_is_shown_long_enough_and_is_true_in_every_frame(session, script):
    session.turning.perform(script)
    told = spoken(session, 12.0)
    assert all(len(pushes) >= 60 * HOLD_S - 1 for _, pushes in told[:-1])
    for caption, pushes in told:
        if caption.words:
            assert all(still(caption.words["effect"].split(".")[1], push) for push in pushes)


@pytest.mark.parametrize("script", ["turn-left", "turn-right", "reversal"])
def test_the_foot_that_is_named_works_against_the_push_and_more_than_the_other(session, script):
    """In every frame: on the picture rudder and push are more than a right angle apart, and the bars show it."""
    session.turning.perform(script)
    seen = 0
    for _ in range(60 * 14):
        session.tick(1.0 / 60.0)
        key, view = session.turning.caption().key, session.turning.view()
        if key.startswith("caption.foot_"):
            rotary, fixed = view.rotary, view.fixed
            side = -1.0 if key.endswith("left") else 1.0
            assert side * rotary.feet_share > 0.0
            assert side * (rotary.feet_share - fixed.feet_share) > 0.02
            over = {"heading_rad": view.camera_heading_rad, "up": 0.0, "right": rotary.feet_share}
            foot = on_picture(rotary.attitude, **over)
            push = on_picture(rotary.attitude, view.camera_heading_rad, up=rotary.pitch_n_m, right=rotary.yaw_n_m)
            assert foot[0] * push[0] + foot[1] * push[1] < 0.0
            seen += 1
    assert seen > 60 * HOLD_S


def test_of_the_other_rotation_the_other_foot_holds():
    """It is the spin that asks for a foot: turned the other way it asks for the right one, in turns both ways."""
    turned = built(BIPLANE, "powerplant.rotary.rotation=anticlockwise")
    said = {}
    for side in (-1.0, 1.0):
        session = Session(scene(turned))
        session.turning.stick(side, 0.0)
        said[side] = {caption.key: caption.words for caption, _ in spoken(session, 14.0) if caption.words}
    assert said[-1.0]["caption.foot_right"] == {"effect": "effect.nose_down"}
    assert said[1.0]["caption.foot_right"] == {"effect": "effect.nose_up"}


def test_in_level_turns_the_nose_swings_to_a_side_and_is_pushed_up_to_the_left_and_down_to_the_right(session):
    """In the picture's own axes: what a visitor sees, and what pilots of clockwise rotaries reported."""
    for script, cause, effect in (("turn-left", "left", "up"), ("turn-right", "right", "down")):
        session.turning.perform(script)
        said = [caption for caption, _ in spoken(session, 12.0) if caption.words]
        assert said[0].words == {"cause": f"cause.nose_{cause}", "effect": f"effect.nose_{effect}"}
        assert {caption.key: caption.words["effect"] for caption in said} == {
            "caption.push": f"effect.nose_{effect}",
            "caption.foot_left": f"effect.nose_{effect}",
        }


def test_a_random_hand_never_reads_a_false_word(session):
    dice = random.Random(3)

    def move(frame):
        if frame % 120 == 0:
            session.turning.stick(dice.uniform(-0.6, 0.6), dice.uniform(-0.3, 0.3))

    for caption, pushes in spoken(session, 60.0, move):
        if caption.words:
            assert all(still(caption.words["effect"].split(".")[1], push) for push in pushes)


@pytest.mark.parametrize("script", ["turn-left", "turn-right", "reversal"])
def test_the_sentence_names_the_way_of_the_arrow(session, stage, script):
    """The arrow as it is drawn, in pixels, against the word of the sentence: within 60° and a little perspective."""
    session.turning.perform(script)
    seen = 0
    for _ in range(20):
        later(session, 0.5)
        words = session.snapshot().caption.words
        items = next(shape for shape in shapes(session, stage) if isinstance(shape, Clip)).items
        heads = of(items, Polygon, "rotary")
        if words and heads:
            start, tip = of(items, Line, "rotary")[-1].points[0], heads[-1].points[0]
            move = (start[1] - tip[1], tip[0] - start[0])
            up, right = WAYS[words["effect"].split(".")[1]]
            assert (move[0] * up + move[1] * right) / math.hypot(*move) > math.cos(math.radians(65.0))
            seen += 1
    assert seen > 2


def test_level_and_then_a_push_that_lasts():
    narrator = Narrator()

    def tell(share, cause=(0.0, -1.0), effect=(1.0, 0.0)):
        narrator.now_s += 0.1
        return narrator.tell(cause, effect, share, "5", level=LEVEL)

    assert [tell(0.5) for _ in range(24)] == [LEVEL] * 24
    later_on = [tell(0.5) for _ in range(5)][-1]
    assert later_on.words == {"cause": "cause.nose_left", "effect": "effect.nose_up"}
    assert tell(0.5, effect=(1.0, 1.5)) == later_on  # 56° off: still true
    assert tell(0.5, effect=(1.0, 2.0)) == LEVEL  # 63° off: false
    assert word((0.2, -0.3)) == "nose_left"


def test_up_in_the_body_is_aside_on_the_picture_of_a_steep_bank():
    half = math.radians(45.0)
    right_wing_down = (math.cos(half), math.sin(half), 0.0, 0.0)
    up, right = on_picture(right_wing_down, 0.0, up=1.0, right=0.0)
    assert (up, right) == pytest.approx((0.0, 1.0), abs=1e-12)
    assert on_picture((1.0, 0.0, 0.0, 0.0), 0.0, up=0.3, right=-0.4) == pytest.approx((0.3, -0.4))
