"""Speeds of an airplane with each powerplant, and power required and available against speed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, ClassVar

import numpy as np

from sim.answer import ASIDE, Answer
from sim.atmosphere import GRAVITY_M_S2, air
from sim.errors import NoAnswerError
from sim.flight.speed_bands import SpeedBands, speed_bands
from sim.flight.speeds import Speeds
from sim.flight.speeds import speeds as level_speeds
from sim.flight.validity import passed, speed_measures
from sim.propulsion.thrust import full_spin_rad_s, thrust_n
from sim.studies.carried_mass import BandedMass, carried_masses

if TYPE_CHECKING:
    from sim.aerodynamics.polar import Polar, PolarBands
    from sim.model.model import Model
    from sim.model.powerplant import EngineKind, Powerplant

POINTS = 80
"""Number of speeds of each power curve."""


@dataclass(frozen=True, slots=True)
class Curve:
    """Power against speed with one powerplant.

    Attributes
    ----------
    speed_m_s : tuple of float
        [m/s]
    needed_w, full_w, cruise_w : tuple of float
        Power required for level flight, and thrust power at full and at cruise speed of the engine. [W]
    needed_low_w, needed_high_w, full_low_w, full_high_w, cruise_low_w, cruise_high_w : tuple of float or None
        Ends of their 90 % bands; None where no bands were asked for. [W]
    """

    speed_m_s: tuple[float, ...]
    needed_w: tuple[float, ...]
    full_w: tuple[float, ...]
    cruise_w: tuple[float, ...]
    needed_low_w: tuple[float, ...] | None = None
    needed_high_w: tuple[float, ...] | None = None
    full_low_w: tuple[float, ...] | None = None
    full_high_w: tuple[float, ...] | None = None
    cruise_low_w: tuple[float, ...] | None = None
    cruise_high_w: tuple[float, ...] | None = None


@dataclass(frozen=True, slots=True)
class SpeedsAnswer(Answer):
    """Speeds with each powerplant.

    Attributes
    ----------
    title, powerplant : str
        Name of the airplane; powerplant whose speeds stand at the top.
    mass_kg, altitude_m : float
        [kg, m]
    stall_m_s, liftoff_m_s, cruise_m_s, top_m_s, best_climb_m_s, climb_rate_m_s, lift_drag_max : float
        With that powerplant; no cruise where cruise power cannot hold level flight. [m/s]
    powerplants : dict of Speeds
        With each powerplant that can hold level flight.
    bands : dict of SpeedBands
        How well their speeds are known, one standard deviation by lift and drag alone; 0 where the scenario
        states these without ±.
    curves : dict of Curve
        Likewise.
    beyond : dict of dict of tuple of str
        For each powerplant the speeds that pass bounds of `sim.flight.validity`, by their fields, and which; empty
        where none does. The stalling speed is the end of the range itself.
    too_weak : dict of str
        For each of the others, why it cannot.
    masses : dict of BandedMass
        Mass and centre of gravity with each powerplant; empty where another mass was asked for.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    engine_kinds : dict of str
        ``rotary`` or ``fixed``, by powerplant; not in JSON.
    """

    main: ClassVar[str] = "powerplants"
    headline: ClassVar[tuple[str, ...]] = ("stall_m_s", "top_m_s", "climb_rate_m_s")

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
    bands: dict[str, SpeedBands]
    curves: dict[str, Curve]
    beyond: dict[str, dict[str, tuple[str, ...]]]
    too_weak: dict[str, str]
    masses: dict[str, BandedMass]
    remarks: tuple[str, ...]
    engine_kinds: dict[str, EngineKind] = field(metadata=ASIDE)


def speeds(
    model: Model,
    *,
    powerplant: str | None = None,
    mass_kg: float | None = None,
    altitude_m: float | None = None,
    bands: bool = False,
    seed: int = 1,
) -> SpeedsAnswer:
    """Return the speeds with each powerplant.

    Parameters
    ----------
    model : Model
        The airplane.
    powerplant : str or None
        Name of the powerplant whose speeds stand at the top; None as for `balance`, or the first that can hold level
        flight.
    mass_kg, altitude_m : float or None
        Gross mass, above 0, and altitude; None for those of the scenario. [kg, m]
    bands : bool
        Draw many airplanes from what is not known of this one, and give the 90 % bands of the speeds.
    seed : int
        Of the draws.

    Raises
    ------
    InputError
        When no powerplant has that name.
    NoAnswerError
        When the powerplant asked for, or none at all, can hold level flight.
    """
    first = model.usual_powerplant(powerplant).name
    altitude = model.altitude_m if altitude_m is None else altitude_m
    found, too_weak = _each(model, mass_kg, altitude)
    if bands:
        from sim.studies.speeds_bands import banded

        found = {
            engine: banded(model, engine, own, mass_kg=mass_kg, altitude_m=altitude, seed=seed)
            for engine, own in found.items()
        }
    name = next(iter(found)) if powerplant is None and found and first not in found else first
    if name not in found:
        raise NoAnswerError(too_weak[name] if found else "\n".join(too_weak.values()))
    own = found[name][0]
    return SpeedsAnswer(
        title=model.title,
        powerplant=name,
        mass_kg=model.flown_mass(name).body.mass_kg if mass_kg is None else mass_kg,
        altitude_m=altitude,
        stall_m_s=own.stall_m_s,
        liftoff_m_s=own.liftoff_m_s,
        cruise_m_s=own.cruise_m_s,
        top_m_s=own.top_m_s,
        best_climb_m_s=own.best_climb_m_s,
        climb_rate_m_s=own.climb_rate_m_s,
        lift_drag_max=own.lift_drag_max,
        powerplants={engine: own for engine, (own, _, _) in found.items()},
        bands={engine: bands for engine, (_, bands, _) in found.items()},
        curves={engine: curve for engine, (_, _, curve) in found.items()},
        beyond={
            engine: _beyond(model.powerplants[engine], own, altitude_m=altitude)
            for engine, (own, _, _) in found.items()
        },
        too_weak=too_weak,
        masses=carried_masses(model, bands=bands) if mass_kg is None else {},
        remarks=model.remark_texts("speeds"),
        engine_kinds=model.engine_kinds,
    )


def _each(
    model: Model, mass_kg: float | None, altitude_m: float
) -> tuple[dict[str, tuple[Speeds, SpeedBands, Curve]], dict[str, str]]:
    """Return speeds and curves of each powerplant that can hold level flight, and why the others cannot."""
    density = air(altitude_m).density_kg_m3
    found, too_weak = {}, {}
    for name, powerplant in model.powerplants.items():
        weight_n = (model.flown_mass(name).body.mass_kg if mass_kg is None else mass_kg) * GRAVITY_M_S2
        try:
            polar, bands = model.polar_with(name), model.polar_bands(name)
            found[name] = _speeds(polar, bands, powerplant, weight_n=weight_n, density_kg_m3=density)
        except NoAnswerError as error:
            too_weak[name] = str(error)
    return found, too_weak


def _speeds(
    polar: Polar, bands: PolarBands, powerplant: Powerplant, *, weight_n: float, density_kg_m3: float
) -> tuple[Speeds, SpeedBands, Curve]:
    full, cruise = (
        thrust_n(powerplant.engine_law, powerplant.propeller_law, density_kg_m3, most)
        for most in (powerplant.full_speed_rad_s, powerplant.cruise_speed_rad_s)
    )

    def solve(of: Polar) -> Speeds:
        return level_speeds(
            of,
            weight_n=weight_n,
            density_kg_m3=density_kg_m3,
            full_thrust_n=full,
            cruise_thrust_n=cruise,
            called=powerplant.name,
        )

    found = solve(polar)
    last = 1.15 * found.top_m_s
    at = tuple(found.stall_m_s + (last - found.stall_m_s) * step / (POINTS - 1) for step in range(POINTS))
    curve = Curve(
        speed_m_s=at,
        needed_w=tuple(polar.drag_n(weight_n, density_kg_m3, speed) * speed for speed in at),
        full_w=tuple(full(speed) * speed for speed in at),
        cruise_w=tuple(cruise(speed) * speed for speed in at),
    )
    return found, speed_bands(solve, polar, bands, found), curve


def _beyond(powerplant: Powerplant, found: Speeds, *, altitude_m: float) -> dict[str, tuple[str, ...]]:
    """Return the speeds of one powerplant that pass bounds, the engine at full throttle as far as it is allowed."""
    full, cruise = powerplant.full_speed_rad_s, powerplant.cruise_speed_rad_s
    flown = {"liftoff_m_s": full, "best_climb_m_s": full, "cruise_m_s": cruise, "top_m_s": full}
    known = {name: most for name, most in flown.items() if getattr(found, name) is not None}
    speed = np.array([getattr(found, name) for name in known])
    spin = full_spin_rad_s(
        powerplant.engine_law,
        powerplant.propeller_law,
        speed_m_s=speed,
        density_kg_m3=air(altitude_m).density_kg_m3,
        most_rad_s=np.array(list(known.values())),
    )
    propeller = powerplant.propeller_law
    measured = speed_measures(
        propeller,
        speed_m_s=speed,
        along_m_s=speed,
        turning_rad_s=abs(propeller.ratio) * spin,
        altitude_m=np.full_like(speed, altitude_m),
    )
    beyond = passed(measured)
    rows = {name: tuple(bound for bound, where in beyond.items() if where[i]) for i, name in enumerate(known)}
    return {name: row for name, row in rows.items() if row}
