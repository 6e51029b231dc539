"""The same strip equations as C: one assignment for each operation of the trace, compiled with the step of order 8."""

from __future__ import annotations

import ctypes
from typing import TYPE_CHECKING

import numpy as np
from c_library import library
from flight_in_c import SOURCE, stages_text

from sim.flight.motion import STATE, motion
from sim.numerics.trace import Tracer, record

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.flight.motion import Airplane, Controls
    from sim.numerics.trace import Operation, Trace


def compiled(airplane: Airplane, controls: Controls, *flags: str) -> Callable[[np.ndarray, int, float], None]:
    """Return fly(state, steps, h), which takes one column of the state on in place."""
    trace = record(lambda recorded: lambda state: motion(airplane, recorded)(state, controls), len(STATE))
    fly = library(SOURCE.format(lanes=1, rates=_rates(trace), stages=stages_text()), *flags).fly
    pointer = np.ctypeslib.ndpointer(dtype=np.float64, ndim=2, flags="C_CONTIGUOUS")
    fly.argtypes, fly.restype = [pointer, ctypes.c_long, ctypes.c_long, ctypes.c_double], None
    return lambda state, steps, h: fly(state, 1, steps, h)


def _rates(trace: Trace) -> str:
    lines = [f"const double x{j} = y[{j}][l];" for j in range(trace.arguments)]
    for number, operation in enumerate(trace.operations, start=trace.arguments):
        lines.append(f"const double x{number} = {_text(operation)};")
    return "\n".join([*lines, *(f"k[{j}][l] = {_name(x)};" for j, x in enumerate(trace.results))])


def _text(operation: Operation) -> str:
    names = [_name(x) for x in operation.operands]
    if operation.name == "**":
        return f"pow({names[0]}, {names[1]})"
    if len(names) == 2:
        return f"{names[0]} {operation.name} {names[1]}"
    return f"-{names[0]}" if operation.name == "negative" else f"{operation.name}({names[0]})"


def _name(x: object) -> str:
    return f"x{x.index}" if isinstance(x, Tracer) else f"({float(x)!r})"  # type: ignore[arg-type]
