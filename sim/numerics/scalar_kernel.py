"""A trace as one Python function of floats.

The function is generated as text and compiled: assignments to local variables, without calls, attributes or tuples in
between. A term that is used once is written where it is used.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from sim.numerics.trace import Operation, Trace, Tracer

if TYPE_CHECKING:
    from collections.abc import Callable

    from sim.numerics.number import Number


def scalar_kernel(trace: Trace) -> Callable[..., tuple[float, ...]]:
    """Return the traced function as a function of one sequence of floats.

    Examples
    --------
    >>> from sim.numerics.trace import record
    >>> kernel = scalar_kernel(record(lambda functions: lambda x: (x[0] * x[0] + 1.0, functions.sqrt(x[1])), 2))
    >>> kernel((3.0, 4.0))
    (10.0, 2.0)
    """
    namespace: dict[str, Any] = {"sqrt": math.sqrt, "atan": math.atan}
    exec(source(trace), namespace)
    kernel: Callable[..., tuple[float, ...]] = namespace["kernel"]
    return kernel


def source(trace: Trace) -> str:
    """Return the text of the function."""
    uses = _uses(trace)
    terms = [f"x{i}" for i in range(trace.arguments)]

    def term(x: Number) -> str:
        return terms[x.index] if isinstance(x, Tracer) else repr(float(x))

    lines = ["def kernel(arguments):", f"({', '.join(terms)},) = arguments"]
    for index, operation in enumerate(trace.operations, start=trace.arguments):
        text = _expression(operation, [term(x) for x in operation.operands])
        if uses[index] > 1:
            lines.append(f"x{index} = {text}")
            text = f"x{index}"
        terms.append(text)
    return "\n    ".join([*lines, f"return ({' '.join(f'{term(x)},' for x in trace.results)})"])


def _expression(operation: Operation, operands: list[str]) -> str:
    match operation.name:
        case "negative":
            return f"(-{operands[0]})"
        case "sqrt" | "atan":
            return f"{operation.name}({operands[0]})"
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
