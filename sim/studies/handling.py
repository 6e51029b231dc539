"""Handling with each powerplant: controls in steady turns to the left and to the right, their limits, and modes."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

import numpy as np

from sim.answer import ASIDE, Answer
from sim.flight.turn_limits import Limit, limits_met, steepest_bank
from sim.flight.validity import passed_in_turns
from sim.studies.carried_mass import CarriedMass, carried_masses
from sim.studies.modes import GradedMode, graded_modes
from sim.studies.turns import checked_banks, gyroscopic_couple, not_held, turns

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from sim.flight.quality import Category
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model
from sim.studies.turns import Power

BANKS_DEG = (-60.0, -45.0, -30.0, -15.0, 0.0, 15.0, 30.0, 45.0, 60.0)
SWEEP_DEG = tuple(float(bank) for bank in range(-74, 75, 2))
"""Banks of the figure, each way. [°]"""


@dataclass(frozen=True, slots=True)
class SteadyTurn:
    """One steady turn with the ball centred.

    Attributes
    ----------
    bank_deg, turn_rate_deg_s : float
        Right positive. [°, °/s]
    load_factor : float
        Across the wing.
    alpha_deg, sideslip_deg : float
        Incidence; wind from the right positive. [°]
    elevator_deg, aileron_deg, rudder_deg : float
        A positive deflection makes a negative moment: nose down, left roll, nose left. [°]
    elevator_share, aileron_share, rudder_share : float
        Deflection as a fraction of the travel to that side, same sign.
    gyro_pitch_n_m, gyro_yaw_n_m : float
        Gyroscopic moment on the airframe, nose up and nose right positive. [N m]
    holds : bool
        Whether controls, wing and engine can hold it.
    limit : str or None
        The limit that is exceeded where they cannot.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that it passes: its numbers are indicative there.
    elevator_share_low, elevator_share_high, aileron_share_low, aileron_share_high : float or None
        Ends of the 90 % band; None where no bands were asked for.
    rudder_share_low, rudder_share_high : float or None
        Likewise.
    gyro_pitch_low_n_m, gyro_pitch_high_n_m, gyro_yaw_low_n_m, gyro_yaw_high_n_m : float or None
        Likewise. [N m]
    holds_probability : float or None
        Of the airplanes drawn, the share that can hold it.
    """

    bank_deg: float
    turn_rate_deg_s: float
    load_factor: float
    alpha_deg: float
    sideslip_deg: float
    elevator_deg: float
    aileron_deg: float
    rudder_deg: float
    elevator_share: float
    aileron_share: float
    rudder_share: float
    gyro_pitch_n_m: float
    gyro_yaw_n_m: float
    holds: bool
    limit: Limit | None
    beyond: tuple[str, ...] = ()
    elevator_share_low: float | None = None
    elevator_share_high: float | None = None
    aileron_share_low: float | None = None
    aileron_share_high: float | None = None
    rudder_share_low: float | None = None
    rudder_share_high: float | None = None
    gyro_pitch_low_n_m: float | None = None
    gyro_pitch_high_n_m: float | None = None
    gyro_yaw_low_n_m: float | None = None
    gyro_yaw_high_n_m: float | None = None
    holds_probability: float | None = None


@dataclass(frozen=True, slots=True)
class PowerplantHandling:
    """How the airplane handles with one powerplant.

    Attributes
    ----------
    kind : str
        ``rotary`` or ``fixed``.
    polar_inertia_kg_m2 : float
        Angular momentum per rad/s of the engine shaft. [kg m²]
    spin_rad_s, angular_momentum_kg_m2_s : float
        In straight flight, clockwise positive. [rad/s, kg m²/s]
    turns : tuple of SteadyTurn
        In the order of the banks.
    steepest_left_deg, steepest_right_deg : float
        Steepest bank that can be held each way, left negative; 0 where straight flight cannot be held. [°]
    steepest_left_beyond, steepest_right_beyond : tuple of str
        Bounds of `sim.flight.validity` that these turns pass.
    steepest_left_low_deg, steepest_left_high_deg, steepest_right_low_deg, steepest_right_high_deg : float or None
        Ends of their 90 % bands; None where no bands were asked for. [°]
    modes : tuple of GradedMode
        In straight flight.
    modes_beyond : tuple of str
        Bounds of `sim.flight.validity` that straight flight passes.
    modes_not_held : str or None
        Which limit straight flight exceeds, and how much power it lacks; None where the airplane can fly so.
    drawn_roots : array of complex or None
        Roots of straight flight of the airplanes drawn, those with an imaginary part of at least 0; None without bands.
        Not part of the JSON object. [1/s]
    """

    kind: str
    polar_inertia_kg_m2: float
    spin_rad_s: float
    angular_momentum_kg_m2_s: float
    turns: tuple[SteadyTurn, ...]
    steepest_left_deg: float
    steepest_right_deg: float
    modes: tuple[GradedMode, ...]
    steepest_left_beyond: tuple[str, ...] = ()
    steepest_right_beyond: tuple[str, ...] = ()
    modes_beyond: tuple[str, ...] = ()
    modes_not_held: str | None = None
    steepest_left_low_deg: float | None = None
    steepest_left_high_deg: float | None = None
    steepest_right_low_deg: float | None = None
    steepest_right_high_deg: float | None = None
    drawn_roots: NDArray[np.complex128] | None = field(default=None, metadata=ASIDE)


@dataclass(frozen=True, slots=True)
class Handling(Answer):
    """The answer of `whirlgate handling`.

    Attributes
    ----------
    speed_m_s, altitude_m : float
        [m/s, m]
    powerplants : dict of str to PowerplantHandling
        By name, in the order of the scenario.
    masses : dict of CarriedMass
        Mass and centre of gravity with each powerplant.
    remarks : tuple of str
        What is unusual about the scenario and concerns this answer.
    power : str or None
        At which the airplane climbs or descends; None in level flight. Not part of the JSON object.
    """

    main: ClassVar[str] = "powerplants.turns"
    headline: ClassVar[tuple[str, ...]] = ("steepest_left_deg", "steepest_right_deg")

    speed_m_s: float
    altitude_m: float
    powerplants: dict[str, PowerplantHandling]
    masses: dict[str, CarriedMass]
    remarks: tuple[str, ...]
    power: Power | None = field(default=None, metadata=ASIDE)


def handling(
    model: Model,
    *,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
    banks_deg: Sequence[float] = BANKS_DEG,
    power: Power | None = None,
    category: Category = "B",
    bands: bool = False,
    seed: int = 1,
) -> Handling:
    """Return how the airplane handles with each of its powerplants.

    Parameters
    ----------
    model : Model
        The airplane.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude; None for those of the scenario. [m/s, m]
    banks_deg : sequence of float
        Bank angles of the turns, left negative, above −90 and below 90. [°]
    power : str or None
        ``idle``, ``cruise`` or ``full``, climbing or sinking at that power; None for level turns.
    category : str
        Flight phase category of the grading: A, B or C.
    bands : bool
        Draw many airplanes from what is not known of this one, and give the 90 % bands of each control's share,
        of the steepest banks and of the modes.
    seed : int
        Of the draws.

    Raises
    ------
    InputError
        When a bank is out of range.
    NoAnswerError
        When there is no steady straight flight.

    Examples
    --------
    >>> from sim.model.model import model
    >>> answer = handling(model("tollgate"), banks_deg=(-45.0, 45.0))
    >>> [turn.holds for turn in answer.powerplants["flat_four"].turns]
    [True, True]
    """
    banks = checked_banks(banks_deg)
    flying = model.airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    found = {one.name: _handled(one, banks, power, category) for one in flying}
    if bands:
        from sim.studies.handling_bands import banded

        asked: dict[str, Any] = {"power": power, "category": category, "seed": seed}
        found = {one.name: banded(model, one, found[one.name], **asked) for one in flying}
    unusual = model.remark_texts("handling")
    return Handling(flying[0].speed_m_s, flying[0].altitude_m, found, carried_masses(model), unusual, power)


def _handled(
    flying: FlyingAirplane, banks_deg: tuple[float, ...], power: Power | None, category: Category
) -> PowerplantHandling:
    every = turns(flying, np.radians((*banks_deg, 0.0)), power=power)
    straight = len(banks_deg)
    modes = graded_modes(flying, every, straight, category=category)
    spin = float(every.spin_rad_s[straight])
    inertia = flying.powerplant.polar_inertia_kg_m2
    steepest = [steepest_bank(lambda bank: turns(flying, bank, power=power), flying.travel, side) for side in (-1, 1)]
    left, right = (bank for bank, _ in steepest)
    ends = passed_in_turns(flying.airplane, turns(flying, np.array([left, right]), power=power).only_found())
    return PowerplantHandling(
        kind=flying.powerplant.kind,
        polar_inertia_kg_m2=inertia,
        spin_rad_s=spin,
        angular_momentum_kg_m2_s=inertia * spin,
        turns=_described(flying, every, banks_deg),
        steepest_left_deg=math.degrees(left),
        steepest_right_deg=math.degrees(right),
        modes=modes,
        steepest_left_beyond=ends[0],
        steepest_right_beyond=ends[1],
        modes_beyond=passed_in_turns(flying.airplane, every.only_found())[straight],
        modes_not_held=not_held(flying, every, straight),
    )


def _described(flying: FlyingAirplane, found: Turns, banks_deg: Sequence[float]) -> tuple[SteadyTurn, ...]:
    """Return the first steady turns found in degrees, with shares of travel, gyroscopic moments and limits."""
    limits = limits_met(found, flying.travel)
    found = found.only_found()
    shares = flying.travel.shares(found)
    beyond = passed_in_turns(flying.airplane, found)
    degrees = {name: np.degrees(getattr(found, name)).tolist() for name in _ANGLES}
    rows = []
    for i, (bank, limit) in enumerate(zip(banks_deg, limits, strict=False)):
        gyro = gyroscopic_couple(flying, found, i)
        rows.append(
            SteadyTurn(
                bank_deg=bank,
                **{_ANGLES[name]: values[i] for name, values in degrees.items()},
                **{f"{name}_share": float(values[i]) for name, values in shares.items()},
                load_factor=float(found.load_factor[i]),
                gyro_pitch_n_m=gyro.pitch_n_m,
                gyro_yaw_n_m=gyro.yaw_n_m,
                holds=not limit,
                limit=limit or None,
                beyond=beyond[i],
            )
        )
    return tuple(rows)


_ANGLES = {
    "turn_rate_rad_s": "turn_rate_deg_s",
    "alpha_rad": "alpha_deg",
    "sideslip_rad": "sideslip_deg",
    "elevator_rad": "elevator_deg",
    "aileron_rad": "aileron_deg",
    "rudder_rad": "rudder_deg",
}
