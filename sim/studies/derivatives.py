"""Every aerodynamic derivative of an airplane: its value, its origin and its error band."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer
from sim.atmosphere import GRAVITY_M_S2, air
from sim.flight.turn_limits import limits_met
from sim.flight.validity import passed_in_turns
from sim.studies.carried_mass import CarriedMass, carried_mass
from sim.studies.span_loads import SpanLoads, span_loads
from sim.studies.turns import turns

if TYPE_CHECKING:
    from sim.aerodynamics.derivative import Derivative
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model


@dataclass(frozen=True, slots=True)
class DerivativesAnswer(Answer):
    """The derivatives of an airplane with one powerplant.

    Attributes
    ----------
    powerplant : str
        Name of the powerplant, which decides mass, centre of gravity and drag; the derivatives are power off.
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
    lift_level, lift_max : float
        Lift coefficient that level flight requires without thrust, and the greatest.
    stall_m_s : float
        Speed at which they are equal. [m/s]
    beyond : tuple of str
        Bounds of `sim.flight.validity` that level flight passes; ``stall`` also where there is none for want of lift.
    remarks : tuple of str
        What is unusual about the stability of the airplane with any of its powerplants, a sentence each.
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
    lift_level: float
    lift_max: float
    stall_m_s: float
    beyond: tuple[str, ...]
    remarks: tuple[str, ...]


def derivatives(
    model: Model,
    *,
    powerplant: str | None = None,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
) -> DerivativesAnswer:
    """Return the aerodynamic derivatives of an airplane, power off.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str or None
        Name of the powerplant; None for the first of the scenario.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude; None for those of the scenario. [m/s, m]

    Raises
    ------
    InputError
        When no powerplant has that name.
    """
    flying = model.airplane(powerplant, speed_m_s=speed_m_s, altitude_m=altitude_m)
    polar = flying.airplane.polar
    pressure_pa = 0.5 * air(flying.altitude_m).density_kg_m3 * flying.speed_m_s**2
    level = flying.airplane.body.mass_kg * GRAVITY_M_S2 / (pressure_pa * polar.area_m2)
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
        lift_level=level,
        lift_max=polar.lift_max,
        stall_m_s=flying.speed_m_s * math.sqrt(level / polar.lift_max),
        beyond=_beyond(flying),
        remarks=model.remark_texts("derivatives"),
    )


def _beyond(flying: FlyingAirplane) -> tuple[str, ...]:
    level = turns(flying, 0.0)
    lost = not level.found[0] and limits_met(level, flying.travel)[0] == "CLmax"
    return ("stall",) if lost else passed_in_turns(flying.airplane, level.only_found())[0]
