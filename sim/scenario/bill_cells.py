"""Cells of a bill of items: text that no spreadsheet takes for a formula, numbers with point or comma, yes or no."""

from __future__ import annotations

import re

from sim.units.parsing import quoted

YES_OR_NO = {"true": True, "yes": True, "false": False, "no": False}
"""What a cell may hold for a key that is true or false."""

_FORMULA = re.compile(r"'*\s*[=+\-@\t\r]")
_DEFUSED = re.compile(r"'+\s*[=+\-@\t\r]")
_NUMBER = re.compile(
    r"(?P<sign>[+-]?)\s*(?:(?P<decimal>[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?|(?:[0-9]+[ -]+)?[0-9]+/[0-9]+)"
)


class CellError(Exception):
    """What is wrong with a cell, in a sentence."""


def defused(text: str) -> str:
    """Return text as a cell that a spreadsheet shows instead of computing it; `plain` takes it back.

    An apostrophe goes before what would begin a formula, at the beginning or, for a spreadsheet that parts cells there,
    behind a semicolon; and before such a beginning that already has one.

    References
    ----------
    CWE-1236, Improper Neutralization of Formula Elements in a CSV File; OWASP ASVS 5.0, requirement 1.2.10.

    Examples
    --------
    >>> defused("=1+1"), defused("cowl")
    ("'=1+1", 'cowl')
    """
    return ";".join(f"'{part}" if _FORMULA.match(part) else part for part in text.split(";"))


def plain(cell: str) -> str:
    """Return the text of a cell that `defused` may have made."""
    return ";".join(part[1:] if _DEFUSED.match(part) else part for part in cell.split(";"))


def number(cell: str, *, comma: bool) -> str:
    """Return the number of a cell with a decimal point; a fraction, ``45 1/2``, stays one.

    Parameters
    ----------
    cell : str
        As it came.
    comma : bool
        Whether a comma is the decimal mark, as may be where semicolons part the cells.

    Raises
    ------
    CellError
        When it is no number.
    """
    text = cell.strip().replace("−", "-")
    found = text.replace(",", ".") if comma and "." not in text else text
    if not _NUMBER.fullmatch(found):
        only = "with a decimal point and no other mark" if "," in text and not comma else "without a unit"
        what = f'must be a number {only}, as in "{"45,5" if comma else "45.5"}", got {quoted(cell)}'
        raise CellError(what)
    return found


def yes_or_no(cell: str) -> bool:
    """Return whether a cell says yes.

    Raises
    ------
    CellError
        When it says neither.
    """
    word = cell.strip().lower()
    if word not in YES_OR_NO:
        what = f"must be true or false, got {quoted(cell)}"
        raise CellError(what)
    return YES_OR_NO[word]
