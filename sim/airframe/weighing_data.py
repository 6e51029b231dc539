"""A weighing in numbers: supports, attitudes and scale readings, each with its error, and the result."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot
from typing import TYPE_CHECKING

from sim.airframe.loading import USEFUL

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.airframe.masses import Item


LIMIT = 3.0
"""Standard errors by which two values of the same may differ."""
ALIKE_RAD = 0.017
"""Attitudes closer than this, one degree, count as one: they do not determine the height."""


@dataclass(frozen=True, slots=True)
class Support:
    """The axle of a wheel, or the point of a skid or jack: fixed in the airplane, with the contact straight below it.

    Attributes
    ----------
    station_m, buttline_m, waterline_m : float
        Aft of the datum, to the right, up. A wheel touches the ground under its axle at every attitude, so its
        contact is no fixed point of the airplane. [m]
    station_error_m, buttline_error_m, waterline_error_m : float
        Their standard errors; each acts on every reading of the support. [m]
    """

    station_m: float
    buttline_m: float = 0.0
    waterline_m: float = 0.0
    station_error_m: float = 0.0
    buttline_error_m: float = 0.0
    waterline_error_m: float = 0.0

    @property
    def axle(self) -> tuple[float, float, float, float]:
        """What supports of one axle share: place and errors of place, which are then measured once, not twice."""
        return self.station_m, self.waterline_m, self.station_error_m, self.waterline_error_m


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
    pitch_error_rad : float
        Standard error of the pitch. [rad]
    """

    name: str
    pitch_rad: float
    readings: dict[str, Reading]
    pitch_error_rad: float = 0.0

    @property
    def net_kg(self) -> float:
        """Sum of the readings less tare [kg]."""
        return sum(reading.net_kg for reading in self.readings.values())

    @property
    def net_error_kg(self) -> float:
        """Standard error of that sum [kg]."""
        return hypot(*(reading.mass_error_kg for reading in self.readings.values()))


@dataclass(frozen=True, slots=True)
class AssumedErrors:
    """Standard errors taken where the scenario gives none; None where every one was given.

    Attributes
    ----------
    scale_error_kg : float or None
        Of a scale reading. [kg]
    support_error_m : float or None
        Of station, waterline and buttline of a support. [m]
    pitch_error_deg : float or None
        Of an attitude. [degrees]
    """

    scale_error_kg: float | None = None
    support_error_m: float | None = None
    pitch_error_deg: float | None = None


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
    assumed : AssumedErrors
        Errors of these that were not given.
    engine_move_m : float
        How far the engine stood aft of where it is drawn. [m]
    pilot_kg : float or None
        Weight of the pilot aboard; None for the one listed. [kg]
    as_read : bool
        Whether these are the readings of the scales, not ones drawn within their ±.
    """

    powerplant: str
    aboard: tuple[str, ...]
    supports: dict[str, Support]
    attitudes: tuple[Attitude, ...]
    assumed: AssumedErrors = AssumedErrors()
    engine_move_m: float = 0.0
    pilot_kg: float | None = None
    as_read: bool = True

    def stood(self, items: Iterable[Item]) -> tuple[Item, ...]:
        """Return the items as they were when the airplane was weighed: its engine there, its pilot aboard."""
        from sim.airframe.loading import with_pilot
        from sim.airframe.mass_state import MassState

        stood = MassState(tuple(items)).moved(self.engine_move_m)
        return stood.items if self.pilot_kg is None else with_pilot(stood, self.pilot_kg).items

    def there(self, items: Iterable[Item]) -> tuple[Item, ...]:
        """Return the items that stood on the scales."""
        return tuple(
            item for item in items if not item.added and (item.group not in USEFUL or item.group in self.aboard)
        )


@dataclass(frozen=True, slots=True)
class Weighed:
    """Weight and centre of gravity by the scales.

    Attributes
    ----------
    mass_kg, mass_error_kg : float
        Net weight, mean of the attitudes, and its standard error. [kg]
    cg_station_m, cg_error_m : float
        Centre of gravity aft of the datum, and its standard error. [m]
    cg_buttline_m, cg_buttline_error_m : float
        Right of the middle, and its standard error. [m]
    cg_waterline_m, cg_waterline_error_m : float or None
        Its height, from two attitudes, and its standard error; None from one. [m]
    covariance : tuple of tuple of float
        Of mass, station and, where it is determined, height: 3 x 3, else 2 x 2. [kg, m, m]
    """

    mass_kg: float
    mass_error_kg: float
    cg_station_m: float
    cg_error_m: float
    cg_buttline_m: float
    cg_buttline_error_m: float
    cg_waterline_m: float | None
    cg_waterline_error_m: float | None
    covariance: tuple[tuple[float, ...], ...]
