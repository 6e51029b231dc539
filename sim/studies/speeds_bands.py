"""Bands of speeds: those of many airplanes, drawn from what is not known of this one, in one batch."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.many_speeds import ManySpeeds, many_speeds
from sim.propulsion.thrust import thrust_n
from sim.studies.bands import DRAWS, drawn_flying, ends_of, quantiles
from sim.units.quantities import band_ends

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from sim.aerodynamics.polar import Polar
    from sim.flight.speed_bands import SpeedBands
    from sim.flight.speeds import Speeds
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
    from sim.studies.speeds import Curve

    Array = NDArray[np.float64]


def banded(
    model: Model,
    powerplant: str,
    found: tuple[Speeds, SpeedBands, Curve],
    *,
    mass_kg: float | None,
    altitude_m: float,
    seed: int,
) -> tuple[Speeds, SpeedBands, Curve]:
    """Return the speeds and the power curves with one powerplant with their 90 % bands.

    Parameters
    ----------
    model : Model
        That the airplane is of.
    powerplant : str
        Its name.
    found : tuple of Speeds, SpeedBands and Curve
        With it, without bands.
    mass_kg : float or None
        Gross mass that is given and so not drawn; None for that of the airplane. [kg]
    altitude_m : float
        [m]
    seed : int
        Of the draws.

    Notes
    -----
    Drawn are drag, greatest lift, mass, propeller and the power of the engine. Airplanes that cannot fly level have no
    cruise or top speed, and are counted.
    """
    plain, known, curve = found
    many = many_powers(
        drawn_flying(model, model.airplane(powerplant, altitude_m=altitude_m), seed), mass_kg, altitude_m
    )
    drawn = many.speeds()
    values = {one.name: getattr(drawn, one.name) for one in fields(drawn) if getattr(plain, one.name) is not None}
    ends: dict[str, Any] = ends_of(values)
    speeds = replace(
        plain,
        **ends,
        level_flight_probability=float(np.mean(np.isfinite(drawn.top_m_s))),
        cruise_probability=float(np.mean(np.isfinite(drawn.cruise_m_s))),
    )
    return speeds, known, _banded_curve(many, curve)


def _banded_curve(many: ManyPowers, curve: Curve) -> Curve:
    at = [np.full(many.weight_n.shape, speed) for speed in curve.speed_m_s]
    drawn = {
        "needed_w": [many.drag_n(speed) * speed for speed in at],
        "full_w": [many.full_n(speed) * speed for speed in at],
        "cruise_w": [many.cruise_n(speed) * speed for speed in at],
    }
    ends: dict[str, Any] = {}
    for name, rows in drawn.items():
        for end, values in zip(band_ends(name), quantiles(np.transpose(rows)), strict=True):
            ends[end] = tuple(values.tolist())
    return replace(curve, **ends)


@dataclass(frozen=True, slots=True)
class ManyPowers:
    """Weight, drag and thrust of many airplanes, one entry for each.

    Attributes
    ----------
    polar : Polar
        Whose numbers may be arrays.
    weight_n : array
        [N]
    density_kg_m3 : float
        [kg/m³]
    full_n, cruise_n : callable
        Airspeeds, one an airplane [m/s] -> thrusts at full and at cruise speed of the engine [N].
    """

    polar: Polar
    weight_n: Array
    density_kg_m3: float
    full_n: Callable[[Array], Array]
    cruise_n: Callable[[Array], Array]

    def drag_n(self, speed_m_s: Array) -> Array:
        """Return the drag in level flight [N] at airspeeds, one an airplane [m/s]."""
        found: Array = self.polar.drag_n(self.weight_n, self.density_kg_m3, speed_m_s)
        return found

    def speeds(self) -> ManySpeeds:
        """Return the speeds of all."""
        return many_speeds(
            self.polar,
            weight_n=self.weight_n,
            density_kg_m3=self.density_kg_m3,
            full_thrusts_n=self.full_n,
            cruise_thrusts_n=self.cruise_n,
        )


def many_powers(many: FlyingAirplane, mass_kg: float | None, altitude_m: float) -> ManyPowers:
    """Return weight, drag and thrust of many airplanes of `sim.studies.bands.drawn_flying`.

    Parameters
    ----------
    many : FlyingAirplane
        With one powerplant.
    mass_kg : float or None
        Gross mass of all; None for their own. [kg]
    altitude_m : float
        [m]
    """
    density, own = air(altitude_m).density_kg_m3, many.powerplant
    full, cruise = (
        thrust_n(many.airplane.engine, many.airplane.propeller, density, most)
        for most in (own.full_speed_rad_s, own.cruise_speed_rad_s)
    )
    mass = many.airplane.body.mass_kg if mass_kg is None else mass_kg
    weight = np.broadcast_to(np.asarray(mass * GRAVITY_M_S2, float), (DRAWS,))
    return ManyPowers(many.airplane.polar, weight, density, full, cruise)
