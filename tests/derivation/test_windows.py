"""The windows derived from one blade's geometry against those that `windows` prints."""

import math

import pytest

from sim.derivation.windows import derive_windows
from sim.studies.windows import window_rows
from sim.synchronizer.blocked_arc import blocked_arc_rad, helix_rad, projected_width_m
from sim.synchronizer.gun_line import GunLine

BLADE = {"blade_chord_m": 0.2, "blade_thickness_m": 0.03, "bullet_diameter_m": 0.008, "bore_radius_m": 0.5}


@pytest.mark.parametrize(("rpm", "blades", "delay_s"), [(1250.0, 2, 0.006), (900.0, 2, 0.0), (2600.0, 3, 0.004)])
def test_the_numbers_are_those_of_the_windows_study(rpm, blades, delay_s):
    helix, margin, spin = helix_rad(2.0, 0.5), math.radians(3.0), rpm * math.pi / 30.0
    derived = derive_windows(
        {**BLADE, "helix_rad": helix, "margin_rad": margin, "spin_rad_s": spin, "delay_s": delay_s, "blades": blades}
    )
    blocked = blocked_arc_rad(projected_width_m(0.2, 0.03, helix), 0.008, 0.5)
    (row,) = window_rows(GunLine((spin,), blades, blocked, margin, delay_s, 8.0))
    found = {result.name: result.value for result in derived.results}
    assert found.pop("from_deg") == pytest.approx(row.windows_deg[0].from_deg, rel=1e-9)
    for name, value in found.items():
        assert value == pytest.approx(getattr(row, name), rel=1e-11)
