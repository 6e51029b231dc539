"""Ten million rounds against scalar C with the same generator, and a hundred thousand against an event simulation."""

import ctypes
import tracemalloc
from pathlib import Path

import numpy as np
from c_library import library
from event_gun import fire
from side_by_side import say, seconds
from timed_guns import timed_gun

from sim.synchronizer.counted_burst import BLOCK, fire_bursts

SOURCE = """
#include <math.h>
#include <stdint.h>
#include "numpy/random/distributions.h"
static uint64_t s[4];
static uint64_t draw(void *st) {
  uint64_t t = s[0] + s[1] + s[3]++;
  s[0] = s[1] ^ (s[1] >> 11);
  s[1] = s[2] + (s[2] << 3);
  s[2] = ((s[2] << 24) | (s[2] >> 40)) + t;
  return t;
}
static uint32_t draw32(void *st) { return (uint32_t)(draw(st) >> 32); }
static double unit(void *st) { return (draw(st) >> 11) * (1.0 / 9007199254740992.0); }
static bitgen_t bits = {s, draw, draw32, unit, draw};
void burst(long bursts, long rounds, const double *p, double *out) {
  double cycle = p[0], cycle_shape = p[1], open = p[2], aim = p[3], delay_sd = p[4], half = p[5], wide = p[6];
  double hang = p[7], hang_cycle = p[8], hang_pass = p[9];
  double sum = 0, squares = 0, least = INFINITY, most = -INFINITY, passed = 0, passed2 = 0, struck2 = 0;
  long strikes = 0, near = 0, to_hang;
  s[0] = 1; s[1] = 2; s[2] = 3; s[3] = 4;
  for (int i = 0; i < 16; ++i) draw(0);
  to_hang = random_geometric(&bits, hang);
  for (long b = 0; b < bursts; ++b) {
    double release = unit(0), late = 0;
    long struck = 0;
    if (release >= open) release = 1.0;
    for (long r = 0; r < rounds; ++r) {
      if (r) {
        double at = random_wald(&bits, cycle, cycle_shape) + late * hang_cycle + release;
        double whole = floor(at), phase = at - whole;
        if (phase >= open) phase = 1.0;
        double interval = whole + phase - release;
        release = phase;
        sum += interval; squares += interval * interval;
        least = interval < least ? interval : least; most = interval > most ? interval : most;
      }
      late = 0;
      if (--to_hang == 0) { late = random_standard_exponential(&bits); to_hang = random_geometric(&bits, hang); }
      double pass = aim + delay_sd * random_standard_normal(&bits) + late * hang_pass + release;
      pass -= floor(pass);
      passed += pass; passed2 += pass * pass;
      double off = fabs(pass - 0.5);
      if (off > 0.5 - wide) { if (off > 0.5 - half) ++struck; else ++near; }
    }
    strikes += struck; struck2 += (double)struck * struck;
  }
  out[0] = strikes; out[1] = near; out[2] = sum; out[3] = squares; out[4] = least; out[5] = most;
  out[6] = passed; out[7] = passed2; out[8] = struck2;
}
"""
SPIN = 1250.0 * np.pi / 30.0
GUN = timed_gun(
    spin_rad_s=SPIN,
    blades=2,
    impulses_per_rev=2,
    opens_rad=np.radians(16.0) - SPIN * 0.0065,
    dwell_rad=np.radians(148.0),
    blocked_rad=np.radians(24.0),
    margin_rad=np.radians(4.0),
    delay_s=0.0065,
    cycle_s=0.12,
    delay_sd_s=0.0005,
    cycle_sd_s=0.004,
    hang_share=1e-4,
    hang_s=0.02,
)
BURSTS, ROUNDS = 61 * BLOCK, 20


def compiled():
    """Return the same bursts in C as a function without arguments."""
    folder = Path(np.__file__).parent
    flags = [f"-I{folder}/_core/include", "-include", "Python.h", f"-I{python_headers()}"]
    c_burst = library(SOURCE, *flags, objects=[folder / "random/lib/libnpyrandom.a"]).burst
    c_burst.argtypes = [ctypes.c_long, ctypes.c_long, ctypes.c_void_p, ctypes.c_void_p]
    gun, scatter, cycle = GUN, GUN.scatter, GUN.line.cycle_s / GUN.interval_s
    given = np.array(
        [
            *(cycle, cycle**3 / (scatter.cycle_sd_s / gun.interval_s) ** 2, gun.open_share, gun.aim),
            *(scatter.delay_sd_s / gun.blade_s, gun.half_blocked(), gun.half_blocked(margin=True)),
            *(scatter.hang_share, scatter.hang_s / gun.interval_s, scatter.hang_s / gun.blade_s),
        ]
    )
    out = np.zeros(9)

    def run() -> np.ndarray:
        c_burst(BURSTS, ROUNDS, given.ctypes.data, out.ctypes.data)
        return out

    return run


def python_headers() -> str:
    """Return where this Python keeps its C headers."""
    import sysconfig

    return sysconfig.get_path("include")


def peak_mib(rounds: int) -> float:
    """Return the most memory held while that many rounds are fired. [MiB]"""
    tracemalloc.start()
    fire_bursts(GUN, bursts=rounds // ROUNDS, rounds_per_burst=ROUNDS, seed=1)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak / 2**20


def event_seconds(bursts: int = 300) -> float:
    """Return what a round costs a general-purpose event simulation, the median of 7. [s]"""
    return seconds(lambda: fire(GUN, bursts=bursts, rounds=ROUNDS, seed=1))[0] / (bursts * ROUNDS)


def main() -> None:
    """Print speed and memory."""
    in_c = compiled()

    def ours():
        return fire_bursts(GUN, bursts=BURSTS, rounds_per_burst=ROUNDS, seed=1)

    found, expected = ours(), in_c()
    print(f"strikes per 1000: ours {1e3 * found.strikes / found.rounds:.3f}, C {1e3 * expected[0] / found.rounds:.3f}")
    yardstick, taken = seconds(in_c, ours, rounds=7)
    say(f"burst, {found.rounds / 1e6:.1f} million rounds / C, same generator", taken / yardstick, 2.0)
    per_event = event_seconds()
    print(f"an event simulation / burst, a round: {per_event * found.rounds / taken:.0f} x (bar 200 or more)")
    say("burst, memory at 1e7 rounds in MiB", peak_mib(10**7), 10.0)
    say("burst, memory at 1e8 rounds in MiB", peak_mib(10**8), 10.0)


if __name__ == "__main__":
    main()
