"""Bands of straight flight: those of the same flights asked as turns without bank, and how many reverse their force."""

import pytest
from airplanes import BIPLANE, TRIPLANE
from shared import built

from sim.studies.handling import handling
from sim.units.quantities import band_ends

NAMES = ("stick_force_n", "stick_side_force_n", "pedal_force_n")
ENDS = [end for name in NAMES for end in band_ends(name)]


@pytest.mark.parametrize(("power", "row"), [(None, "level"), ("full", "full"), ("idle", "idle")])
def test_the_bands_are_those_of_the_turn_without_bank(power, row):
    """Drawn and balanced by another way through the program."""
    found = handling(built(TRIPLANE), banks_deg=(0.0,), power=power, bands=True)
    for one in found.powerplants.values():
        straight = next(
            each
            for each in one.forces.straight
            if each.power == row and each.speed_m_s == pytest.approx(found.speed_m_s)
        )
        for end in ENDS:
            assert getattr(straight, end) == pytest.approx(getattr(one.turns[0], end), rel=1e-6, abs=1e-6)


def test_a_tail_set_farther_up_reverses_more_of_the_airplanes():
    shares = []
    for tilt in ("-1 deg", "0.5 deg", "4 deg"):
        found = handling(built(BIPLANE, f"tailplane.incidence={tilt}"), banks_deg=(0.0,), bands=True)
        forces = found.powerplants["flat_four"].forces
        assert (forces.force_reversed_probability > 0.5) is forces.force_reversed
        shares.append(forces.force_reversed_probability)
    assert shares[0] < 0.1 < shares[1] < 0.9 < shares[2]
