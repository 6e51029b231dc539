"""What keeps the display inert: a request for a working gun part is refused, with what to show instead."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.errors import Fault
from sim.told import told
from sim.units.quantities import shown

if TYPE_CHECKING:
    from sim.display.display import Display

_OUTLINE, _ROW = "a painted outline with a lamp behind it", "a row of small lamps that light one after another"
_LAMP, _PLACARD = "the lamp that comes on when a round could pass", "a drawing on the placard"
_SWITCH = "the lamp switch at half lift of the roller"
WORKING_PARTS: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("a chamber", _OUTLINE, ("chamber", "chamber *", "headspace", "head space", "throat erosion", "* chamber")),
    ("a breech", _OUTLINE, ("breech", "breech *", "* breech", "breechblock", "locking lug *", "locking lug")),
    (
        "a breech bolt",
        "a drawing of the cycle on the placard",
        ("bolt carrier", "bolt face", "bolt carrier *", "bolt face *", "bolt travel", "bolt lug"),
    ),
    ("a barrel", "a solid painted rod without a hole", ("barrel", "barrel length", "barrel thread", "barrel liner")),
    (
        "a barrel",
        "a solid painted rod without a hole",
        ("barrel diameter", "barrel wall", "barrel steel", "gun barrel"),
    ),
    (
        "a barrel bore",
        "a line painted on the backboard for the bore line",
        (
            "bore",
            "bore diameter",
            "bore size",
            "rifling",
            "rifling *",
            "caliber",
            "calibre",
            "caliber *",
            "groove depth",
        ),
    ),
    ("a muzzle", "the lamp where the muzzle would be", ("muzzle", "muzzle *", "flash hider", "suppressor", "silencer")),
    (
        "a receiver",
        "an outline cut from plywood",
        ("receiver", "receiver length", "receiver steel", "upper receiver", "lower receiver"),
    ),
    ("a striker", _LAMP, ("striker", "striker spring", "striker energy", "striker travel", "striker mass")),
    ("a hammer", _LAMP, ("hammer", "hammer spring", "hammer energy", "hammer fall", "hammer mass", "hammer weight")),
    ("a firing pin", _LAMP, ("firing pin", "firing pin *", "* firing pin")),
    ("a primer", _LAMP, ("primer", "primer strike", "primer pocket", "percussion cap", "detonator", "igniter")),
    ("a sear", _SWITCH, ("sear", "sear *", "* sear", "disconnector", "auto sear *")),
    ("a trigger", "the visitor's crank handle", ("trigger", "trigger pull", "trigger force", "trigger travel")),
    (
        "a trigger",
        "the visitor's crank handle",
        ("trigger motor", "trigger linkage", "trigger bar", "trigger actuator"),
    ),
    ("a magazine", _PLACARD, ("magazine", "magazine capacity", "magazine spring", "magazine follower")),
    (
        "a cartridge feed",
        _PLACARD,
        ("belt feed", "belt feed *", "feed pawl", "feed tray", "feed ramp", "belt link", "extractor"),
    ),
    ("a cartridge feed", _PLACARD, ("ejector", "ejection port", "feed mechanism", "ammunition feed")),
    ("a live round", _ROW, ("cartridge", "cartridge *", "* cartridge", "round", "rounds", "live round", "live rounds")),
    ("a live round", _ROW, ("round diameter", "round weight", "ammunition", "ammunition *", "bullet", "bullet *")),
    (
        "a propellant",
        _ROW,
        ("propellant", "propellant *", "powder charge", "gunpowder", "charge weight", "black powder"),
    ),
    (
        "a gas drive",
        "the crank or a slow geared motor",
        ("gas port", "gas piston", "gas tube", "gas block", "gas pressure"),
    ),
    (
        "a recoil drive",
        "the crank or a slow geared motor",
        ("recoil", "recoil spring", "recoil buffer", "recoil stroke"),
    ),
    (
        "a firing solenoid",
        _SWITCH,
        ("solenoid", "firing solenoid", "trigger solenoid", "sear solenoid", "solenoid force"),
    ),
    (
        "a firing mechanism",
        "flying speed with the lead plate",
        (
            "firing mechanism",
            "firing motor",
            "rate of fire",
            "fire rate",
            "rounds per min",
            "rounds per minute",
            "firing rate",
            "cyclic rate",
        ),
    ),
    (
        "an engine drive",
        "the crank or a slow geared motor",
        ("engine drive", "engine mount", "engine shaft", "camshaft drive"),
    ),
)
"""Part of a working gun, what to show instead, and the names under which it is asked for: whole, with words between
spaces; a star stands for any further words. A word that is also an honest part's, such as pin, bolt or bore, counts
only in such a name."""

SHOWN = frozenset(
    {
        "lamp",
        "light",
        "outline",
        "label",
        "paint",
        "painted",
        "drawing",
        "placard",
        "colour",
        "color",
        "picture",
        "plywood",
    }
)
"""Words of what only shows a part, and is none."""

MOST_PROPELLER_RAD_S = 80.0 / 60.0 * math.tau
"""Eighty turns a minute: a third of the speed above which nothing may follow the cam. [rad/s]"""
MOST_LIFT_M = 0.008
"""A light beam needs a tenth of it, a snap-action switch a quarter; the rest is to be seen. [m]"""
MOST_FOLLOWER_FORCE_N = 10.0
"""Twenty times what a snap-action switch needs. [N]"""
MOST_FOLLOWER_KG = 0.1
"""Twice a slide of steel with its roller. [kg]"""
MOST_PROPELLER_M = 1.5
MOST_LAMP_V = 60.0
OUTPUTS = ("light beam", "lamp switch")
_SLOW = (
    "a display is turned by hand or a slow motor, never at flying speed; show flying speed with the lead plate instead"
)
_SHORT = (
    "a longer travel than a lamp switch needs; show the motion enlarged with a light pointer on the follower instead"
)
_SOFT = "a greater force at full lift than a lamp switch needs; take a softer spring instead"
_SCALED = "a display carries a scaled propeller; scale it down instead"
_TOUCHABLE = "a lamp within a child's reach runs on extra-low voltage; take a 12 V lamp instead"


def refused_key(key: str) -> str | None:
    """Return why a key of the display may not be asked for, or None where it names no part of a working gun.

    Parameters
    ----------
    key : str
        A key as the user wrote it, without its table.

    Examples
    --------
    >>> refused_key("muzzle_speed")[:50]
    'a muzzle is a part of a working gun, which a displ'
    >>> refused_key("lift") is None
    True
    """
    words = key.lower().replace("-", "_").strip("_").split("_")
    if SHOWN & set(words):
        return None
    asked = " ".join(words)
    for part, instead, names in WORKING_PARTS:
        if any(_is(asked, name) for name in names):
            return f"{part} is a part of a working gun, which a display never has; show {instead} instead"
    return None


def _is(asked: str, name: str) -> bool:
    """Return whether a name is asked for, a star at its start or its end standing for one word or more."""
    if name.startswith("* "):
        return asked.endswith(name[1:])
    return asked.startswith(name[:-1]) if name.endswith(" *") else asked == name


def refused_output(output: str) -> tuple[Fault, ...]:
    """Return a fault where the follower would work anything but a lamp."""
    if output in OUTPUTS:
        return ()
    what = (
        'the follower closes a lamp switch or breaks a light beam and works nothing else: write "lamp switch" or '
        f'"light beam", got "{output}"'
    )
    return (Fault("exhibit.output", what),)


def refused_values(display: Display) -> tuple[Fault, ...]:
    """Return a fault for every value beyond what a display needs and a mechanism could be driven by."""
    full_force = display.spring.preload_n + display.spring.rate_n_per_m * display.spring.travel_m
    most_n = MOST_FOLLOWER_FORCE_N / display.spring_ratio
    judged = (
        ("propeller_speed", "top_speed_rad_s", display.propeller.top_speed_rad_s, MOST_PROPELLER_RAD_S, _SLOW),
        ("lift", "lift_m", display.cam.lift_m, MOST_LIFT_M, _SHORT),
        ("preload", "full_force_n", full_force, most_n, _SOFT),
        ("propeller_diameter", "propeller_diameter_m", display.propeller.diameter_m, MOST_PROPELLER_M, _SCALED),
        ("lamp_voltage", "lamp_v", display.lamp.lamp_v, MOST_LAMP_V, _TOUCHABLE),
    )
    return tuple(
        Fault(f"exhibit.{key}", f"{why} ({_most(name, value, most)})")
        for key, name, value, most, why in judged
        if value > most * (1.0 + 1e-9)
    )


def _most(name: str, value: float, most: float) -> str:
    """Return limit and value of a quantity in the unit it is shown in."""
    unit, factor = shown(name, "si")
    return f"at most {most * factor:g} {unit}, got {value * factor:.4g} {unit}"


DRIVEN = {"crank": "hand force", "motor": "a slow geared motor"}
"""Kind of drive -> what the display runs on."""
CHECKLIST = (
    "The follower closes an enclosed lamp switch or breaks a light beam, and touches nothing else.",
    "No part has a hole, bore or tube that a round could enter.",
    "Nothing in the display strikes, pierces, or is held under load ready for release.",
    "No part was taken from a gun or made to a gun's drawing.",
    "The outline of the gun is solid, painted, and fixed to the backboard.",
    "The display runs on {driven} with a slip clutch, and on extra-low voltage.",
    "The guard cannot be taken off without a tool, and its openings and distances were measured.",
    "The police or the local authority was asked about replica firearms before the display was shown.",
)
"""What the builder signs before the display is shown."""


def checklist(display: Display) -> tuple[str, ...]:
    """Return what the builder of a display signs before it is shown."""
    return tuple(told(line, driven=DRIVEN[display.handle.kind]) for line in CHECKLIST)
