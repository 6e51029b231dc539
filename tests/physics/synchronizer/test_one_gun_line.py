"""Every timing command on the same gun lines, held against one event simulation in rational arithmetic."""

import math
import random
from dataclasses import replace
from fractions import Fraction

import pytest
from fraction_line import TURN, Line

from sim.studies.burst import burst
from sim.studies.rate import rate
from sim.studies.safe_range import safe_range
from sim.studies.windows import window_rows, windows
from sim.synchronizer.cam import Cam, Opening
from sim.synchronizer.exact_burst import settled
from sim.synchronizer.gun_line import GunLine
from sim.synchronizer.leak import Leak
from sim.synchronizer.rate import steady_rate
from sim.synchronizer.timed_gun import timed

LINES = 400


def drawn(dice, kind):
    """Return a gun line of a kind, with its cam."""
    blades = dice.choice([2, 2, 3, 4])
    blocked, margin = Fraction(dice.randint(16, 60), 2), Fraction(dice.randint(0, 10), 2)
    count, turns = blades, 1
    if kind == "fewer":
        count = dice.choice([number for number in range(1, blades) if blades % number == 0] or [1])
    if kind == "two turns":
        count, turns = dice.choice([1, 3, 5]), 2
    if kind == "geared":
        count, turns = dice.choice([(3, 2), (4, 3), (5, 3), (5, 2), (2, 3), (7, 4), (5, 1)])
    period = turns * TURN
    room = period / count
    dwell = Fraction(dice.randint(20, int(2 * min(room, TURN / blades)) - 2), 2)
    opens = Fraction(dice.randint(-360, 360), 2)
    starts = [opens + number * room for number in range(count)]
    if kind == "uneven":
        turns = dice.choice([1, 2])
        period, dwell = turns * TURN, Fraction(dice.randint(20, 90), 2)
        places = sorted(dice.sample(range(0, turns * 360, 46), dice.choice([2, 3, 4])))
        starts = [opens + place for place in places]
    action = "impulse" if kind == "impulse" or (kind != "uneven" and dice.random() < 0.15) else "interrupter"
    if action == "impulse":
        dwell = Fraction(0)
    gun = Fraction(dice.randint(35, 90) * 10)
    in_step = dice.random() < 0.3  # in a simple ratio: rounds on the very edges, guns never held
    return Line(
        rpm=gun * Fraction(dice.randint(6, 24), 8) if in_step else Fraction(dice.randint(4000, 20000), 10),
        blades=blades,
        blocked=blocked,
        margin=margin,
        delay_s=Fraction(dice.randint(20, 120), 10000),
        gun=gun,
        action=action,
        windows=tuple((start, start + dwell) for start in starts),
        turns=turns,
    )


KINDS = ("plain", "fewer", "impulse", "two turns", "geared", "uneven")
DICE = random.Random(14)
DRAWN = [drawn(DICE, KINDS[number % len(KINDS)]) for number in range(LINES)]
LEAKS = random.Random(41)
LEAKING = [
    replace(
        line,
        leak_rpm=line.rpm * Fraction(LEAKS.randint(1, 14), 20),
        travel=Fraction(LEAKS.randint(4, 60), 2),
    )
    for line in DRAWN[:: len(KINDS)]
]
"""The plain ones behind an oil column that leaks as its far end moves: a law whose turns are fractions."""


def lines_of(kind):
    return LEAKING if kind == "leaking" else DRAWN[KINDS.index(kind) :: len(KINDS)]


def gun_line(line):
    """Return the same as the product's."""
    cam = Cam(
        tuple(Opening(*(math.radians(float(edge)) for edge in window)) for window in line.windows),
        period_turns=line.turns,
    )
    return GunLine(
        (float(line.rpm) * math.pi / 30.0,),
        line.blades,
        math.radians(float(line.blocked)),
        math.radians(float(line.margin)),
        float(line.delay_s),
        float(line.gun) / 60.0,
        line.action,
        cam=cam,
        leak=Leak(float(line.leak_rpm) * math.pi / 30.0, 0.0, math.radians(float(line.travel))),
    )


def is_even(line):
    starts = [window[0] for window in line.windows]
    steps = {later - start for start, later in zip(starts, [*starts[1:], starts[0] + line.period], strict=True)}
    return len(steps) == 1


def options(line):
    """Return the options that describe a line with even windows."""
    return {
        "spin_rad_s": (float(line.rpm) * math.pi / 30.0,),
        "blades": float(line.blades),
        "blocked_deg": float(line.blocked),
        "margin_deg": float(line.margin),
        "delay_s": float(line.delay_s),
        "natural_rate_per_s": float(line.gun) / 60.0,
        "action": line.action,
        "impulses_per_rev": len(line.windows) / line.turns,
        "dwell_deg": float(line.windows[0][1] - line.windows[0][0]),
        "opens_deg": float(line.windows[0][0]),
    }


def rates(line):
    """Return every rate that the gun may fall into by its windows, for wherever the trigger is pulled."""
    return [line.rate(window[0]) for window in line.windows]


@pytest.mark.parametrize("kind", [*KINDS, "leaking"])
def test_windows_and_what_they_clear(kind):
    for line in lines_of(kind):
        (row,) = window_rows(gun_line(line))
        mine = sorted((opens % line.period, closes - opens) for opens, closes in line.windows)
        assert [window.from_deg for window in row.windows_deg] == pytest.approx([float(start) for start, _ in mine])
        assert [window.to_deg - window.from_deg for window in row.windows_deg] == pytest.approx(
            [float(dwell) for _, dwell in mine], abs=1e-9
        )
        clear = [line.window_is_clear(start, start + dwell) for start, dwell in mine]
        assert [window.clearance_deg >= 0.0 for window in row.windows_deg] == clear
        assert bool(row.note) is not all(clear)
        struck = any(line.window_strikes(start, start + dwell) for start, dwell in mine)
        assert ("strike a blade" in row.note) is struck
        assert row.lead_deg == pytest.approx(float(line.lead))


@pytest.mark.parametrize("kind", [*KINDS, "leaking"])
def test_the_rate_of_windows_is_that_of_the_events(kind):
    for line in lines_of(kind):
        (row,) = window_rows(gun_line(line))
        (per_min,) = set(rates(line))
        assert row.rounds_per_min == pytest.approx(float(per_min), rel=1e-13)
        if row.rounds_per_pattern and row.intervals_per_pattern:
            told = Fraction(row.rounds_per_pattern, row.intervals_per_pattern) * line.blades * line.rpm
            assert row.rounds_per_min == pytest.approx(float(told), rel=1e-13)


@pytest.mark.parametrize("kind", [*KINDS, "leaking"])
def test_endless_fire_is_that_of_windows_in_rate_and_of_the_events_in_strikes(kind):
    for line in lines_of(kind):
        mine = gun_line(line)
        found = settled(timed(mine, mine.spin_rad_s[0])).mean
        per_min = steady_rate(mine).rounds_per_min[0]
        assert 60.0 / found.interval_s == pytest.approx(per_min, rel=1e-9)
        held = all(line.rate(window[0]) < line.gun for window in line.windows)
        if is_even(line) and held:
            patterns = [line.fire(window[0])[0] for window in line.windows]
            shares = [Fraction(sum(map(line.struck, rounds)), len(rounds)) for rounds in patterns]
            assert found.strike_share == pytest.approx(float(sum(shares) / len(shares)), abs=1e-9)


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind != "uneven"])
def test_the_commands_say_the_same(kind):
    for line in DRAWN[KINDS.index(kind) :: len(KINDS)]:
        given = options(line)
        (row,) = windows(**given).rows
        (staircase,) = rate(**given).staircases
        assert staircase.rows[0].rounds_per_min == row.rounds_per_min
        assert staircase.rows[0].rounds_per_pattern == row.rounds_per_pattern
        assert row.rounds_per_min == pytest.approx(float(rates(line)[0]), rel=1e-13)
        fired = burst(**given, rounds=200.0, rounds_per_burst=2.0)
        assert fired.exact is None or fired.exact.settled_rounds_per_min == pytest.approx(row.rounds_per_min, rel=1e-9)
        if given["dwell_deg"] > 360.0 / line.blades - float(line.blocked + 2 * line.margin):
            continue
        (band,) = safe_range(**given, sigmas=0.0).propellers
        least = min(window.clearance_deg for window in row.windows_deg)
        assert band.speeds[0].clearance_deg == pytest.approx(least, abs=1e-6)
        within = any(one.from_rpm <= float(line.rpm) <= one.to_rpm for one in band.bands)
        assert within is (least >= 0.0)
