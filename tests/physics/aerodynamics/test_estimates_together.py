"""The estimates of derivatives together: how far off they are over all published sets, and how honest their bands.

The errors of `sim.aerodynamics.derivative_errors` were sized by these very sets, for there are no others: a
check that they still fit, not a forecast for an airplane that is none of them.
"""

from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

import numpy as np
import pytest

PUBLISHED = Path(__file__).parents[2] / "published"


def source(name):
    """Return a file of the published values as a module."""
    spec = spec_from_file_location(f"published_{name}", PUBLISHED / f"{name}.py")
    found = module_from_spec(spec)
    spec.loader.exec_module(found)
    return found


NELSON, SECKEL, ROSKAM, TJEE, MCCORMICK = map(
    source,
    (
        "test_nelson_navion",
        "test_seckel_morris_navion",
        "test_roskam_airplane_a",
        "test_tjee_mulder_monoplane",
        "test_mccormick_monoplane",
    ),
)
SETS = (
    (NELSON, NELSON.CHORD, "given_thrust", ()),
    (ROSKAM, ROSKAM.CHORD, "flat_six", ()),
    (SECKEL, SECKEL.CHORD, "flat_six", SECKEL.CRUISE),
    (TJEE, 1.0, "radial", ()),
    (MCCORMICK, 1.0, "flat_four", ()),
)


@pytest.fixture(scope="module")
def rows():
    """Name, estimate, band and published value of each derivative of each set."""
    estimated, found = source("conftest").estimates, []
    for one, chord, engine, settings in SETS:
        ours = estimated(one.SCENARIO, chord, engine, *settings)
        found += [(name, *ours[name], float(value)) for name, value in one.PRINTED.items() if name in ours]
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
