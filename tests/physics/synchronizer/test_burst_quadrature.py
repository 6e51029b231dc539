"""Exact bursts of two rounds against integrals written out anew, and fixed cycles against exact fractions."""

import math
import random
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import expon, exponnorm, invgauss, norm

from sim.synchronizer.cam import even
from sim.synchronizer.exact_burst import exact_burst
from sim.synchronizer.fixed_cycle import endless
from sim.synchronizer.strike_chance import meets

BLADES = np.arange(-60.0, 200.0)
NODES, WEIGHTS = np.polynomial.legendre.leggauss(30)


def integral(function, start, end, pieces=4):
    """Return the integral of a function of many places, by Gauss points on a few pieces."""
    edges = np.linspace(start, end, pieces + 1)
    middle, reach = 0.5 * (edges[1:] + edges[:-1])[:, None], 0.5 * np.diff(edges)[:, None]
    return ((reach * WEIGHTS).ravel() * function((middle + reach * NODES).ravel())).sum(axis=-1)


class Plain:
    """The laws of a gun in openings of the cam, from a library of another make."""

    def __init__(self, gun):
        scatter, opening_s = gun.scatter, gun.interval_s
        self.gun, self.open, self.cycle = gun, gun.open_share, gun.line.cycle_s / opening_s
        self.hang, self.tail = scatter.hang_share, scatter.hang_s / opening_s
        squared = (scatter.cycle_sd_s / gun.line.cycle_s) ** 2
        self.law = invgauss(squared, scale=self.cycle / squared) if squared else None

    def struck(self, release):
        """Return the chance that rounds released so many openings after the first window opened are struck."""
        gun, per_turn = self.gun, self.gun.spin_rad_s / math.tau
        turn = (gun.opens_rad + np.atleast_1d(release) * math.tau / float(gun.line.openings)) / math.tau
        lead, sd, tail = (each * per_turn for each in (gun.line.delay_s, gun.scatter.delay_sd_s, gun.scatter.hang_s))
        half = 0.5 * gun.line.blocked_rad / math.tau
        low, high = (BLADES[:, None] / gun.line.blades + side * half - turn - lead for side in (-1.0, 1.0))
        prompt = norm.cdf(high / sd) - norm.cdf(low / sd) if sd else (low < 0.0) & (high > 0.0)
        chance = (1.0 - self.hang) * prompt.sum(axis=0)
        if self.hang:
            law = exponnorm(tail / sd, scale=sd) if sd else expon(scale=tail)
            chance = chance + self.hang * (law.cdf(high) - law.cdf(low)).sum(axis=0)
        return chance

    def second(self, release):
        """Return the chance that the round after one released there is struck, and its mean wait in openings."""
        at_opening, chance, wait = self.struck(0.0)[0], 0.0, 0.0
        for opening in range(int(self.cycle * (10.0 if self.gun.scatter.cycle_sd_s > 0.02 else 2.0)) + 8):
            start, shut, end = (max(opening + each - release, 0.0) for each in (0.0, self.open, 1.0))
            chance += integral(lambda cycle: self.struck((release + cycle) % 1.0) * self.law.pdf(cycle), start, shut)
            wait += integral(lambda cycle, end=end: (end - cycle) * self.law.pdf(cycle), shut, end)
            chance += at_opening * (self.law.cdf(end) - self.law.cdf(shut))
        return chance, wait

    def mean(self, of, edges=()):
        """Return the mean over trigger pulls at any place alike; between the edges it is smooth."""

        def many(places):
            return np.array([of(place) for place in places.tolist()]).T

        ends = sorted({0.0, self.open, *(edge for edge in edges if 0.0 < edge < self.open)})
        free = sum(integral(many, low, high, pieces=1) for low, high in pairwise(ends))
        return free + (1.0 - self.open) * np.array(of(0.0))


@pytest.mark.parametrize(
    ("seed", "scatter"),
    [
        (1, {"cycle_sd_s": 6e-3, "delay_sd_s": 1e-3}),
        pytest.param(2, {"cycle_sd_s": 0.04, "delay_sd_s": 8e-4}, marks=pytest.mark.slow),
    ],
)
def test_two_rounds_of_a_gun_whose_cycle_scatters(random_gun, seed, scatter):
    gun = random_gun(random.Random(seed), hang_share=0.0, spin_rad_s=110.0, impulses_per_rev=2, blades=2, **scatter)
    plain, found = Plain(gun), exact_burst(gun, 2).mean
    first = plain.mean(lambda release: [plain.struck(release)[0]])[0]
    second, wait = plain.mean(plain.second)
    assert found.strike_share == pytest.approx(0.5 * (first + second), abs=1e-9)
    assert found.interval_s == pytest.approx(gun.line.cycle_s + wait * gun.interval_s, rel=1e-9)


@pytest.mark.parametrize("hang_share", [0.0, 0.3])
@pytest.mark.parametrize("sd", [0.0, 3e-4, 2e-3, 0.05])
def test_the_chance_of_a_release(random_gun, sd, hang_share):
    gun = random_gun(random.Random(3), delay_sd_s=sd, hang_share=hang_share, hang_s=7e-3, blades=3, impulses_per_rev=3)
    plain = Plain(gun)
    for release in (0.0, 0.13, 0.37, 0.5, 0.71):
        ours = meets(gun, np.array([release]))[0]
        assert ours == pytest.approx(plain.struck(release)[0], abs=2e-10)


@pytest.mark.parametrize("tail_over_sd", [1e-4, 9e-4, 1.1e-3, 1e-2])
def test_a_hang_fire_shorter_than_the_scatter(random_gun, tail_over_sd):
    """Where the exponential is lost in the normal law another form takes over, and the library's loses digits."""
    sd_s = 2e-3
    gun = random_gun(random.Random(3), delay_sd_s=sd_s, hang_share=0.5, hang_s=tail_over_sd * sd_s)
    place = np.array([0.1])
    late = quad(
        lambda waited: meets(aimed(gun, waited * gun.scatter.hang_s), place)[0] * math.exp(-waited),
        0.0,
        40.0,
        epsabs=1e-13,
    )[0]
    prompt = meets(aimed(gun, 0.0), place)[0]
    assert meets(gun, place)[0] == pytest.approx(0.5 * (prompt + late), abs=1e-9)


def aimed(gun, later_s):
    """Return the gun without hang-fires and all its rounds so much later."""
    line = replace(gun.line, delay_s=gun.line.delay_s + later_s)
    return replace(gun, line=line, scatter=replace(gun.scatter, hang_share=0.0))


@pytest.mark.slow
def test_two_rounds_of_a_gun_that_hangs_fire(random_gun):
    """Without scatter of the cycle: a mixture of a fixed cycle and one with an exponential delay."""
    gun = random_gun(
        random.Random(7), cycle_sd_s=0.0, hang_share=0.2, hang_s=9e-3, delay_sd_s=1e-3, blades=2, impulses_per_rev=2
    )
    plain, tail = Plain(gun), gun.scatter.hang_s / gun.interval_s
    at_opening = plain.struck(0.0)[0]

    def after(release):
        ready = (release + plain.cycle) % 1.0
        prompt = plain.struck(ready)[0] if ready < plain.open else at_opening
        late = 0.0
        for opening in range(int(40.0 * tail) + 2):
            start, shut, end = (max(opening + at - ready, 0.0) for at in (0.0, plain.open, 1.0))
            late += integral(lambda t: plain.struck((ready + t) % 1.0) * np.exp(-t / tail) / tail, start, shut)
            late += at_opening * (math.exp(-shut / tail) - math.exp(-end / tail))
        return 0.8 * prompt + 0.2 * late

    edges = [(at - plain.cycle) % 1.0 for at in (0.0, plain.open)]
    first, second = (plain.mean(lambda release, of=of: [of(release)], edges)[0] for of in (one(plain), after))
    assert exact_burst(gun, 2).mean.strike_share == pytest.approx(0.5 * (first + second), abs=1e-9)


def one(plain):
    return lambda release: plain.struck(release)[0]


def follow(cycle, open_share, aim, half, rounds):
    """Return strikes and waits of a burst in exact fractions, the trigger pulled at every phase alike.

    An interval of first phases goes through the burst as a whole and is cut where the cam decides.
    """
    spans, strikes, waited = [(Fraction(0), Fraction(1))], Fraction(0), Fraction(0)
    held = Fraction(0)  # share on the opening itself, in one atom for each age since the hold
    atoms = {}
    for number in range(rounds):
        free = []
        for low, high in spans:
            free += [(low, min(high, open_share))] if low < open_share else []
            if high > open_share:
                shut = max(low, open_share)
                held += high - shut
                waited += (high - shut) * (1 - (high + shut) / 2) if number else 0
        late = {at: share for at, share in atoms.items() if at >= open_share}
        waited += sum(share * (1 - at) for at, share in late.items())
        atoms = {at: share for at, share in atoms.items() if at not in late}
        atoms[Fraction(0)] = atoms.get(Fraction(0), 0) + held + sum(late.values())
        held = Fraction(0)
        for at, share in atoms.items():
            place = (aim + at) % 1
            strikes += share if min(place, 1 - place) < half else 0
        for low, high in free:
            for blade in range(-2, 4):
                strikes += max(0, min(high, blade + half - aim) - max(low, blade - half - aim))
        atoms = {(at + cycle) % 1: share for at, share in atoms.items() if share}
        spans = []
        for low, high in free:
            start = (low + cycle) % 1
            end = start + high - low
            spans += [(start, min(end, Fraction(1)))] + ([(Fraction(0), end - 1)] if end > 1 else [])
    return strikes / rounds, waited / (rounds - 1)


def plain_gun(random_gun, dice):
    """Return a gun without any scatter whose lengths are fractions with one denominator, and these."""
    parts = dice.choice([60, 97, 360, 1000])
    cycle, open_share = Fraction(dice.randrange(3 * parts, 7 * parts), parts), Fraction(dice.randrange(1, parts), parts)
    aim, half = Fraction(dice.randrange(parts), parts), Fraction(dice.randrange(1, parts // 3), parts)
    gun = random_gun(random.Random(0), delay_sd_s=0.0, cycle_sd_s=0.0, hang_share=0.0, blades=2, impulses_per_rev=2)
    spin = gun.spin_rad_s
    line = replace(
        gun.line,
        natural_rate_per_s=float(spin / math.pi / cycle),
        blocked_rad=float(half) * math.tau,
        margin_rad=0.0,
        cam=even(float(aim) * math.pi - spin * gun.line.delay_s, float(open_share) * math.pi, 2),
    )
    return replace(gun, line=line), (cycle, open_share, aim, half)


def test_bursts_without_scatter_are_those_of_exact_fractions(random_gun):
    dice = random.Random(40)
    for _ in range(150):
        gun, lengths = plain_gun(random_gun, dice)
        rounds = dice.randrange(2, 25)
        strikes, wait = follow(*lengths, rounds)
        found = exact_burst(gun, rounds).mean
        assert found.strike_share == pytest.approx(float(strikes), abs=3e-8)
        assert found.interval_s / gun.interval_s == pytest.approx(float(lengths[0] + wait), rel=1e-8)


def test_continuous_fire_without_scatter_is_that_of_exact_fractions(random_gun):
    """With a cycle of at most sixths of an opening all patterns have come round after 60 rounds."""
    dice, held = random.Random(41), 0
    for _ in range(60):
        gun, lengths = plain_gun(random_gun, dice)
        cycle = Fraction(dice.randrange(18, 42), dice.randrange(1, 7))
        gun = replace(gun, line=replace(gun.line, natural_rate_per_s=float(gun.spin_rad_s / math.pi / cycle)))
        (few, short), (many, long) = (follow(cycle, *lengths[1:], rounds) for rounds in (61, 121))
        found = endless(gun)
        assert found.strike_share == pytest.approx(float(121 * many - 61 * few) / 60, abs=3e-8)
        wait = float(120 * long - 60 * short) / 60
        assert found.interval_s / gun.interval_s == pytest.approx(float(cycle) + wait, rel=1e-8)
        held += found.held_share > 0.0
    assert 10 < held < 50
