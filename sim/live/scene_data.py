"""Everything the viewer shows of one airplane: it with two engines, ready to fly, the engines, and the timed gun."""

from __future__ import annotations

import math
from dataclasses import dataclass
from statistics import mean
from typing import TYPE_CHECKING

from sim.errors import NoAnswerError, refuse
from sim.live.engine import EngineSetup
from sim.live.figure import figure
from sim.live.flight import Flyer, flyer
from sim.synchronizer.exact_burst import settled
from sim.synchronizer.timed_gun import timed

if TYPE_CHECKING:
    from sim.live.figure_parts import Figure
    from sim.model.model import Model
    from sim.model.powerplant import EngineKind, Powerplant
    from sim.synchronizer.timed_gun import TimedGun

CRANK_M = {"rotary": (0.080, 0.300), "fixed": (0.050, 0.170)}
"""Crank radius and rod drawn where a scenario gives the polar inertia outright: common proportions [m]."""


@dataclass(frozen=True, slots=True)
class SecondGun:
    """A second gun behind the same propeller, at the same speed, and how far its bore line is from the shaft [m]."""

    gun: TimedGun
    bore_radius_m: float


@dataclass(frozen=True, slots=True)
class Stage:
    """What goes on the stage.

    Attributes
    ----------
    figure : Figure
        Shape of both airplanes.
    rotary, fixed : Flyer
        The airplane with each engine, in level flight.
    rotary_engine, fixed_engine : EngineSetup
        The engines.
    gun : TimedGun or None
        The timed gun behind the rotary's propeller at cruise, with the scenario's cam; without one the ideal one there.
        None where the scenario has no gun.
    bore_radius_m : float
        Distance of its bore line from the shaft axis, at the disc; not a number without a gun. [m]
    strike_share : float
        Share of all rounds that meet a blade in continuous fire; not a number where that has no exact form.
    second : SecondGun or None
        A second gun, fired with the first; None where there is but one.
    """

    figure: Figure
    rotary: Flyer
    fixed: Flyer
    rotary_engine: EngineSetup
    fixed_engine: EngineSetup
    gun: TimedGun | None
    bore_radius_m: float
    strike_share: float = math.nan
    second: SecondGun | None = None

    def armed(self) -> TimedGun:
        """Return the timed gun.

        Raises
        ------
        InputError
            Where the scenario has none.
        """
        return self.gun or refuse("gun", "is missing; there are no rounds to be shown between the blades")


def stage(model: Model) -> Stage:
    """Return everything the viewer shows of an airplane.

    Parameters
    ----------
    model : Model
        With a rotary and a fixed powerplant; of several the first of each kind is shown.

    Raises
    ------
    InputError
        When one of the two kinds is missing.
    NoAnswerError
        When one of the two cannot hold level flight at the scenario's speed and altitude.
    """
    rotary, fixed = _first(model, "rotary"), _first(model, "fixed")
    gun = _gun(model, rotary.name) if model.has_gun else None
    other = model.second_gun
    second = SecondGun(_gun(other, rotary.name), other.bore_radius_m) if other else None
    return Stage(
        figure=figure(model, rotary),
        rotary=flyer(model.airplane(rotary.name)),
        fixed=flyer(model.airplane(fixed.name)),
        rotary_engine=_engine(rotary),
        fixed_engine=_engine(fixed),
        gun=gun,
        bore_radius_m=model.bore_radius_m if model.has_gun else math.nan,
        strike_share=_strike_share([*([gun] if gun else []), *([second.gun] if second else [])]),
        second=second,
    )


def _first(model: Model, kind: EngineKind) -> Powerplant:
    for powerplant in model.powerplants.values():
        if powerplant.kind == kind:
            return powerplant
    return refuse("powerplant", f"the viewer sets a rotary beside a fixed engine; there is none of kind {kind} here")


def _engine(powerplant: Powerplant) -> EngineSetup:
    gear = powerplant.running_gear
    crank_m, rod_m = (gear.crank_radius_m, gear.rod_length_m) if gear else CRANK_M[powerplant.kind]
    return EngineSetup(
        kind=powerplant.kind,
        cylinders=powerplant.cylinders,
        crank_radius_m=crank_m,
        rod_length_m=rod_m,
        spin_rad_s=powerplant.sense * powerplant.cruise_speed_rad_s,
        full_speed_rad_s=powerplant.full_speed_rad_s,
        polar_inertia_kg_m2=powerplant.polar_inertia_kg_m2,
        turning_mass_kg=_turning_mass_kg(powerplant),
        blade=powerplant.propeller.blade,
        disc_radius_m=0.5 * powerplant.propeller.diameter_m,
    )


def _turning_mass_kg(powerplant: Powerplant) -> float:
    masses = [part.mass_kg for part in powerplant.contributions]
    return sum(masses) if all(masses) else math.nan


def _strike_share(guns: list[TimedGun]) -> float:
    """Return the share of the rounds of all guns, which fire as many, that meet a blade."""
    try:
        return mean(settled(gun).mean.strike_share for gun in guns) if guns else math.nan
    except NoAnswerError:
        return math.nan


def _gun(model: Model, name: str) -> TimedGun:
    line = model.gun_line(name)
    _, cruise_rad_s, _ = line.spin_rad_s
    return timed(line, cruise_rad_s, model.scatter)
