"""A wing section: its outline and depth, and thin-airfoil theory of its mean line.

Everything is in units of the chord: x from the leading edge 0 to the trailing edge 1, y up.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import refuse

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

PANELS = 2000
"""Pieces of a computed outline, closer towards both edges: ordinates good to 1e-6 of the chord."""

FIVE_DIGIT = {
    "210": (0.0580, 361.4, 0.0),
    "220": (0.1260, 51.64, 0.0),
    "230": (0.2025, 15.957, 0.0),
    "240": (0.2900, 6.643, 0.0),
    "250": (0.3910, 3.230, 0.0),
    "221": (0.1300, 51.990, 0.000764),
    "231": (0.2170, 15.793, 0.00677),
    "241": (0.3180, 6.520, 0.0303),
    "251": (0.4410, 3.191, 0.1355),
}
"""First three digits -> m, k1 and k2/k1 of the mean line, for a design lift coefficient of 0.3 (Ladson, table)."""


@dataclass(frozen=True, slots=True)
class Airfoil:
    """Outline and mean line of a wing section in units of the chord.

    Attributes
    ----------
    name : str
        As the user wrote it.
    upper, lower : NDArray, shape (2, N)
        x and y of either surface, x rising from the leading to the trailing edge.
    mean : NDArray, shape (2, N)
        x and y of the mean line, likewise.
    """

    name: str
    upper: NDArray[np.float64]
    lower: NDArray[np.float64]
    mean: NDArray[np.float64]

    def heights(self, fraction: float) -> tuple[float, float]:
        """Return y of the upper and the lower surface at a fraction of the chord."""
        return float(np.interp(fraction, *self.upper)), float(np.interp(fraction, *self.lower))

    def depth(self, fraction: float) -> float:
        """Return the depth of the section at a fraction of the chord, in units of the chord."""
        upper, lower = self.heights(fraction)
        return upper - lower


def digits(name: str, *, key: str = "section.naca") -> Airfoil:
    """Return the section of a NACA four- or five-digit number, ``2412`` or ``23012``.

    Parameters
    ----------
    name : str
        The digits, with or without ``NACA`` before them.
    key : str
        What to call the number when it is refused.

    Raises
    ------
    InputError
        When the digits are of another family.

    Notes
    -----
    The blunt trailing edge of the published families is kept (0.21 % of the chord for 12 % thickness). Ordinates
    are set off at right angles to the mean line. Five-digit lines other than a design lift of 0.3 are scaled from
    it by the first digit.

    References
    ----------
    NACA Report 460 (four-digit); NACA Report 537 (five-digit); Ladson et al., NASA TM-4741, for the constants.

    Examples
    --------
    >>> round(digits("0012").depth(0.3), 4)
    0.12
    """
    number = name.upper().removeprefix("NACA").strip()
    known = number.isdecimal() and (
        (len(number) == 4 and number[0] in "0123456789" and (number[0] == "0") == (number[1] == "0"))
        or (len(number) == 5 and number[:1] != "0" and "2" + number[1:3] in FIVE_DIGIT)
    )
    if not known or number[-2:] == "00":
        refuse(key, f'must be a NACA four- or five-digit number such as 2412 or 23012, got "{name}"')
    x = 0.5 * (1.0 - np.cos(np.linspace(0.0, pi, PANELS + 1)))
    y, slope = _four_digit(number, x) if len(number) == 4 else _five_digit(number, x)
    half = _half_thickness(int(number[-2:]) / 100.0, x)
    angle = np.arctan(slope)
    across, up = half * np.sin(angle), half * np.cos(angle)
    return Airfoil(name, _rising(x - across, y + up), _rising(x + across, y - up), np.array([x, y]))


def _half_thickness(thickness: float, x: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return half the thickness at x, NACA Report 460 equation of the basic form."""
    root = np.sqrt(x)
    return 5.0 * thickness * (0.2969 * root - 0.1260 * x - 0.3516 * x**2 + 0.2843 * x**3 - 0.1015 * x**4)


def _four_digit(number: str, x: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return height and slope of the mean line: two parabolas that meet at the highest point."""
    height, place = int(number[0]) / 100.0, int(number[1]) / 10.0
    if height == 0.0:
        return np.zeros_like(x), np.zeros_like(x)
    front = x < place
    scale = height / np.where(front, place, 1.0 - place) ** 2
    y = scale * np.where(front, 2.0 * place * x - x**2, 1.0 - 2.0 * place + 2.0 * place * x - x**2)
    return y, 2.0 * scale * (place - x)


def _five_digit(number: str, x: NDArray[np.float64]) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return height and slope of the mean line: a cubic, then a straight line or, reflexed, a second cubic."""
    m, k1, ratio = FIVE_DIGIT["2" + number[1:3]]
    scale = k1 / 6.0 * int(number[0]) / 2.0
    straight = ratio * (1.0 - m) ** 3 + m**3
    front = x < m
    bent = np.where(front, 1.0, ratio)
    y = scale * (bent * (x - m) ** 3 - straight * x + m**3)
    slope = scale * (3.0 * bent * (x - m) ** 2 - straight)
    return y, slope


def _rising(x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return a surface from where its x is least: a cambered nose reaches a hair ahead of x = 0."""
    start = int(np.argmin(x))
    return np.array([x[start:], y[start:]])


def outline(points: Sequence[Sequence[float]], *, name: str = "coordinates", key: str = "section.points") -> Airfoil:
    """Return the section drawn through a plain list of coordinates.

    Parameters
    ----------
    points : sequence of pairs
        x, y in any one unit, from the trailing edge over the top to the leading edge and back below.
    name, key : str
        What the section is called, and what its list is called when it is refused.

    Raises
    ------
    InputError
        When there are fewer than 7 points, when they do not run round the section in that order, or when the
        lower surface crosses the upper one.

    Notes
    -----
    Points are joined by straight lines: with 35 points the depth is good to about 0.1 % of the chord near the
    nose and far better behind it. The mean line is halfway between the surfaces at the same x.
    """
    if len(points) < 7:
        refuse(key, f"needs at least 7 points round the section, got {len(points)}")
    x, y = np.array(points, dtype=float).T
    nose, tail = int(np.argmin(x)), float(max(x[0], x[-1]))
    chord = tail - x[nose]
    around = np.all(np.diff(x[: nose + 1]) < 0.0) and np.all(np.diff(x[nose:]) > 0.0) and 1 < nose < len(x) - 2
    if not around:
        refuse(
            key,
            "must run from the trailing edge over the top to the leading edge and back below, x falling then rising",
        )
    if np.abs(y).max() > 10.0 * chord:
        refuse(key, "must be longer than deep: x along the chord first, y across it second")
    x, y = (x - x[nose]) / chord, (y - y[nose]) / chord
    upper, lower = np.array([x[nose::-1], y[nose::-1]]), np.array([x[nose:], y[nose:]])
    stations = np.union1d(upper[0], lower[0])
    top, bottom = np.interp(stations, *upper), np.interp(stations, *lower)
    if np.any(top < bottom):
        where = float(stations[np.argmax(top < bottom)])
        refuse(key, f"the lower surface lies above the upper one at {100.0 * where:.3g} % of the chord")
    return Airfoil(name, upper, lower, np.array([stations, 0.5 * (top + bottom)]))


@dataclass(frozen=True, slots=True)
class Area:
    """Area of a section and where its middle lies.

    Attributes
    ----------
    section_area : float
        In units of the chord squared.
    centroid_x, centroid_y : float
        In units of the chord, aft of the leading edge and above the chord line.
    """

    section_area: float
    centroid_x: float
    centroid_y: float


def area(section: Airfoil) -> Area:
    """Return area and centroid of a section's outline, exact for the polygon through its points."""
    x, y = np.concatenate([section.upper[:, ::-1], section.lower[:, 1:]], axis=1)
    cross = x * np.roll(y, -1) - np.roll(x, -1) * y
    doubled = float(cross.sum())
    return Area(
        section_area=0.5 * doubled,
        centroid_x=float(((x + np.roll(x, -1)) * cross).sum()) / (3.0 * doubled),
        centroid_y=float(((y + np.roll(y, -1)) * cross).sum()) / (3.0 * doubled),
    )


@dataclass(frozen=True, slots=True)
class ThinAirfoil:
    """Thin-airfoil theory of a mean line.

    Attributes
    ----------
    zero_lift_rad : float
        Angle of attack of the chord line at which there is no lift; negative for a section cambered upwards. [rad]
    lift_slope : float
        Change of lift coefficient with angle of attack, per radian: 2π.
    pitch_quarter_chord : float
        Moment coefficient about the quarter chord, nose up positive.
    """

    zero_lift_rad: float
    lift_slope: float
    pitch_quarter_chord: float


def thin_airfoil(section: Airfoil) -> ThinAirfoil:
    """Return zero-lift angle, lift slope and moment of a section from its mean line alone.

    Notes
    -----
    The integrals over a mean line of straight pieces are done exactly. The theory leaves out thickness and
    friction: measured lift slopes are 5 to 10 % below 2π, zero-lift angles of thick strongly cambered sections are
    up to a fifth smaller in size.

    References
    ----------
    Glauert, The Elements of Aerofoil and Airscrew Theory, chapter VII; Anderson, Fundamentals of Aerodynamics,
    section 4.8.

    Examples
    --------
    >>> thin_airfoil(digits("0012")).zero_lift_rad
    0.0
    """
    x, y = section.mean
    angle = 2.0 * np.arcsin(np.sqrt(np.clip(x, 0.0, 1.0)))
    slope = np.diff(y) / np.diff(x)
    first, second = (float(slope @ np.diff(np.sin(n * angle))) * 2.0 / (n * pi) for n in (1, 2))
    return ThinAirfoil(
        zero_lift_rad=float(slope @ np.diff(angle - np.sin(angle))) / pi,
        lift_slope=2.0 * pi,
        pitch_quarter_chord=pi / 4.0 * (second - first),
    )
