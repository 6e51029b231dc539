"""Steady turns against scipy's `fsolve` one by one: 10,000 of them, and a whole handling study in the process.

`fsolve` is given the same equations on floats, the same start and the same unknowns; of the 10,000 it solves 500 and
its time is multiplied. In the handling study it replaces the solver and nothing else.
"""

from __future__ import annotations

import math
from dataclasses import replace
from unittest.mock import patch

import numpy as np
from scipy.optimize import fsolve
from side_by_side import say, seconds

from sim.flight import trim
from sim.flight.motion import motion
from sim.model.model import Model
from sim.scenario.reading import load
from sim.studies.handling import handling

MANY, FEW = 10_000, 500
SCENARIO = load("tollgate")
FLYING = Model(SCENARIO).airplane("rotary")
SPEEDS = np.linspace(30.0, 45.0, MANY)
BANKS = np.radians(np.linspace(-60.0, 60.0, MANY))


def one_by_one(case: trim._Case, speed: np.ndarray, bank: np.ndarray) -> np.ndarray:
    """Return what `trim._solve` returns, found by fsolve."""
    share, start = trim._start(case, speed, bank)
    rates = motion(case.airplane)
    found = np.full((8, speed.size), np.nan)
    for i in np.flatnonzero(share < trim.MAX_START_RATIO):
        alone = replace(case, throttle=case.throttle[i]) if isinstance(case.throttle, np.ndarray) else case
        x, _, flag, _ = fsolve(
            rest, start[:, i], args=(alone, rates, float(speed[i]), float(bank[i])), xtol=1e-12, full_output=True
        )
        if flag == 1:
            found[:, i] = (*x, 1.0)
    return found


def rest(x: np.ndarray, case: trim._Case, rates: object, speed: float, bank: float) -> tuple[float, ...]:
    """Return the rates that vanish in a steady turn, on floats."""
    alpha, beta, elevator, aileron, rudder = map(float, x[:5])
    spin, throttle, climb = (float(value) for value in case.power(x))
    u, v = speed * math.cos(alpha) * math.cos(beta), speed * math.sin(beta)
    w = speed * math.sin(alpha) * math.cos(beta)
    across = v * math.sin(bank) + w * math.cos(bank)
    pitch = math.atan(across / u) + math.asin(speed * math.sin(climb) / math.hypot(u, across))
    turn = case.airplane.gravity_m_s2 * math.cos(pitch) * math.sin(bank)
    turn /= math.sin(pitch) * w + math.cos(pitch) * math.cos(bank) * u
    half_b, half_p = 0.5 * bank, 0.5 * pitch
    attitude = (
        math.cos(half_b) * math.cos(half_p),
        math.sin(half_b) * math.cos(half_p),
        math.cos(half_b) * math.sin(half_p),
        -math.sin(half_b) * math.sin(half_p),
    )
    turning = (
        -turn * math.sin(pitch),
        turn * math.cos(pitch) * math.sin(bank),
        turn * math.cos(pitch) * math.cos(bank),
    )
    state = (0.0, 0.0, -case.altitude_m, *attitude, u, v, w, *turning, spin)
    return rates(state, (elevator, aileron, rudder, throttle, 0.0))[7:]


def ours(count: int) -> trim.Turns:
    """Solve the first of every `MANY / count` turns."""
    every = MANY // count
    return trim.steady_turns(FLYING.airplane, speed_m_s=SPEEDS[::every], bank_rad=BANKS[::every], altitude_m=304.8)


def theirs(count: int) -> trim.Turns:
    """Solve the same turns by fsolve."""
    with patch.object(trim, "_solve", one_by_one):
        return ours(count)


def study_by_fsolve() -> object:
    """Return the handling study with fsolve for a solver."""
    with patch.object(trim, "_solve", one_by_one):
        return handling(Model(SCENARIO))


def main() -> None:
    """Print the ratios."""
    assert np.abs(ours(FEW).rudder_rad - theirs(FEW).rudder_rad).max() < 1e-8
    quick, slow = seconds(lambda: ours(MANY), lambda: theirs(FEW))
    say("10,000 steady turns, fsolve one by one", quick / (slow * MANY / FEW), 0.1)
    print(f"  ({1e6 * quick / MANY:.1f} µs a turn, fsolve {1e6 * slow / FEW:.0f} µs)")
    quick, slow = seconds(lambda: handling(Model(SCENARIO)), study_by_fsolve)
    say("a whole handling study, with fsolve", quick / slow, 0.6)
    print(f"  ({1e3 * quick:.0f} ms, with fsolve {1e3 * slow:.0f} ms)")
    plain, bands = seconds(lambda: handling(Model(SCENARIO)), lambda: handling(Model(SCENARIO), bands=True))
    say("handling with bands, 256 airplanes, against one", bands / plain, 12.0)


if __name__ == "__main__":
    main()
