"""Steady turns of an airplane with one of its powerplants: level, or at a power setting."""

from __future__ import annotations

import math
from dataclasses import fields, replace
from typing import TYPE_CHECKING, Any, Literal, TypeVar

import numpy as np

from sim.atmosphere import SEA_LEVEL_KG_M3, air
from sim.errors import Fault, InputError, NoAnswerError
from sim.flight.momentum_fraction import NO_ROTOR, with_momentum_fraction
from sim.flight.trim import Turns, steady_turns
from sim.flight.turn_limits import Limit, limits_met, steepest_bank
from sim.propulsion.engine_propeller import steady_throttle
from sim.rotor.couple import Couple, couple
from sim.told import told
from sim.units.convert import rpm
from sim.units.text import brief, in_both

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from numpy.typing import ArrayLike

    from sim.model.airplane import FlyingAirplane

Found = TypeVar("Found")
Power = Literal["idle", "cruise", "full"]
BELOW_DEG = 90.0
NEAR_RAD = 0.05
"""Between the angles of attack of one turn with and without strips, at most, below the stall."""


def turns(
    flying: FlyingAirplane, bank_rad: ArrayLike, *, power: Power | None = None, speed_m_s: ArrayLike = ()
) -> Turns:
    """Return the steady turns of an airplane at given banks.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, powerplant, speed and altitude.
    bank_rad : array_like
        Right wing down positive. [rad]
    power : str or None
        ``idle``: the throttle of idle speed on the ground; ``cruise``: that of cruise speed in flight; ``full``: full
        throttle. The airplane then climbs or sinks. None: level flight.
    speed_m_s : array_like
        Airspeeds instead of that of `flying`. [m/s]
    """
    throttle: Any = 1.0 if power == "full" else idle_throttle(flying) if power == "idle" else None
    spin = flying.airplane.engine.rotation * flying.powerplant.cruise_speed_rad_s if power == "cruise" else None
    return steady_turns(
        flying.airplane,
        speed_m_s=speed_m_s if np.size(speed_m_s) else flying.speed_m_s,
        altitude_m=flying.altitude_m,
        bank_rad=bank_rad,
        throttle=throttle,
        spin_rad_s=spin,
    )


def flown_turns(flying: FlyingAirplane, bank_rad: ArrayLike, *, power: Power | None = None) -> Turns:
    """Return the steady turns of an airplane that flies by strips, near those of the linear model; else these.

    Arguments as for `turns`. Past the stall there are steady turns too, far from those that a pilot means.
    """
    linear = turns(flying, bank_rad, power=power)
    if flying.strips is None:
        return linear
    found = turns(replace(flying, airplane=flying.flown), bank_rad, power=power)
    near = np.abs(found.alpha_rad - linear.alpha_rad) < NEAR_RAD
    names = [one.name for one in fields(Turns)]
    return Turns(**{name: np.where(near, getattr(found, name), getattr(linear, name)) for name in names})


def idle_throttle(flying: FlyingAirplane) -> Any:  # noqa: ANN401
    """Return the throttle of idle speed on the ground; an array of an airplane that is many."""
    engine = flying.airplane.engine
    return steady_throttle(
        engine,
        flying.airplane.propeller,
        spin_rad_s=engine.rotation * flying.powerplant.idle_speed_rad_s,
        airspeed_m_s=0.0,
        density_kg_m3=air(flying.altitude_m).density_kg_m3,
    )


def full_and_idle(flying: FlyingAirplane) -> Turns:
    """Return straight flight at full throttle and with that of idle speed, climbing and sinking, one airplane's."""
    return steady_turns(
        flying.airplane,
        speed_m_s=flying.speed_m_s,
        altitude_m=flying.altitude_m,
        bank_rad=[0.0, 0.0],
        throttle=np.array([1.0, idle_throttle(flying)]),
    )


def straight(flying: FlyingAirplane, *, power: Power | None = None) -> Turns:
    """Return the one steady flight with the wings level.

    Parameters
    ----------
    flying : FlyingAirplane
        Airplane, powerplant, speed and altitude.
    power : str or None
        As for `turns`.

    Raises
    ------
    NoAnswerError
        When there is none.
    """
    found = turns(flying, 0.0, power=power)
    demand_held(flying, found, 0, allowed=("power", "idling"))
    return found


def without_rotor(flying: FlyingAirplane) -> FlyingAirplane:
    """Return the same airplane with the same thrust and no angular momentum of the rotor."""
    return replace(flying, airplane=with_momentum_fraction(flying.airplane, NO_ROTOR))


def gyroscopic_couple(flying: FlyingAirplane, found: Turns, index: int) -> Couple:
    """Return the gyroscopic moment on the airframe in one of the turns found.

    Parameters
    ----------
    flying : FlyingAirplane
        The airplane.
    found : Turns
        Of it.
    index : int
        Which of them.
    """
    pitch_rate, yaw_rate, spin = found.state[11:14, index].tolist()
    momentum = flying.powerplant.polar_inertia_kg_m2 * spin
    return couple(momentum, pitch_rate_rad_s=pitch_rate, yaw_rate_rad_s=yaw_rate)


def checked_banks(banks_deg: Iterable[float]) -> tuple[float, ...]:
    """Return the banks unchanged.

    Raises
    ------
    InputError
        For every one that is not above −90° and below 90°.
    """
    banks = tuple(banks_deg)
    wrong = [bank for bank in banks if not -BELOW_DEG < bank < BELOW_DEG]
    if wrong:
        raise InputError(
            Fault("banks_deg", f'must be above -90° and below 90°, left negative, got "{brief("bank_deg", bank)}"')
            for bank in wrong
        )
    return banks


def flown_limits(flying: FlyingAirplane, found: Turns) -> list[Limit]:
    """Return the limit that each turn of an airplane exceeds, the full speed of its engine among them, or none."""
    return limits_met(found, flying.travel, flying.powerplant.full_speed_rad_s)


FASTER = np.concatenate([np.arange(1.02, 2.01, 0.02), np.geomspace(2.04, 12.0, 60)])
"""Speeds tried where one is too slow, over it."""
FASTER_CONTROLS = 2.01
"""Least share of them that is not tried where it is a control that reaches its stop: too fast for any airplane."""
BEYOND_CONTROLS: tuple[Limit, ...] = ("elevator travel", "aileron travel", "rudder travel", "power", "idling")
"""Limits beyond which a turn that balances can still be examined, though it cannot be flown."""


def of_each(airplanes: Iterable[FlyingAirplane], study: Callable[[FlyingAirplane], Found]) -> list[Found]:
    """Return what a study finds of each airplane.

    Raises
    ------
    NoAnswerError
        Where it has no answer for one of them or for several: with a line for each, so that one cure serves all.
    """
    found: list[Found] = []
    told: list[str] = []
    for one in airplanes:
        try:
            found.append(study(one))
        except NoAnswerError as error:
            told.append(str(error))
    if told:
        raise NoAnswerError("\n".join(dict.fromkeys(told)))
    return found


def demand_held(flying: FlyingAirplane, found: Turns, index: int, *, allowed: tuple[Limit, ...] = ()) -> None:
    """Raise an error unless a turn meets no limit, or only one of those allowed.

    Raises
    ------
    NoAnswerError
        For any other limit, which it names.
    """
    limit = limits_met(found, flying.travel)[index]
    if not limit or (limit in allowed and not np.isnan(found.alpha_rad[index])):
        return
    less = _bank_less(flying, found, index)
    bank = f" or {less}" if less else ""
    advice = f"; {_ADVICE[limit]}{bank}" if limit in _ADVICE else _faster(flying, found, index, allowed)
    message = f"{not_held(flying, found, index)}{advice}"
    raise NoAnswerError(message)


def _faster(flying: FlyingAirplane, found: Turns, index: int, allowed: tuple[Limit, ...]) -> str:
    """Return the advice to fly faster, from which speed on no limit but those allowed is met; up to VD or `FASTER`."""
    bank_rad, less = float(found.bank_rad[index]), _bank_less(flying, found, index)
    slow = limits_met(found, flying.travel)[index] == "CLmax"
    speeds_m_s = flying.speed_m_s * (FASTER if slow else FASTER[FASTER < FASTER_CONTROLS])
    dive_m_s = _dive_m_s(flying)
    tried = turns(flying, np.full(speeds_m_s.size, bank_rad), speed_m_s=speeds_m_s)
    met = limits_met(tried, flying.travel)
    most_m_s, named = float(speeds_m_s[-1]), ""
    for speed_m_s, lost, limit in zip(speeds_m_s.tolist(), np.isnan(tried.alpha_rad), met, strict=True):
        if speed_m_s > dive_m_s:
            most_m_s, named = dive_m_s, ", the design speed VD"
            break
        if not lost and limit in ("", *allowed):
            speed = in_both("speed_m_s", speed_m_s, digits=3)
            return f"; fly faster, at {speed} or more{f', or {less}' if less else ''}"
    beyond = (
        "" if most_m_s <= flying.speed_m_s else f", nor at any speed up to {in_both('speed_m_s', most_m_s, digits=3)}"
    )
    return f"{beyond}{named if beyond else ''}{f'; {less}' if less else ''}"


def _dive_m_s(flying: FlyingAirplane) -> float:
    """Return the design speed VD as a true airspeed where the airplane flies, infinite where none is given."""
    if flying.dive_m_s is None:
        return math.inf
    return flying.dive_m_s * math.sqrt(SEA_LEVEL_KG_M3 / air(flying.altitude_m).density_kg_m3)


def _bank_less(flying: FlyingAirplane, found: Turns, index: int) -> str:
    """Return the advice to bank less, with the steepest whole degree that is held at that speed; empty for none."""
    side = float(np.sign(found.bank_rad[index]))
    if not side:
        return ""
    steepest_rad, _ = steepest_bank(lambda banks: turns(flying, banks), flying.travel, side)
    whole = math.floor(math.degrees(abs(steepest_rad)))
    return f"bank {brief('bank_deg', float(whole))} or less" if whole else ""


NOT_WITHIN = "{engine}: no steady {flight} at {speed} within {limit}"
NOT_WITHOUT = (
    "{engine}: no steady {flight} at {speed} without {limit}: the engine would turn at {turning}, above its full speed "
    "of {most}"
)
NO_POWER = (
    "{engine}: no steady {flight} at {speed} within {limit}, for which full throttle gives {power} too little at "
    "{turning}"
)


def not_held(flying: FlyingAirplane, found: Turns, index: int) -> str | None:
    """Return in words, amounts in both systems, which limit a turn exceeds and by how much the engine; None for none.

    Parameters
    ----------
    flying : FlyingAirplane
        The airplane.
    found : Turns
        Of it.
    index : int
        Which of them.
    """
    limit = flown_limits(flying, found)[index]
    if not limit:
        return None
    bank_rad = float(found.bank_rad[index])
    turn = "turn with {bank} of left bank" if bank_rad < 0.0 else "turn with {bank} of right bank"
    flight = told(turn if bank_rad else "straight flight", bank=brief("bank_rad", abs(bank_rad), digits=3))
    lack_w = missing_power_w(flying, found, index) if limit == "power" else None
    said, slots = NOT_WITHIN, dict[str, str]()
    turning = brief("rpm", rpm(abs(float(found.spin_rad_s[index]))))
    if limit == "overspeed":
        said, slots = NOT_WITHOUT, {"most": brief("rpm", rpm(flying.powerplant.full_speed_rad_s))}
    if lack_w is not None:
        said, slots = NO_POWER, {"power": in_both("power_w", lack_w, digits=3)}
    speed = in_both("speed_m_s", flying.speed_m_s)
    return told(said, engine=flying.name, flight=flight, speed=speed, limit=limit, turning=turning, **slots)


def missing_power_w(flying: FlyingAirplane, found: Turns, index: int) -> float | None:
    """Return the shaft power that a turn takes beyond full throttle at its shaft speed [W]; None for none."""
    excess = float(found.throttle[index]) - 1.0
    full_n_m = flying.airplane.engine.firing_torque_n_m * air(flying.altitude_m).density_kg_m3 / SEA_LEVEL_KG_M3
    return excess * full_n_m * abs(float(found.spin_rad_s[index])) if excess > 0.0 else None


_ADVICE: dict[Limit, str] = {"power": "fly nearer to the speed of least drag", "idling": "fly slower"}
"""What to change where flying faster does not help."""
