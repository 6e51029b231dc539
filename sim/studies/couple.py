"""The quick calculator: one rotor, swung round in a turn or at given rates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import Fault, InputError
from sim.frames import Rotation, Side, rotation_sign, turn_sign
from sim.rotor.couple import Couple, couple, two_blade_factors

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

ROTOR = {"polar_inertia_kg_m2": "--inertia", "mass_kg": "--mass", "gyration_radius_m": "--gyration-radius"}
TURN = {"speed_m_s": "--speed", "radius_m": "--radius", "turn": "--turn"}
RATES = {"yaw_rate_rad_s": "--yaw-rate", "pitch_rate_rad_s": "--pitch-rate"}
_ROTOR_WAYS = "--inertia, or --mass with --gyration-radius"
_SWING_WAYS = "--speed with --radius and --turn, or --yaw-rate and/or --pitch-rate"


@dataclass(frozen=True, slots=True)
class OverTurn:
    """The couple through one turn of the propeller.

    Attributes
    ----------
    blade_angle_deg : tuple of float
        Of blade 1 from the plane in which the nose swings, 0 to 360. [°]
    pitch_n_m, yaw_n_m : tuple of float
        Moment on the airframe there, nose up and nose right positive. [N m]
    """

    blade_angle_deg: tuple[float, ...]
    pitch_n_m: tuple[float, ...]
    yaw_n_m: tuple[float, ...]


def combination_faults(given: Mapping[str, object]) -> Iterator[Fault]:
    """Yield what is wrong with options taken together.

    Parameters
    ----------
    given : mapping
        The arguments of `quick_couple`; None, or no entry, for one that was not given.
    """
    yield from _rotor_faults(_present(ROTOR, given))
    if given.get("spin_rad_s") is None:
        yield Fault("--rpm", "is missing; the speed of the rotor, as in --rpm 1250")
    blades = given.get("blades")
    if isinstance(blades, float) and blades % 1.0 > 0.0:
        yield Fault("--blades", f'must be a whole number, got "{blades:g}"')
    yield from _swing_faults(_present(TURN, given), _present(RATES, given))


def _present(options: Mapping[str, str], given: Mapping[str, object]) -> list[str]:
    return [option for name, option in options.items() if given.get(name) is not None]


def _rotor_faults(present: list[str]) -> Iterator[Fault]:
    if not present:
        yield Fault("--inertia", f"is missing; give {_ROTOR_WAYS}")
    elif "--inertia" in present:
        for option in present[1:]:
            yield Fault(option, f"cannot stand beside --inertia; give {_ROTOR_WAYS}")
    elif len(present) == 1:
        missing = "--gyration-radius" if present == ["--mass"] else "--mass"
        yield Fault(missing, f"is missing; {present[0]} needs it, or give --inertia alone")


def _swing_faults(turn: list[str], rates: list[str]) -> Iterator[Fault]:
    if not turn and not rates:
        yield Fault("--speed", f"is missing; give {_SWING_WAYS}")
    elif turn and rates:
        for option in rates:
            yield Fault(option, f"cannot stand beside {' and '.join(turn)}; give {_SWING_WAYS}")
    elif turn:
        for option in (option for option in TURN.values() if option not in turn):
            yield Fault(option, "is missing; a turn needs --speed, --radius and --turn")


def quick_couple(
    *,
    spin_rad_s: float,
    rotation: Rotation = "clockwise",
    blades: float | None = None,
    polar_inertia_kg_m2: float | None = None,
    mass_kg: float | None = None,
    gyration_radius_m: float | None = None,
    speed_m_s: float | None = None,
    radius_m: float | None = None,
    turn: Side | None = None,
    yaw_rate_rad_s: float | None = None,
    pitch_rate_rad_s: float | None = None,
) -> Couple:
    """Return the couple of one rotor.

    Parameters
    ----------
    spin_rad_s : float
        Size of the rotor's speed. [rad/s]
    rotation : str
        Its sense as seen from the cockpit.
    blades : float, optional
        Of the propeller: one or two double the peak. Without it the rotor is taken as evenly round.
    polar_inertia_kg_m2 : float, optional
        About the shaft, [kg m²]; or else
    mass_kg, gyration_radius_m : float, optional
        Both together: m k². [kg, m]
    speed_m_s, radius_m, turn : optional
        A flat turn, left or right: the nose swings at V/R, [m/s, m]; or else
    yaw_rate_rad_s, pitch_rate_rad_s : float, optional
        Nose right and nose up positive. [rad/s]

    Raises
    ------
    InputError
        Every fault of the combination at once.

    Examples
    --------
    >>> answer = quick_couple(polar_inertia_kg_m2=36.0, spin_rad_s=251.3, speed_m_s=55.56, radius_m=50.0, turn="left")
    >>> round(answer.couple_n_m), answer.effect
    (10053, 'nose up')
    """
    faults = list(combination_faults(locals()))
    if faults:
        raise InputError(faults)
    if polar_inertia_kg_m2 is None:
        polar_inertia_kg_m2 = (mass_kg or 0.0) * (gyration_radius_m or 0.0) ** 2
    if turn is not None and speed_m_s is not None and radius_m is not None:
        yaw_rate_rad_s = turn_sign(turn) * speed_m_s / radius_m
    return couple(
        rotation_sign(rotation) * polar_inertia_kg_m2 * spin_rad_s,
        pitch_rate_rad_s=pitch_rate_rad_s or 0.0,
        yaw_rate_rad_s=yaw_rate_rad_s or 0.0,
        blades=3 if blades is None else int(blades),
    )


def over_a_turn(answer: Couple, blades: float | None = None) -> OverTurn:
    """Return how a couple comes and goes with the blades: steadily for three or more, in pulses for fewer.

    Parameters
    ----------
    answer : Couple
        Of `quick_couple`.
    blades : float, optional
        Of the propeller; without it the rotor is taken as evenly round.

    Notes
    -----
    The whole spin momentum is taken to pulse, as in `sim.rotor.couple.couple`.
    """
    angle_deg = np.arange(0.0, 361.0, 3.0)
    even = blades is None or blades > 2.0
    along, across = (1.0, 0.0) if even else two_blade_factors(np.radians(angle_deg))
    pitch_n_m = along * answer.pitch_n_m - across * answer.yaw_n_m + 0.0 * angle_deg
    yaw_n_m = along * answer.yaw_n_m + across * answer.pitch_n_m + 0.0 * angle_deg
    return OverTurn(tuple(angle_deg.tolist()), tuple(pitch_n_m.tolist()), tuple(yaw_n_m.tolist()))
