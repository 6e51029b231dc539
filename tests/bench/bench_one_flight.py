"""One flight of twenty seconds to an error of 1e-8, against C and against scipy with an array right-hand side."""

import numpy as np
from flight_in_c import AIRPLANE, CONTROLS, SECONDS, START, compiled
from flight_on_arrays import rates
from scipy.integrate import solve_ivp
from side_by_side import say, seconds

from sim.flight.motion import right_hand_side
from sim.numerics.ode import solve

STEPS, ALLOWED, SCIPY_ALLOWED = 160, 3e-8, 1e-8
f = right_hand_side(AIRPLANE, CONTROLS)
fly = compiled(1)


def in_c():
    state = np.array(START)[:, None].copy()
    fly(state, STEPS, SECONDS / STEPS)
    return state[:, 0]


def even():
    return solve(f, START, (0.0, SECONDS), step_s=SECONDS / STEPS).states[-1]


def adaptive():
    return solve(f, START, (0.0, SECONDS), rtol=ALLOWED, atol=ALLOWED).states[-1]


def scipy_on_arrays():
    given = {"method": "DOP853", "rtol": SCIPY_ALLOWED, "atol": SCIPY_ALLOWED}
    return solve_ivp(rates, (0.0, SECONDS), START, **given).y[:, -1]


print(
    f"right-hand side: on arrays differs by {np.abs(np.array(f(0.0, START)) - rates(0.0, np.array(START))).max():.2g}"
)
best = solve(f, START, (0.0, SECONDS), rtol=1e-13, atol=1e-13).states[-1]
for work in (in_c, even, adaptive, scipy_on_arrays):
    print(f"{work.__name__}: error {np.abs(work() - best).max():.2g}")
c, same, own, arrays = seconds(in_c, even, adaptive, scipy_on_arrays)
print(f"ms: C {c * 1e3:.3g}, ours even {same * 1e3:.3g}, adaptive {own * 1e3:.3g}, scipy {arrays * 1e3:.3g}")
say("one flight, even steps, times the C", same / c, 45.0)
say("one flight, adaptive, times the C", own / c, 45.0)
say("one flight, adaptive, share of scipy on arrays", own / arrays, 0.1)
