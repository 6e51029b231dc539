"""J. M. Gere, Mechanics of Materials, Problem 5.5-6: an axle loaded outside its wheels. Mark P.

47 kN at 200 mm beyond each support, diameter 80 mm: the largest bending stress is at the support, whatever the span.
"""

import pytest

from sim.display.assembly.shaft import overhung


@pytest.mark.parametrize("span_m", [0.5, 1.5])
def test_the_stress_at_the_support(printed, span_m):
    made = overhung(0.080, force_n=47e3, span_m=span_m, arm_m=0.200)
    printed(made.bent_pa / 1e6, "187", "MPa", row=f"stress at the support, span {span_m:g} m")
