"""A speed that ripples within a turn: its angle by integration, and bursts counted and exact behind it."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from sim.synchronizer.cam import Cam, Opening, even
from sim.synchronizer.counted_burst import fire_bursts
from sim.synchronizer.exact_burst import exact_burst
from sim.synchronizer.ripple import Ripple
from sim.synchronizer.strike_chance import meets, untimed_chance

CALM = {"delay_sd_s": 0.0, "cycle_sd_s": 0.0, "hang_share": 0.0}


def test_the_angle_is_the_integral_of_the_speed():
    ripple, spin = Ripple(0.3, 3, 0.7), 130.0
    times = np.linspace(0.0, 0.1, 60)
    start = float(ripple.stands_at(np.float64(0.2)))
    found = solve_ivp(
        lambda t, _: [spin * (1.0 + 0.3 * math.cos(3.0 * (0.2 + spin * t - 0.7)))],
        (0.0, 0.1),
        [start],
        t_eval=times,
        rtol=1e-11,
        atol=1e-11,
    )
    assert ripple.stands_at(0.2 + spin * times) == pytest.approx(found.y[0], abs=1e-8)
    assert [ripple.clock_rad(angle) for angle in found.y[0]] == pytest.approx(0.2 + spin * times, abs=1e-8)


@pytest.mark.parametrize("share", [0.01, 0.5, 0.95])
def test_clock_and_angle_are_each_other_s_inverse(share):
    ripple = Ripple(share, 2, -0.4)
    for angle in np.linspace(-7.0, 7.0, 57):
        assert ripple.stands_at(np.float64(ripple.clock_rad(angle))) == pytest.approx(angle, abs=1e-13)


@pytest.mark.parametrize(("blades", "per_rev"), [(2, 2), (2, 1), (2, 3), (3, 2), (4, 2), (3, 3)])
def test_a_round_meets_a_blade_where_the_propeller_stands(random_gun, blades, per_rev):
    """Released at any instant, flown for the delay, and the propeller's angle then looked at."""
    gun = random_gun(random.Random(3), **CALM, blades=blades, impulses_per_rev=1, margin_rad=0.0)
    gun = replace(gun, ripple=Ripple(0.2, per_rev, 0.5))
    cam = gun.clock_cam
    clock = cam.windows[0].opens_rad + np.linspace(0.0, math.tau, 4001)
    passes = gun.ripple.stands_at(clock + gun.spin_rad_s * gun.line.delay_s)
    spacing = math.tau / blades
    struck = np.abs(passes - spacing * np.round(passes / spacing)) < 0.5 * gun.line.blocked_rad
    phases = np.linspace(0.0, 1.0, 4001)
    assert np.array_equal(meets(gun, phases) > 0.5, struck)
    assert untimed_chance(gun) == pytest.approx(struck[1:].mean(), abs=2e-3)
    opens, shuts = (
        gun.ripple.stands_at(np.float64(angle)) for angle in (cam.windows[0].opens_rad, cam.windows[0].closes_rad)
    )
    assert (opens, shuts) == pytest.approx((gun.cam.windows[0].opens_rad, gun.cam.windows[0].closes_rad), abs=1e-12)


CAMS = {
    "even": even(0.3, 1.1, 2),
    "one in two turns": even(0.3, 1.1, 1, turns=2),
    "uneven": Cam((Opening(0.2, 0.9), Opening(2.5, 2.9), Opening(3.6, 5.5))),
    "impulses": even(0.1, 0.0, 2),
}


@pytest.mark.parametrize(
    "scatter",
    [
        {},
        {"cycle_sd_s": 3e-3, "speed_sd": 0.01},
        {"hang_share": 0.1, "delay_sd_s": 5e-4},
        {"cycle_sd_s": 2e-3, "delay_sd_s": 1e-3, "drift_per_s": -0.05},
    ],
    ids=lambda scatter: ", ".join(scatter) or "calm",
)
@pytest.mark.parametrize("per_rev", [1, 2, 3])
@pytest.mark.parametrize("cam", CAMS.values(), ids=CAMS)
def test_counted_bursts_meet_the_exact_ones(random_gun, changed, cam, per_rev, scatter):
    gun = changed(random_gun(random.Random(9), **CALM, blades=2, impulses_per_rev=2, spin_rad_s=150.0), **scatter)
    gun = replace(gun, line=replace(gun.line, cam=cam), ripple=Ripple(0.25, per_rev, 0.9))
    exact, found = exact_burst(gun, 7).mean, fire_bursts(gun, bursts=20_000, rounds_per_burst=7, seed=4)
    between = found.strikes_squared / found.bursts - (found.strikes / found.bursts) ** 2
    error = math.sqrt(between / found.bursts) / 7 + 1.0 / found.rounds
    assert abs(found.strikes / found.rounds - exact.strike_share) < 4.5 * error
    pairs = found.rounds - found.bursts
    mean = found.interval_sum / pairs
    spread = math.sqrt(max(found.interval_squares / pairs - mean**2, 0.0) / found.bursts) + 1.0 / pairs
    assert abs(mean - exact.interval_s / gun.interval_s) < 4.5 * spread


def test_a_ripple_moves_the_rounds(random_gun, changed):
    """An impulse that just clears an even propeller: ahead by share / n · (sin − sin) it meets the blade."""
    gun = changed(random_gun(random.Random(9), **CALM, blades=2, impulses_per_rev=2, dwell_rad=0.0), margin_rad=0.0)
    clear = 0.5 * gun.line.blocked_rad + 1e-3
    gun = changed(gun, opens_rad=clear - gun.spin_rad_s * gun.line.delay_s)
    assert exact_burst(gun, 3).mean.strike_share == 0.0
    lead = gun.spin_rad_s * gun.line.delay_s
    slow, fast = (
        replace(gun, ripple=Ripple(0.05, 2, clear - 0.5 * lead + side * math.pi / 2.0)) for side in (1.0, 0.0)
    )
    assert exact_burst(slow, 3).mean.strike_share == pytest.approx(1.0, abs=1e-9)
    assert exact_burst(fast, 3).mean.strike_share == 0.0
