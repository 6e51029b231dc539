"""The propeller of every scene: boss and blades of the outline and twist that the scenario gives."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np

from viz.stage.solid.parts import body_of_revolution
from viz.stage.solid.solid import MATT, Builder

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.propulsion.blade_geometry import Blade
    from viz.stage.solid.solid import Solid

    Numbers = NDArray[np.float64]

PROPELLER: Final = "propeller"
BLADE_SHARES: Final = (0.08, 0.16, 0.25, 0.4, 0.55, 0.7, 0.82, 0.91, 0.97, 1.0)
"""Where a blade is drawn, over its radius; from its tip inward it is rounded off over the last tenth."""
ROUND_OFF: Final = 0.1
THICK_SHARE: Final = 0.16
"""Thickness of a blade over its chord."""
BOSS: Final = ((-0.06, 0.055), (0.06, 0.075), (0.1, 0.03))
"""Rings of the boss: x from the disc [m], and radius over that of the disc."""


def add_propeller(
    builder: Builder, hub: Numbers, blade: Blade, *, radius_m: float, sense: float, hinge: str, count: int = 0
) -> None:
    """Add a boss and the blades, blade 1 straight up.

    Parameters
    ----------
    builder : Builder
        With the hinge about which it turns.
    hub : array, shape (3,)
        Middle of the disc. [m]
    blade : Blade
        Its outline and twist.
    radius_m : float
        Of the disc. [m]
    sense : float
        +1 for one that turns clockwise seen from behind, −1 for one that does not: it is twisted the other way.
    hinge : str
        Name of the hinge.
    count : int
        Number of blades, 0 for that of the scenario.
    """
    body_of_revolution(builder, hub, [(x, share * radius_m) for x, share in BOSS], "wood", hinge=hinge)
    shares = np.array(BLADE_SHARES)
    spine, (half, twist) = shares * radius_m, planform(blade, shares, radius_m=radius_m, sense=sense)
    blades = count or blade.blades
    for number in range(blades):
        turn = 2.0 * np.pi * number / blades
        away = np.array([0.0, np.sin(turn), -np.cos(turn)])
        aside = np.array([0.0, np.cos(turn), np.sin(turn)])
        _blade(builder, hub + spine[:, None] * away, half, twist, aside=aside, hinge=hinge)


def planform(blade: Blade, shares: Numbers, *, radius_m: float, sense: float) -> tuple[Numbers, Numbers]:
    """Return half the chord [m] and the angle to the disc [rad] where a blade is drawn, over its radius."""
    half = radius_m * np.interp(shares, blade.radius_share, blade.chord_per_diameter)
    half *= np.sqrt(np.clip(1.0 - ((shares - 1.0 + ROUND_OFF) / ROUND_OFF).clip(0.0) ** 2, 0.02, 1.0))
    return half, sense * np.interp(shares, blade.radius_share, blade.blade_angle_rad)


def _blade(builder: Builder, spine: Numbers, half: Numbers, twist: Numbers, *, aside: Numbers, hinge: str) -> None:
    """Add one blade along a spine, of half chords [m] and blade angles [rad]; `aside` lies in the disc, across it."""
    ahead = np.array([1.0, 0.0, 0.0])
    cosine, sine = np.cos(twist)[:, None], np.sin(twist)[:, None]
    edge = half[:, None] * (cosine * aside + sine * ahead)
    thick = THICK_SHARE * half[:, None] * (cosine * ahead - sine * aside)
    section = np.stack([spine - edge, spine + thick, spine + edge, spine - thick, spine - edge], axis=1)
    middle = 0.5 * (spine[:-1] + spine[1:])[:, None, :]
    roles = ["wood", *["blade"] * (len(BLADE_SHARES) - 4), "brass", "brass"]
    builder.skin(section, roles, within=middle, finish=MATT, hinge=hinge)


@lru_cache(maxsize=8)
def propeller(blade: Blade, count: int, radius_m: float, sense: float) -> Solid:
    """Return a propeller of so many blades, blade 1 straight up; its hinge turns it right-handed about x."""
    builder = Builder()
    builder.hinge(PROPELLER, (0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    add_propeller(builder, np.zeros(3), blade, radius_m=radius_m, sense=sense, hinge=PROPELLER, count=count)
    return builder.solid()
