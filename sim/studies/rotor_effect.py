"""The rotor's effect on handling: its share of control travel, where that doubles, and levels that change."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.answer import Answer
from sim.flight.quality import WORST
from sim.flight.turn_limits import Limit, limits_met
from sim.flight.validity import passed_in_turns
from sim.studies.modes import graded_modes
from sim.studies.turns import BEYOND_CONTROLS, demand_held, turns, without_rotor

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import ArrayLike, NDArray

    from sim.flight.quality import Category
    from sim.flight.trim import Turns
    from sim.model.airplane import FlyingAirplane
    from sim.model.model import Model

BANK_DEG = 45.0
BANKS_DEG = (0.0, -BANK_DEG, BANK_DEG)
LEFT, RIGHT = 1, 2
"""Numbers of the turns among the banks."""
SPEEDS = 241
SLOWEST_SHARE = 0.4


@dataclass(frozen=True, slots=True)
class RotorShare:
    """Control travel for the rotor of one powerplant: a level turn of 45° less the same without angular momentum.

    Attributes
    ----------
    powerplant : str
        Its name.
    left_rudder_share, right_rudder_share : float
        Fraction of rudder travel in the left and the right turn; left rudder positive.
    left_elevator_share, right_elevator_share : float
        Fraction of elevator travel, likewise; stick forward positive.
    left_rudder_share_low, left_rudder_share_high, left_elevator_share_low, left_elevator_share_high,
    right_rudder_share_low, right_rudder_share_high, right_elevator_share_low, right_elevator_share_high : float or None
        Ends of their 90 % bands; None where no bands were asked for.
    """

    powerplant: str
    left_rudder_share: float
    left_elevator_share: float
    right_rudder_share: float
    right_elevator_share: float
    left_rudder_share_low: float | None = None
    left_rudder_share_high: float | None = None
    left_elevator_share_low: float | None = None
    left_elevator_share_high: float | None = None
    right_rudder_share_low: float | None = None
    right_rudder_share_high: float | None = None
    right_elevator_share_low: float | None = None
    right_elevator_share_high: float | None = None


@dataclass(frozen=True, slots=True)
class Doubling:
    """The speed at which the largest of the rotor's shares is twice as large.

    Attributes
    ----------
    control, side : str
        Which share is the largest: ``rudder`` or ``elevator``; ``left`` or ``right``.
    share : float
        Its size at the speed of the study.
    speed_m_s : float or None
        Speed at which it is twice that; None where the turn meets a limit first. [m/s]
    slowest_m_s : float
        Slowest speed at which the turn can be held. [m/s]
    limit : str
        The limit at that speed.
    beyond : tuple of str
        Bounds of `sim.flight.validity` that the turn passes where the share has doubled.
    speed_low_m_s, speed_high_m_s, slowest_low_m_s, slowest_high_m_s : float or None
        Ends of the 90 % bands; None where no bands were asked for. [m/s]
    doubles_probability : float or None
        Of the airplanes drawn that hold the turn, those in which the share doubles before the turn meets a limit.
    """

    control: str
    side: str
    share: float
    speed_m_s: float | None
    slowest_m_s: float
    limit: Limit
    beyond: tuple[str, ...]
    speed_low_m_s: float | None = None
    speed_high_m_s: float | None = None
    slowest_low_m_s: float | None = None
    slowest_high_m_s: float | None = None
    doubles_probability: float | None = None


@dataclass(frozen=True, slots=True)
class GradeChange:
    """A mode whose level differs between two powerplants.

    Attributes
    ----------
    mode : str
        Its name.
    bank_deg : float
        Bank angle of the turn; 0 in straight flight. [°]
    first_level, second_level : int
        With the first and with the second powerplant; 4 is worse than 3.
    """

    mode: str
    bank_deg: float
    first_level: int
    second_level: int


@dataclass(frozen=True, slots=True)
class Conclusion:
    """What the first powerplant needs more of in a turn than the second, and how sure that is.

    Attributes
    ----------
    side, control : str
        ``left`` or ``right`` turn; ``rudder`` or ``elevator``.
    more_share : float
        Fraction of travel that the first needs more; left rudder, stick forward positive.
    probability : float
        Of the airplanes drawn that hold both turns, the share in which it is more to that side.
    """

    side: str
    control: str
    more_share: float
    probability: float


@dataclass(frozen=True, slots=True)
class RotorEffect(Answer):
    """The rotor's effect with two powerplants: first that with the most angular momentum, second that with the least.

    Attributes
    ----------
    speed_m_s : float
        [m/s]
    first, second : RotorShare
        Control travel for the rotor.
    doubling : Doubling
        For the first.
    changes : tuple of GradeChange
        In straight flight and in turns of 45° to the left and to the right.
    conclusions : tuple of Conclusion
        Of the turns of 45° with both powerplants; none where no bands were asked for, or there is one powerplant.
    """

    speed_m_s: float
    first: RotorShare
    second: RotorShare
    doubling: Doubling
    changes: tuple[GradeChange, ...]
    conclusions: tuple[Conclusion, ...] = ()


def rotor_effect(
    model: Model,
    *,
    speed_m_s: float | None = None,
    altitude_m: float | None = None,
    category: Category = "B",
    bands: bool = False,
    seed: int = 1,
) -> RotorEffect:
    """Return the effect of the rotor's angular momentum on handling in level flight.

    Parameters
    ----------
    model : Model
        The airplane.
    speed_m_s, altitude_m : float or None
        True airspeed, above 0, and altitude; None for those of the scenario. [m/s, m]
    category : str
        Flight phase category of the grading: A, B or C.
    bands : bool
        Draw many airplanes from what is not known of this one, and give 90 % bands and how sure each conclusion is.
    seed : int
        Of the draws.

    Raises
    ------
    NoAnswerError
        When there is no level turn of 45° at this speed.
    """
    flying = model.airplanes(speed_m_s=speed_m_s, altitude_m=altitude_m)
    by_momentum = sorted(
        flying, key=lambda one: -abs(one.powerplant.polar_inertia_kg_m2 * one.powerplant.cruise_speed_rad_s)
    )
    first, second = by_momentum[0], by_momentum[-1]
    pair = [(one, turns(one, np.radians(BANKS_DEG))) for one in (first, second)]
    for one, found in pair:
        for index in (LEFT, RIGHT):
            demand_held(one, found, index, allowed=BEYOND_CONTROLS)
    effect = RotorEffect(
        speed_m_s=first.speed_m_s,
        first=_share(*pair[0]),
        second=_share(*pair[1]),
        doubling=_doubling(first),
        changes=_changes(pair, category),
    )
    if not bands:
        return effect
    from sim.studies.rotor_effect_bands import banded

    return banded(model, effect, first, second, seed=seed)


def rotor_shares(
    flying: FlyingAirplane, speed_m_s: NDArray[np.float64], bank_rad: ArrayLike
) -> dict[str, NDArray[np.float64]]:
    """Return the fraction of each control's travel for the rotor, in level turns at speeds [m/s] and banks [rad]."""
    return _for_the_rotor(flying, turns(flying, bank_rad, speed_m_s=speed_m_s), speed_m_s, bank_rad)


def _for_the_rotor(
    flying: FlyingAirplane, found: Turns, speed_m_s: ArrayLike, bank_rad: ArrayLike
) -> dict[str, NDArray[np.float64]]:
    bare = turns(without_rotor(flying), bank_rad, speed_m_s=speed_m_s)
    had, left = (flying.travel.shares(each.only_found()) for each in (found, bare))
    return {name: had[name] - left[name] for name in had}


def _share(flying: FlyingAirplane, found: Turns) -> RotorShare:
    shares = _for_the_rotor(flying, found, flying.speed_m_s, np.radians(BANKS_DEG))
    return RotorShare(
        powerplant=flying.name,
        left_rudder_share=float(shares["rudder"][LEFT]),
        left_elevator_share=float(shares["elevator"][LEFT]),
        right_rudder_share=float(shares["rudder"][RIGHT]),
        right_elevator_share=float(shares["elevator"][RIGHT]),
    )


def _doubling(flying: FlyingAirplane) -> Doubling:
    speeds = np.linspace(flying.speed_m_s, SLOWEST_SHARE * flying.speed_m_s, SPEEDS)
    every, banks = np.tile(speeds, 2), np.repeat(np.radians((-BANK_DEG, BANK_DEG)), SPEEDS)
    solved = turns(flying, banks, speed_m_s=every)
    shares = {name: np.abs(of) for name, of in _for_the_rotor(flying, solved, every, banks).items()}
    sides = {"left": slice(None, SPEEDS), "right": slice(SPEEDS, None)}
    found = {(control, side): shares[control][own] for side, own in sides.items() for control in ("rudder", "elevator")}
    control, side = max(found, key=lambda key: float(np.nan_to_num(found[key][0])))
    share = found[control, side]
    met = limits_met(solved, flying.travel)[sides[side]]
    last = next((i for i, limit in enumerate(met) if limit not in ("", met[0])), len(met)) - 1
    twice = next((i for i in range(1, last + 1) if share[i] >= 2.0 * share[0]), None)
    return Doubling(
        control=control,
        side=side,
        share=float(share[0]),
        speed_m_s=None if twice is None else _crossing(speeds, share, twice),
        slowest_m_s=float(speeds[last]),
        limit=met[last + 1] if last + 1 < len(met) else "",
        beyond=() if twice is None else passed_in_turns(flying.airplane, solved.only_found())[sides[side]][twice],
    )


def _crossing(speeds: NDArray[np.float64], share: NDArray[np.float64], after: int) -> float:
    """Return the speed at which the share passes twice its first value, between two points. [m/s]."""
    part = (2.0 * share[0] - share[after - 1]) / (share[after] - share[after - 1])
    return float(speeds[after - 1] + part * (speeds[after] - speeds[after - 1]))


def _changes(pair: Iterable[tuple[FlyingAirplane, Turns]], category: Category) -> tuple[GradeChange, ...]:
    levels = [_levels(flying, found, category) for flying, found in pair]
    return tuple(
        GradeChange(mode, bank, levels[0][bank, mode], levels[1][bank, mode])
        for bank, mode in levels[0]
        if (bank, mode) in levels[1] and levels[0][bank, mode] != levels[1][bank, mode]
    )


def _levels(flying: FlyingAirplane, found: Turns, category: Category) -> dict[tuple[float, str], int]:
    worst: dict[tuple[float, str], int] = {}
    for i, bank in enumerate(BANKS_DEG):
        for mode in graded_modes(flying, found, i, category=category):
            worst[bank, mode.name] = max(worst.get((bank, mode.name), 0), mode.level or WORST)
    return worst
