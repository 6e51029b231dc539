"""A. H. G. Fokker & B. Gould, Flying Dutchman, 1931, chapter XII. Mark: P.

Two blades at 1200 revolutions a minute pass the bore line 2400 times a minute.
"""

import math

import pytest

from sim.studies.timing import Setup
from sim.studies.windows import windows


def test_two_blades_at_1200_rpm_pass_25_ms_apart():
    row = windows([Setup((40.0 * math.pi,), 2, 0.1)]).rows[0]
    assert row.blade_interval_ms == pytest.approx(25.0, abs=1e-12)
    assert 60000.0 / row.blade_interval_ms == pytest.approx(2400.0, abs=0.5)
