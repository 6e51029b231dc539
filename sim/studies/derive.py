"""Each equation derived from first principles, and evaluated with the numbers of an airplane."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from sim.atmosphere import GRAVITY_M_S2
from sim.studies.turns import straight, turns
from sim.units.text import brief

if TYPE_CHECKING:
    from sim.derivation.steps import Derivation
    from sim.model.model import Model

Topic = Literal["couple", "turn", "modes", "windows", "rate"]
BANK_RAD = math.radians(45.0)


def derive(model: Model, topic: Topic, *, powerplant: str | None = None) -> Derivation:
    """Return the derivation of one topic with the numbers of one powerplant.

    Parameters
    ----------
    model : Model
        The airplane.
    topic : str
        ``couple`` and ``turn``: in the right turn of 45° of `compare` and `handling`; ``modes``: about straight
        flight; ``windows`` and ``rate``: at full speed.
    powerplant : str or None
        Name of the powerplant; None for the first of the scenario.

    Raises
    ------
    InputError
        When no powerplant has that name.
    NoAnswerError
        When the airplane has no such flight.
    """
    name = model.powerplant(powerplant).name
    return replace(_DERIVED[topic](model, name), condition=f"{name}, {_condition(model, topic)}")


def _condition(model: Model, topic: Topic) -> str:
    """Return the flight or the shaft speed of which the numbers are inserted."""
    if topic in ("windows", "rate"):
        return "at full speed"
    flight = "in straight and level flight" if topic == "modes" else "in a level right turn with 45° of bank"
    flying = model.airplanes()[0]
    return f"{flight} at {brief('speed_m_s', flying.speed_m_s)} and {brief('altitude_m', flying.altitude_m)}"


def _couple(model: Model, name: str) -> Derivation:
    from sim.derivation.couple import derive_couple

    flying = model.airplane(name)
    pitch_rate, yaw_rate, spin = turns(flying, BANK_RAD).state[11:14, 0].tolist()
    return derive_couple(
        polar_inertia_kg_m2=flying.powerplant.polar_inertia_kg_m2,
        spin_rad_s=spin,
        pitch_rate_rad_s=pitch_rate,
        yaw_rate_rad_s=yaw_rate,
    )


def _turn(model: Model, name: str) -> Derivation:
    from sim.derivation.turn import derive_turn

    flying = model.airplane(name)
    found = turns(flying, BANK_RAD)
    u, v, w = found.state[7:10, 0].tolist()
    return derive_turn(
        velocity_m_s=(u, v, w),
        bank_rad=float(found.bank_rad[0]),
        attitude_rad=float(found.pitch_rad[0]),
        angular_momentum_kg_m2_s=flying.powerplant.polar_inertia_kg_m2 * float(found.spin_rad_s[0]),
        gravity_m_s2=GRAVITY_M_S2,
    )


def _modes(model: Model, name: str) -> Derivation:
    from sim.derivation.modes import derive_modes

    flying = model.airplane(name)
    found = straight(flying)
    momentum = flying.powerplant.polar_inertia_kg_m2 * float(found.spin_rad_s[0])
    return derive_modes(
        flying.airplane, found.state[:, 0].tolist(), found.controls(0), angular_momentum_kg_m2_s=momentum
    )


def _windows(model: Model, name: str) -> Derivation:
    from sim.derivation.windows import derive_windows

    line, blade = model.gun_line(name), model.blade_at_bore(name)
    return derive_windows(
        {
            "blade_chord_m": blade.blade_chord_m,
            "blade_thickness_m": blade.blade_thickness_m,
            "helix_rad": blade.helix_rad,
            "bullet_diameter_m": blade.bullet_diameter_m,
            "bore_radius_m": blade.bore_radius_m,
            "margin_rad": line.margin_rad + blade.flex_rad,
            "spin_rad_s": line.spin_rad_s[-1],
            "delay_s": line.whole_delay_s(line.spin_rad_s[-1]),
            "blades": line.blades,
        }
    )


def _rate(model: Model, name: str) -> Derivation:
    from sim.derivation.rate import derive_rate

    line = model.gun_line(name)
    closed, interval = line.closed_part()
    return derive_rate(
        gun_rounds_per_min=Fraction(line.gun_rounds_per_min),
        openings_per_min=Fraction(line.rpm[-1]) * line.openings,
        blocked_share=None if line.action == "impulse" else Fraction(closed) / Fraction(interval),
    )


_DERIVED = {"couple": _couple, "turn": _turn, "modes": _modes, "windows": _windows, "rate": _rate}
