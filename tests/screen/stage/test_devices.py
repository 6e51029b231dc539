"""How it is used: a page of pictures of touch, mouse, keys and gamepad, with the table of keys behind a button."""

import pytest
from stage_shapes import flat, later, shapes

from viz.stage.actions import PAD_AXES, PAD_BUTTONS, Action, key_called
from viz.stage.controls import widgets
from viz.stage.input import Hands
from viz.stage.layout import layout
from viz.stage.scenes.devices import PICTURES
from viz.stage.session import Session
from viz.stage.shapes import Block, Disc, Line, Polygon, Rect, Text
from viz.words.catalogue import languages
from viz.words.say import say

SIZE = (1280, 720)


def pressed(session, action):
    button = next(one for one in widgets(session.snapshot(), layout(*SIZE, 1.0)) if one.action is action)
    Hands(session, SIZE).touch(1, *button.rect.center)
    later(session, 1.0)


def test_it_is_reached_from_the_menu_and_leads_to_the_table_and_back(stage):
    session = Session(stage)
    later(session, 1.0)
    for action, page in ((Action.MENU, "menu"), (Action.DEVICES, "devices"), (Action.HELP, "help"), (Action.HELP, "")):
        pressed(session, action)
        assert session.overlay == page


@pytest.mark.parametrize("language", languages())
def test_each_device_has_its_words_below_its_picture(stage, language):
    session = Session(stage)
    session.looks = session.looks.__class__(language)
    session.overlay = "devices"
    found = [one for one in flat(shapes(session, stage)) if isinstance(one, Text)]
    words = [say(language, f"devices.{name}") for name in PICTURES]
    assert [one.text for one in found if one.text in words] == words


def test_what_is_said_of_keys_and_pad_is_so():
    """Arrows and the left stick bank; digits and the button that is named change the scene."""
    assert {key_called(name).action for name in ("left", "right")} == {Action.STICK_LEFT, Action.STICK_RIGHT}
    assert {key_called(name).action for name in "123"} == {Action.TURNING, Action.ENGINE, Action.BLADES}
    assert PAD_AXES[0] == "roll"
    assert PAD_BUTTONS[7] is Action.NEXT_SCENE
    for language in languages():
        assert " 7" in say(language, "devices.pad")


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_stays_within_its_room_and_shows_what_is_done_in_its_own_colour(name):
    """By a hundred pixels to each side and fifty up and down of its middle, its unit a pixel."""
    room, done = Rect(-100, -55, 200, 110), 0
    for shape in PICTURES[name](0.0, 0.0, 1.0):
        if isinstance(shape, Line | Polygon):
            corners = shape.points
        elif isinstance(shape, Disc):
            corners = [(shape.x + way * shape.radius, shape.y + way * shape.radius) for way in (-1, 1)]
        else:
            assert isinstance(shape, Block)
            corners = [(shape.rect.x, shape.rect.y), (shape.rect.right, shape.rect.bottom)]
        assert all(room.holds(x, y) for x, y in corners), (name, shape)
        done += shape.role == "caution"
    assert done >= 2
