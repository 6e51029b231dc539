"""Coefficients of a propeller against advance ratio: thrust, power, efficiency, and what stands out in them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_section import FLAT_BOTTOMED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.blade_section import BladeSection


@dataclass(frozen=True, slots=True)
class PropellerPoint:
    """Coefficients at one advance ratio.

    Attributes
    ----------
    advance_ratio : float
        J = V/nD.
    ct, cp : float
        Thrust over ρn²D⁴ and power over ρn³D⁵; negative where the propeller brakes, or drives the engine.
    efficiency : float or None
        J CT/CP; None where the propeller gives no thrust or takes no power.
    """

    advance_ratio: float
    ct: float
    cp: float
    efficiency: float | None


def propeller_points(
    blade: Blade,
    advance_ratios: Sequence[float],
    *,
    tip_mach: float = 0.0,
    section: BladeSection = FLAT_BOTTOMED,
    thrust_share: float = 1.0,
) -> tuple[PropellerPoint, ...]:
    """Return the coefficients at each advance ratio.

    Parameters
    ----------
    blade : Blade
        Chord and angle along the radius.
    advance_ratios : sequence of float
        V/nD, each at least 0.
    tip_mach : float
        Speed of rotation of the tip over the speed of sound; 0 for incompressible flow.
    section : BladeSection
        Lift and drag of every section.
    thrust_share : float
        By which the thrust is multiplied: see `sim.propulsion.propeller_fit.thrust_share`.
    """
    loads = blade_loads(blade, np.asarray(advance_ratios, float), tip_mach=tip_mach, section=section)
    rows = zip(map(float, advance_ratios), (thrust_share * loads.ct).tolist(), loads.cp.tolist(), strict=True)
    return tuple(PropellerPoint(ratio, ct, cp, efficiency(ratio, ct, cp)) for ratio, ct, cp in rows)


def efficiency(advance_ratio: float, ct: float, cp: float) -> float | None:
    """Return J CT/CP, or None where the propeller gives no thrust or takes no power."""
    return advance_ratio * ct / cp if ct > 0.0 and cp > 0.0 else None


def figure_of_merit(ct: float, cp: float) -> float:
    """Return the power that momentum theory needs for the static thrust over the power taken: T √(T/2ρA)/P.

    Examples
    --------
    >>> round(figure_of_merit(0.1, 0.04), 3)
    0.631
    """
    return math.sqrt(2.0 * max(ct, 0.0) ** 3 / math.pi) / cp
