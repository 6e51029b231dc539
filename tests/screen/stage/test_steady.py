"""Little motion, where it is asked for: nothing streams past, turns quickly, spreads or flies apart."""

import math

import numpy as np
import pygame
import pytest
from stage_shapes import flat, later

from viz.stage.actions import Action
from viz.stage.controls import widgets
from viz.stage.input import Hands
from viz.stage.kiosk import Kiosk
from viz.stage.layout import layout
from viz.stage.scenes.scene import draw
from viz.stage.session import Session
from viz.stage.shapes import Country, Disc, Line, Polygon
from viz.stage.show import Setting, Show
from viz.stage.snapshot import Looks
from viz.stage.worlds.slow import STEADY_PASSAGES_HZ
from viz.words.catalogue import languages
from viz.words.say import say

SIZE = (960, 540)
STEP_S = 1.0 / 60.0


def begun(stage, scene, steady, script=""):
    session = Session(stage, looks=Looks(steady=steady), scene=scene)
    if script:
        session.turning.perform(script)
    return session


def shapes(stage, session):
    snapshot = session.snapshot()
    return list(flat(draw(snapshot, layout(*SIZE, 1.0, snapshot.front), stage.figure, SIZE)))


@pytest.mark.parametrize("steady", [True, False])
def test_the_country_stands_still_while_both_turn(stage, steady):
    session, seen = begun(stage, "turning", steady, "turn-left"), []
    for _ in range(4):
        later(session, 1.0)
        (country,) = (shape for shape in shapes(stage, session) if isinstance(shape, Country))
        seen.append(country[:9])
    assert (len({repr(one) for one in seen}) == 1) is steady
    assert session.turning.view().rotary.heading_rad != 0.0, "the airplanes do turn"


@pytest.mark.parametrize(
    ("scene", "most", "after_s"), [("turning", 0.5, 2.0), ("engine", 0.75, 2.0), ("blades", 0.9, 6.0)]
)
def test_less_of_the_picture_changes(stage, scene, most, after_s):
    """Mean change of a pixel between two frames a tenth of a second apart, over three seconds; a gun loads by then."""
    changed = {}
    for steady in (True, False):
        show = Show(stage, Setting(Looks(steady=steady), scene, "turn-left" if scene == "turning" else ""), SIZE)
        surface, before, total = pygame.Surface(SIZE, depth=32), None, 0.0
        later(show.session, after_s)
        for _ in range(30):
            later(show.session, 0.1)
            show.paint(surface)
            now = pygame.surfarray.array3d(surface).astype(int)
            total += 0.0 if before is None else float(np.abs(now - before).mean())
            before = now
        changed[steady] = total
    assert 0.0 < changed[True] < most * changed[False], changed[True] / changed[False]


def test_an_engine_turns_as_much_slower_as_its_pace_says(stage):
    turned = {}
    for steady in (True, False):
        session = begun(stage, "engine", steady)
        later(session, 0.5)
        before = session.snapshot().view.rotary.shaft_rad
        later(session, 0.5)
        away = math.remainder(session.snapshot().view.rotary.shaft_rad - before, math.tau)
        turned[steady] = away / session.snapshot().pace
    assert turned[True] == pytest.approx(turned[False], rel=1e-6)


def test_blades_pass_slowly_while_the_gun_loads(stage):
    session = begun(stage, "blades", True)
    quickest = 0.0
    later(session, 1.0)
    for _ in range(round(20.0 / STEP_S)):
        before = session.blades.view()
        session.tick(STEP_S)
        after = session.blades.view()
        turned = (after.angle_rad - before.angle_rad) % after.gun.cam.period_rad
        quickest = max(quickest, turned * after.gun.line.blades / math.tau / STEP_S)
    assert 0.0 < quickest <= 1.02 * STEADY_PASSAGES_HZ


@pytest.mark.parametrize("steady", [True, False])
def test_splinters_fly_only_with_full_motion(stage, steady):
    session = begun(stage, "blades", steady)
    session.act(Action.GEAR)
    for _ in range(round(400.0 / STEP_S)):
        session.tick(STEP_S)
        view = session.blades.view()
        if view.last and view.last.struck and view.time_s > view.last.pass_s:
            break
    assert view.last.struck
    drawn = shapes(stage, session)
    assert any(isinstance(one, Polygon) and one.role == "linen" for one in drawn) is not steady
    assert any(isinstance(one, Line) and one.role == "strike" for one in drawn), "the cross stays"


@pytest.mark.parametrize("steady", [True, False])
def test_the_hand_of_the_attract_loop_stands_still(stage, steady):
    session = begun(stage, "engine", steady)
    session.attract, found = True, set()
    for _ in range(4):
        session.now_s += 0.5
        found.add(
            repr([one for one in shapes(stage, session) if isinstance(one, Disc) and one.role in {"caution", "ink"}])
        )
    assert (len(found) == 1) is steady


@pytest.mark.parametrize("language", languages())
def test_key_and_menu_ask_for_it_and_say_so(stage, language):
    session = Session(stage, looks=Looks(language))
    hands = Hands(session, SIZE)
    session.tick(1.0)
    for wanted, words in ((True, "button.motion_little"), (False, "button.motion_full")):
        hands.press("y")
        session.tick(1.0)
        assert session.looks.steady is wanted
        session.overlay = "menu"
        labels = [one.label for one in widgets(session.snapshot(), layout(*SIZE, 1.0))]
        assert say(language, words) in labels
        session.overlay = ""


def test_a_kiosk_that_began_with_little_motion_keeps_it_for_everybody(stage):
    session = Session(stage, looks=Looks(steady=True))
    kiosk = Kiosk(session)
    session.wake()
    session.act(Action.MOTION)
    assert not session.looks.steady
    kiosk.tick(1000.0)
    assert session.attract
    assert session.looks.steady


def test_the_command_asks_for_it(run, tmp_path):
    files = {name: tmp_path / f"{name}.png" for name in ("full", "steady")}
    for name, file in files.items():
        more = ("--steady",) if name == "steady" else ()
        result = run("view", "--snapshot", str(file), "--size", "640x360", "--at", "1 s", *more)
        assert (result.exit_code, result.stderr) == (0, "")
    assert files["full"].read_bytes() != files["steady"].read_bytes()
