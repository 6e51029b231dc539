"""A derivation as text for a terminal, as source for a typesetter and as a page of its own; numbers in SI units.

In SI the equations hold as they stand; slugs and revolutions a minute would ask for a factor in each.
"""

from __future__ import annotations

from pathlib import Path
from textwrap import fill, indent
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.sheets import format as shown
from viz.sheets.cautions import ESTIMATE

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.studies.derive import Derivation, Number

WIDTH = 100
GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "theta": "θ",
    "lambda": "λ",
    "mu": "μ",
    "phi": "φ",
    "tau": "τ",
    "omega": "ω",
    "Omega": "Ω",
}


def text(answer: Derivation) -> str:
    """Return the derivation for a terminal."""
    parts = [answer.title]
    for number, step in enumerate(answer.steps, 1):
        parts.append(fill(f"{number}. {step.words}", WIDTH))
        if step.text:
            parts.append(indent(step.text, "      "))
    parts += ["Put in:\n" + _lines(answer.numbers), "It comes to:\n" + _lines(answer.results), ESTIMATE]
    return "\n\n".join(parts)


def typeset(answer: Derivation) -> str:
    """Return the derivation for a typesetter: words as paragraphs, formulas displayed."""
    parts = [rf"\section*{{{answer.title}}}"]
    for step in answer.steps:
        parts.append(step.words)
        if step.latex:
            parts.append(rf"\[ {step.latex} \]")
    rows = (
        f"{symbol(row.symbol)}: {meaning}, {value}" for row, meaning, value in _shown(answer.numbers + answer.results)
    )
    return "\n\n".join([*parts, *rows, ESTIMATE])


def page(answer: Derivation) -> str:
    """Return the derivation as one HTML page that needs nothing else: formulas are MathML, which browsers set."""
    from jinja2 import Environment

    template = Path(__file__).with_name("derived.html.jinja").read_text(encoding="utf-8")
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    environment.filters["symbol"] = symbol
    return environment.from_string(template).render(
        answer=answer,
        numbers=list(_shown(answer.numbers)),
        results=list(_shown(answer.results)),
        caution=ESTIMATE,
    )


def symbol(written: str) -> str:
    """Return a symbol as people write it: Greek letters for their names, `lambda_1` is λ1."""
    for name, letter in GREEK.items():
        if written == name or written.startswith(f"{name}_"):
            return letter + written[len(name) :].replace("_", "")
    return written.replace("_", "")


def _lines(numbers: Sequence[Number]) -> str:
    rows = list(_shown(numbers))
    wide = max(len(symbol(row.symbol)) for row, _, _ in rows)
    return "\n".join(f"  {symbol(row.symbol):<{wide}} = {value}   {meaning}" for row, meaning, value in rows)


def _shown(numbers: Sequence[Number]) -> Iterator[tuple[Number, str, str]]:
    for row in numbers:
        yield row, quantity(row.name).meaning, shown.amount(row.name, row.value, "si", digits=6)
