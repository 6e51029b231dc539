"""The staircase at 100,000 speeds against the same arithmetic in C, which must give the same bits."""

import ctypes

import numpy as np
from c_library import library
from side_by_side import say, seconds

from sim.synchronizer.rate import interrupter_rate

SOURCE = """
#include <math.h>
void staircase(long count, const double *openings, double gun, double blocked, double interval, double *rate) {
  double whole = gun * interval, shut = gun * blocked;
  for (long i = 0; i < count; ++i) {
    double past = fmod(openings[i], gun) * interval, before = whole;
    double n_past = 1.0, n_before = 0.0, rounds = 0.0;
    int held = 0;
    while (past > 0.0) {
      double needed = ceil((before - shut) / past);
      if (needed < 0.0) needed = 0.0;
      if (n_before == 0.0 && needed < 1.0) needed = 1.0;
      if (needed * past < before) { rounds = n_before + needed * n_past; held = 1; break; }
      double left = fmod(before, past);
      if (left == 0.0) left = past;
      n_before += rint((before - left) / past) * n_past;
      before = left;
      left = fmod(past, before);
      n_past += rint((past - left) / before) * n_before;
      past = left;
    }
    rate[i] = held ? rounds * openings[i] / ceil(rounds * openings[i] / gun) : gun;
  }
}
"""
GUN, BLOCKED, INTERVAL = 575.0, 45.0, 180.0


def many(work):
    """Return the work done so often that a busy machine disturbs short and long ones alike."""

    def repeated() -> None:
        for _ in range(20):
            work()

    return repeated


def main() -> None:
    """Print the ratio, after a check of every bit."""
    scalar = library(SOURCE, "-ffp-contract=off").staircase
    scalar.argtypes = [ctypes.c_long, ctypes.c_void_p, *[ctypes.c_double] * 3, ctypes.c_void_p]
    openings = 2.0 * np.linspace(900.0, 1500.0, 100_000)
    rate = np.empty_like(openings)

    def in_c() -> None:
        scalar(openings.size, openings.ctypes.data, GUN, BLOCKED, INTERVAL, rate.ctypes.data)

    def ours() -> np.ndarray:
        return interrupter_rate(openings, GUN, blocked=BLOCKED, interval=INTERVAL).rounds_per_min

    in_c()
    if not np.array_equal(rate, ours()):
        message = "the two staircases differ"
        raise SystemExit(message)
    yardstick, taken = seconds(many(in_c), many(ours), rounds=9)
    say("staircase, 100,000 speeds / C, same bits", taken / yardstick, 5.0)


if __name__ == "__main__":
    main()
