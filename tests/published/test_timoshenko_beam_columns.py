"""Beam-columns: Berry's functions.

S. P. Timoshenko & J. M. Gere, Theory of Elastic Stability, 2nd ed., McGraw-Hill 1961, table in the appendix, for
2u = L sqrt(P/EI): slopes by end moments φ and ψ, moment λ and deflection η in the middle under even load, and the
factor 1/(1 - P/Pe) that stands for η. Mark: X. The table was recomputed from the closed forms.
"""

import numpy as np
import pytest

from sim.structures.beam_column import Patch, along, span

TABLE = {
    1.0: ("1.1304", "1.0737", "1.1160", "1.1131"),
    2.0: ("1.7993", "1.4365", "1.7016", "1.6839"),
    2.5: ("3.0502", "2.0864", "2.7793", "2.7331"),
}


@pytest.mark.parametrize("angle", sorted(TABLE))
def test_berrys_functions(printed, angle):
    length, bending, load = 1.7, 3100.0, 240.0
    thrust = bending * (angle / length) ** 2
    phi, psi, middle, sag = TABLE[angle]
    whole = span(length, bending, thrust, [Patch(0.0, length, load)])
    flexible = np.linalg.inv(whole.stiffness[1::2, 1::2])
    unit = length / (6.0 * bending)
    printed(-flexible[0, 1] / unit, phi, row=f"φ at 2u {angle}")
    printed(flexible[0, 0] / (2.0 * unit), psi, row=f"ψ at 2u {angle}")
    slopes = -flexible @ whole.fixed[1::2]
    first = whole.stiffness[0, 1::2] @ slopes + whole.fixed[0]
    start = (0.0, slopes[0], 0.0, first)
    state = along(bending, thrust, [Patch(0.0, length, load)], start=start, places_m=[0.5 * length])[0]
    printed(-state[2] / (load * length**2 / 8.0), middle, row=f"λ at 2u {angle}")
    printed(state[0] / (5.0 * load * length**4 / (384.0 * bending)), sag, row=f"η at 2u {angle}")
