"""Propeller: speed of its tips, sense of its gear, height above the ground, proportions of its blades."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, sin
from typing import TYPE_CHECKING

from sim.atmosphere import air
from sim.model.plausibility import limits
from sim.model.plausibility.remark import unusual
from sim.model.plausibility.supports import stance
from sim.propulsion.propeller_choice import Shaft
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.plausibility.remark import Examined, Remark, Usual

ENOUGH_SHARE = 0.02
"""Share by which a ratio may pass 1 before it is told: teeth do not divide evenly."""


def tip_mach(diameter_m: float, spin_rad_s: float, *, airspeed_m_s: float, sound_m_s: float) -> float:
    """Return the Mach number of the blade tips along their helix.

    Parameters
    ----------
    diameter_m, spin_rad_s : float
        Of the propeller. [m, rad/s]
    airspeed_m_s, sound_m_s : float
        [m/s]
    """
    return hypot(0.5 * diameter_m * spin_rad_s, airspeed_m_s) / sound_m_s


def tips_and_gear(examined: Examined) -> Iterator[Remark]:
    """Yield gears the wrong way round, and blade tips of unusual speed, at full speed of the engine."""
    model = examined.model
    sound_m_s = air(model.altitude_m).sound_m_s
    for name, engine in model.powerplants.items():
        ratio, key = abs(engine.gear_ratio), f"powerplant.{name}"
        tips = tip_mach(
            engine.propeller.diameter_m,
            ratio * engine.full_speed_rad_s,
            airspeed_m_s=model.speed_m_s,
            sound_m_s=sound_m_s,
        )
        if ratio > 1.0 + ENOUGH_SHARE:
            what = told(
                "the ratio, which brings the blade tips to Mach {tips} at full speed,",
                tips=f"{tips:.3g}",
            )
            cure = told(
                "It is propeller speed over engine speed: a reduction of {ratio} : 1 is {inverse}.",
                ratio=f"{ratio:.4g}",
                inverse=f"{1.0 / ratio:.4g}",
            )
            yield from unusual(limits.GEAR_RATIO, ratio, key=f"{key}.gear_ratio", what=what, cure=cure)
        else:
            yield from unusual(
                limits.TIP_MACH,
                tips,
                key=f"{key}.propeller.diameter",
                what="the Mach number of the blade tips at full speed",
                cure="Check speed, gear_ratio and propeller.diameter of this powerplant.",
            )


@dataclass(frozen=True, slots=True)
class Clearance:
    """Of a propeller above the ground.

    Attributes
    ----------
    level_clearance_m : float
        Height of the disc, airplane level. [m]
    standing_clearance_m : float or None
        On all wheels; None where the scenario does not place the disc. [m]
    usual : Usual
        That a rule asks for.
    """

    level_clearance_m: float
    standing_clearance_m: float | None
    usual: Usual

    @property
    def ground_clearance_m(self) -> float:
        """The least of them. [m]."""
        standing_m = self.standing_clearance_m
        return self.level_clearance_m if standing_m is None else min(self.level_clearance_m, standing_m)


def clearance(examined: Examined, powerplant: str) -> Clearance | None:
    """Return the clearance of one propeller; None where the scenario lacks supports on wheels or a thrust line."""
    model, balance = examined.model, examined.scenario.balance
    stands = stance(examined)
    if stands is None or balance is None or "thrust_line_m" not in balance.model_fields_set:
        return None
    usual = limits.TAIL_WHEEL_CLEARANCE if stands.tail_wheel else limits.NOSE_WHEEL_CLEARANCE
    engine = model.powerplants[powerplant]
    reach_m, disc_m = 0.5 * engine.propeller.diameter_m, engine.propeller.station_m
    forward_m, down_m = reach_m * sin(engine.shaft_tilt_rad), reach_m * cos(engine.shaft_tilt_rad)

    def height_m(station_m: float, pitch_rad: float) -> float:
        return stands.behind_and_above_m(station_m, model.thrust_line_m - down_m, pitch_rad)[1]

    standing_m = None if disc_m is None else height_m(disc_m - forward_m, stands.pitch_rad)
    return Clearance(height_m(0.0, 0.0), standing_m, usual)


def ground_clearance(examined: Examined) -> Iterator[Remark]:
    """Yield propellers that come too near to the ground, level or on all wheels; needs supports and a thrust line."""
    for name in examined.model.powerplants:
        found = clearance(examined, name)
        if found is not None:
            key = f"powerplant.{name}.propeller.diameter"
            cure = "Raise balance.thrust_line above the supports with a longer gear, or take a smaller propeller."
            yield from unusual(
                found.usual, found.ground_clearance_m, key=key, what="its clearance above the ground", cure=cure
            )


def blade_proportions(examined: Examined) -> Iterator[Remark]:
    """Yield propellers whose pitch or blades are far from those that are made."""
    model, gun = examined.model, examined.scenario.gun
    for name, engine in model.powerplants.items():
        own, key = engine.propeller, f"powerplant.{name}.propeller"
        yield from unusual(
            limits.PITCH_SHARE,
            own.pitch_m / own.diameter_m,
            key=f"{key}.pitch",
            what="pitch over diameter",
            cure="Check pitch and diameter and their units.",
        )
        chord_m = model.blade_at_bore(name).blade_chord_m if gun else own.blade_chord_m
        if chord_m is not None:
            yield from unusual(
                limits.BLADE_CHORD_SHARE,
                chord_m / own.diameter_m,
                key="gun.blade_chord" if own.blade_chord_m is None else f"{key}.blade_chord",
                what=told("blade chord over diameter of the propeller of {name}", name=name),
                cure="Check both and their units.",
            )


def static_speed(examined: Examined) -> Iterator[Remark]:
    """Yield propellers that hold their engine far below full speed at rest, or let it pass it far."""
    around = air(examined.model.altitude_m)
    for name, engine in examined.model.powerplants.items():
        shaft = Shaft(engine.engine_law, engine.full_speed_rad_s, engine.gear_ratio, around)
        share = shaft.static_share(engine.propeller.blade, engine.propeller.diameter_m)
        yield from unusual(
            limits.STATIC_SHARE,
            share,
            key=f"powerplant.{name}.propeller",
            what="the speed at which full throttle turns it at rest, over full speed,",
            cure="It does not suit the engine: the study propeller tells which diameter and pitch would.",
        )
