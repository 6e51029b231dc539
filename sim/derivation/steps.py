"""A derivation as data: words and formula of each step, the numbers inserted, and the results."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, ClassVar

from sim.answer import ASIDE, Answer

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Step:
    """One step: why, and the formula it arrives at.

    Attributes
    ----------
    words : str
        Full sentences.
    text, latex, mathml : str
        The same formula for a terminal, for a typesetter and for a page.
    """

    words: str
    text: str
    latex: str
    mathml: str


@dataclass(frozen=True, slots=True)
class Number:
    """What a symbol stands for in the scenario.

    Attributes
    ----------
    symbol : str
        As in the formulas.
    name : str
        Name of its quantity, unit included.
    value : float
        In the unit of the name.
    """

    symbol: str
    name: str
    value: float


@dataclass(frozen=True, slots=True)
class Derivation(Answer):
    """A question, the steps to its answer, the numbers inserted and the results.

    Attributes
    ----------
    title : str
        The question in a line.
    steps : tuple of Step
        In order.
    numbers : tuple of Number
        The numbers inserted.
    results : tuple of Number
        What comes out, in the names of the other commands.
    condition : str
        Powerplant and flight condition of the numbers; not part of the JSON object.
    """

    main: ClassVar[str] = "results"

    title: str
    steps: tuple[Step, ...]
    numbers: tuple[Number, ...]
    results: tuple[Number, ...]
    condition: str = field(default="", metadata=ASIDE)


def step(words: str, *formulas: Any) -> Step:  # noqa: ANN401
    """Return a step whose formula is one expression or several side by side."""
    import sympy

    return Step(
        words=words,
        text="\n\n".join(sympy.pretty(formula, use_unicode=True, wrap_line=False) for formula in formulas),
        latex=r" \qquad ".join(sympy.latex(formula) for formula in formulas),
        mathml="<mspace width='2em'/>".join(_mathml(formula) for formula in formulas),
    )


def _mathml(formula: Any) -> str:  # noqa: ANN401
    """Return the formula for a page, with the space between factors that a book leaves and brackets of their size."""
    import sympy

    text: str = sympy.mathml(formula, printer="presentation")
    for plain, better in (
        ("<mo>&InvisibleTimes;</mo>", "<mspace width='0.17em'/>"),
        ("<mo>(", "<mo stretchy='false'>("),
    ):
        text = text.replace(plain, better)
    return text.replace("<mo>)", "<mo stretchy='false'>)")


def equation(left: str, right: Any) -> Any:  # noqa: ANN401
    """Return the equation of a new symbol and an expression, kept as it stands."""
    import sympy

    return sympy.Eq(sympy.Symbol(left), right, evaluate=False)


def put_in(expression: Any, numbers: Mapping[Any, float]) -> float:  # noqa: ANN401
    """Return the expression's value with the numbers inserted, evaluated to 30 digits and rounded once."""
    import sympy

    exact = {symbol: sympy.Float(value, 30) for symbol, value in numbers.items()}
    return float(expression.subs(exact).evalf(30))


def listed(numbers: Mapping[Any, float], names: Mapping[Any, str]) -> tuple[Number, ...]:
    """Return the numbers inserted, each with the name of its quantity."""
    return tuple(Number(str(symbol), names.get(symbol, ""), value) for symbol, value in numbers.items())
