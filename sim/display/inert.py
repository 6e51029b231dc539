"""What keeps the display inert: a request for a working gun part is refused, with what to show instead."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from sim.errors import Fault
from sim.units.quantities import shown

if TYPE_CHECKING:
    from sim.display.display import Display

WORKING_PARTS: dict[str, tuple[str, str]] = {
    "chamber": ("a chamber", "a painted outline with a lamp behind it"),
    "breech": ("a breech", "a painted outline with a lamp behind it"),
    "barrel": ("a barrel", "a solid painted rod without a hole"),
    "bore": ("a barrel bore", "a line painted on the backboard for the bore line"),
    "rifling": ("a barrel bore", "a line painted on the backboard for the bore line"),
    "muzzle": ("a muzzle", "the lamp where the muzzle would be"),
    "bolt": ("a breech bolt", "a drawing of the cycle on the placard"),
    "receiver": ("a receiver", "an outline cut from plywood"),
    "striker": ("a striker", "the lamp that comes on when a round could pass"),
    "hammer": ("a hammer", "the lamp that comes on when a round could pass"),
    "pin": ("a firing pin", "the lamp that comes on when a round could pass"),
    "primer": ("a primer", "the lamp that comes on when a round could pass"),
    "sear": ("a sear", "the lamp switch at half lift of the roller"),
    "trigger": ("a trigger", "the visitor's crank handle"),
    "magazine": ("a magazine", "a drawing on the placard"),
    "belt_feed": ("a cartridge feed", "a drawing on the placard"),
    "cartridge": ("a live round", "a row of small lamps that light one after another"),
    "round": ("a live round", "a row of small lamps that light one after another"),
    "ammunition": ("a live round", "a row of small lamps that light one after another"),
    "propellant": ("a propellant", "a row of small lamps that light one after another"),
    "gas": ("a gas drive", "the crank or a slow geared motor"),
    "recoil": ("a recoil drive", "the crank or a slow geared motor"),
    "solenoid": ("a firing solenoid", "the lamp switch at half lift of the roller"),
}
"""Word of a key -> the part of a working gun it names, and what to show instead."""

MOST_PROPELLER_RAD_S = 3.0 * math.pi
"""Ninety turns a minute. [rad/s]"""
MOST_LIFT_M = 0.012
MOST_FOLLOWER_FORCE_N = 30.0
MOST_PROPELLER_M = 1.5
MOST_LAMP_V = 60.0
OUTPUTS = ("lamp switch", "light beam")
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
    words = key.lower().replace("-", "_").split("_")
    for word, (part, instead) in WORKING_PARTS.items():
        if word in words or ("_" in word and word in "_".join(words)):
            return f"{part} is a part of a working gun, which a display never has; show {instead} instead"
    return None


def refused_output(output: str) -> tuple[Fault, ...]:
    """Return a fault where the follower would work anything but a lamp."""
    if output in OUTPUTS:
        return ()
    what = f'the follower closes a lamp switch or breaks a light beam and works nothing else, got "{output}"'
    return (Fault("exhibit.output", what),)


def refused_values(display: Display) -> tuple[Fault, ...]:
    """Return a fault for every value beyond what a display needs and a mechanism could be driven by."""
    full_force = display.spring.preload_n + display.spring.rate_n_per_m * display.cam.lift_m
    judged = (
        ("propeller_speed", "top_speed_rad_s", display.propeller.top_speed_rad_s, MOST_PROPELLER_RAD_S, _SLOW),
        ("lift", "lift_m", display.cam.lift_m, MOST_LIFT_M, _SHORT),
        ("preload", "full_force_n", full_force, MOST_FOLLOWER_FORCE_N, _SOFT),
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


CHECKLIST = (
    "The follower closes an enclosed lamp switch or breaks a light beam, and touches nothing else.",
    "No part has a hole, bore or tube that a round could enter.",
    "Nothing in the display strikes, pierces, or is held under load ready for release.",
    "No part was taken from a gun or made to a gun's drawing.",
    "The outline of the gun is solid, painted, and fixed to the backboard.",
    "The display runs on hand force or a slow geared motor with a slip clutch, and on extra-low voltage.",
    "The guard cannot be taken off without a tool, and its openings and distances were measured.",
    "The police or the local authority was asked about replica firearms before the display was shown.",
)
"""What the builder signs before the display is shown."""
