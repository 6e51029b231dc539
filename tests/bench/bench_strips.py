"""One flight of twenty seconds through a stall, strip by strip, against C of the same equations.

The stick comes back hard at cruise with some rudder: the airplane stalls, drops a wing and goes on so.
"""

import numpy as np
from flight_in_c import SECONDS
from side_by_side import say, seconds
from strips_in_c import compiled

from sim.flight.motion import Controls, right_hand_side
from sim.model.model import model
from sim.numerics.ode import solve
from sim.studies.turns import turns

STEPS, ALLOWED = 400, 1e-7
flying = model("tollgate", ["flight.air=strips"]).airplane("rotary")
level = turns(flying, 0.0)
START = tuple(level.state[:, 0].tolist())
trim = level.controls(0)
CONTROLS = Controls(-0.75 * flying.travel.elevator_up_rad, trim.aileron_rad, trim.rudder_rad - 0.1, trim.throttle)
f = right_hand_side(flying.flown, CONTROLS)
fly = compiled(flying.flown, CONTROLS)


def in_c():
    state = np.array(START)[:, None].copy()
    fly(state, STEPS, SECONDS / STEPS)
    return state[:, 0]


def even():
    return solve(f, START, (0.0, SECONDS), step_s=SECONDS / STEPS).states[-1]


def adaptive():
    return solve(f, START, (0.0, SECONDS), rtol=ALLOWED, atol=ALLOWED).states[-1]


best = solve(f, START, (0.0, SECONDS), rtol=1e-12, atol=1e-12).states
print(f"end: incidence {np.degrees(np.arctan2(best[-1][9], best[-1][7])):.1f} deg, roll rate {best[-1][10]:.2f} rad/s")
for work in (in_c, even, adaptive):
    print(f"{work.__name__}: error {np.abs(work() - best[-1]).max():.2g}")
c, same, own = seconds(in_c, even, adaptive)
print(f"ms: C {c * 1e3:.3g}, ours even {same * 1e3:.3g}, adaptive {own * 1e3:.3g}")
say("one flight by strips, even steps, times the C", same / c, 30.0)
say("one flight by strips, adaptive, times the C", own / c, 30.0)
