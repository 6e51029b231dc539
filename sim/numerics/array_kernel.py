"""A trace evaluated on arrays, one entry per flight, with one NumPy call per operation.

Each operation writes its result into a buffer, and a buffer is used again once its last reader is done, so that all
of them together stay in the processor's cache and nothing is allocated during a call.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import numpy as np

from sim.numerics.trace import Trace, Tracer

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    Array = NDArray[np.float64]

CACHE_LINE_BYTES: Final = 64
"""Arrays that begin on a cache line are processed about a third faster."""
_UFUNCS: Final[dict[str, np.ufunc]] = {
    "+": np.add,
    "-": np.subtract,
    "*": np.multiply,
    "/": np.divide,
    "**": np.power,
    "negative": np.negative,
    "sqrt": np.sqrt,
    "atan": np.arctan,
}


def aligned_empty(*shape: int) -> Array:
    """Return an uninitialised array that begins on a cache line; so does each row where 8 divides its length."""
    raw = np.empty(math.prod(shape) * 8 + CACHE_LINE_BYTES, dtype=np.uint8)
    start = -raw.ctypes.data % CACHE_LINE_BYTES
    return raw[start : start + math.prod(shape) * 8].view(np.float64).reshape(shape)


class _Program(NamedTuple):
    """A trace with buffers of one width: the arguments, the calls in order, and the results."""

    arguments: Array
    calls: list[tuple[np.ufunc, tuple[Any, ...]]]
    results: list[Number]


class ArrayKernel:
    """A right-hand side (t, state) -> rates for `sim.numerics.ode`; the state has one column per flight.

    Parameters
    ----------
    trace : Trace
        Of a function of the rows of the state, and of the inputs. Its constants may be arrays, one entry per flight.
    inputs : function or None
        Time -> the arguments of the trace that follow the state: numbers, or arrays with one entry per flight.
    columns : slice
        The flights that this kernel evaluates, of those that constants and inputs have entries for.
    """

    def __init__(
        self,
        trace: Trace,
        inputs: Callable[[float], Sequence[Number]] | None = None,
        columns: slice = slice(None),
    ) -> None:
        self._trace, self._inputs, self._columns = trace, inputs, columns
        self._programs: dict[int, _Program] = {}

    def __str__(self) -> str:
        """List the NumPy calls in order, with the buffer b that each writes to, and the results."""
        trace = self._trace
        names = [f"x{i}" for i in range(trace.arguments)] + [f"b{i}" for i in _buffers(trace)]

        def name(x: Number) -> str:
            return names[x.index] if isinstance(x, Tracer) else "array" if isinstance(x, np.ndarray) else repr(float(x))

        lines = [
            f"{_UFUNCS[operation.name].__name__}({', '.join(map(name, operation.operands))}, out={names[index]})"
            for index, operation in enumerate(trace.operations, start=trace.arguments)
        ]
        return "\n".join([*lines, f"results: {', '.join(map(name, trace.results))}"])

    def columns(self, start: int, stop: int) -> ArrayKernel:
        """Return the kernel of some of the flights."""
        constants = (x for operation in self._trace.operations for x in operation.operands)
        if self._inputs is None and not any(isinstance(x, np.ndarray) and x.ndim for x in constants):
            return self
        return ArrayKernel(self._trace, self._inputs, slice(start, stop))

    def __call__(self, t: float, state: Array) -> Array:
        """Return the rates at a state, both of shape (n, columns)."""
        rates = np.empty(state.shape)
        self.evaluate_into(t, state, rates)
        return rates

    def state_buffer(self, count: int, width: int) -> Array:
        """Return the kernel's own array for a state of `count` rows; a state written there is not copied again."""
        return self._program(width).arguments[:count]

    def evaluate_into(self, t: float, state: Array, rates: Array) -> None:
        """Write the rates at a state into an array."""
        count, width = state.shape
        arguments, calls, results = self._program(width)
        if state.ctypes.data != arguments.ctypes.data:
            arguments[:count] = state
        if self._inputs is not None:
            for row, value in zip(arguments[count:], self._inputs(t), strict=True):
                row[:] = self._cut(value)
        for ufunc, operands in calls:
            ufunc(*operands)
        for row, result in zip(rates, results, strict=True):
            row[:] = result

    def _cut(self, value: Number) -> Number:
        """Return the entries of this kernel's flights; a number is the same for all."""
        return value[self._columns] if isinstance(value, np.ndarray) and value.ndim else value

    def _program(self, width: int) -> _Program:
        if width not in self._programs:
            self._programs[width] = self._bind(width)
        return self._programs[width]

    def _bind(self, width: int) -> _Program:
        """Allocate the buffers, and give each operation its operands and its output."""
        trace, order = self._trace, _buffers(self._trace)
        arguments = aligned_empty(trace.arguments, width)
        buffers = [aligned_empty(width) for _ in range(max(order, default=-1) + 1)]
        rows = [*arguments, *(buffers[i] for i in order)]

        def bound(x: Number) -> Number:
            return rows[x.index] if isinstance(x, Tracer) else np.asarray(self._cut(x), dtype=float)

        calls = [
            (_UFUNCS[operation.name], (*map(bound, operation.operands), rows[index]))
            for index, operation in enumerate(trace.operations, start=trace.arguments)
        ]
        return _Program(arguments, calls, [bound(x) for x in trace.results])


def _buffers(trace: Trace) -> list[int]:
    """Return the number of the buffer that each operation writes to: a free one, the one freed last, or a new one."""
    last = _last_readers(trace)
    order: list[int] = []
    free: list[int] = []
    count = 0
    for index, operation in enumerate(trace.operations, start=trace.arguments):
        done = {x.index for x in operation.operands if isinstance(x, Tracer) and last[x.index] == index}
        free += [order[i - trace.arguments] for i in sorted(done) if i >= trace.arguments]
        if not free:
            free.append(count)
            count += 1
        order.append(free.pop())
    return order


def _last_readers(trace: Trace) -> dict[int, int]:
    """Return the last operation that reads each tracer, −1 for results, whose buffers are not used again."""
    last: dict[int, int] = {}
    for index, operation in enumerate(trace.operations, start=trace.arguments):
        last |= {x.index: index for x in operation.operands if isinstance(x, Tracer)}
    return last | {x.index: -1 for x in trace.results if isinstance(x, Tracer)}
