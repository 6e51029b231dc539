"""Ten thousand flights of twenty seconds side by side to an error of 1e-8, against C that takes sixteen at a time.

The C makes even steps; ours makes the same, and then steps that adapt to the worst flight. The bars stand for C
built with -O3 -march=native. The ratio to C that may also reorder sums and take powers and arc tangents eight at a
time (-ffast-math), the quickest that was found, is printed beside them.
"""

import numpy as np
from flight_in_c import AIRPLANE, CONTROLS, SECONDS, START, compiled
from side_by_side import say, seconds

from sim.flight.motion import right_hand_side
from sim.numerics.number import ARRAY_MATH
from sim.numerics.ode import solve

FLIGHTS, STEPS, ALLOWED = 10_000, 170, 3e-8
random = np.random.default_rng(1)
starts = np.array(START)[:, None] + np.zeros(FLIGHTS)
starts[7] += random.normal(size=FLIGHTS)
starts[11] += 0.05 * random.normal(size=FLIGHTS)
starts[13] += 2.0 * random.normal(size=FLIGHTS)
f = right_hand_side(AIRPLANE, CONTROLS, ARRAY_MATH)
plain, fast = compiled(16), compiled(16, "-ffast-math")


def in_c(fly):
    state = starts.copy()
    fly(state, STEPS, SECONDS / STEPS)
    return state


def even():
    return solve(f, starts, (0.0, SECONDS), step_s=SECONDS / STEPS).states[-1]


def adaptive():
    return solve(f, starts, (0.0, SECONDS), rtol=ALLOWED, atol=ALLOWED).states[-1]


some = starts[:, :200]
best = solve(f, some, (0.0, SECONDS), rtol=1e-13, atol=1e-13).states[-1]
for name, found in (("C", in_c(plain)), ("even steps", even()), ("adaptive", adaptive())):
    print(f"{name}: error {np.abs(found[:, :200] - best).max():.2g}")
slow, quick, same, own = seconds(lambda: in_c(plain), lambda: in_c(fast), even, adaptive)
print(f"seconds: C {slow:.3g}, C -ffast-math {quick:.3g}, ours even {same:.3g}, adaptive {own:.3g}")
say("10,000 flights, even steps, times the SIMD C", same / slow, 5.0)
say("10,000 flights, adaptive, times the SIMD C", own / slow, 6.5)
print(f"times the SIMD C with -ffast-math, no bar: even steps {same / quick:.3g}, adaptive {own / quick:.3g}")
