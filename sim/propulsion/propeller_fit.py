"""A propeller's closed form from its blades: fitted to blade elements from rest to a stopped propeller in a dive."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.polynomial.chebyshev import cheb2poly

from sim.propulsion.blade_element import blade_loads
from sim.propulsion.blade_section import FLAT_BOTTOMED
from sim.propulsion.engine_propeller import STATION_SHARE, WORKING_TANGENT, Propeller

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.propulsion.blade_geometry import Blade
    from sim.propulsion.blade_section import BladeSection

    Array = NDArray[np.float64]

HARMONICS: Final = 6
"""Of the series: the first so many odd ones."""
SAMPLES: Final = 60
"""Angles from rest to a stopped propeller at which blade elements are asked."""
ELEMENTS: Final = 24
"""Along a blade."""
WORKING_SHARE: Final = 1.1
"""Advance over that of no thrust up to which a flight uses the propeller: beyond it counts less in the fit."""
BEYOND_WEIGHT: Final = 0.03
STOPPED_WEIGHT: Final = 0.15
NEARLY_STOPPED_RAD: Final = math.radians(75.0)
"""Angle of scaled advance beyond which the propeller counts as nearly stopped, in a dive or glide."""
BACKWARD_WEIGHT: Final = 0.03
RIDGE: Final = 3e-4
LEAST_TANGENT: Final = 0.05
"""Least tangent of the angle of the wind at 0.7 R without thrust: keeps the scale of blades without pitch finite."""
ERRORS: Final = {"thrust_scale": 0.065, "torque_scale": 0.05}
"""One standard deviation of thrust and torque over themselves: root mean square beside NACA Report 640, blades not
stalled and apart from the last tenth before zero thrust (the proof page of tests/published)."""
REMEMBERED: Final = 256
"""Blades whose fit is kept."""


def fitted_propeller(
    blade: Blade,
    *,
    diameter_m: float,
    tip_mach: float,
    ratio: float = 1.0,
    efficiency: float | None = None,
    section: BladeSection = FLAT_BOTTOMED,
) -> Propeller:
    """Return the propeller of the equations of motion with the loads that blade elements give for its blades.

    Parameters
    ----------
    blade : Blade
        Chord and angle along the radius.
    diameter_m : float
        From tip to tip. [m]
    tip_mach : float
        Speed of rotation of the tip over the speed of sound, the same for all speeds: that of cruise.
    ratio : float
        Propeller speed over engine speed, not 0; negative where a gear reverses it.
    efficiency : float or None
        Best efficiency, where it was measured: the thrust is scaled to it, the torque kept.
    section : BladeSection
        Lift and drag of every section.

    Notes
    -----
    Least squares with a weak preference for small coefficients. From rest to 3 % beyond the advance without thrust,
    at one speed of rotation, thrust is within 0.6 % and torque within 1.3 % of their values at rest for pitches of .3
    to 1.15 diameters, and within 1.2 % and 1.7 % for four blades at 1.4. Windmilling and stopped they are within 7 %
    and 9 % of the values at rest that the same W² gives. Flown or turned backwards they oppose the motion and are
    bounded; no more is claimed. A fit takes about 10 ms; equal blades are fitted once.

    Examples
    --------
    >>> from sim.propulsion.blade_geometry import pitched_blade
    >>> propeller = fitted_propeller(pitched_blade(2, 0.75, 0.07), diameter_m=2.2, tip_mach=0.6)
    >>> round(propeller.advance_m_rad * 2.0 * math.pi / 2.2, 2)  # without thrust at V/nD
    0.94
    """
    fit = _fit(blade, tip_mach, section)
    return Propeller(
        ratio,
        diameter_m,
        fit.advance_factor,
        fit.thrust_rotation,
        fit.thrust_advance,
        fit.torque_rotation,
        fit.torque_advance,
        thrust_scale=thrust_share(blade, tip_mach, efficiency, section=section),
    )


def thrust_share(
    blade: Blade, tip_mach: float, efficiency: float | None, *, section: BladeSection = FLAT_BOTTOMED
) -> float:
    """Return the thrust with a best efficiency over that of the blades themselves; 1 for None."""
    return 1.0 if efficiency is None else efficiency / _fit(blade, tip_mach, section).best_efficiency


@dataclass(frozen=True, slots=True)
class _Fit:
    """The closed form of blades of any size, as in `Propeller`, and its best efficiency."""

    advance_factor: float
    thrust_rotation: tuple[float, ...]
    thrust_advance: tuple[float, ...]
    torque_rotation: tuple[float, ...]
    torque_advance: tuple[float, ...]
    best_efficiency: float


@lru_cache(maxsize=REMEMBERED)
def _fit(blade: Blade, tip_mach: float, section: BladeSection) -> _Fit:
    """Return the closed form of blades whose tips turn at a Mach number."""
    angle = 0.5 * math.pi * np.arange(SAMPLES) / SAMPLES
    zero = _no_thrust_tangent(blade, section)
    ratio = STATION_SHARE * math.pi * zero / WORKING_TANGENT * np.tan(angle)
    working = np.tan(angle) <= WORKING_SHARE * WORKING_TANGENT
    # Beyond that the shaft slows down while the wind at the blade stays, and its Mach number with it.
    mach = tip_mach * np.minimum(1.0, WORKING_SHARE * WORKING_TANGENT / np.maximum(np.tan(angle), 1e-9))
    loads = blade_loads(blade, ratio, tip_mach=mach, section=section, elements=ELEMENTS)
    per_wind = 8.0 / math.pi * (np.cos(angle) / (STATION_SHARE * math.pi)) ** 2
    weight = np.where(
        working, 1.0 / np.cos(angle) ** 2, np.where(angle < NEARLY_STOPPED_RAD, BEYOND_WEIGHT, STOPPED_WEIGHT)
    )
    thrust, torque = (_series(angle, per_wind * row, weight) for row in (loads.ct, loads.cq_elements.sum(axis=-1)))
    drawn, absorbed = (_basis(angle) @ series for series in (thrust, torque))
    efficiency = ratio * drawn / (2.0 * math.pi * np.where(absorbed > 0.0, absorbed, np.inf))
    return _Fit(WORKING_TANGENT / zero, *_powers(thrust), *_powers(torque), _peak(efficiency))


def _no_thrust_tangent(blade: Blade, section: BladeSection) -> float:
    """Return the tangent of the angle of the wind at 0.7 R at which the section there has no lift."""
    angle_rad = float(np.interp(STATION_SHARE, blade.radius_share, blade.blade_angle_rad)) - section.zero_lift_rad
    return max(math.tan(min(angle_rad, math.radians(85.0))), LEAST_TANGENT)


def _basis(angle: Array) -> Array:
    """Return cosines, then sines, of the odd multiples of each angle, shape (angles, 2 HARMONICS)."""
    multiples = np.outer(angle, 2.0 * np.arange(HARMONICS) + 1.0)
    return np.hstack([np.cos(multiples), np.sin(multiples)])


def _series(angle: Array, value: Array, weight: Array) -> Array:
    """Return the coefficients of the series through values at angles of a quarter turn.

    Flying backwards, a further quarter, the loads change from those at rest to the opposite of those of a stopped
    propeller; the other half of the turn is the opposite of this one.
    """
    backward = np.radians(np.arange(-85.0, 0.0, 10.0))
    guessed = value[0] * np.cos(backward) ** 2 - value[-1] * np.sin(backward) ** 2
    size = abs(value[0])
    rows = [weight[:, None] * _basis(angle), BACKWARD_WEIGHT * _basis(backward), RIDGE * np.eye(2 * HARMONICS)]
    right = np.concatenate([weight * value, BACKWARD_WEIGHT * guessed, np.zeros(2 * HARMONICS)]) / size
    return np.asarray(size * np.linalg.lstsq(np.vstack(rows), right, rcond=None)[0])


def _powers(series: Array) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Return the series in cos φ P(cos² φ) + sin φ S(cos² φ): the coefficients of P and of S."""
    cosine, sine = np.zeros(HARMONICS), np.zeros(HARMONICS)
    for number in range(HARMONICS):
        odd = 2 * number + 1
        power = cheb2poly([0.0] * odd + [1.0])[1::2]  # cos nφ in odd powers of cos φ; its slope over n gives sin nφ
        cosine[: number + 1] += series[number] * power
        sine[: number + 1] += series[HARMONICS + number] * power * (2.0 * np.arange(number + 1) + 1.0) / odd
    return tuple(cosine.tolist()), tuple(sine.tolist())


def _peak(value: Array) -> float:
    """Return the height of the parabola through the greatest value and its neighbours."""
    at = min(max(int(np.argmax(value)), 1), value.size - 2)
    before, top, after = value[at - 1 : at + 2].tolist()
    bend = before - 2.0 * top + after
    return float(top - 0.125 * (after - before) ** 2 / bend) if bend < 0.0 else float(value.max())
