"""The yardstick: the right-hand side and the step of order 8 as C, written by sympy from the same text and compiled.

Flights go in blocks of lanes side by side, so that the compiler can take several in one instruction.
"""

from __future__ import annotations

import ctypes
from typing import TYPE_CHECKING

import numpy as np
import sympy
from biplane import DISC, SLIPSTREAM, level_state, make
from c_library import library
from sympy.printing.c import C99CodePrinter

from sim.flight.motion import STATE, Controls, motion
from sim.numerics.dop853_tableau import DOP853
from sim.propulsion.engine_propeller import Rotor

if TYPE_CHECKING:
    from collections.abc import Callable

AIRPLANE = make(rotors=(Rotor(9.0), Rotor(2.5)), thrust_arm_m=0.05, disc=DISC, slipstream=SLIPSTREAM)
CONTROLS = Controls(0.01, 0.005, 0.02, 0.8)
START = level_state(speed_m_s=40.0, altitude_m=500.0, spin_rad_s=125.0)
SECONDS = 20.0
"""An invented biplane in a gentle climbing turn for twenty seconds."""

SOURCE = """
#include <math.h>
#define L {lanes}
typedef double row[L];
static inline double sq(double x) {{ return x * x; }}
static void rates(const row *restrict y, row *restrict k) {{
  for (int l = 0; l < L; l++) {{
{rates}
  }}
}}
void fly(double *restrict state, long width, long steps, double h) {{
  row y[14], z[14], k[12][14];
  for (long first = 0; first < width; first += L) {{
    for (int j = 0; j < 14; j++) for (int l = 0; l < L; l++) y[j][l] = state[j * width + first + l];
    for (long step = 0; step < steps; step++) {{
{stages}
    }}
    for (int j = 0; j < 14; j++) for (int l = 0; l < L; l++) state[j * width + first + l] = y[j][l];
  }}
}}
"""
EACH = "for (int j = 0; j < 14; j++) for (int l = 0; l < L; l++)"


class Printer(C99CodePrinter):
    """Writes powers as a C programmer would: products and square roots."""

    def _print_Pow(self, expression):  # noqa: N802
        base, power = expression.as_base_exp()
        inner = self._print(base)
        named = {2: "sq({})", 4: "sq(sq({}))", 8: "sq(sq(sq({})))"}
        named |= {-1: "(1.0 / ({}))", -2: "(1.0 / sq({}))"}
        eighth, half = "sqrt(sqrt(sqrt({})))", "sqrt({})"
        named |= {sympy.Rational(1, 8): eighth, sympy.Rational(1, 2): half}
        named |= {sympy.Rational(-1, 8): f"(1.0 / {eighth})", sympy.Rational(-1, 2): f"(1.0 / {half})"}
        return named[power].format(inner) if power in named else super()._print_Pow(expression)


def rates_text():
    """Return the right-hand side as C statements, common terms taken out."""
    names = sympy.symbols(" ".join(STATE), real=True)
    shared, found = sympy.cse(motion(AIRPLANE, sympy)(names, CONTROLS), optimizations="basic")
    printer = Printer()
    lines = [f"const double {name} = y[{j}][l];" for j, name in enumerate(STATE)]
    lines += [f"const double {name} = {printer.doprint(term)};" for name, term in shared]
    lines += [f"k[{j}][l] = {printer.doprint(term)};" for j, term in enumerate(found)]
    return "\n".join(lines)


def stages_text():
    """Return the twelve slopes and the new state as C statements."""

    def combined(parts):
        return " + ".join(f"{part!r} * k[{i}][j][l]" for i, part in enumerate(parts) if part)

    lines = ["rates(y, k[0]);"]
    for i in range(1, len(DOP853.nodes)):
        lines += [f"{EACH} z[j][l] = y[j][l] + h * ({combined(DOP853.stage_weights[i])});", f"rates(z, k[{i}]);"]
    return "\n".join([*lines, f"{EACH} y[j][l] += h * ({combined(DOP853.weights)});"])


def compiled(lanes: int, *flags: str) -> Callable[[np.ndarray, int, float], None]:
    """Return fly(state, steps, h), which takes the columns of the state on in place; leaves where no compiler is."""
    fly = library(SOURCE.format(lanes=lanes, rates=rates_text(), stages=stages_text()), *flags).fly
    pointer = np.ctypeslib.ndpointer(dtype=np.float64, ndim=2, flags="C_CONTIGUOUS")
    fly.argtypes, fly.restype = [pointer, ctypes.c_long, ctypes.c_long, ctypes.c_double], None
    return lambda state, steps, h: fly(state, state.shape[1], steps, h)
