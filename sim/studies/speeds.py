"""The speeds of a scenario's airplane with each of its engines, and the power that flight needs beside what it has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer
from sim.atmosphere import GRAVITY_M_S2, air
from sim.errors import NoAnswerError
from sim.flight.speeds import Speeds, speeds
from sim.model.model import Model
from sim.propulsion.thrust import thrust_n

if TYPE_CHECKING:
    from sim.scenario.tables import Scenario

POINTS = 80
"""Speeds of the power curves."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Power against speed with one engine.

    Attributes
    ----------
    speed_m_s : tuple of float
        [m/s]
    needed_w, full_w, cruise_w : tuple of float
        Power that level flight takes, and thrust power at full and at cruise speed of the engine. [W]
    """

    speed_m_s: tuple[float, ...]
    needed_w: tuple[float, ...]
    full_w: tuple[float, ...]
    cruise_w: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class SpeedsAnswer(Answer):
    """Speeds with each engine.

    Attributes
    ----------
    title, powerplant : str
        Which airplane; the engine whose speeds stand at the top.
    mass_kg, altitude_m : float
        [kg, m]
    stall_m_s, liftoff_m_s, cruise_m_s, top_m_s, best_climb_m_s, climb_rate_m_s, lift_drag_max : float
        With that engine; the cruise None where cruise speed does not hold it up. [m/s]
    powerplants : dict of Speeds
        With each engine that holds the airplane up.
    curves : dict of Curve
        Likewise.
    too_weak : dict of str
        Why there is nothing for the other engines.
    """

    main: ClassVar[str] = "powerplants"

    title: str
    powerplant: str
    mass_kg: float
    altitude_m: float
    stall_m_s: float
    liftoff_m_s: float
    cruise_m_s: float | None
    top_m_s: float
    best_climb_m_s: float
    climb_rate_m_s: float
    lift_drag_max: float
    powerplants: dict[str, Speeds]
    curves: dict[str, Curve]
    too_weak: dict[str, str]


def study(
    scenario: Scenario,
    *,
    powerplant: str | None = None,
    mass_kg: float | None = None,
    altitude_m: float | None = None,
) -> SpeedsAnswer:
    """Return the speeds with each engine.

    Parameters
    ----------
    scenario : Scenario
        Read by `sim.scenario.reading.load`.
    powerplant : str or None
        The engine whose speeds stand at the top; None as for `balance`, or the first that holds the airplane up.
    mass_kg, altitude_m : float or None
        None for the scenario's gross mass and altitude. [kg, m]

    Raises
    ------
    InputError
        When no powerplant has that name.
    NoAnswerError
        When the engine asked for, or none at all, holds the airplane up.
    """
    first = Model(scenario).usual_powerplant(powerplant).name
    mass = scenario.airplane.mass_kg if mass_kg is None else mass_kg
    altitude = scenario.flight.altitude_m if altitude_m is None else altitude_m
    found, too_weak = _each(scenario, mass * GRAVITY_M_S2, altitude)
    name = next(iter(found)) if powerplant is None and found and first not in found else first
    if name not in found:
        raise NoAnswerError(too_weak[name] if found else "\n".join(too_weak.values()))
    own = found[name][0]
    return SpeedsAnswer(
        title=scenario.title,
        powerplant=name,
        mass_kg=mass,
        altitude_m=altitude,
        stall_m_s=own.stall_m_s,
        liftoff_m_s=own.liftoff_m_s,
        cruise_m_s=own.cruise_m_s,
        top_m_s=own.top_m_s,
        best_climb_m_s=own.best_climb_m_s,
        climb_rate_m_s=own.climb_rate_m_s,
        lift_drag_max=own.lift_drag_max,
        powerplants={engine: pair[0] for engine, pair in found.items()},
        curves={engine: pair[1] for engine, pair in found.items()},
        too_weak=too_weak,
    )


def _each(
    scenario: Scenario, weight_n: float, altitude_m: float
) -> tuple[dict[str, tuple[Speeds, Curve]], dict[str, str]]:
    """Return what each engine gives, and why some give nothing."""
    found, too_weak = {}, {}
    for engine in scenario.powerplant:
        try:
            found[engine] = _speeds(scenario, engine, weight_n, altitude_m)
        except NoAnswerError as error:
            too_weak[engine] = str(error)
    return found, too_weak


def _speeds(scenario: Scenario, engine: str, weight_n: float, altitude_m: float) -> tuple[Speeds, Curve]:
    model, density = Model(scenario), air(altitude_m).density_kg_m3
    polar, fitted = model.polar, model.powerplant(engine)
    laws = fitted.engine_law, fitted.propeller_law
    full, cruise = (thrust_n(*laws, density, most) for most in (fitted.full_speed_rad_s, fitted.cruise_speed_rad_s))
    found = speeds(
        polar, weight_n=weight_n, density_kg_m3=density, full_thrust_n=full, cruise_thrust_n=cruise, called=engine
    )
    last = 1.15 * found.top_m_s
    at = tuple(found.stall_m_s + (last - found.stall_m_s) * step / (POINTS - 1) for step in range(POINTS))
    curve = Curve(
        speed_m_s=at,
        needed_w=tuple(polar.drag_n(weight_n, density, speed) * speed for speed in at),
        full_w=tuple(full(speed) * speed for speed in at),
        cruise_w=tuple(cruise(speed) * speed for speed in at),
    )
    return found, curve
