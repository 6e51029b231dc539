"""A quantity as the trade writes it, read into SI: ``28 ft 1 in``, ``5' 4 3/8"``, ``1 in ± 1/16 in``, ``130 hp``.

The one place where a unit other than SI comes in. A number without a unit is refused unless the quantity is a count,
a ratio or one whose bare unit is agreed, or the number is 0, which is the same in every unit but those of temperature.
A tolerance is one standard deviation.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import KW_ONLY, dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import NoReturn

from sim.errors import did_you_mean, refuse
from sim.units.extremes import unmeant
from sim.units.limits import limits_of, outside, per_cent
from sim.units.quantities import kinds
from sim.units.registry import COMMON, DIMENSIONS, Dimension, Unit, find, zero_alike


@dataclass(frozen=True, slots=True)
class Allowed:
    """What a value may be; the limits are in the SI unit.

    Attributes
    ----------
    unit : str
        SI unit of the value, a key of `sim.units.quantities.kinds`; ``1`` for a count, ratio or coefficient.
    above, least, below, most : float or None
        Limits: greater than, at least, less than, at most. Where an end has none, that of the kind of quantity holds.
    smallest : str
        The least above 0 that can be meant, where nothing below 0 is allowed, as written: ``1 cm``; empty for that of
        the kind of quantity. Of a number that may be 0 there is none: a share may be as small as it will.
    bare : str or None
        Unit in which a number without one is taken; None refuses such a number (unless `unit` is ``1``).
    example : str
        A value as it may be written; empty for that of the kind of quantity.
    """

    unit: str
    _: KW_ONLY
    above: float | None = None
    least: float | None = None
    below: float | None = None
    most: float | None = None
    smallest: str = ""
    bare: str | None = None
    example: str = ""


@dataclass(frozen=True, slots=True)
class Measured:
    """A value in SI and its tolerance, one standard deviation, 0 where none was given."""

    value: float
    tolerance: float = 0.0


class _Wrong(Exception):  # noqa: N818
    """What is wrong: the sentence before what came (empty: the kind of quantity and how to write one) and after it."""

    def __init__(self, before: str = "", after: str = "") -> None:
        super().__init__(before, after)
        self.before, self.after = before, after


def _wrong(before: str = "", after: str = "") -> NoReturn:
    raise _Wrong(before, after)


@dataclass(frozen=True, slots=True)
class _Sum:
    """A number with its unit, or several in falling units: ``5 ft 4 3/8 in``."""

    si: Fraction
    first: Unit
    last: Unit


_DIGITS = r"(?:[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]*)?|[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_NUMBER = rf"(?:[0-9]+(?:\s+|-))?[0-9]+\s*/\s*[0-9]+(?![0-9.])|{_DIGITS}"
_MARK = "['\"°]|[A-Za-z]+"
_PIECE = re.compile(rf"\s*({_NUMBER})\s*({_MARK})\.?(?![A-Za-z^/*])\s*,?")
_SINGLE = re.compile(rf"({_NUMBER})\s*(\D.*|1\s*/.*)?", re.DOTALL)
_LENGTH_MARKS = {"'": "ft", '"': "in"}
_OWN_MARKS = {"rad": {"'": "arcmin", '"': "arcsec"}, "1/s": {"rpm": "1/min"}}
"""Spellings that mean something else for one kind of quantity: of a rate of fire, rpm is rounds per minute."""
_NOT_FINITE = re.compile(r"[+-]?(nan|inf|infinity)\b", re.IGNORECASE)
_SPELLINGS = (
    *(("+/-", "±"), ("+-", "±"), ("−", "-"), ("⁄", "/"), ("º", "°")),
    *(("′′", '"'), ("''", '"'), ("’", "'"), ("′", "'"), ("″", '"'), ("”", '"')),
)
_NONE = Unit("", DIMENSIONS["1"], Fraction(1))


def read(text: object, allowed: Allowed, *, key: str) -> Measured:
    r"""Return the value and tolerance that `text` says, in SI.

    Parameters
    ----------
    text : object
        What the user wrote: text, or a plain number where a bare one is taken.
    allowed : Allowed
        Unit and limits.
    key : str
        Key or option it was written at, for the error.

    Raises
    ------
    InputError
        One sentence: what is allowed, and what came in double quotes.

    Notes
    -----
    Exact: fractions throughout, rounded once to a float. An angle carries the rounding of π.

    Examples
    --------
    >>> read("28' 1\"", Allowed("m", above=0.0), key="wing.span").value
    8.5598
    >>> read("1 in ± 1/16", Allowed("m"), key="stick.free_play").tolerance
    0.0015875
    """
    try:
        return _measured(text, allowed)
    except _Wrong as wrong:
        kind = kinds()[allowed.unit]
        before = wrong.before or f'must be {kind.called}, as in "{allowed.example or kind.example}"'
        refuse(key, f"{before}, got {quoted(text)}{wrong.after}")


def quoted(value: object) -> str:
    """Return what came, in double quotes on one line, cut where it is long."""
    text = str(value).lower() if isinstance(value, bool) else _as_text(value)
    text = "".join(letter if letter.isprintable() else f"\\u{ord(letter):04x}" for letter in text[:61])
    return f'"{text}"' if len(text) <= 60 else f'"{text[:57]}…"'


def _as_text(value: object) -> str:
    if isinstance(value, dict | list):
        return "a table" if isinstance(value, dict) else "a list"
    try:
        return str(value)
    except ValueError:  # Python prints no whole number of more than some thousand digits
        return "a number of thousands of digits"


def unit_of(text: str, allowed: Allowed) -> Unit:
    """Return the first unit of a quantity that is known to be well written: feet for ``28 ft 1 in``."""
    return _sum(_tidy(text).partition("±")[0].strip("+- "), allowed, allowed.bare).first


def _measured(text: object, allowed: Allowed) -> Measured:
    if isinstance(text, bool) or not isinstance(text, str | int | float):
        _wrong()
    return _parsed(_as_text(text), allowed)


@lru_cache(maxsize=8192)  # a study reads one scenario many times over with one key changed
def _parsed(text: str, allowed: Allowed) -> Measured:
    written = _tidy(text)
    if len(written) > 200:
        _wrong("must be a quantity of at most 200 letters")
    if _NOT_FINITE.match(written):
        _wrong("must be a finite number")
    body, spreads, spread = written.partition("±")
    negative, body = body.startswith("-"), body.removeprefix("-").removeprefix("+").strip()
    total = _sum(body, allowed, allowed.bare)
    value = _finite((-total.si if negative else total.si) + total.first.offset)
    tolerance = _finite(_tolerance(spread.strip(), total, allowed)) if spreads else 0.0
    if outside(value, allowed):
        _wrong(
            f"must be {limits_of(allowed, total.first, bare=not total.last.text)}",
            per_cent(value, allowed, total.first),
        )
    if said := unmeant(value, tolerance, total.first, allowed):
        _wrong(said)
    return Measured(value, tolerance)


def _finite(exact: Fraction) -> float:
    try:
        return float(exact)
    except OverflowError:
        _wrong("must be a finite number")


def _tidy(text: str) -> str:
    """Return the text with one spelling for signs, marks and fractions: ``4⅜″`` is ``4 3/8"``."""
    text = "".join(
        f" {unicodedata.normalize('NFKC', mark)}" if unicodedata.decomposition(mark).startswith("<fraction>") else mark
        for mark in text
    )
    for spelling, plain in _SPELLINGS:
        text = text.replace(spelling, plain)
    return text.strip()


def _tolerance(spread: str, total: _Sum, allowed: Allowed) -> Fraction:
    """Return one standard deviation; a percentage of a quantity with a unit is a share of its value."""
    if not spread or spread.startswith("-"):
        _wrong('must have a positive tolerance after ±, as in "1 in ± 1/16 in"')
    share = spread.endswith(("%", "percent"))
    if share and not total.last.text:
        _wrong("must have its tolerance without % where the value has none")
    if share and total.last.text not in ("%", "percent") and not total.last.offset:
        return _sum(spread, Allowed("1"), None).si * total.si
    return _sum(spread, allowed, total.last.text or None).si


def _sum(body: str, allowed: Allowed, bare: str | None) -> _Sum:
    """Return the sum of the numbers with units in `body`, without sign; `bare` is the unit of a number without one."""
    pieces = _pieces(body)
    if len(pieces) == 1 and not pieces[0][1]:
        if bare is None and _number(pieces[0][0]) == 0 and (unit := zero_alike(allowed.unit)):
            return _Sum(Fraction(0), unit, replace(unit, text=""))  # a tolerance behind it needs a unit of its own
        if bare is None and allowed.unit != "1":
            _wrong(f'must have a unit, as in "{allowed.example or kinds()[allowed.unit].example}"')
        pieces = [(pieces[0][0], bare or "")]
    units = [_unit(text, allowed) for _, text in pieces]
    numbers = [_number(text) for text, _ in pieces]
    falling = all(small.factor < large.factor for large, small in pairwise(units))
    if not falling or any(number.denominator != 1 for number in numbers[:-1]):
        _wrong()
    si = sum((number * unit.factor for number, unit in zip(numbers, units, strict=True)), Fraction(0))
    return _Sum(si, units[0], units[-1])


def _pieces(body: str) -> list[tuple[str, str]]:
    """Return (number, unit) pairs: several where each has a one-word unit, else the single one."""
    found = list(_PIECE.finditer(body))
    if len(found) > 1 and "".join(match.group(0) for match in found) == body:
        return [(match.group(1), match.group(2)) for match in found]
    single = _SINGLE.fullmatch(body)
    if not single:
        _wrong()
    return [(single.group(1), (single.group(2) or "").strip())]


def _unit(text: str, allowed: Allowed) -> Unit:
    if not text:
        return _NONE
    unit = find(_OWN_MARKS.get(allowed.unit, _LENGTH_MARKS).get(text, text))
    if unit is None:
        near = did_you_mean(text, COMMON) if text.isalpha() else ""
        _wrong(after=f": no unit is called {quoted(text)}{near}")
    if unit.dimension != _dimension(allowed.unit):
        other = _called(unit.dimension)
        _wrong(after=f", which is {other}" if other else "")
    return unit


def _dimension(unit: str) -> Dimension | None:
    """Return the dimension of the unit of a kind of quantity, None where nobody writes one."""
    return DIMENSIONS["1"] if unit == "1" else COMMON[unit].dimension if unit in COMMON else None


def _called(dimension: Dimension) -> str:
    """Return what people call a quantity of this dimension, or nothing."""
    return next((kind.called for unit, kind in kinds().items() if _dimension(unit) == dimension), "")


def _number(text: str) -> Fraction:
    """Return a decimal, a fraction or a whole number with a fraction as an exact number."""
    text = text.replace(",", "")
    if "/" in text:
        *whole, fraction = re.split(r"\s+(?=[0-9]+\s*/)|-", text)
        over, _, under = fraction.partition("/")
        if int(under) == 0:
            _wrong("must not be divided by 0")
        return sum((Fraction(int(part)) for part in whole), Fraction(int(over), int(under)))
    digits, _, power = text.lower().partition("e")
    if len(power) > 4:
        _wrong("must be a finite number")
    return Fraction(f"{digits}e{power or 0}")
