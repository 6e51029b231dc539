"""The gyroscopic couple of one rotor, in a turn or at given rates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.errors import Fault, InputError, whole_faults
from sim.frames import rotation_sign, turn_sign
from sim.rotor.couple import Couple, two_blade_factors
from sim.rotor.couple import couple as gyroscopic_couple

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.frames import Rotation, Side

ROTOR = ("polar_inertia_kg_m2", "mass_kg", "gyration_radius_m")
TURN = ("speed_m_s", "radius_m", "turn")
RATES = ("yaw_rate_rad_s", "pitch_rate_rad_s")
_ROTOR_WAYS = "`polar_inertia_kg_m2`, or `mass_kg` with `gyration_radius_m`"
_MOTION_WAYS = "`speed_m_s` with `radius_m` and `turn`, or `yaw_rate_rad_s` and/or `pitch_rate_rad_s`"


@dataclass(frozen=True, slots=True)
class CoupleOverTurn:
    """The couple over one revolution of the propeller.

    Attributes
    ----------
    blade_angle_deg : tuple of float
        Angle of blade 1 from the plane in which the nose turns, 0 to 360. [°]
    pitch_n_m, yaw_n_m : tuple of float
        Moment on the airframe there, nose up and nose right positive. [N m]
    """

    blade_angle_deg: tuple[float, ...]
    pitch_n_m: tuple[float, ...]
    yaw_n_m: tuple[float, ...]


def couple(
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
        Speed of the rotor, above 0. [rad/s]
    rotation : str
        Its sense of rotation as seen from the cockpit, ``clockwise`` or ``anticlockwise``.
    blades : int or None
        Blades of the propeller: one or two double the peak. None for a rotor whose couple is steady.
    polar_inertia_kg_m2 : float or None
        Polar moment of inertia about the shaft. [kg m²]
    mass_kg, gyration_radius_m : float or None
        Or both of these: m k². [kg, m]
    speed_m_s, radius_m, turn : optional
        Flat turn ``left`` or ``right``: the nose turns at V/R. [m/s, m]
    yaw_rate_rad_s, pitch_rate_rad_s : float or None
        Or these rates, nose right and nose up positive. [rad/s]

    Raises
    ------
    InputError
        Every fault of the combination at once.

    Examples
    --------
    >>> answer = couple(polar_inertia_kg_m2=36.0, spin_rad_s=251.3, speed_m_s=55.56, radius_m=50.0, turn="left")
    >>> round(answer.couple_n_m), answer.effect
    (10053, 'nose up')
    """
    rotor = dict(zip(ROTOR, (polar_inertia_kg_m2, mass_kg, gyration_radius_m), strict=True))
    motion = dict(zip((*TURN, *RATES), (speed_m_s, radius_m, turn, yaw_rate_rad_s, pitch_rate_rad_s), strict=True))
    faults = list(couple_faults({**rotor, **motion, "spin_rad_s": spin_rad_s, "blades": blades}))
    if faults:
        raise InputError(faults)
    if polar_inertia_kg_m2 is None:
        polar_inertia_kg_m2 = (mass_kg or 0.0) * (gyration_radius_m or 0.0) ** 2
    if turn is not None and speed_m_s is not None and radius_m is not None:
        yaw_rate_rad_s = turn_sign(turn) * speed_m_s / radius_m
    return gyroscopic_couple(
        rotation_sign(rotation) * polar_inertia_kg_m2 * spin_rad_s,
        pitch_rate_rad_s=pitch_rate_rad_s or 0.0,
        yaw_rate_rad_s=yaw_rate_rad_s or 0.0,
        blades=3 if blades is None else int(blades),
    )


def couple_faults(given: Mapping[str, object]) -> Iterator[Fault]:
    """Yield what is wrong with the parameters of `couple` taken together.

    Parameters
    ----------
    given : mapping
        The parameters by name; None, or no entry, for one that is not given.
    """
    yield from _rotor_faults(_present(ROTOR, given))
    if given.get("spin_rad_s") is None:
        yield Fault("spin_rad_s", "is missing; the speed of the rotor")
    blades = given.get("blades")
    yield from whole_faults({"blades": blades if isinstance(blades, float | int) else None})
    yield from _motion_faults(_present(TURN, given), _present(RATES, given))


def _present(names: tuple[str, ...], given: Mapping[str, object]) -> list[str]:
    return [name for name in names if given.get(name) is not None]


def _rotor_faults(present: list[str]) -> Iterator[Fault]:
    inertia, mass, radius = ROTOR
    if not present:
        yield Fault(inertia, f"is missing; give {_ROTOR_WAYS}")
    elif inertia in present:
        for name in present[1:]:
            yield Fault(name, f"cannot be used with `{inertia}`; give {_ROTOR_WAYS}")
    elif len(present) == 1:
        missing = radius if present == [mass] else mass
        yield Fault(missing, f"is missing; `{present[0]}` needs it, or give `{inertia}` alone")


def _motion_faults(turn: list[str], rates: list[str]) -> Iterator[Fault]:
    if not turn and not rates:
        yield Fault("speed_m_s", f"is missing; give {_MOTION_WAYS}")
    elif turn and rates:
        for name in rates:
            yield Fault(name, f"cannot be used with {' and '.join(f'`{each}`' for each in turn)}; give {_MOTION_WAYS}")
    elif turn:
        for name in (name for name in TURN if name not in turn):
            yield Fault(name, "is missing; a turn needs `speed_m_s`, `radius_m` and `turn`")


def over_a_turn(answer: Couple, blades: float | None = None) -> CoupleOverTurn:
    """Return the couple over a revolution of the propeller: steady for three or more blades, pulsing for fewer.

    Parameters
    ----------
    answer : Couple
        Of `couple`.
    blades : int or None
        Blades of the propeller; None for a rotor whose couple is steady.

    Notes
    -----
    The whole angular momentum is taken to pulse, as in `sim.rotor.couple.couple`.
    """
    angle_deg = np.arange(0.0, 361.0, 3.0)
    even = blades is None or blades > 2.0
    along, across = (1.0, 0.0) if even else two_blade_factors(np.radians(angle_deg))
    pitch_n_m = along * answer.pitch_n_m - across * answer.yaw_n_m + 0.0 * angle_deg
    yaw_n_m = along * answer.yaw_n_m + across * answer.pitch_n_m + 0.0 * angle_deg
    return CoupleOverTurn(tuple(angle_deg.tolist()), tuple(pitch_n_m.tolist()), tuple(yaw_n_m.tolist()))
