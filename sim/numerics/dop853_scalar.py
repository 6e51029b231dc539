"""The step of order 8 on Python floats, written out line by line for a number of components."""

from __future__ import annotations

import math
from functools import cache
from typing import TYPE_CHECKING, Any

from sim.numerics.dop853_tableau import error_3, error_5, new, nodes, weights

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence


def _sum(parts: Sequence[float], component: int) -> str:
    """Return the text of the weighted sum of the slopes of one component."""
    return " + ".join(f"{part!r} * k{i}_{component}" for i, part in enumerate(parts) if part) or "0.0"


def _unpacked(name: str, count: int) -> str:
    """Return the text of the names of all components, ready to be assigned to or built from."""
    return "(" + " ".join(f"{name}_{j}," for j in range(count)) + ")"


@cache
def unrolled_step(count: int) -> Callable[..., Any]:
    """Return step(f, t, h, last, y, judged) -> (new y, error as a tuple of pairs, or None where not judged).

    Loops over slopes and components cost more than the arithmetic in them, so the text of the step is written out once
    for a number of components, with the coefficients of the tableau in it.
    """
    lines = ["def step(f, t, h, last, y, judged):", f"{_unpacked('y', count)} = y"]
    for i, (node, parts) in enumerate(zip(nodes, weights, strict=True)):
        time = "last" if node == 1.0 else f"t + {node!r} * h"
        sums = " ".join(f"y_{j} + h * ({_sum(parts, j)})," for j in range(count)) if parts else ""
        lines.append(f"{_unpacked(f'k{i}', count)} = f({time}, {f'({sums})' if parts else 'y'})")
    lines.append("new = (" + " ".join(f"y_{j} + h * ({_sum(new, j)})," for j in range(count)) + ")")
    pairs = " ".join(f"(h * ({_sum(error_5, j)}), h * ({_sum(error_3, j)}))," for j in range(count))
    lines += ["if not judged:", "    return new, None", f"return new, ({pairs})"]
    space: dict[str, Any] = {}
    exec("\n    ".join(lines), space)
    made: Callable[..., Any] = space["step"]
    return made


class ScalarStepper:
    """Steps of one flight; see `sim.numerics.ode.Stepper`."""

    def __init__(self, f: Callable[..., Any], state: Sequence[float], *, relative: float, absolute: float) -> None:
        self._f, self._relative, self._absolute = f, relative, absolute
        self.state: tuple[float, ...] = tuple(map(float, state))
        self._new = self.state
        self._step = unrolled_step(len(self.state))

    def trial(self, t: float, h: float, last: float, *, judged: bool) -> float:
        """Compute a step from t over h and return its error over what is allowed; infinite where numbers ran away."""
        try:
            self._new, errors = self._step(self._f, t, h, last, self.state, judged)
        except ArithmeticError:
            return math.inf
        if not math.isfinite(sum(self._new)):
            return math.inf
        return self._error(errors) if judged else 0.0

    def accept(self) -> None:
        """Move on to the state of the trial."""
        self.state = self._new

    def size(self, values: Sequence[float]) -> float:
        """Return the root mean square of values over the allowed errors."""
        pairs = zip(values, self.state, strict=True)
        total = sum((x / (self._absolute + self._relative * abs(y))) ** 2 for x, y in pairs)
        return math.sqrt(total / len(self.state))

    def _error(self, errors: Sequence[tuple[float, float]]) -> float:
        fifth = third = 0.0
        for (e5, e3), old, new_ in zip(errors, self.state, self._new, strict=True):
            allowed = self._absolute + self._relative * max(abs(old), abs(new_))
            fifth += (e5 / allowed) ** 2
            third += (e3 / allowed) ** 2
        both = math.sqrt((fifth + 0.01 * third) * len(self.state))
        return fifth / both if both else 0.0

    def slope(self, t: float) -> Sequence[float]:
        """Return the rates at the state reached."""
        rates: Sequence[float] = self._f(t, self.state)
        return rates
