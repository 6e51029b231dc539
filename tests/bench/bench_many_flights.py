"""Ten thousand flights side by side, against C that takes sixteen at a time: even steps, and in step with the worst.

The bars are held against C built as design demands, and shown once more against C that may also reorder sums and take
powers and arc tangents eight at a time (-ffast-math), which is the best that was found. The adaptive run is set against
the time that the C takes for as many even steps.
"""

import numpy as np
from flight_in_c import AIRPLANE, CONTROLS, SECONDS, START, compiled
from side_by_side import say, seconds

from sim.flight.motion import right_hand_side
from sim.integrate import solve
from sim.number import ROWS

FLIGHTS, STEPS, SHOWN_S = 10_000, 150, 1.6
H = SECONDS / STEPS
"""The step that keeps the error of the one flight below 1e-8 over its twenty seconds; a part of them is timed."""
TIMED = round(SHOWN_S / H)

random = np.random.default_rng(1)
starts = np.array(START)[:, None] + np.zeros(FLIGHTS)
starts[7] += random.normal(size=FLIGHTS)
starts[11] += 0.05 * random.normal(size=FLIGHTS)
starts[13] += 2.0 * random.normal(size=FLIGHTS)
f = right_hand_side(AIRPLANE, CONTROLS, ROWS)
plain, fast = compiled(16), compiled(16, "-ffast-math")
calls = 0


def in_c(fly, count=TIMED):
    state = starts.copy()
    fly(state, count, H)
    return state


def ours():
    return solve(f, starts, (0.0, SHOWN_S), step_s=H).states[-1]


def adaptive():
    return solve(f, starts, (0.0, SHOWN_S), relative=1e-9, absolute=1e-9).states[-1]


print(f"ours and C differ by {np.abs(ours() - in_c(plain)).max():.2g}")
slow, quick, mine, lockstep = seconds(lambda: in_c(plain), lambda: in_c(fast), ours, adaptive)
each = 1e3 / TIMED
print(f"ms a step: C {slow * each:.3g}, C -ffast-math {quick * each:.3g}, ours {mine * each:.3g}")
say("10,000 flights, even steps, times the C", mine / slow, 5.0)
say("10,000 flights, even steps, times the C with -ffast-math", mine / quick, 5.0)
say("10,000 flights, adaptive, times the C", lockstep / slow, 6.5)
say("10,000 flights, adaptive, times the C with -ffast-math", lockstep / quick, 6.5)
