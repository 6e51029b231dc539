"""One flight of twenty seconds to an error of 1e-8, against C and against scipy with an array right-hand side.

Bars: 45 times the C; a tenth of scipy's time.
"""

import numpy as np
from flight_in_c import AIRPLANE, CONTROLS, SECONDS, START, compiled
from scipy.integrate import solve_ivp
from side_by_side import say, seconds

from sim.flight.motion import right_hand_side
from sim.integrate import solve

ERROR = 1e-8
STEPS = 150
f = right_hand_side(AIRPLANE, CONTROLS)
fly = compiled(1)


def in_c():
    state = np.array(START)[:, None].copy()
    fly(state, STEPS, SECONDS / STEPS)
    return state[:, 0]


def ours():
    return solve(f, START, (0.0, SECONDS), step_s=SECONDS / STEPS).states[-1]


def ours_adaptive():
    return solve(f, START, (0.0, SECONDS), relative=3e-9, absolute=3e-9).states[-1]


def scipy_on_arrays():
    def rates(t, state):
        return np.array(f(t, state))

    return solve_ivp(rates, (0.0, SECONDS), START, method="DOP853", rtol=3e-9, atol=3e-9).y[:, -1]


best = solve(f, START, (0.0, SECONDS), relative=1e-13, absolute=1e-13).states[-1]
for work in (in_c, ours, ours_adaptive, scipy_on_arrays):
    print(f"{work.__name__}: error {np.abs(work() - best).max():.2g}")
c, mine, adaptive, arrays = seconds(in_c, ours, ours_adaptive, scipy_on_arrays)
print(f"C {c * 1e3:.3g} ms, ours {mine * 1e3:.3g} ms, adaptive {adaptive * 1e3:.3g} ms, scipy {arrays * 1e3:.3g} ms")
say("one flight, times the C", mine / c, 45.0)
say("one flight, share of scipy on arrays", adaptive / arrays, 0.1)
