"""The units of answers that are not SI, and those of the workshop, for numbers and arrays alike."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from sim.units.registry import ratio

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Number = TypeVar("Number", float, NDArray[np.float64])

MINUTE_S = float(ratio("min", "s"))
INCH_M = float(ratio("in", "m"))
LBF_N = float(ratio("lbf", "N"))

_RPM, _PER_MIN, _MS = (float(ratio(*units)) for units in (("rad/s", "rpm"), ("1/s", "1/min"), ("s", "ms")))
_KM_PER_H = float(ratio("m/s", "km/h"))
_DEG = float(ratio("rad", "°"))
MM_PER_M = float(ratio("m", "mm"))


def degrees(angle_rad: Number) -> Number:
    """Return an angle [rad] in degrees."""
    return angle_rad * _DEG


def rpm(speed_rad_s: Number) -> Number:
    """Return a shaft speed [rad/s] in turns a minute.

    Examples
    --------
    >>> from math import tau
    >>> rpm(tau)
    60.0
    """
    return speed_rad_s * _RPM


def km_per_h(speed_m_s: Number) -> Number:
    """Return a speed [m/s] in kilometres an hour."""
    return speed_m_s * _KM_PER_H


def per_min(rate_per_s: Number) -> Number:
    """Return a rate [1/s] a minute."""
    return rate_per_s * _PER_MIN


def per_s(rate_per_min: Number) -> Number:
    """Return a rate a minute in [1/s]."""
    return rate_per_min / _PER_MIN


def ms(time_s: Number) -> Number:
    """Return a time [s] in milliseconds."""
    return time_s * _MS


def mm(length_m: Number) -> Number:
    """Return a length [m] in millimetres."""
    return length_m * MM_PER_M
