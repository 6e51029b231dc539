"""Landing run of a rotary whose ignition the pilot cuts and restores: the shaft followed in time."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from sim.flight.motion import Controls
from sim.flight.take_off import STAND_M_S
from sim.numerics.number import ARRAY_MATH
from sim.propulsion.engine_propeller import shaft_loads
from sim.propulsion.thrust import at_throttle

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from sim.flight.control_travel import Travel
    from sim.flight.motion import Airplane
    from sim.flight.on_wheels import OnWheels

    Array = NDArray[np.float64]

STEP_S = 0.1
"""Of the midpoint rule: half of it changes run and thrust by less than 0.1 %."""
LONGEST_S = 90.0
LEAST_SLOWED_M_S = 0.02
"""A run that has not ended by then, or that slows down by less in a cycle of the ignition, does not end."""
CYCLES = 8
"""Of the ignition, after which the shaft's speed repeats itself to a thousandth."""


@dataclass(frozen=True, slots=True)
class Blip:
    """Ignition on for a part of each cycle.

    Attributes
    ----------
    on_s, every_s : float
        Time with the ignition on, and of the whole cycle, which begins with the cut. [s]
    """

    on_s: float
    every_s: float

    def throttle(self, time_s: float) -> float:
        """Return 1 with the ignition on, else 0, in the middle of a step."""
        return 1.0 if time_s % self.every_s >= self.every_s - self.on_s else 0.0


@dataclass(frozen=True, slots=True)
class Cycle:
    """A cycle of the ignition at a steady airspeed, the last of several.

    Attributes
    ----------
    thrust_n : array, shape (n,)
        Mean of a cycle. [N]
    on_rad_s, off_rad_s : array, shape (n,)
        Speed of the shaft with its sign at the end of the time with the ignition on, and just before it. [rad/s]
    """

    thrust_n: Array
    on_rad_s: Array
    off_rad_s: Array


def blipped_cycle(
    airplane: Airplane, blip: Blip, *, speed_m_s: Array, spin_rad_s: Array, density_kg_m3: float
) -> Cycle:
    """Return how the shaft follows the ignition at an airspeed.

    Parameters
    ----------
    airplane, blip : Airplane, Blip
        Of one airplane or of n.
    speed_m_s, spin_rad_s : array, shape (n,)
        Airspeed along the shaft; speed of the shaft at the start, with its sign. [m/s, rad/s]
    density_kg_m3 : float
        [kg/m³]
    """
    loads = shaft_loads(airplane.engine, airplane.propeller, ARRAY_MATH)
    inertia = sum(rotor.polar_inertia_kg_m2 * rotor.ratio**2 for rotor in airplane.rotors)

    def rate(spin: Array, throttle: float) -> Array:
        now = loads((spin, speed_m_s), density_kg_m3, at_throttle(throttle))
        found: Array = (now.engine - now.windage - airplane.propeller.ratio * now.propeller) / inertia
        return found

    each = max(round(blip.every_s / STEP_S), 1)
    step_s, spin = blip.every_s / each, spin_rad_s
    off, thrusts = spin_rad_s, []
    for number in range(CYCLES * each):
        on = blip.throttle((number % each + 0.5) * step_s)
        spin = spin + step_s * rate(spin + 0.5 * step_s * rate(spin, on), on)
        off = off if on else spin
        if number >= (CYCLES - 1) * each:
            thrusts.append(loads((spin, speed_m_s), density_kg_m3, at_throttle(on)).thrust)
    return Cycle(np.mean(thrusts, axis=0), spin, off)


def blipped_run_m(
    wheels: OnWheels,
    travel: Travel,
    blip: Blip,
    *,
    mass_kg: Array,
    pitch_rad: float,
    from_m_s: Array,
    spin_rad_s: Array,
    headwind_m_s: float,
) -> Array:
    """Return the run from touchdown to standstill on all wheels, stick back, the ignition cut and restored.

    Parameters
    ----------
    wheels, travel, blip : OnWheels, Travel, Blip
    mass_kg, from_m_s, spin_rad_s : array, shape (n,)
        Mass, airspeed and speed of the shaft, with its sign, at touchdown. [kg, m/s, rad/s]
    pitch_rad, headwind_m_s : float
        Attitude on all wheels, and wind against the run. [rad, m/s]

    Returns
    -------
    array, shape (n,)
        Not-a-number where the airplane does not come to a stop. [m]
    """
    speed, spin, before = from_m_s, spin_rad_s, from_m_s
    run, rolls = np.zeros_like(from_m_s), np.ones(from_m_s.shape, bool)
    cycle, begin = round(blip.every_s / STEP_S), round(2.0 * blip.every_s / STEP_S)
    for number in range(round(LONGEST_S / STEP_S)):
        if number and number % cycle == 0:
            if number >= begin and (before - speed < LEAST_SLOWED_M_S)[rolls].all():
                break
            before = speed
        on = blip.throttle((number + 0.5) * STEP_S)
        controls = Controls(elevator_rad=-travel.elevator_up_rad, throttle=on)
        now = wheels.rolling(speed, pitch_rad, controls, spin_rad_s=spin)
        half = 0.5 * STEP_S
        middle = np.maximum(speed + half * now.pull_n / mass_kg, headwind_m_s)
        now = wheels.rolling(middle, pitch_rad, controls, spin_rad_s=spin + half * now.spin_rate_rad_s2)
        new = speed + STEP_S * now.pull_n / mass_kg
        run = run + np.where(rolls, STEP_S * np.maximum(0.5 * (speed + new) - headwind_m_s, 0.0), 0.0)
        rolls &= new > headwind_m_s + STAND_M_S
        if not rolls.any():
            break
        speed, spin = np.maximum(new, headwind_m_s), spin + STEP_S * now.spin_rate_rad_s2
    return np.where(rolls, np.nan, run)
