"""Laws of motion of a cam between two dwells: rise, velocity, acceleration and jerk of the follower."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    FloatArray = NDArray[np.float64]
    Motion = tuple[FloatArray, FloatArray, FloatArray, FloatArray]

LawName = Literal["cycloidal", "3-4-5", "4-5-6-7", "modified sine", "modified trapezoid", "simple harmonic"]


@dataclass(frozen=True, slots=True)
class Law:
    """Peaks of a rise of one in an angle of one.

    Attributes
    ----------
    name : str
        Usual name of the law.
    velocity_peak, acceleration_peak, jerk_peak : float
        Largest first, second and third derivative; the jerk of a simple harmonic rise between dwells is infinite.
    """

    name: LawName
    velocity_peak: float
    acceleration_peak: float
    jerk_peak: float


_MODIFIED_SINE = 4.0 * math.pi**2 / (4.0 + math.pi)
_MODIFIED_TRAPEZOID = 8.0 * math.pi / (2.0 + math.pi)

LAWS: dict[LawName, Law] = {
    law.name: law
    for law in (
        Law("cycloidal", 2.0, 2.0 * math.pi, 4.0 * math.pi**2),
        Law("3-4-5", 15.0 / 8.0, 10.0 / math.sqrt(3.0), 60.0),
        Law("4-5-6-7", 35.0 / 16.0, 84.0 * math.sqrt(5.0) / 25.0, 52.5),
        Law("modified sine", _MODIFIED_SINE / math.pi, _MODIFIED_SINE, 4.0 * math.pi * _MODIFIED_SINE),
        Law("modified trapezoid", 2.0, _MODIFIED_TRAPEZOID, 4.0 * math.pi * _MODIFIED_TRAPEZOID),
        Law("simple harmonic", math.pi / 2.0, math.pi**2 / 2.0, math.inf),
    )
}
"""The laws by name, with their exact peaks."""


def motion(name: LawName, fraction: FloatArray) -> Motion:
    """Return rise, velocity, acceleration and jerk of a law, for a rise of one in an angle of one.

    Parameters
    ----------
    name : str
        A key of `LAWS`.
    fraction : array
        Fraction of the rise angle passed, 0 to 1, any shape; outside it the follower dwells.

    Returns
    -------
    tuple of array
        Rise 0 to 1 and its first three derivatives with respect to `fraction`. The second half mirrors the first, so
        half the lift is reached at half the angle in every law.

    References
    ----------
    Norton, Design of Machinery, chapter 8; VDI 2143.

    Examples
    --------
    >>> motion("cycloidal", np.array([0.5]))[0]
    array([0.5])
    """
    inside = np.clip(np.asarray(fraction, dtype=np.float64), 0.0, 1.0)
    late = inside > 0.5
    rise, velocity, acceleration, jerk = _FIRST_HALF[name](np.where(late, 1.0 - inside, inside))
    moving = (fraction > 0.0) & (fraction < 1.0)
    return (
        np.where(late, 1.0 - rise, rise),
        np.where(moving, velocity, 0.0),
        np.where(moving, np.where(late, -acceleration, acceleration), 0.0),
        np.where(moving, jerk, 0.0),
    )


def _cycloidal(u: FloatArray) -> Motion:
    turn = 2.0 * math.pi * u
    sine, cosine = np.sin(turn), np.cos(turn)
    return u - sine / (2.0 * math.pi), 1.0 - cosine, 2.0 * math.pi * sine, 4.0 * math.pi**2 * cosine


def _simple_harmonic(u: FloatArray) -> Motion:
    half = math.pi * u
    sine, cosine = np.sin(half), np.cos(half)
    return (1.0 - cosine) / 2.0, math.pi / 2.0 * sine, math.pi**2 / 2.0 * cosine, -(math.pi**3) / 2.0 * sine


def _polynomial(coefficients: dict[int, float]) -> Callable[[FloatArray], Motion]:
    """Return the motion of a polynomial given as power -> coefficient."""

    def derivative(u: FloatArray, order: int) -> FloatArray:
        terms = [factor * math.perm(power, order) * u ** (power - order) for power, factor in coefficients.items()]
        total: FloatArray = np.sum(terms, axis=0)
        return total

    return lambda u: (derivative(u, 0), derivative(u, 1), derivative(u, 2), derivative(u, 3))


def _modified(peak: float, hold_until: float, stretch: float) -> Callable[[FloatArray], Motion]:
    """Return the first half of a rise: a quarter sine for an eighth, constant acceleration, then a cosine.

    `hold_until` is where the constant acceleration ends (an eighth: there is none) and `stretch` the period of the
    cosine over that of the sine.
    """
    wave = 4.0 * math.pi
    slow = wave / stretch
    speed_1 = peak / wave
    rise_1 = speed_1 * (1.0 / 8.0 - 1.0 / wave)
    hold = hold_until - 1.0 / 8.0
    speed_2 = speed_1 + peak * hold
    rise_2 = rise_1 + speed_1 * hold + peak * hold**2 / 2.0

    def half(u: FloatArray) -> Motion:
        w, x = u - 1.0 / 8.0, u - hold_until
        opening = (u - np.sin(wave * u) / wave) * speed_1
        rises = (opening, rise_1 + speed_1 * w + peak * w**2 / 2.0)
        speeds = (speed_1 * (1.0 - np.cos(wave * u)), speed_1 + peak * w)
        where = [u <= 1.0 / 8.0, u <= hold_until]
        return (
            np.select(where, rises, rise_2 + speed_2 * x + peak / slow**2 * (1.0 - np.cos(slow * x))),
            np.select(where, speeds, speed_2 + peak / slow * np.sin(slow * x)),
            np.select(where, (peak * np.sin(wave * u), np.full_like(u, peak)), peak * np.cos(slow * x)),
            np.select(where, (peak * wave * np.cos(wave * u), np.zeros_like(u)), -peak * slow * np.sin(slow * x)),
        )

    return half


_FIRST_HALF: dict[LawName, Callable[[FloatArray], Motion]] = {
    "cycloidal": _cycloidal,
    "3-4-5": _polynomial({3: 10.0, 4: -15.0, 5: 6.0}),
    "4-5-6-7": _polynomial({4: 35.0, 5: -84.0, 6: 70.0, 7: -20.0}),
    "modified sine": _modified(_MODIFIED_SINE, 1.0 / 8.0, 3.0),
    "modified trapezoid": _modified(_MODIFIED_TRAPEZOID, 3.0 / 8.0, 1.0),
    "simple harmonic": _simple_harmonic,
}
