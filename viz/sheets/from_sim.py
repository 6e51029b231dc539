"""Sentences of `sim`, remarks among them, whose amounts stand in both systems of units, as those of a reader."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from sim.told import Told
from viz.sheets.blocks import Column, Either, Sentence, Table

if TYPE_CHECKING:
    from viz.sheets.blocks import Cell

BOTH = re.compile(r"(-?\d[\d.e+]*[ \u00a0][^\s()]+(?: [^\s()\d]\S*²)?) \((-?\d[\d.e+]*[ \u00a0][^()]+)\)")
"""An amount in SI and, behind it, in the units of a US shop."""


def in_one_system(text: str, units: str) -> str:
    """Return a text whose amounts stand in both systems with those of a reader, SI without one."""
    return BOTH.sub(lambda found: found[2 if units == "us" else 1], text)


def in_either_system(text: str) -> Cell:
    """Return a sentence of `sim`, whose amounts stand in both systems, ``76.2 mm (3 in)``, as one for either reader."""
    if isinstance(text, Told):
        return Sentence(text.template, {name: in_either_system(value) for name, value in text.values.items()})
    slots: dict[str, Cell] = {}

    def put(found: re.Match[str]) -> str:
        slots[f"amount{len(slots)}"] = Either(found[1], found[2])
        return f"{{amount{len(slots) - 1}}}"

    whole = BOTH.sub(put, text.replace("{", "{{").replace("}", "}}"))
    return Sentence(whole, slots) if slots else text


def remarks(sentences: tuple[Cell, ...]) -> Table:
    """Return what else is to be known of an answer, a line each."""
    told = tuple(in_either_system(cell) if isinstance(cell, str) else cell for cell in sentences)
    return Table("", (Column("Remarks", told),))
