"""The timed gun as events of a general-purpose simulation: a cam that opens, a gun that waits, rounds that fly."""

import itertools
import random

import simpy
from scipy.stats import invgauss


def fire(timed, *, bursts, rounds, seed):
    """Return, for every burst, its times between rounds in openings and its passages in blade intervals."""
    dice = random.Random(seed)
    return [_burst(timed, rounds, dice) for _ in range(bursts)]


def _burst(timed, rounds, dice):
    world = simpy.Environment()
    gun = Gun(world, timed, dice)
    world.process(gun.cam())
    world.run(until=world.process(gun.shoot(rounds)))
    world.run(
        until=world.now + 30.0 * (timed.line.whole_delay_s(timed.spin_rad_s) + timed.scatter.hang_s + timed.interval_s)
    )
    return [(b - a) / timed.interval_s for a, b in zip(gun.released, gun.released[1:], strict=False)], gun.passed


def drawn_cycles(timed, rounds, dice):
    """Return cycles of the inverse Gaussian law, from a library of another make than the one that counts."""
    mean, sd = timed.line.cycle_s, timed.scatter.cycle_sd_s
    if sd == 0.0:
        return [mean] * rounds
    squared = (sd / mean) ** 2
    return invgauss.rvs(squared, scale=mean / squared, size=rounds, random_state=dice.getrandbits(32)).tolist()


class Gun:
    """One burst; time 0 is an opening of the cam."""

    def __init__(self, world, timed, dice):
        self.world, self.timed, self.dice = world, timed, dice
        self.opening, self.shuts_s = world.event(), 0.0
        self.released, self.passed, self.cycles = [], [], []

    def cam(self):
        step_s = self.timed.interval_s
        for step in itertools.count():
            for opens, closes in self.timed.windows:
                yield self.world.timeout(max(0.0, (step + opens) * step_s - self.world.now))
                self.shuts_s = (step + closes) * step_s
                self.opening.succeed()
                self.opening = self.world.event()

    def shoot(self, rounds):
        timed = self.timed
        self.cycles = drawn_cycles(timed, rounds, self.dice)
        yield self.world.timeout(self.dice.random() * timed.interval_s)
        for number in range(rounds):
            if self.world.now >= self.shuts_s:
                yield self.opening
            self.released.append(self.world.now)
            hang_s = (
                self.dice.expovariate(1.0 / timed.scatter.hang_s)
                if self.dice.random() < timed.scatter.hang_share
                else 0.0
            )
            self.world.process(self.fly(number, hang_s))
            yield self.world.timeout(self.cycles[number] + hang_s)

    def fly(self, number, hang_s):
        self.passed.append(None)
        line, scatter, spin_rad_s = self.timed.line, self.timed.scatter, self.timed.spin_rad_s
        time_s = self.dice.gauss(line.delay_s, scatter.delay_sd_s)
        turn_rad = self.dice.gauss(line.delay_rad + line.leak.extra_rad(spin_rad_s), scatter.delay_sd_rad)
        yield self.world.timeout(max(0.0, time_s + turn_rad / spin_rad_s) + hang_s)
        turns = (
            (self.world.now * self.timed.spin_rad_s + self.timed.opens_rad)
            * self.timed.line.blades
            / (2.0 * 3.141592653589793)
        )
        self.passed[number] = turns % 1.0
