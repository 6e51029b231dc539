"""Every aerodynamic derivative of an airplane: its value, its origin and its error band."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer
from sim.studies.carried_mass import CarriedMass, carried_mass
from sim.studies.span_loads import SpanLoads, span_loads

if TYPE_CHECKING:
    from sim.aerodynamics.derivative import Derivative
    from sim.model.model import Model


@dataclass(frozen=True, slots=True)
class DerivativesAnswer(Answer):
    """The derivatives of an airplane with one powerplant.

    Attributes
    ----------
    powerplant : str
        Name of the powerplant whose propeller turns.
    speed_m_s, altitude_m : float
        Flight condition of the estimates that depend on lift. [m/s, m]
    area_m2, span_m, chord_m : float
        Reference area, span and mean chord. [m², m, m]
    aspect : float
        Aspect ratio of the equivalent monoplane.
    span_factor : float
        Munk's k: span of the equivalent monoplane over the largest span of the wing.
    derivatives : dict of str to Derivative
        By name.
    mass : CarriedMass
        Mass and centre of gravity of the airplane.
    loads : SpanLoads
        How planes and tailplane share the lift, and the downwash.
    """

    main: ClassVar[str] = "derivatives"

    powerplant: str
    speed_m_s: float
    altitude_m: float
    area_m2: float
    span_m: float
    chord_m: float
    aspect: float
    span_factor: float
    derivatives: dict[str, Derivative]
    mass: CarriedMass
    loads: SpanLoads


def derivatives(
    model: Model,
    *,
    powerplant: str | None = None,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
) -> DerivativesAnswer:
    """Return the aerodynamic derivatives of an airplane.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str or None
        Name of the powerplant whose propeller turns; None for the first of the scenario.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude; None for those of the scenario. [m/s, m]

    Raises
    ------
    InputError
        When no powerplant has that name.
    """
    flying = model.airplane(powerplant, speed_m_s=speed_m_s, altitude_m=altitude_m)
    polar = flying.airplane.polar
    return DerivativesAnswer(
        powerplant=flying.name,
        speed_m_s=flying.speed_m_s,
        altitude_m=flying.altitude_m,
        area_m2=polar.area_m2,
        span_m=polar.span_m,
        chord_m=polar.chord_m,
        aspect=polar.aspect_ratio,
        span_factor=math.sqrt(polar.aspect_ratio * polar.area_m2) / polar.span_m,
        derivatives=dict(flying.derivatives),
        mass=carried_mass(model, flying.name),
        loads=span_loads(model, flying),
    )
