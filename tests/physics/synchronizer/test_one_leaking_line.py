"""Every timing command on airplanes whose oil column leaks, held against the column and the events in fractions."""

import math
import random
from fractions import Fraction

import pytest
from airplanes import TRIPLANE
from fraction_line import Line
from scipy.integrate import quad
from shared import built

from sim.studies.burst import burst
from sim.studies.link import link
from sim.studies.rate import rate
from sim.studies.safe_range import safe_range
from sim.studies.windows import windows


def column_deg(leak_rpm, windup_deg, travel_deg, rpm):
    """Return the turn in which a leaking column lets go, by the time that its pressure takes to rise; play has none."""
    share = leak_rpm / rpm
    risen, _ = quad(lambda pressure: 1.0 / (1.0 - share * pressure), 0.0, 1.0)
    return windup_deg * risen + travel_deg / (1.0 - share)


@pytest.mark.parametrize("case", range(12))
def test_the_commands_say_the_same_of_an_airplane_whose_link_leaks(case):
    """An oil column that winds up and moves; lead, clearance, rate, endless fire and safe speeds, and the events'."""
    dice = random.Random(case)
    leak_rpm, rise, play = dice.uniform(120.0, 420.0), dice.uniform(0.8, 2.4), dice.uniform(0.1, 0.9)
    windup, action = dice.uniform(0.3, 1.5), dice.choice(["impulse", "interrupter"])
    given = {
        "link.leak_speed": f'"{leak_rpm} rpm"',
        "link.follower_rise": f'"{rise} °"',
        "link.play": f'"{play} °"',
        "link.windup": f'"{windup} °"',
        "gun.action": f'"{action}"',
        "gun.natural_rate": f'"{dice.randint(450, 800)} rounds/min"',
        "cam.dwell": f'"{dice.randint(12, 60)} °"',
        "cam.opens": f'"{dice.randint(-170, 170)} °"',
        "burst.speed_scatter": "0",
        "burst.speed_drift": '"0 1/s"',
        "burst.cycle_scatter": '"0 ms"',
        "burst.hang_share": "0",
    }
    airplane = built(TRIPLANE, *(f"{key}={value}" for key, value in given.items()))
    tight = built(TRIPLANE, *(f"{key}={value}" for key, value in given.items()), 'link.leak_speed="0 rpm"')
    for row, without in zip(windows(airplane).rows, windows(tight).rows, strict=True):
        spin, own = (row.rpm * math.pi / 30.0,), {"powerplant": row.powerplant}
        more = column_deg(leak_rpm, windup, rise, row.rpm) - windup - rise
        assert row.lead_deg == pytest.approx(without.lead_deg + more, rel=1e-12)
        (staircase,) = rate(airplane, spin_rad_s=spin, **own).staircases
        assert staircase.rows[0].rounds_per_min == row.rounds_per_min
        mine = Line(
            rpm=Fraction(row.rpm),
            blades=3,
            blocked=Fraction(row.blocked_deg) - 2 * Fraction(row.margin_deg),
            margin=Fraction(row.margin_deg),
            delay_s=Fraction(row.lead_deg) / (6 * Fraction(row.rpm)),
            gun=Fraction(staircase.gun_rounds_per_min).limit_denominator(1000),
            action=action,
            windows=tuple((Fraction(one.from_deg), Fraction(one.to_deg)) for one in row.windows_deg),
            turns=1,
        )
        assert row.rounds_per_min == pytest.approx(float(mine.rate(mine.windows[0][0])), rel=1e-12)
        for one in row.windows_deg:
            dwell = Fraction(one.to_deg) - Fraction(one.from_deg)
            assert (one.clearance_deg >= 0.0) is mine.window_is_clear(
                Fraction(one.from_deg), Fraction(one.from_deg) + dwell
            )
        fired = burst(airplane, spin_rad_s=spin, rounds=200.0, guns=1.0, **own)
        assert fired.exact.settled_rounds_per_min == pytest.approx(row.rounds_per_min, rel=1e-9)
        bands = safe_range(airplane, spin_rad_s=spin, sigmas=0.0, **own).propellers[0]
        least = min(one.clearance_deg for one in row.windows_deg)
        assert bands.speeds[0].clearance_deg == pytest.approx(least, abs=1e-6)
        assert any(one.from_rpm <= row.rpm <= one.to_rpm for one in bands.bands) is (least >= 0.0)
        told = link(airplane, **own)
        (part,) = (one.lead_deg for one in told.fitted.leads if one.rpm == pytest.approx(row.rpm))
        assert part + told.rest_ms * 6e-3 * row.rpm == pytest.approx(row.lead_deg, rel=1e-9)
