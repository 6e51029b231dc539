"""EASA CS-23, Book 2, AMC 23.371: gyroscopic couple of a propeller with its shaft swung round.

Two blades 2 Ip ω1 ω2; three or more, evenly spaced, Ip ω1 ω2. Mark P: read in a reproduction of the source.
"""

import pytest

from sim.rotor.couple import couple


@pytest.mark.parametrize(("blades", "factor"), [(2, 2.0), (3, 1.0), (4, 1.0)])
def test_bound(blades, factor, printed):
    inertia_kg_m2, spin_rad_s, precession_rad_s = 3.0, 250.0, 2.5
    answer = couple(inertia_kg_m2 * spin_rad_s, pitch_rate_rad_s=0.0, yaw_rate_rad_s=precession_rad_s, blades=blades)
    ours = answer.peak_couple_n_m / (inertia_kg_m2 * spin_rad_s * precession_rad_s)
    printed(ours, f"{factor:.0f}", row=f"{blades} blades: peak couple over Ip ω1 ω2", exact=True)
