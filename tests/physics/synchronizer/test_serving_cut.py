"""The cut that is said to serve a range, in round numbers, held against the clearance of its own rounds."""

import math
import random

import pytest

from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.safe_range import CamWindow, clearance_rad, longest_dwell_rad
from sim.synchronizer.serving_cut import serving_cut

DRAWN = 400


def windows():
    """Yield random windows, most of them with a time and an angle that scatter, and a range of speeds."""
    dice = random.Random(8)
    for _ in range(DRAWN):
        line = GunLine(
            (),
            dice.choice([2, 3, 4]),
            math.radians(dice.uniform(8.0, 40.0)),
            margin_rad=math.radians(dice.uniform(0.0, 5.0)),
            delay_s=dice.uniform(3e-3, 12e-3),
            delay_rad=math.radians(dice.uniform(0.0, 9.0)),
        )
        dwell = dice.choice([0.0, dice.uniform(2.0, 120.0)])
        spread_s = dice.uniform(0.0, 1e-3)
        window = CamWindow(line, math.radians(dwell), spread_s, math.radians(dice.uniform(0.0, 2.0)))
        low = dice.uniform(40.0, 120.0)
        yield window, low, low * dice.uniform(1.0, 3.0)


def cleared(window, cut, speeds):
    """Return the least clearance of a cut at some speeds, in degrees."""
    cam = CamWindow(window.line, math.radians(cut[1]), window.spread_s, window.spread_rad)
    return min(math.degrees(clearance_rad(cam, math.radians(cut[0]), speed)) for speed in speeds)


def test_the_cut_serves_as_it_stands_and_a_longer_one_at_the_same_place_does_not():
    served = shortened = 0
    for window, low, high in windows():
        cut = serving_cut(window, low, high)
        longest = math.degrees(longest_dwell_rad(window, low, high))
        if cut is None:
            assert longest < 1e-5
            continue
        served += 1
        speeds = [low + (high - low) * step / 20.0 for step in range(21)]
        assert cleared(window, (cut.opens_deg, cut.dwell_deg), speeds) >= -1e-9
        decimals = next(places for places in range(1, 7) if round(cut.opens_deg, places) == cut.opens_deg)
        if cut.dwell_deg < math.degrees(window.dwell_rad) - 1e-9:
            shortened += 1
            step = 10.0**-decimals
            assert longest - 2.0 * step < cut.dwell_deg <= longest + 1e-9
        else:
            assert cut.dwell_deg == pytest.approx(math.degrees(window.dwell_rad), abs=1e-12)
    assert served > DRAWN / 2
    assert shortened > DRAWN / 10


def test_a_range_that_no_tenth_of_a_degree_serves_is_served_by_hundredths():
    """From 10.03° to 10.08° an impulse would do: 10.1° is beyond, 10.05° within."""
    line = GunLine((), 2, math.radians(2.0 * 10.03), delay_s=0.0)
    cut = serving_cut(CamWindow(line, math.radians(180.0 - 2.0 * 10.03 - 0.05), 0.0), 100.0, 200.0)
    assert cut.opens_deg == pytest.approx(10.05, abs=0.011)
    assert round(cut.opens_deg, 2) == cut.opens_deg
    assert cut.opens_deg not in (10.0, 10.1)
