"""Windows are ascending and apart, and what is released inside one passes clear of every blade."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sim.studies.windows import window_rows
from sim.synchronizer.gun_line import GunLine

ARC = st.floats(0.0, 120.0)


@given(
    rpm=st.floats(1.0, 4000.0),
    blades=st.integers(1, 6),
    blocked=ARC,
    margin=st.floats(0.0, 20.0),
    delay=st.floats(0.0, 0.2),
    share=st.lists(st.floats(0.0, 1.0), min_size=3, max_size=3),
    every=st.booleans(),
)
def test_any_request(rpm, blades, blocked, margin, delay, share, every):
    spin = rpm * math.pi / 30.0
    line = GunLine(
        (spin,), blades, math.radians(blocked), math.radians(margin), delay, 8.0, impulses_per_rev=0 if every else 1
    )
    (row,) = window_rows(line)
    arcs = [(arc.from_deg, arc.to_deg) for arc in row.windows_deg]
    edges = [edge for arc in arcs for edge in arc]
    assert edges == sorted(edges)
    assert len(arcs) == (0 if row.note else blades if every else 1)
    assert all(0.0 <= start < 360.0 and start < end for start, end in arcs)
    assert not arcs or edges[-1] <= arcs[0][0] + 360.0 + 1e-6
    for start, end in arcs:
        passes = start + np.array(share) * (end - start) + math.degrees(spin * delay)
        off = (passes + 180.0 / blades) % (360.0 / blades) - 180.0 / blades
        assert np.all(np.abs(off) >= row.blocked_deg / 2.0 - 1e-6)


def test_lead_and_window_of_a_plain_case():
    """1200 rpm is 7.2° a millisecond: 5 ms are 36°, and a 40° arc leaves 20° + k 180° − 36°."""
    (row,) = window_rows(GunLine((40.0 * math.pi,), 2, math.radians(30.0), math.radians(5.0), 0.005, 10.0))
    assert [(arc.from_deg, arc.to_deg) for arc in row.windows_deg] == [(164.0, 304.0), (344.0, 484.0)]
    assert (row.rpm, row.blade_interval_ms, row.lead_deg, row.open_deg) == (1200.0, 25.0, 36.0, 140.0)
    assert row.open_ms == pytest.approx(140.0 / 7.2)
    assert (row.rounds_per_min, row.rounds_per_pattern, row.intervals_per_pattern) == (600.0, 1, 4)


def test_blades_too_wide_leave_no_window_and_a_sentence():
    (row,) = window_rows(GunLine((100.0,), 2, math.radians(170.0), math.radians(10.0), 0.005, 10.0))
    assert (row.windows_deg, row.open_deg, row.open_ms, row.rounds_per_min) == ((), 0.0, 0.0, 0.0)
    assert row.note == "No window: each blade blocks 190° with its margins, and the blades are 180° apart."


@pytest.mark.parametrize("action", ["interrupter", "impulse"])
def test_no_window_no_rate_with_either_action(action):
    line = GunLine((100.0,), 3, math.radians(130.0), natural_rate_per_s=10.0, action=action)
    assert next(window_rows(line)).rounds_per_min == 0.0
