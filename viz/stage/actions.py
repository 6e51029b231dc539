"""What a visitor can do, and the one table of keys and pad buttons from which the help page is made."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple


class Action(StrEnum):
    """Something a visitor asks for; the value is its caption key."""

    PAUSE = "pause"
    STEP = "step"
    SLOWER = "slower"
    FASTER = "faster"
    RESTART = "restart"
    TURNING = "turning"
    ENGINE = "engine"
    BLADES = "blades"
    NEXT_SCENE = "next_scene"
    MANEUVER = "maneuver"
    LET_GO = "let_go"
    FULL_CONTROL = "full_control"
    RINGS = "rings"
    GEAR = "gear"
    RECUT = "recut"
    FIRE = "fire"
    REPLAY = "replay"
    SETTINGS = "settings"
    STICK_LEFT = "stick_left"
    STICK_RIGHT = "stick_right"
    STICK_PULL = "stick_pull"
    STICK_PUSH = "stick_push"
    RUDDER_LEFT = "rudder_left"
    RUDDER_RIGHT = "rudder_right"
    NEXT_CONTROL = "next_control"
    LAST_CONTROL = "last_control"
    PRESS = "press"
    LESS = "less"
    MORE = "more"
    LANGUAGE = "language"
    FONT = "font"
    CONTRAST = "contrast"
    MOTION = "motion"
    UNITS = "units"
    HELP = "help"
    DEVICES = "devices"
    CAUTIONS = "cautions"
    MENU = "menu"
    SOUND = "sound"
    FULLSCREEN = "fullscreen"
    LEAVE = "leave"


class Key(NamedTuple):
    """A key and what it does; a held one counts for as long as it is down."""

    name: str
    action: Action
    held: bool = False


KEYS = (
    Key("space", Action.PAUSE),
    Key("n", Action.STEP),
    Key("-", Action.SLOWER),
    Key("+", Action.FASTER),
    Key("r", Action.RESTART),
    Key("1", Action.TURNING),
    Key("2", Action.ENGINE),
    Key("3", Action.BLADES),
    Key("m", Action.MANEUVER),
    Key("w", Action.LET_GO),
    Key("e", Action.FULL_CONTROL),
    Key("j", Action.RINGS),
    Key("g", Action.GEAR),
    Key("k", Action.RECUT),
    Key("t", Action.FIRE, held=True),
    Key("v", Action.REPLAY),
    Key("s", Action.SETTINGS),
    Key("left", Action.STICK_LEFT, held=True),
    Key("right", Action.STICK_RIGHT, held=True),
    Key("down", Action.STICK_PULL, held=True),
    Key("up", Action.STICK_PUSH, held=True),
    Key("a", Action.RUDDER_LEFT, held=True),
    Key("d", Action.RUDDER_RIGHT, held=True),
    Key("tab", Action.NEXT_CONTROL),
    Key("backspace", Action.LAST_CONTROL),
    Key("return", Action.PRESS),
    Key(",", Action.LESS),
    Key(".", Action.MORE),
    Key("l", Action.LANGUAGE),
    Key("f", Action.FONT),
    Key("c", Action.CONTRAST),
    Key("u", Action.UNITS),
    Key("y", Action.MOTION),
    Key("o", Action.MENU),
    Key("z", Action.SOUND),
    Key("b", Action.DEVICES),
    Key("h", Action.HELP),
    Key("i", Action.CAUTIONS),
    Key("f11", Action.FULLSCREEN),
    Key("escape", Action.LEAVE),
)
"""Every key, in the order of the help page. Names are those on the key, small."""

OF_A_GUN = frozenset({Action.BLADES, Action.GEAR, Action.RECUT, Action.FIRE, Action.REPLAY, Action.SETTINGS})
"""What there is to do with a gun alone: an airplane without one does not show these keys."""

SAME_KEYS = {"=": "+", "[+]": "+", "[-]": "-", "enter": "return", "f1": "h", "p": "space", "q": "escape"}
"""Keys that stand in for another one: the keypad, and boards where + needs the shift key."""

KIOSK_CHORD = frozenset({"left ctrl", "left alt", "x"})
"""The one way out of a kiosk: these held together."""

PAD_BUTTONS = {
    0: Action.PAUSE,
    1: Action.RESTART,
    2: Action.MANEUVER,
    3: Action.HELP,
    4: Action.SLOWER,
    5: Action.FASTER,
    6: Action.LANGUAGE,
    7: Action.NEXT_SCENE,
    8: Action.LET_GO,
    9: Action.FULL_CONTROL,
}
"""Gamepad button -> action, in the order a pad numbers them."""

PAD_AXES = {0: "roll", 1: "pitch", 2: "yaw"}
"""Gamepad axis -> control; right and pulled back are positive. Inside `PAD_DEAD_SHARE` of its middle it rests."""
PAD_DEAD_SHARE = 0.12

HELD = {
    Action.STICK_LEFT: ("roll", -1.0),
    Action.STICK_RIGHT: ("roll", 1.0),
    Action.STICK_PULL: ("pitch", 1.0),
    Action.STICK_PUSH: ("pitch", -1.0),
    Action.RUDDER_LEFT: ("yaw", -1.0),
    Action.RUDDER_RIGHT: ("yaw", 1.0),
}
"""Held action -> control and direction: roll right, pull and right rudder are positive."""

_BY_KEY = {key.name: key for key in KEYS}


def key_called(name: str) -> Key | None:
    """Return the table's row for a key, or None for a key without a use."""
    return _BY_KEY.get(SAME_KEYS.get(name, name))


def key_for(action: Action) -> str:
    """Return the name of the key for an action; empty where there is none."""
    return next((key.name for key in KEYS if key.action is action), "")
