"""Exact burst statistics against ten million rounds fired."""

from math import sqrt

from bench_burst import BURSTS, GUN, ROUNDS
from side_by_side import seconds

from sim.synchronizer.counted_burst import fire_bursts
from sim.synchronizer.steady import steady

ASKED = 50
"""Times the exact answer is asked for in one measurement, which else would be all cold cache."""


def main() -> None:
    """Print how much quicker the exact statistics are, and that both agree."""

    def fired():
        return fire_bursts(GUN, bursts=BURSTS, rounds_per_burst=ROUNDS, seed=1)

    def answered():
        for _ in range(ASKED):
            steady(GUN)

    many, exact = seconds(fired, answered)
    exact /= ASKED
    print(f"steady burst statistics, quicker than 1e7 rounds: {many / exact:.0f} x (bar 300 or more)")
    found, whole = fired(), steady(GUN, ROUNDS)
    spread = found.strikes_squared / found.bursts - (found.strikes / found.bursts) ** 2
    error = sqrt(spread / found.bursts) / ROUNDS
    off = (found.strikes / found.rounds - whole.strike_share) / error
    print(f"strikes in a thousand: exact {1e3 * whole.strike_share:.4f}, fired {off:+.2f} standard errors from it")


if __name__ == "__main__":
    main()
