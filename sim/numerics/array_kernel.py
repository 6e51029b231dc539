"""A recorded function on rows: every operation writes into a buffer that is used again as soon as it is free."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import numpy as np

from sim.numerics.trace import UFUNCS, Trace, Tracer

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from sim.numerics.number import Number

    Array = NDArray[np.float64]

CACHE_LINE_BYTES: Final = 64
"""What the processor fetches at once; rows that begin on such a line are a third quicker."""


def aligned_empty(*shape: int) -> Array:
    """Return an array, not filled, that begins on a cache line, and each row of it too where 8 divides its length."""
    raw = np.empty(math.prod(shape) * 8 + CACHE_LINE_BYTES, dtype=np.uint8)
    start = -raw.ctypes.data % CACHE_LINE_BYTES
    return raw[start : start + math.prod(shape) * 8].view(np.float64).reshape(shape)


class _Bound(NamedTuple):
    """The recording with buffers of one width: where arguments go, what to do, where results are found."""

    arguments: Array
    program: list[tuple[np.ufunc, tuple[Any, ...]]]
    results: list[Number]


class ArrayKernel:
    """A right-hand side (t, state) -> rates for `sim.numerics.ode`, one column a flight.

    Parameters
    ----------
    recording : Trace
        Of a function of the rows of the state and of what `inputs` returns. Numbers in it may be rows.
    inputs : function or None
        Of time, returns numbers or rows: what the function takes besides the state.
    columns : slice
        Which columns of those rows belong to the state it will be given.
    """

    def __init__(
        self,
        recording: Trace,
        inputs: Callable[[float], Sequence[Number]] | None = None,
        columns: slice = slice(None),
    ) -> None:
        self._recording, self._inputs, self._columns = recording, inputs, columns
        self._bounds: dict[int, _Bound] = {}

    def columns(self, start: int, stop: int) -> ArrayKernel:
        """Return the same for some of the columns."""
        rows = (x for line in self._recording.lines for x in line.operands if isinstance(x, np.ndarray) and x.ndim)
        if self._inputs is None and not any(True for _ in rows):
            return self
        return ArrayKernel(self._recording, self._inputs, slice(start, stop))

    def __call__(self, t: float, state: Array) -> Array:
        """Return the rates at a state, both of shape (n, columns)."""
        rates = np.empty(state.shape)
        self.into(t, state, rates)
        return rates

    def place(self, count: int, width: int) -> Array:
        """Return an array for a state of `count` rows; a state written there need not be copied by `into`."""
        return self._bind(width).arguments[:count]

    def into(self, t: float, state: Array, rates: Array) -> None:
        """Write the rates at a state into an array."""
        count, width = state.shape
        arguments, program, results = self._bind(width)
        if state.ctypes.data != arguments.ctypes.data:
            arguments[:count] = state
        if self._inputs is not None:
            for row, value in zip(arguments[count:], self._inputs(t), strict=True):
                row[:] = self._cut(value)
        for operation, operands in program:
            operation(*operands)
        for row, found in zip(rates, results, strict=True):
            row[:] = found

    def _cut(self, value: Number) -> Number:
        """Return the columns of a row that belong here; a number belongs to all."""
        return value[self._columns] if isinstance(value, np.ndarray) and value.ndim else value

    def _bind(self, width: int) -> _Bound:
        """Give each line its operands and a buffer; a buffer is free after its last reader."""
        if width in self._bounds:
            return self._bounds[width]
        recording = self._recording
        arguments = aligned_empty(recording.arguments, width)
        rows: list[Number] = list(arguments)
        last = _last_readers(recording)
        free: list[Array] = []

        def bound(x: Number) -> Number:
            return rows[x.index] if isinstance(x, Tracer) else np.asarray(self._cut(x), dtype=float)

        program = []
        for index, (operation, operands) in enumerate(recording.lines, start=recording.arguments):
            given = [bound(x) for x in operands]
            done = {x.index for x in operands if isinstance(x, Tracer) and last[x.index] == index}
            free += [rows[i] for i in sorted(done) if i >= recording.arguments]
            rows.append(free.pop() if free else aligned_empty(width))
            program.append((UFUNCS[operation], (*given, rows[index])))
        self._bounds[width] = _Bound(arguments, program, [bound(x) for x in recording.results])
        return self._bounds[width]


def _last_readers(recording: Trace) -> dict[int, int]:
    """Return for each term the last line that reads it; a result is read by none, so that it stays."""
    last: dict[int, int] = {}
    for index, line in enumerate(recording.lines, start=recording.arguments):
        last |= {x.index: index for x in line.operands if isinstance(x, Tracer)}
    return last | {x.index: -1 for x in recording.results if isinstance(x, Tracer)}
