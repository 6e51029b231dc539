"""A function of numbers, recorded once as the list of its operations.

A function without a branch performs the same operations for every argument. It is called once with `Tracer` objects in
place of numbers; each arithmetic operation on a tracer is appended to a list. A term that occurs twice is computed
once, and terms multiplied by 0 are dropped. Where a function chooses between two numbers it takes `larger`, `smaller`
or `either` of the functions passed to it, which compute both. `sim.numerics.scalar_kernel` writes a trace as Python,
`sim.numerics.javascript` as JavaScript; `sim.numerics.array_kernel` calls NumPy, knows arithmetic, `sqrt` and `atan`.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.numerics.number import Number


class Operation(NamedTuple):
    """One operation.

    Attributes
    ----------
    name : str
        ``+``, ``-``, ``*``, ``/``, ``**``, ``%``, ``<``, ``>``, ``negative``, ``abs``, ``sqrt``, ``sin``, ``cos``,
        ``tan``, ``atan``, ``atan2``, ``max``, ``min`` or ``either``, which takes a condition and two numbers.
    operands : tuple
        Tracers, or constants: numbers or arrays.
    """

    name: str
    operands: tuple[Number, ...]


class Trace(NamedTuple):
    """A recorded function.

    Attributes
    ----------
    arguments : int
        Number of scalar arguments: tracers 0 to ``arguments - 1``.
    operations : list of Operation
        In order; operation i yields tracer ``arguments + i``.
    results : tuple
        Tracers, or constants.
    """

    arguments: int
    operations: list[Operation]
    results: tuple[Number, ...]

    def __str__(self) -> str:
        """List the operations, one a line, and the results."""
        lines = [f"arguments: {', '.join(f'x{i}' for i in range(self.arguments))}"]
        lines += [f"x{i} = {_call(o)}" for i, o in enumerate(self.operations, start=self.arguments)]
        return "\n".join([*lines, f"results: {', '.join(map(_name, self.results))}"])


class Tracer:
    """Stands for an argument, or for the result of an operation, while a function is recorded."""

    __slots__ = ("index", "recorder")
    __array_ufunc__ = None

    def __init__(self, recorder: Recorder, index: int) -> None:
        self.recorder, self.index = recorder, index

    def __add__(self, other: Number) -> Number:
        return self if _is(other, 0.0) else self.recorder.append("+", self, other)

    def __radd__(self, other: Number) -> Number:
        return self if _is(other, 0.0) else self.recorder.append("+", other, self)

    def __sub__(self, other: Number) -> Number:
        return self if _is(other, 0.0) else self.recorder.append("-", self, other)

    def __rsub__(self, other: Number) -> Number:
        return -self if _is(other, 0.0) else self.recorder.append("-", other, self)

    def __mul__(self, other: Number) -> Number:
        return 0.0 if _is(other, 0.0) else self if _is(other, 1.0) else self.recorder.append("*", self, other)

    def __rmul__(self, other: Number) -> Number:
        return self * other

    def __truediv__(self, other: Number) -> Number:
        return self if _is(other, 1.0) else self.recorder.append("/", self, other)

    def __rtruediv__(self, other: Number) -> Number:
        return 0.0 if _is(other, 0.0) else self.recorder.append("/", other, self)

    def __pow__(self, other: Number) -> Number:
        return self.recorder.append("**", self, other)

    def __mod__(self, other: Number) -> Number:
        return self.recorder.append("%", self, other)

    def __lt__(self, other: Number) -> Number:
        return self.recorder.append("<", self, other)

    def __gt__(self, other: Number) -> Number:
        return self.recorder.append(">", self, other)

    def __neg__(self) -> Number:
        return self.recorder.append("negative", self)

    def __abs__(self) -> Number:
        return self.recorder.append("abs", self)

    def __bool__(self) -> bool:
        message = "a function that branches on its arguments cannot be recorded; take larger, smaller or either"
        raise TypeError(message)


def _is(value: Number, number: float) -> bool:
    """Return whether a value is a plain number equal to another; False for tracers and arrays."""
    return isinstance(value, float | int) and value == number


class Recorder:
    """The operations recorded so far, without duplicates."""

    def __init__(self, arguments: int) -> None:
        self.arguments = arguments
        self.operations: list[Operation] = []
        self._known: dict[tuple[Any, ...], Tracer] = {}

    def append(self, name: str, *operands: Number) -> Tracer:
        """Record an operation, or return the tracer of an equal one recorded before."""
        keys = [("tracer", x.index) if isinstance(x, Tracer) else (type(x), _key(x)) for x in operands]
        key = (name, *(sorted(keys, key=repr) if name in "+*" else keys))
        if key not in self._known:
            self._known[key] = Tracer(self, self.arguments + len(self.operations))
            self.operations.append(Operation(name, operands))
        return self._known[key]

    def functions(self) -> Any:  # noqa: ANN401 # `MathFunctions`, and what pilots take besides
        """Return functions that are recorded when a tracer is among their arguments."""

        def recorded(name: str, known: Callable[..., Number]) -> Callable[..., Number]:
            return lambda *given: (
                self.append(name, *given) if any(isinstance(x, Tracer) for x in given) else known(*given)
            )

        return SimpleNamespace(**{call: recorded(name, known) for call, (name, known) in FUNCTIONS.items()})


FUNCTIONS: Final[dict[str, tuple[str, Callable[..., Number]]]] = {
    "sqrt": ("sqrt", np.sqrt),
    "atan": ("atan", np.arctan),
    "sin": ("sin", math.sin),
    "cos": ("cos", math.cos),
    "tan": ("tan", math.tan),
    "atan2": ("atan2", math.atan2),
    "larger": ("max", max),
    "smaller": ("min", min),
    "either": ("either", lambda condition, x, y: x if condition else y),
}
"""Function -> name of its operation, and what it is of numbers."""


def _key(constant: Number) -> Number:
    return id(constant) if isinstance(constant, np.ndarray) else constant


def record(build: Callable[[Any], Callable[..., Sequence[Number]]], *lengths: int) -> Trace:
    """Record a function.

    Parameters
    ----------
    build : function
        Takes `FUNCTIONS` and returns the function to record, which takes one sequence for each of `lengths` and
        returns a sequence of results.
    lengths : int
        Number of scalars in each argument.

    Examples
    --------
    >>> print(record(lambda functions: lambda x: (x[0] * x[0] + 1.0, functions.sqrt(x[1])), 2))
    arguments: x0, x1
    x2 = x0 * x0
    x3 = x2 + 1.0
    x4 = sqrt(x1)
    results: x3, x4
    """
    recorder = Recorder(sum(lengths))
    tracers = iter([Tracer(recorder, i) for i in range(recorder.arguments)])
    arguments = [tuple(next(tracers) for _ in range(length)) for length in lengths]
    return Trace(recorder.arguments, recorder.operations, tuple(build(recorder.functions())(*arguments)))


def _name(x: Number) -> str:
    return f"x{x.index}" if isinstance(x, Tracer) else "array" if isinstance(x, np.ndarray) else repr(float(x))


def _call(operation: Operation) -> str:
    names = [_name(x) for x in operation.operands]
    infix = len(names) == 2 and not operation.name.isalnum()
    return f" {operation.name} ".join(names) if infix else f"{operation.name}({', '.join(names)})"
