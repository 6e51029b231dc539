"""A trace as the text of one JavaScript function of double-precision numbers.

The same assignments, in the same order, as `sim.numerics.scalar_kernel` writes in Python. Constants are written so that
they are read as the same doubles; arithmetic, `sqrt`, `abs`, `min` and `max` are then the same to the last digit, and
sine, cosine, tangent, arc tangents and powers to the last digit or two, which is left to each engine.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from sim.numerics.scalar_kernel import NAME, few_names, written

if TYPE_CHECKING:
    from sim.numerics.number import Number
    from sim.numerics.trace import Operation, Trace

MODULO: Final = "const modulo=(x,y)=>{const z=x%y;return z&&z<0!==y<0?z+y:z};"
"""The remainder with the sign of the divisor, which the functions call; once a page."""


def javascript(trace: Trace, name: str) -> str:
    """Return a traced function as ``function name(a,r)``, which reads an array and writes its results into another.

    Parameters
    ----------
    trace : Trace
        Without constants that are arrays.
    name : str
        Of the function.

    Examples
    --------
    >>> from sim.numerics.trace import record
    >>> javascript(record(lambda functions: lambda x: (x[0] * x[0] + 1.0, functions.sqrt(x[1])), 2), "both")
    'function both(a,r){let x0=a[0],x1=a[1];r[0]=((x0*x0)+1);r[1]=Math.sqrt(x1);return r}'
    """
    lines, results = written(trace, _expression, _constant)
    returned = ";".join(f"r[{place}]={text}" for place, text in enumerate(results))
    *body, last = few_names([*lines, returned])
    names = [f"x{i}" for i in range(trace.arguments)]
    begin = [
        f"{each}=a[{place}]" for place, each in enumerate(names) if any(each in NAME.findall(x) for x in (*body, last))
    ]
    others = sorted({line.partition(" = ")[0] for line in body} - set(names), key=lambda each: int(each[1:]))
    head = ",".join([*begin, *others])
    text = ";".join([*(line.replace(" = ", "=", 1) for line in body), last, "return r"])
    return f"function {name}(a,r){{{f'let {head};' if head else ''}{text}}}"


def _constant(x: Number) -> str:
    number = float(x)
    if math.isinf(number):
        return "Infinity" if number > 0.0 else "-Infinity"
    text = repr(number).removesuffix(".0")
    return f"({text})" if text.startswith("-") else text


def _expression(operation: Operation, operands: list[str]) -> str:
    match operation.name:
        case "negative":
            return f"(-{operands[0]})"
        case "either":
            return f"({operands[0]}?{operands[1]}:{operands[2]})"
        case "%":
            return f"modulo({operands[0]},{operands[1]})"
        case name if name.isalnum():
            return f"Math.{name}({','.join(operands)})"
        case name:
            return f"({operands[0]}{name}{operands[1]})"
