"""The DOP853 step for one flight, on Python floats.

Loops over slopes and components would cost more than the arithmetic in them, so the step is generated as text, without
loops and with the coefficients in it, once for each number of components.
"""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING, Any

from sim.numerics.dop853_tableau import DOP853

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence


class ScalarStepper:
    """Steps of one flight; see `sim.numerics.ode.Stepper`."""

    def __init__(self, f: Callable[..., Any], state: Sequence[float], *, rtol: float, atol: float) -> None:
        self._f, self._rtol, self._atol = f, rtol, atol
        self.state: tuple[float, ...] = tuple(map(float, state))
        self._new = self.state
        self._step = unrolled_step(len(self.state))

    def attempt(self, t: float, h: float, end: float, *, with_error: bool) -> float:
        """Compute a step and return its error norm; infinite where the state is not finite."""
        try:
            self._new, errors = self._step(self._f, t, h, end, self.state, with_error)
        except ArithmeticError:
            return math.inf
        if not math.isfinite(sum(self._new)):
            return math.inf
        return self._step_error(errors) if with_error else 0.0

    def accept(self) -> None:
        """Take the state of the last attempt."""
        self.state = self._new

    def rates(self, t: float) -> Sequence[float]:
        """Return the rates at the present state."""
        rates: Sequence[float] = self._f(t, self.state)
        return rates

    def norm(self, values: Sequence[float]) -> float:
        """Return the root mean square of values over the errors allowed."""
        pairs = zip(values, self.state, strict=True)
        total = sum((x / (self._atol + self._rtol * abs(y))) ** 2 for x, y in pairs)
        return math.sqrt(total / len(self.state))

    def _step_error(self, errors: Sequence[tuple[float, float]]) -> float:
        fifth = third = 0.0
        for (e5, e3), old, new in zip(errors, self.state, self._new, strict=True):
            allowed = self._atol + self._rtol * max(abs(old), abs(new))
            fifth += (e5 / allowed) ** 2
            third += (e3 / allowed) ** 2
        both = math.sqrt((fifth + 0.01 * third) * len(self.state))
        return fifth / both if both else 0.0


@cache
def unrolled_step(count: int) -> Callable[..., Any]:
    """Return step(f, t, h, end, y, with_error) for a number of components.

    It returns the new state and, with the error, a pair (order 5, order 3) for each component, else None.
    """
    lines = ["def step(f, t, h, end, y, with_error):", f"{_names('y', count)} = y"]
    for i, (node, weights) in enumerate(zip(DOP853.nodes, DOP853.stage_weights, strict=True)):
        time = "end" if node == 1.0 else f"t + {node!r} * h"
        states = " ".join(f"y_{j} + h * ({_sum(weights, j)})," for j in range(count)) if weights else ""
        lines.append(f"{_names(f'k{i}', count)} = f({time}, {f'({states})' if weights else 'y'})")
    lines.append("new = (" + " ".join(f"y_{j} + h * ({_sum(DOP853.weights, j)})," for j in range(count)) + ")")
    errors = " ".join(f"(h * ({_sum(DOP853.error_5, j)}), h * ({_sum(DOP853.error_3, j)}))," for j in range(count))
    lines += ["if not with_error:", "    return new, None", f"return new, ({errors})"]
    namespace: dict[str, Any] = {}
    exec("\n    ".join(lines), namespace)
    step: Callable[..., Any] = namespace["step"]
    return step


def _sum(weights: Sequence[float], component: int) -> str:
    """Return the text of a weighted sum of the slopes of one component."""
    return " + ".join(f"{weight!r} * k{i}_{component}" for i, weight in enumerate(weights) if weight) or "0.0"


def _names(name: str, count: int) -> str:
    """Return the text of a tuple of the names of all components."""
    return "(" + " ".join(f"{name}_{j}," for j in range(count)) + ")"
