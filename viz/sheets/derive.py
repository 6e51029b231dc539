"""A derivation as a sheet, as LaTeX source and as a page of its own; numbers in SI units.

In SI the equations hold as they stand; US units would need a factor in each.
"""

from __future__ import annotations

import re
from pathlib import Path
from textwrap import indent
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.sheets.blocks import Value, Verbatim, next_steps, rows, say
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sim.derivation.steps import Derivation, Number
    from viz.sheets.blocks import Block, Cell, Table

GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "epsilon": "ε",
    "theta": "θ",
    "lambda": "λ",
    "mu": "μ",
    "phi": "φ",
    "rho": "ρ",
    "tau": "τ",
    "omega": "ω",
    "Omega": "Ω",
}

FORMULAS = {letter: f"\\{name}" for name, letter in GREEK.items()}
FORMULAS |= {"²": "^{2}", "³": "^{3}", "°": r"^{\circ}", "−": "-", "×": r"\times", "…": r"\dots", "<": "<", ">": ">"}
"""Letter of a text -> what sets it in a formula."""


def sheet(answer: Derivation) -> Iterator[Block]:
    """Yield each step with its formula, then the numbers inserted and the results."""
    yield say("{title}\n", title=answer.title)
    for number, step in enumerate(answer.steps, 1):
        yield say(f"{number}. {{words}}", words=step.words)
        yield Verbatim("", f"\n{indent(step.text, '      ')}\n" if step.text else "")
    yield _numbers(inserted(answer), answer.numbers)
    yield _numbers("Results", answer.results)
    yield next_steps(
        "another powerplant, by adding --powerplant NAME to this command", "a page to print, by adding --html FILE"
    )


def typeset(answer: Derivation) -> str:
    """Return the derivation as the body of a LaTeX document: words as paragraphs, formulas displayed."""
    parts = [rf"\section*{{{_in_tex(answer.title)}}}"]
    for step in answer.steps:
        parts.append(_in_tex(step.words))
        if step.latex:
            parts.append(rf"\[ {step.latex} \]")
    lines = (
        f"{symbol(row.symbol)}: {meaning}, {value}" for row, meaning, value in _shown(answer.numbers + answer.results)
    )
    return "\n\n".join([*parts, *map(_in_tex, (f"{inserted(answer)}.", *lines, *answer.cautions))])


def _in_tex(words: str) -> str:
    """Return words with what LaTeX takes for a command escaped, and letters that its text fonts lack as formulas."""
    escaped = re.sub(r"[%&#_$]", r"\\\g<0>", words)
    return re.sub(
        f"[{''.join(FORMULAS)}]+", lambda run: f"${' '.join(FORMULAS[letter] for letter in run[0])}$", escaped
    )


def page(answer: Derivation) -> str:
    """Return the derivation as one HTML page that needs nothing else: formulas are MathML, which browsers set."""
    from jinja2 import Environment

    template = Path(__file__).with_name("derived.html.jinja").read_text(encoding="utf-8")
    environment = Environment(autoescape=True, trim_blocks=True, lstrip_blocks=True)
    environment.filters["symbol"] = symbol
    return environment.from_string(template).render(
        answer=answer,
        inserted=inserted(answer),
        numbers=list(_shown(answer.numbers)),
        results=list(_shown(answer.results)),
        cautions=answer.cautions,
    )


def inserted(answer: Derivation) -> str:
    """Return the heading of the numbers inserted, with the flight that they are of."""
    return f"Numbers inserted: {answer.condition}" if answer.condition else "Numbers inserted"


def symbol(written: str) -> str:
    """Return a symbol as people write it: Greek letters for their names, `lambda_1` is λ1, `1/tau` is 1/τ."""
    return re.sub(r"[A-Za-z]+", lambda name: GREEK.get(name[0], name[0]), written).replace("_", "")


def _numbers(title: str, numbers: Sequence[Number]) -> Table:
    lines: Iterator[list[Cell]] = ([quantity(row.name).meaning, symbol(row.symbol), _value(row)] for row in numbers)
    return rows(title, ["Quantity", "Symbol", "Value"], lines)


def _shown(numbers: Sequence[Number]) -> Iterator[tuple[Number, str, str]]:
    for row in numbers:
        yield row, quantity(row.name).meaning, text_of(_value(row), "si")


def _value(row: Number) -> Value:
    whole = not quantity(row.name).unit and row.value == round(row.value)
    return Value(row.name, row.value, digits=6, decimals=0 if whole else None, held=row.name == "spin_rad_s")
