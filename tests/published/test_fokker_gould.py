"""A. H. G. Fokker & B. Gould, Flying Dutchman, 1931, chapter XII. Mark: P.

Two blades at 1200 revolutions a minute pass the bore line 2400 times a minute.
"""

import math

from sim.studies.windows import window_rows
from sim.synchronizer.gun_line import GunLine


def test_two_blades_at_1200_rpm_pass_25_ms_apart(printed):
    (row,) = window_rows(GunLine((40.0 * math.pi,), 2, 0.1))
    printed(row.blade_interval_ms, "25.0", "ms", row="between two blades", exact=True)
    printed(60000.0 / row.blade_interval_ms, "2400", "a minute", row="passages of a blade", exact=True)
