"""The estimates of derivatives together: how far off they are over all published sets, and how honest their bands.

Mark: R. The errors of `sim.aerodynamics.derivative_errors` were sized by these very sets, for there are no others: a
check that they still fit, not a forecast for an airplane that is none of them.
"""

import numpy as np
import pytest
import test_mccormick_monoplane as mccormick
import test_nelson_navion as nelson
import test_roskam_airplane_a as roskam
import test_seckel_morris_navion as seckel
import test_tjee_mulder_monoplane as tjee

SETS = (
    (nelson, nelson.CHORD, "given_thrust", ()),
    (roskam, roskam.CHORD, "given_thrust", ()),
    (seckel, seckel.CHORD, "flat_six", seckel.CRUISE),
    (tjee, 1.0, "radial", ()),
    (mccormick, 1.0, "flat_four", ()),
)


@pytest.fixture(scope="module")
def rows(estimated):
    """Name, estimate, band and published value of each derivative of each set."""
    found = []
    for source, chord, engine, settings in SETS:
        ours = estimated(source.SCENARIO, chord, engine, *settings)
        found += [(name, *ours[name], float(value)) for name, value in source.PRINTED.items() if name in ours]
    return found


def median_error(rows, *names):
    return float(np.median([abs(ours / value - 1.0) for name, ours, _, value in rows if not names or name in names]))


def test_the_median_error_is_under_15_percent(rows):
    assert len(rows) > 70
    assert median_error(rows) < 0.15


@pytest.mark.parametrize("name", ["yaw_beta", "roll_beta"])
def test_weathercock_and_dihedral_are_within_35_percent(rows, name):
    assert median_error(rows, name) < 0.35


def test_the_90_percent_band_holds_80_to_97_percent_of_them(rows):
    inside = [abs(ours - value) < 1.645 * band for _, ours, band, value in rows]
    assert 0.80 < np.mean(inside) < 0.97
