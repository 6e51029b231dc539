"""Two guns through one propeller: the gaps they share, against both fired round by round in fractions."""

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from timed_guns import timed_gun

from sim.synchronizer.shared_gaps import shared_gaps

ROUNDS = 12
STARTS = 3600
FIRST = {"blades": 3, "blocked": 20, "opens": 31, "dwell": 55, "delay_ms": 7, "rpm": 1130, "gun": 560, "turn": -17}
SECOND = {**FIRST, "opens": 12, "dwell": 64, "delay_ms": 9, "turn": 22}
SLOW = {**FIRST, "gun": 470, "turn": 40, "opens": -40}


def gaps(case, upright):
    """Return the gaps through which the rounds of a burst pass, the propeller in degrees."""
    spacing = Fraction(360, case["blades"])
    ready, found = upright - case["turn"], []
    for _ in range(ROUNDS):
        after = (ready - case["opens"]) % spacing
        release = ready if after < case["dwell"] else ready + spacing - after
        found.append(math.floor((release + Fraction(6 * case["rpm"] * case["delay_ms"], 1000)) / spacing))
        ready = release + Fraction(360 * case["rpm"], case["gun"])
    return found


def counted(first, second):
    """Return the share of rounds that share a gap, over triggers pulled at every tenth of a degree."""
    total = 0
    for start in range(STARTS):
        one, other = (gaps(case, Fraction(2 * start + 1, 20)) for case in (first, second))
        total += sum(gap in other for gap in one) + sum(gap in one for gap in other)
    return total / (2 * ROUNDS * STARTS)


def gun(case):
    made = timed_gun(
        spin_rad_s=case["rpm"] * math.pi / 30.0,
        blades=case["blades"],
        blocked_rad=math.radians(case["blocked"]),
        opens_rad=math.radians(case["opens"]),
        dwell_rad=math.radians(case["dwell"]),
        delay_s=case["delay_ms"] * 1e-3,
        cycle_s=60.0 / case["gun"],
    )
    return replace(made, line=replace(made.line, bore_turn_rad=math.radians(case["turn"])))


@pytest.mark.parametrize(("first", "second"), [(FIRST, SECOND), (FIRST, SLOW), (SECOND, SLOW), (FIRST, FIRST)])
def test_without_scatter_gaps_are_those_of_the_rounds(first, second):
    found = shared_gaps((gun(first), gun(second)), ROUNDS, seed=3)
    assert abs(found.shared_share - counted(first, second)) <= 4.0 * found.shared_error + 1e-3


def test_guns_alike_in_everything_share_every_gap():
    found = shared_gaps((gun(FIRST), gun(FIRST)), ROUNDS, seed=3)
    assert (found.shared_share, found.shared_error) == (1.0, 0.0)


def test_which_gun_is_called_the_first_does_not_matter():
    both = [shared_gaps(pair, ROUNDS, seed=3) for pair in ((gun(FIRST), gun(SLOW)), (gun(SLOW), gun(FIRST)))]
    assert abs(both[0].shared_share - both[1].shared_share) <= 4.0 * sum(each.shared_error for each in both)


def test_guns_that_have_forgotten_the_trigger_meet_by_chance():
    """A cycle that scatters widely spreads the rounds: each is met by a round of the other at that gun's rate."""
    scatter = replace(gun(FIRST).scatter, cycle_sd_s=0.05)
    pair = [replace(gun(case), scatter=scatter) for case in (FIRST, {**FIRST, "dwell": 119.999})]
    found = shared_gaps(pair, 150, seed=5)
    per_gap = 560 / (3 * 1130)
    assert found.shared_share == pytest.approx(per_gap, rel=0.12)
