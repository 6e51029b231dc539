"""Load cases of an engine mount: the forces and moments that a powerplant puts on the firewall at its limit."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

from sim.atmosphere import GRAVITY_M_S2, SEA_LEVEL_KG_M3

if TYPE_CHECKING:
    from collections.abc import Iterator

    Vector = tuple[float, float, float]

ULTIMATE = 1.5
"""Ultimate over limit load (CS 23.303)."""
GYROSCOPIC_YAW_RAD_S = 2.5
GYROSCOPIC_PITCH_RAD_S = 1.0
GYROSCOPIC_LOAD_FACTOR = 2.5
TAKE_OFF_SHARE = 0.75
LEAST_SIDE_FACTOR = 1.33
_FACTORS = {1: 8.0, 2: 4.0, 3: 3.0, 4: 2.0}


def torque_factor(cylinders: int) -> float:
    """Return limit over mean torque of a four-stroke engine, greater with fewer cylinders.

    Parameters
    ----------
    cylinders : int
        At least 1.

    References
    ----------
    CS-VLA 361(b).

    Examples
    --------
    >>> torque_factor(4), torque_factor(9)
    (2.0, 1.33)
    """
    return _FACTORS.get(cylinders, 1.33)


@dataclass(frozen=True, slots=True)
class MountedPowerplant:
    """A powerplant on its mount. Places are from the point where the shaft axis meets the firewall.

    Attributes
    ----------
    mass_kg : float
        Of everything that the mount carries. [kg]
    ahead_m, below_m : float
        Its mass centre ahead of the firewall and below the shaft axis. [m]
    thrust_n : float
        Greatest, at full power. [N]
    torque_n_m : float
        Mean torque on the airframe at full power, right wing down positive: negative for a clockwise propeller. [N m]
    cylinders : int
        For the torque factor.
    momentum_kg_m2_s : float
        Angular momentum at full speed, clockwise from the cockpit positive. [kg m²/s]
    pulsing_momentum_kg_m2_s : float
        The part of it whose couple varies between zero and twice its mean: that of a two-blade propeller. [kg m²/s]
    """

    mass_kg: float
    ahead_m: float
    below_m: float
    thrust_n: float
    torque_n_m: float
    cylinders: int
    momentum_kg_m2_s: float
    pulsing_momentum_kg_m2_s: float


@dataclass(frozen=True, slots=True)
class Case:
    """One load case at limit load, on the airframe, at the point where the shaft axis meets the firewall.

    Attributes
    ----------
    name : str
        The condition.
    rule : str
        The rule that it comes from.
    limit_force_n : tuple of float
        Forward, right, down. [N]
    limit_moment_n_m : tuple of float
        Right wing down, nose up, nose right. [N m]
    """

    name: str
    rule: str
    limit_force_n: tuple[float, float, float]
    limit_moment_n_m: tuple[float, float, float]


def load_cases(
    engine: MountedPowerplant, *, load_factor: float = 3.8, side_factor: float | None = None
) -> tuple[Case, ...]:
    """Return the load cases of a powerplant on its mount.

    Parameters
    ----------
    engine : MountedPowerplant
        The powerplant.
    load_factor : float
        Limit manoeuvring load factor n of the airplane, above 0.
    side_factor : float, optional
        Sideways load factor; without it a third of n, and 1.33 at the least.

    Returns
    -------
    tuple of Case
        Four gyroscopic cases, two of torque, two sideways, thrust, weight down and up.

    Notes
    -----
    Gyroscopic: yaw 2.5 rad/s and pitch 1.0 rad/s in every combination of signs, load factor 2.5, full power
    (CS 23.371(a)); two blades double the propeller's share (AMC 23.371; the couple across the
    mean one, which that rule leaves out, adds 1.5 % to the worst bolt of the bundled airplane). Torque: at full power,
    factored for its unevenness, with 75 % of n and with n; the second covers the first, for full power stands for both
    ratings. The factor goes on both (14 CFR 23.361(c), 2014 text, from memory; CS 22.361(b) says the same), where
    CS-VLA 361(b) asks for it in the second alone. Side: alone (CS-VLA 363). Weight at −0.4 n
    stands for the push-over. Landing, crash and flutter are not covered.

    References
    ----------
    EASA CS-23 Amendment 4 (23.303, 23.371), CS-22 (361), CS-VLA (361, 363).
    """
    side = side_factor if side_factor is not None else max(LEAST_SIDE_FACTOR, load_factor / 3.0)
    return (
        *_gyroscopic(engine),
        _case(
            engine,
            "factored torque, 75 % of the load factor",
            "14 CFR 23.361(a)(1)",
            thrust=1.0,
            torque=torque_factor(engine.cylinders),
            down=TAKE_OFF_SHARE * load_factor,
        ),
        _case(
            engine,
            "factored torque, full load factor",
            "14 CFR 23.361(a)(2)",
            thrust=1.0,
            torque=torque_factor(engine.cylinders),
            down=load_factor,
        ),
        _case(engine, "side load to the right", "CS-VLA 363", right=side),
        _case(engine, "side load to the left", "CS-VLA 363", right=-side),
        _case(engine, "thrust alone", "common practice", thrust=1.0),
        _case(engine, "weight at the load factor", "common practice", down=load_factor),
        _case(engine, "weight at -0.4 of the load factor", "common practice", down=-0.4 * load_factor),
    )


def at_rest(engine: MountedPowerplant) -> Case:
    """Return the weight of a powerplant on its mount, on the ground or in level flight, without thrust."""
    return _case(engine, "at rest", "", down=1.0)


def _gyroscopic(engine: MountedPowerplant) -> Iterator[Case]:
    peak = engine.momentum_kg_m2_s + engine.pulsing_momentum_kg_m2_s
    for name, yaw, pitch in (
        ("gyroscopic, right and up", 1.0, 1.0),
        ("gyroscopic, right and down", 1.0, -1.0),
        ("gyroscopic, left and up", -1.0, 1.0),
        ("gyroscopic, left and down", -1.0, -1.0),
    ):
        couple = (-peak * yaw * GYROSCOPIC_YAW_RAD_S, peak * pitch * GYROSCOPIC_PITCH_RAD_S)
        yield _case(
            engine, name, "CS 23.371(a)", thrust=1.0, torque=1.0, down=GYROSCOPIC_LOAD_FACTOR, couple_n_m=couple
        )


def _case(
    engine: MountedPowerplant,
    name: str,
    rule: str,
    *,
    thrust: float = 0.0,
    torque: float = 0.0,
    down: float = 0.0,
    right: float = 0.0,
    couple_n_m: tuple[float, float] = (0.0, 0.0),
) -> Case:
    """Return one case: shares of thrust and mean torque, weight by load factors, a couple in pitch and yaw."""
    weight_n = engine.mass_kg * GRAVITY_M_S2
    force = thrust * engine.thrust_n, right * weight_n, down * weight_n
    roll = torque * engine.torque_n_m - engine.below_m * force[1]
    pitch = couple_n_m[0] - engine.ahead_m * force[2]
    yaw = engine.ahead_m * force[1] + couple_n_m[1]
    return Case(name, rule, force, (roll + 0.0, pitch + 0.0, yaw + 0.0))  # plus 0 turns a minus 0 into 0


def disc_thrust(power_w: float, diameter_m: float, density_kg_m3: float = SEA_LEVEL_KG_M3) -> float:
    """Return the thrust of an ideal propeller standing still, (2 ρ A P²)^⅓: an upper bound for a real one [N].

    Parameters
    ----------
    power_w : float
        Of the engine. [W]
    diameter_m : float
        Of the propeller. [m]
    density_kg_m3 : float
        Of the air. [kg/m³]

    Notes
    -----
    Rankine and Froude's actuator disc; real propellers reach 60 to 80 % of it (common practice).

    Examples
    --------
    >>> round(disc_thrust(97_000.0, 2.6))
    4965
    """
    area_m2 = 0.25 * pi * diameter_m**2
    return float((2.0 * density_kg_m3 * area_m2 * power_w**2) ** (1.0 / 3.0))
