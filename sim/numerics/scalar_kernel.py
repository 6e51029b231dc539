"""A trace as one Python function of floats.

The function is generated as text and compiled: assignments to local variables, without calls, attributes or tuples in
between. A term that is used once is written where it is used.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any, Final

from sim.numerics.trace import Operation, Trace, Tracer

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import Number

NAME: Final = re.compile(r"\bx\d+\b")
"""Of an argument or a term in the text."""


def scalar_kernel(trace: Trace) -> Callable[..., tuple[float, ...]]:
    """Return the traced function as a function of one sequence of floats.

    Examples
    --------
    >>> from sim.numerics.trace import record
    >>> kernel = scalar_kernel(record(lambda functions: lambda x: (x[0] * x[0] + 1.0, functions.sqrt(x[1])), 2))
    >>> kernel((3.0, 4.0))
    (10.0, 2.0)
    """
    namespace: dict[str, Any] = {name: getattr(math, name) for name in ("sqrt", "sin", "cos", "tan", "atan", "atan2")}
    exec(source(trace), namespace)
    kernel: Callable[..., tuple[float, ...]] = namespace["kernel"]
    return kernel


def source(trace: Trace) -> str:
    """Return the text of the function."""
    assignments, results = written(trace, _expression, lambda x: repr(float(x)))
    arguments = ", ".join(f"x{i}" for i in range(trace.arguments))
    body = [*assignments, f"return ({' '.join(f'{text},' for text in results)})"]
    return "\n    ".join(["def kernel(arguments):", f"({arguments},) = arguments", *few_names(body)])


def written(
    trace: Trace, expression: Callable[[Operation, list[str]], str], constant: Callable[[Number], str]
) -> tuple[list[str], list[str]]:
    """Return the assignments of a trace as text, ``x7 = ...`` a line, and the text of its results.

    Parameters
    ----------
    trace : Trace
        Without constants that are arrays.
    expression : function
        (operation, texts of its operands) -> text of it, in parentheses where that is needed.
    constant : function
        Number -> text of it.
    """
    uses = _uses(trace)
    terms = [f"x{i}" for i in range(trace.arguments)]

    def term(x: Number) -> str:
        return terms[x.index] if isinstance(x, Tracer) else constant(x)

    lines = []
    for index, operation in enumerate(trace.operations, start=trace.arguments):
        text = expression(operation, [term(x) for x in operation.operands])
        if uses[index] > 1:
            lines.append(f"x{index} = {text}")
            text = f"x{index}"
        terms.append(text)
    return lines, [term(x) for x in trace.results]


def few_names(lines: list[str]) -> list[str]:
    """Return the assignments with names used again once their last reader is done.

    CPython takes an instruction more for each local variable beyond 256 of them: a function of four thousand operations
    is a seventh quicker so.
    """
    last = {name: number for number, line in enumerate(lines) for name in NAME.findall(line.rpartition(" = ")[2])}
    names: dict[str, str] = {}
    free: list[str] = []
    found = []

    def now(match: re.Match[str]) -> str:
        return names.get(match.group(), match.group())

    for number, line in enumerate(lines):
        target, assigned, text = line.rpartition(" = ")
        free += sorted(names.get(name, name) for name in set(NAME.findall(text)) if last[name] == number)
        text = NAME.sub(now, text)
        if assigned:
            names[target] = free.pop() if free else target
        found.append(f"{names[target]}{assigned}{text}" if assigned else text)
    return found


def _expression(operation: Operation, operands: list[str]) -> str:
    match operation.name:
        case "negative":
            return f"(-{operands[0]})"
        case "either":
            return f"({operands[1]} if {operands[0]} else {operands[2]})"
        case name if name.isalnum():
            return f"{name}({', '.join(operands)})"
        case _:
            return f"({operands[0]} {operation.name} {operands[1]})"


def _uses(trace: Trace) -> list[int]:
    """Return how often each argument and each term is used."""
    uses = [0] * (trace.arguments + len(trace.operations))
    for operands in (*(operation.operands for operation in trace.operations), trace.results):
        for x in operands:
            if isinstance(x, Tracer):
                uses[x.index] += 1
    return uses
