"""Weighing: weight and centre of gravity from scale readings, and its height from two attitudes."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, sin
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import Fault, InputError
from sim.units.text import fixed

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from numpy.typing import NDArray

LIMIT = 3.0
"""Standard errors by which two totals may differ."""
ALIKE_RAD = 0.017
"""Attitudes closer than this, one degree, count as one: they do not determine the height."""


@dataclass(frozen=True, slots=True)
class Support:
    """Where a wheel or skid stands, with the airplane level.

    Attributes
    ----------
    station_m, buttline_m, waterline_m : float
        Aft of the datum, to the right, up. [m]
    """

    station_m: float
    buttline_m: float = 0.0
    waterline_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Reading:
    """The reading of one scale.

    Attributes
    ----------
    mass_kg, mass_error_kg : float
        Reading before tare, and its standard error. [kg]
    tare_kg : float
        Chocks and stands on the scale. [kg]
    """

    mass_kg: float
    mass_error_kg: float
    tare_kg: float = 0.0

    @property
    def net_kg(self) -> float:
        """Reading less tare [kg]."""
        return self.mass_kg - self.tare_kg


@dataclass(frozen=True, slots=True)
class Attitude:
    """One weighing of all supports at one pitch attitude.

    Attributes
    ----------
    name : str
        Name of the attitude.
    pitch_rad : float
        Nose up from level positive, so a tail-low airplane is positive. [rad]
    readings : dict of Reading
        By name of support.
    """

    name: str
    pitch_rad: float
    readings: dict[str, Reading]


@dataclass(frozen=True, slots=True)
class Weighing:
    """Scales under the wheels: where they stood, how the airplane stood, what they showed.

    Attributes
    ----------
    powerplant : str
        The engine that was in the airplane.
    aboard : tuple of str
        Groups of items aboard besides the empty airplane.
    supports : dict of Support
        By name.
    attitudes : tuple of Attitude
        With their readings.
    """

    powerplant: str
    aboard: tuple[str, ...]
    supports: dict[str, Support]
    attitudes: tuple[Attitude, ...]


@dataclass(frozen=True, slots=True)
class Weighed:
    """Weight and centre of gravity by the scales.

    Attributes
    ----------
    mass_kg, mass_error_kg : float
        Net weight, mean of the attitudes. [kg]
    cg_station_m, cg_error_m : float
        Centre of gravity aft of the datum, and its standard error. [m]
    cg_buttline_m : float
        Right of the middle. [m]
    cg_waterline_m : float or None
        Its height, from two attitudes; None from one. [m]
    cg_waterline_error_m : float or None
        Standard error of the height. [m]
    """

    mass_kg: float
    mass_error_kg: float
    cg_station_m: float
    cg_error_m: float
    cg_buttline_m: float
    cg_waterline_m: float | None
    cg_waterline_error_m: float | None


def weigh(
    supports: Mapping[str, Support], attitudes: Sequence[Attitude], *, assumed_waterline_m: float | None = None
) -> Weighed:
    """Return weight and centre of gravity from the readings of every scale.

    Parameters
    ----------
    supports : mapping
        By name; at least two at different stations.
    attitudes : sequence of Attitude
        One suffices; two or more a degree apart give the height too.
    assumed_waterline_m : float or None
        Height assumed when every attitude is the same and not level. [m]

    Raises
    ------
    InputError
        Missing readings, totals that differ by more than 3 standard errors, a support with a negative load (the
        centre of gravity would lie outside the wheels): every fault in a sentence.

    Notes
    -----
    A support or centre of gravity at station x and waterline z stands x cos θ + z sin θ behind the origin when the
    nose is θ up. Moments about the origin then give x and z by weighted least squares. Errors of station and
    attitude are not included: an eighth of an inch in the station of the main wheels moves the centre of gravity
    about as far as a pound on the tail.

    References
    ----------
    FAA-H-8083-1, Weight and Balance Handbook, chapter on weighing; AC 43.13-1B chapter 10.

    Examples
    --------
    >>> level = Attitude("level", 0.0, {"mains": Reading(90.0, 0.1), "tail": Reading(10.0, 0.1)})
    >>> weigh({"mains": Support(1.0), "tail": Support(6.0)}, [level]).cg_station_m
    1.5
    """
    faults = [*_missing(supports, attitudes), *(fault for a in attitudes for fault in _lifted(supports, a))]
    faults = faults or _unbalanced(attitudes)
    if faults:
        raise InputError(faults)
    mass_kg, mass_error_kg = _mean([_sum(attitude) for attitude in attitudes])
    solution, covariance = _solve(supports, attitudes, assumed_waterline_m)
    right = sum(supports[k].buttline_m * r.net_kg for a in attitudes for k, r in a.readings.items())
    height = float(solution[1]) if len(solution) == 2 else None
    return Weighed(
        mass_kg=mass_kg,
        mass_error_kg=mass_error_kg,
        cg_station_m=float(solution[0]),
        cg_error_m=float(covariance[0, 0]) ** 0.5,
        cg_buttline_m=right / sum(_sum(attitude)[0] for attitude in attitudes),
        cg_waterline_m=height,
        cg_waterline_error_m=None if height is None else float(covariance[1, 1]) ** 0.5,
    )


def _missing(supports: Mapping[str, Support], attitudes: Sequence[Attitude]) -> list[Fault]:
    if len({support.station_m for support in supports.values()}) < 2:
        return [
            Fault("weighing.support", "needs supports at two stations at least, the main wheels and the tail or nose")
        ]
    if not attitudes:
        return [Fault("weighing.attitude", "needs the readings of at least one attitude")]
    return [
        Fault("weighing.reading", f"{name} is missing at {attitude.name}; every support must stand on a scale")
        for attitude in attitudes
        for name in supports
        if name not in attitude.readings
    ]


def _lifted(supports: Mapping[str, Support], attitude: Attitude) -> list[Fault]:
    """Return a fault for each support that pulls: the centre of gravity lies outside the wheels."""
    return [
        Fault(
            "weighing.reading",
            f'{name} at {attitude.name} must be above 0 after tare, got "{_both(reading.net_kg)}": '
            "the centre of gravity would lie outside the wheels; check the reading and its tare",
        )
        for name, reading in attitude.readings.items()
        if name in supports and reading.net_kg <= 0.0
    ]


def _both(mass_kg: float) -> str:
    """Return a mass in words for a shop of either system."""
    return f"{fixed('mass_kg', mass_kg, 'si', 1)} ({fixed('mass_kg', mass_kg, 'us', 1)})"


def _sum(attitude: Attitude) -> tuple[float, float]:
    """Return the net weight of an attitude and its standard error."""
    readings = attitude.readings.values()
    return sum(r.net_kg for r in readings), hypot(*(r.mass_error_kg for r in readings))


def _unbalanced(attitudes: Sequence[Attitude]) -> list[Fault]:
    (first_kg, first_error), name = _sum(attitudes[0]), attitudes[0].name
    faults = []
    for other in attitudes[1:]:
        mass_kg, error = _sum(other)
        allowed = LIMIT * hypot(error, first_error)
        if abs(mass_kg - first_kg) > allowed:
            what = (
                f"the readings do not balance: {other.name} adds up to {_both(mass_kg)}, {name} to {_both(first_kg)}; "
                f"they may differ by {_both(allowed)}, three standard errors; check tares and what was aboard"
            )
            faults.append(Fault("weighing.reading", what))
    return faults


def _mean(sums: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Return the weighted mean and its error; equal weights where no error is given."""
    if any(error == 0.0 for _, error in sums):
        return sum(value for value, _ in sums) / len(sums), 0.0
    weights = [error**-2 for _, error in sums]
    return sum(w * value for w, (value, _) in zip(weights, sums, strict=True)) / sum(weights), sum(weights) ** -0.5


def _solve(
    supports: Mapping[str, Support], attitudes: Sequence[Attitude], assumed_waterline_m: float | None
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return (station, or station and height) and covariance."""
    angles = [attitude.pitch_rad for attitude in attitudes]
    design = np.array([[cos(angle), sin(angle)] for angle in angles])
    rows = [_behind(supports, attitude) for attitude in attitudes]
    behind, errors = np.array([row[0] for row in rows]), np.array([row[1] for row in rows])
    if max(angles) - min(angles) < ALIKE_RAD:
        if max(map(abs, angles)) >= ALIKE_RAD and assumed_waterline_m is None:
            raise InputError([Fault("weighing.attitude", "needs a level attitude, or two a degree or more apart")])
        behind, design = behind - design[:, 1] * (assumed_waterline_m or 0.0), design[:, :1]
    weights = 1.0 / errors**2 if np.all(errors > 0.0) else np.ones_like(errors)
    covariance = np.linalg.inv(design.T @ (weights[:, None] * design))
    solution = covariance @ design.T @ (weights * behind)
    return solution, covariance if np.all(errors > 0.0) else np.zeros_like(covariance)


def _behind(supports: Mapping[str, Support], attitude: Attitude) -> tuple[float, float]:
    """Return how far the centre of gravity stands behind the origin, level distance, and its standard error [m]."""
    mass_kg, _ = _sum(attitude)
    c, s = cos(attitude.pitch_rad), sin(attitude.pitch_rad)
    place = {name: supports[name].station_m * c + supports[name].waterline_m * s for name in attitude.readings}
    behind = sum(place[name] * r.net_kg for name, r in attitude.readings.items()) / mass_kg
    error = hypot(*((place[name] - behind) * r.mass_error_kg for name, r in attitude.readings.items())) / mass_kg
    return behind, error
