"""An airplane without a gun on the stage: two scenes, no key that a gun alone has a use for; and a wing on struts."""

import math
from dataclasses import replace

import pytest
from airplanes import PARASOL
from stage_shapes import flat, shapes

from sim.errors import InputError
from sim.live.plain_figure import plain_figure
from sim.model.model import model
from viz.stage.actions import KEYS, OF_A_GUN, Action
from viz.stage.controls import widgets
from viz.stage.flashes import EXCHANGE_S
from viz.stage.kiosk import SCENE_S, Kiosk
from viz.stage.layout import layout
from viz.stage.session import Session
from viz.stage.shapes import Text
from viz.stage.widgets import Button
from viz.words.say import say

TWO = ("turning", "engine")


@pytest.fixture(scope="module")
def unarmed(stage):
    return replace(stage, gun=None, bore_radius_m=math.nan)


@pytest.fixture
def session(unarmed):
    return Session(unarmed)


def act(session, *actions):
    for action in actions:
        session.tick(EXCHANGE_S + 0.1)
        session.act(action)
    return session.scene


def test_the_key_of_the_third_scene_leaves_the_scene_that_is_on(session):
    assert act(session, Action.ENGINE) == "engine"
    assert act(session, *OF_A_GUN) == "engine"
    assert act(session, Action.NEXT_SCENE) == "turning"
    assert act(session, Action.NEXT_SCENE) == "engine"


def test_there_are_tabs_for_two_scenes(session, stage):
    def tabs(of):
        found = widgets(of.snapshot(), layout(1280, 720, 1.0))
        return [one.action for one in found if isinstance(one, Button) and one.action in Action._value2member_map_]

    armed = Session(stage)
    assert set(tabs(armed)) - set(tabs(session)) == {Action.BLADES}


def test_the_help_page_leaves_out_what_a_gun_alone_has_a_use_for(session, unarmed):
    act(session, Action.HELP)
    shown = [shape.text for shape in flat(shapes(session, unarmed)) if isinstance(shape, Text)]
    for key in KEYS:
        told = say("english", f"action.{key.action.value}")
        assert any(text.startswith(told) for text in shown) == (key.action not in OF_A_GUN), key


def test_a_stand_shows_both_scenes_in_turn_and_every_maneuver(unarmed):
    session = Session(unarmed)
    kiosk = Kiosk(session)
    shown = []
    for _ in range(4):
        shown.append((session.scene, session.turning.script if session.scene == "turning" else ""))
        kiosk.tick(SCENE_S + 0.1)
    assert [scene for scene, _ in shown] == [*TWO, *TWO]
    assert shown[0][1] != shown[2][1]


def test_the_scene_of_the_gun_is_refused_by_name(run, tmp_path, monkeypatch):
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    bare = tmp_path / "bare.toml"
    text = PARASOL.read_text(encoding="utf-8")
    start, end = text.index("# ---- a gun left"), text.index("[flight]")
    cut = text[:start] + text[end:]
    cut = cut[: cut.index("# ---- an inert display")] + cut[cut.index("# ---- engine mount") :]
    bare.write_text(cut, encoding="utf-8")
    shown = run("view", bare, "--scene", "blades", "--snapshot", tmp_path / "no.png")
    said = "--scene: must be turning or engine: the scenario has no gun, whose rounds pass between the blades\n"
    assert (shown.exit_code, shown.stdout, shown.stderr) == (2, "", said)
    assert run("view", bare, "--snapshot", tmp_path / "yes.png").exit_code == 0


def test_the_gun_that_is_not_there_is_a_sentence(unarmed, stage):
    assert stage.armed() is stage.gun
    with pytest.raises(InputError, match="gun: is missing; there are no rounds to be shown between the blades"):
        unarmed.armed()


def test_a_single_wing_stands_at_its_height_on_struts_where_it_is_clear_of_the_fuselage():
    """In common proportions: as high as the scenario has it, two cabane and two lift struts on each side; without
    height, none."""
    parasol = model(PARASOL, ["wing.height=0.79 m"])
    rotary = next(one for one in parasol.powerplants.values() if one.kind == "rotary")
    found = plain_figure(parasol, rotary)
    assert found.wings[0].root[2] == pytest.approx(-0.79)
    assert len(found.struts) == 8
    low = model(PARASOL, ["wing.height=0 m"])
    assert plain_figure(low, rotary).struts == ()


def test_with_a_gun_there_are_all_three(stage):
    assert Session(stage).scenes == (*TWO, "blades")
