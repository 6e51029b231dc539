"""The same gun as events for a general-purpose simulation: a cam that opens, a gun that waits, rounds that fly."""

import random

import simpy


def fire(line, *, bursts, rounds, seed):
    """Return, for every burst, its times between rounds in openings and its passages in blade intervals."""
    dice = random.Random(seed)
    return [_burst(line, rounds, dice) for _ in range(bursts)]


def _burst(line, rounds, dice):
    world = simpy.Environment()
    gun = Gun(world, line, dice)
    world.process(gun.cam())
    world.run(until=world.process(gun.shoot(rounds)))
    world.run(until=world.now + 30.0 * (line.delay_s + line.hang_s + line.interval_s))
    return [(b - a) / line.interval_s for a, b in zip(gun.released, gun.released[1:], strict=False)], gun.passed


class Gun:
    """One burst; time 0 is an opening of the cam."""

    def __init__(self, world, line, dice):
        self.world, self.line, self.dice = world, line, dice
        self.opening, self.opened_s = world.event(), 0.0
        self.released, self.passed = [], []

    def cam(self):
        while True:
            yield self.world.timeout(self.line.interval_s)
            self.opened_s = self.world.now
            self.opening.succeed()
            self.opening = self.world.event()

    def shoot(self, rounds):
        line = self.line
        yield self.world.timeout(self.dice.random() * line.interval_s)
        for number in range(rounds):
            if self.world.now - self.opened_s >= line.open_share * line.interval_s:
                yield self.opening
            self.released.append(self.world.now)
            hang_s = self.dice.expovariate(1.0 / line.hang_s) if self.dice.random() < line.hang_share else 0.0
            self.world.process(self.fly(number, hang_s))
            yield self.world.timeout(self.dice.gauss(line.cycle_s, line.cycle_sd_s) + hang_s)

    def fly(self, number, hang_s):
        self.passed.append(None)
        yield self.world.timeout(max(0.0, self.dice.gauss(self.line.delay_s, self.line.delay_sd_s)) + hang_s)
        turns = (
            (self.world.now * self.line.spin_rad_s + self.line.opens_rad) * self.line.blades / (2.0 * 3.141592653589793)
        )
        self.passed[number] = turns % 1.0
