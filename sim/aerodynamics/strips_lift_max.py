"""Strips that reach a given greatest lift in trim, so that stall speed and section curves say one thing."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

import numpy as np

from sim.aerodynamics.forces import air_loads
from sim.aerodynamics.slipstream import Wash
from sim.aerodynamics.strips import scaled
from sim.aerodynamics.strips_loads import strip_loads
from sim.numerics.number import ARRAY_MATH

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.aerodynamics.forces import Derivatives
    from sim.aerodynamics.polar import Polar
    from sim.aerodynamics.strips import Strips

    Numbers = NDArray[np.float64]

ANGLES_RAD: Final = np.radians(np.arange(2.0, 32.0, 0.5))
"""Where the greatest lift is looked for; between them by a parabola."""
ROUNDS: Final = 4
"""Secant steps to the size of the section curves: lift is nearly proportional to them."""


def with_lift_max(strips: Strips, polar: Polar, derivatives: Derivatives) -> Strips:
    """Return the strips with the largest lifts of their wing sections multiplied by one number to reach CLmax in trim.

    Parameters
    ----------
    strips : Strips
        Whose sections' greatest lifts are right beside one another.
    polar : Polar
        With the greatest lift coefficient of the airplane.
    derivatives : Derivatives
        Of the linear model.
    """
    sizes, reached = [1.0], [greatest_lift(strips, polar, derivatives)]
    sizes.append(polar.lift_max / reached[0])
    for _ in range(ROUNDS):
        reached.append(greatest_lift(scaled(strips, sizes[-1]), polar, derivatives))
        slope = (reached[-1] - reached[-2]) / (sizes[-1] - sizes[-2]) if sizes[-1] != sizes[-2] else 0.0
        if abs(reached[-1] - polar.lift_max) < 1e-4 * polar.lift_max or slope <= 0.0:
            break
        sizes.append(sizes[-1] + (polar.lift_max - reached[-1]) / slope)
    return replace(scaled(strips, sizes[len(reached) - 1]), lift_max=polar.lift_max)


def greatest_lift(strips: Strips, polar: Polar, derivatives: Derivatives) -> float:
    """Return the greatest lift coefficient in trim: straight flight, power off, any elevator.

    Parameters
    ----------
    strips : Strips
    polar, derivatives : Polar, Derivatives
        Of the linear model.
    """
    return _top(strips, polar, derivatives)[1]


def stall_alpha_rad(strips: Strips, polar: Polar, derivatives: Derivatives) -> float:
    """Return the angle of attack of the greatest lift in trim [rad].

    Parameters
    ----------
    strips, polar, derivatives
        As `greatest_lift` takes them.
    """
    return _top(strips, polar, derivatives)[0]


def _top(strips: Strips, polar: Polar, derivatives: Derivatives) -> tuple[float, float]:
    """Return angle of attack [rad] and lift coefficient at the top of the parabola through the greatest lift."""
    lift = trimmed_lift(strips, polar, derivatives, ANGLES_RAD)
    top = int(np.clip(np.argmax(lift), 1, len(lift) - 2))
    before, at, after = lift[top - 1 : top + 2].tolist()
    bend, step_rad = before - 2.0 * at + after, float(ANGLES_RAD[1] - ANGLES_RAD[0])
    if bend >= 0.0:
        return float(ANGLES_RAD[top]), float(at)
    rise = after - before
    return float(ANGLES_RAD[top]) - 0.5 * step_rad * rise / bend, float(at - rise**2 / (8.0 * bend))


def trimmed_lift(strips: Strips, polar: Polar, derivatives: Derivatives, alpha_rad: Numbers) -> Numbers:
    """Return the lift coefficient at angles of attack with the elevator that leaves no pitching moment.

    Parameters
    ----------
    strips : Strips
    polar, derivatives : Polar, Derivatives
        Of the linear model; where the elevator has no moment it stays neutral.
    alpha_rad : array, shape (n,)
        [rad]
    """
    air = air_loads(polar, derivatives, ARRAY_MATH, bounded=False)
    past_stall = strip_loads(strips, ARRAY_MATH)
    nothing = np.zeros_like(alpha_rad)
    motion = (np.cos(alpha_rad), nothing, np.sin(alpha_rad), nothing, nothing, nothing)

    def at(elevator: Numbers) -> tuple[Numbers, Numbers]:
        controls = (elevator, nothing, nothing)
        found = past_stall(motion, controls, air(motion, 2.0, controls), Wash(2.0))
        return (found.x * np.sin(alpha_rad) - found.z * np.cos(alpha_rad)) / polar.area_m2, found.pitch

    elevator, (lift, pitch) = nothing, at(nothing)
    if derivatives.pitch_elevator:
        previous, moment = elevator, pitch
        elevator = -pitch / (derivatives.pitch_elevator * polar.area_m2 * polar.chord_m)
        for _ in range(2):
            lift, pitch = at(elevator)
            change = np.where(moment == pitch, 1.0, moment - pitch)
            previous, moment, elevator = elevator, pitch, elevator + pitch * (elevator - previous) / change
        lift, _ = at(elevator)
    return np.asarray(lift)
