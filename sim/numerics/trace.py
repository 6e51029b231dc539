"""Straight-line arithmetic, written down once, to be run quickly afterwards.

A function of numbers that neither compares them nor asks their kind does the same sums whatever it is given. It is run
once on stand-ins that write each operation down. What is written down takes each common term once, leaves out what is
multiplied by 0, and needs no call, attribute or tuple in between. `compiled` makes it one function of floats;
`ArrayKernel` runs it on rows of an array in buffers that stay in the cache.
"""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any, Final, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from sim.numerics.number import MathFunctions, Number

UFUNCS: Final[dict[str, np.ufunc]] = {
    "+": np.add,
    "-": np.subtract,
    "*": np.multiply,
    "/": np.divide,
    "**": np.power,
    "negative": np.negative,
    "sqrt": np.sqrt,
    "atan": np.arctan,
}


class Operation(NamedTuple):
    """One operation, and what it is done to: terms and numbers."""

    operation: str
    operands: tuple[Number, ...]


class Trace(NamedTuple):
    """How many arguments there are, the operations in order, and the results: terms, or numbers that never change."""

    arguments: int
    lines: list[Operation]
    results: tuple[Number, ...]


class Tracer:
    """Stands for an argument or for the result of a line while a function is recorded."""

    __slots__ = ("index", "tape")
    __array_ufunc__ = None

    def __init__(self, tape: Recorder, index: int) -> None:
        self.tape, self.index = tape, index

    def __add__(self, other: Number) -> Number:
        return self if _is(other, 0.0) else self.tape.put("+", self, other)

    def __radd__(self, other: Number) -> Number:
        return self if _is(other, 0.0) else self.tape.put("+", other, self)

    def __sub__(self, other: Number) -> Number:
        return self if _is(other, 0.0) else self.tape.put("-", self, other)

    def __rsub__(self, other: Number) -> Number:
        return -self if _is(other, 0.0) else self.tape.put("-", other, self)

    def __mul__(self, other: Number) -> Number:
        return 0.0 if _is(other, 0.0) else self if _is(other, 1.0) else self.tape.put("*", self, other)

    def __rmul__(self, other: Number) -> Number:
        return self * other

    def __truediv__(self, other: Number) -> Number:
        return self if _is(other, 1.0) else self.tape.put("/", self, other)

    def __rtruediv__(self, other: Number) -> Number:
        return 0.0 if _is(other, 0.0) else self.tape.put("/", other, self)

    def __pow__(self, other: Number) -> Number:
        return self.tape.put("**", self, other)

    def __neg__(self) -> Number:
        return self.tape.put("negative", self)


def _is(value: Number, number: float) -> bool:
    """Tell whether a value is a plain number, and that one."""
    return isinstance(value, float | int) and value == number


class Recorder:
    """The lines written so far, none of them twice."""

    def __init__(self, arguments: int) -> None:
        self.arguments = arguments
        self.lines: list[Operation] = []
        self._known: dict[tuple[Any, ...], Tracer] = {}

    def put(self, operation: str, *operands: Number) -> Tracer:
        """Write an operation down, or return the term that it gave before."""
        marks = [("term", x.index) if isinstance(x, Tracer) else (type(x), _mark(x)) for x in operands]
        key = (operation, *(sorted(marks, key=repr) if operation in "+*" else marks))
        if key not in self._known:
            self._known[key] = Tracer(self, self.arguments + len(self.lines))
            self.lines.append(Operation(operation, operands))
        return self._known[key]

    def functions(self) -> MathFunctions:
        """Return the functions to be recorded with."""
        return SimpleNamespace(
            sqrt=lambda x: self.put("sqrt", x) if isinstance(x, Tracer) else np.sqrt(x),
            atan=lambda x: self.put("atan", x) if isinstance(x, Tracer) else np.arctan(x),
        )


def _mark(value: Number) -> Number:
    return id(value) if isinstance(value, np.ndarray) else value


def record(make: Callable[[MathFunctions], Callable[..., Sequence[Number]]], *counts: int) -> Trace:
    """Run a function on stand-ins and return what it did.

    Parameters
    ----------
    make : function
        Takes `MathFunctions` and returns the function to record, which takes as many sequences as there are `counts`.
    counts : int
        The length of each.
    """
    tape = Recorder(sum(counts))
    terms = iter([Tracer(tape, i) for i in range(tape.arguments)])
    groups = [tuple(next(terms) for _ in range(count)) for count in counts]
    return Trace(tape.arguments, tape.lines, tuple(make(tape.functions())(*groups)))


def compiled(recording: Trace) -> Callable[..., tuple[float, ...]]:
    """Return the recorded function as one of a sequence of floats.

    Examples
    --------
    >>> recording = record(lambda functions: lambda x: (x[0] * x[0] + 1.0, functions.sqrt(x[1])), 2)
    >>> compiled(recording)((3.0, 4.0))
    (10.0, 2.0)
    """
    space: dict[str, Any] = {"sqrt": math.sqrt, "atan": math.atan}
    exec(_text(recording), space)
    made: Callable[..., tuple[float, ...]] = space["run"]
    return made


def _uses(recording: Trace) -> list[int]:
    """Return how often each argument and each line is used."""
    uses = [0] * (recording.arguments + len(recording.lines))
    for operands in (*(line.operands for line in recording.lines), recording.results):
        for x in operands:
            if isinstance(x, Tracer):
                uses[x.index] += 1
    return uses


def _text(recording: Trace) -> str:
    """Return the recorded function as text; what is used once stands where it is used."""
    uses = _uses(recording)
    words = [f"x{i}" for i in range(recording.arguments)]

    def word(x: Number) -> str:
        return words[x.index] if isinstance(x, Tracer) else repr(float(x))

    lines = ["def run(arguments):", f"({', '.join(words)},) = arguments"]
    for index, (operation, operands) in enumerate(recording.lines, start=recording.arguments):
        parts = [word(x) for x in operands]
        infix = f"({parts[0]} {operation} {parts[-1]})"
        plain = {"negative": f"(-{parts[0]})"} | {name: f"{name}({parts[0]})" for name in ("sqrt", "atan")}
        text = plain.get(operation, infix)
        if uses[index] > 1:
            lines.append(f"x{index} = {text}")
            text = f"x{index}"
        words.append(text)
    return "\n    ".join([*lines, f"return ({' '.join(f'{word(x)},' for x in recording.results)})"])
