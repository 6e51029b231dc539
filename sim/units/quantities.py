"""The one table of names: what each numeric name means, its symbol and its unit.

Axis labels, report headings and the explanation of JSON keys are read from here, and a test refuses a public
numeric name that is not in it. The rows stand in ``quantities.toml`` beside this file, one line each, so that
the table can be read, sorted and searched without reading Python.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Term:
    """One row of the vocabulary.

    Attributes
    ----------
    name : str
        The name used in code, JSON and tables, unit included: ``spin_rad_s``.
    symbol : str
        The symbol the trade writes: ``Ω``; empty where there is none.
    unit : str
        The SI unit as printed, ``rad/s``; empty for counts and ratios.
    meaning : str
        A phrase for a label; for a signed quantity it says which way is positive, in the pilot's words.
    """

    name: str
    symbol: str
    unit: str
    meaning: str

    def label(self) -> str:
        """Return the axis label: meaning and unit, ``propeller speed [rad/s]``."""
        return f"{self.meaning} [{self.unit}]" if self.unit else self.meaning


@cache
def terms() -> dict[str, Term]:
    """Return every term by name, in the order of the table."""
    text = Path(__file__).with_name("quantities.toml").read_text(encoding="utf-8")
    sections = tomllib.loads(text)
    return {name: Term(name, *row) for rows in sections.values() for name, row in rows.items()}


def term(name: str) -> Term:
    """Return the term called `name`.

    Raises
    ------
    KeyError
        When the name is not in the table: a mistake of ours, never of the user.
    """
    return terms()[name]
