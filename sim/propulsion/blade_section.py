"""Lift and drag of a propeller blade's section at any angle of attack, with the effect of Mach number."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

MOST_MACH: Final = 0.75
"""Mach number up to which the correction of Prandtl and Glauert is used; beyond it is held at its value there."""
PLATE_LIFT: Final = 1.05
"""Lift coefficient at 45° of a section in separated flow; its normal force is twice that times sin α."""
_ROUNDING: Final = 0.1
"""Lift coefficient over which the straight line turns into the plateau of maximum lift."""
_LEAST_LIFT: Final = 0.05


@dataclass(frozen=True, slots=True)
class BladeSection:
    """A blade section, described by a few numbers; angles are from the flat lower face.

    Attributes
    ----------
    lift_slope : float
        Two-dimensional lift slope in incompressible flow, per radian.
    zero_lift_rad : float
        Angle of attack without lift. [rad]
    section_lift_max, section_lift_min : float
        Largest and smallest lift coefficient before the stall.
    drag_min, lift_at_drag_min, drag_rise : float
        Drag coefficient cd = drag_min + drag_rise (cl − lift_at_drag_min)² in attached flow.
    stall_rad, separated_rad : float
        Angles of attack of either sign at which the lift begins to leave the plateau and at which the flow is fully
        separated. [rad]
    """

    lift_slope: float = 5.6
    zero_lift_rad: float = math.radians(-4.24)
    section_lift_max: float = 1.3
    section_lift_min: float = -0.8
    drag_min: float = 0.009
    lift_at_drag_min: float = 0.4
    drag_rise: float = 0.0085
    stall_rad: float = math.radians(15.0)
    separated_rad: float = math.radians(40.0)


FLAT_BOTTOMED: Final = BladeSection()
"""A flat-bottomed section 9 % thick, as in the outer half of a blade, at Reynolds numbers about a million.

Zero-lift angle: thin-airfoil theory of the mean line of the Clark Y ordinates, 11.7 % thick, gives −5.51° from the flat
face; the camber, and with it the angle, is proportional to the thickness: −0.47° for each percent. Lift slope, largest
lift and drag polar: from memory of wind-tunnel tests of that section (Silverstein, NACA Report 502, 1934), about ±4 %,
±0.15 and ±0.002. Angles of stall and of separation: chosen, with the gradual stall of a turning blade in mind.

Within these margins thickness, slope, largest lift, drag and the two angles were settled by trying a few values against
the charts of NACA Report 640, with which tests compare the propeller: the agreement there is no independent proof.
"""


def section_coefficients(section: BladeSection, angle_rad: Array, mach: Array) -> tuple[Array, Array]:
    """Return lift and drag coefficient at angles of attack of −180° to 180°.

    Parameters
    ----------
    section : BladeSection
    angle_rad : array
        Angle of attack from the flat face. [rad]
    mach : array
        Local Mach number, at least 0.

    Notes
    -----
    Attached: a straight line of slope a0/√(1 − M²), M at most 0.75, limited smoothly by the largest and the smallest
    lift; no drag rise with Mach number. Separated: cl = 1.05 sin 2α and cd = 2.1 sin²α, a force at right angles to
    the flat face. In between the suction of the leading edge, and with it the direction of the force, is lost with
    the share of the straight line's lift that is lost. Blades keep more lift behind the stall than a section
    does in a wind tunnel; only the gradual stall stands for that.

    References
    ----------
    Glauert, ARC R&M 1135, 1928. Separated flow: Sheldahl and Klimas, SAND80-2114, 1981, pp. 31-32, NACA 0015.
    """
    slope = section.lift_slope / np.sqrt(1.0 - np.minimum(mach, MOST_MACH) ** 2)
    line = slope * (angle_rad - section.zero_lift_rad)
    attached = line - _softplus(line - section.section_lift_max) + _softplus(section.section_lift_min - line)
    separated = _separated(section, angle_rad)
    plate = PLATE_LIFT * np.sin(2.0 * angle_rad)
    lift = (1.0 - separated) * attached + separated * plate
    lost = np.minimum(np.abs(line - lift) / (np.abs(line) + _LEAST_LIFT), 1.0)
    lost = np.maximum(lost, separated)
    steep = np.tan(np.clip(angle_rad, -section.separated_rad, section.separated_rad))
    normal = (1.0 - separated) * attached * steep + separated * 2.0 * PLATE_LIFT * np.sin(angle_rad) ** 2
    polar = section.drag_min + section.drag_rise * (attached - section.lift_at_drag_min) ** 2
    return lift, polar + lost * np.maximum(normal, 0.0)


def _separated(section: BladeSection, angle_rad: Array) -> Array:
    """Return the share of separated flow, 0 before the stall and 1 far behind it."""
    share = (np.abs(angle_rad) - section.stall_rad) / (section.separated_rad - section.stall_rad)
    share = np.clip(share, 0.0, 1.0)
    return share * share * (3.0 - 2.0 * share)


def _softplus(x: Array) -> Array:
    return _ROUNDING * np.logaddexp(0.0, x / _ROUNDING)
