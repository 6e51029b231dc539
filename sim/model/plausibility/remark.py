"""A remark on allowed input, and the usual range that a value is held against."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.told import told
from sim.units.text import in_both

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.model import Model
    from sim.scenario.tables import Scenario


FORBIDDEN = "DO NOT USE"
"""Begins what forbids the use of an answer: it stands at its head, not among its remarks."""
ROUNDING = 1e-9
"""Share of an end of a range by which a value may pass it and lie on it."""


@dataclass(frozen=True, slots=True)
class Remark:
    """What is unusual about one key of a scenario; it never keeps anything from being computed.

    Attributes
    ----------
    key : str
        Dotted, as ``--set`` takes it.
    text : str
        Sentences: key, value, usual range, what to do.
    """

    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Examined:
    """A scenario and the model built of it."""

    scenario: Scenario
    model: Model


@dataclass(frozen=True, slots=True)
class Usual:
    """The range of a value among airplanes of the kind.

    Attributes
    ----------
    least, most : float or None
        Its ends, in the unit of the quantity; None where it has no such end.
    source : str
        Where it comes from.
    quantity : str
        Name in the table of quantities, or one that ends in its unit; a plain number without.
    rule : str
        Named beside the range: a regulation, or whose range it is; empty for none.
    percent : bool
        Whether a share is shown in per cent.
    """

    least: float | None
    most: float | None
    source: str
    quantity: str = ""
    rule: str = ""
    percent: bool = False

    def holds(self, value: float) -> bool:
        """Return whether a value lies within the range, its ends included; what is not a number does."""
        below = self.least is not None and value < self.least - ROUNDING * abs(self.least)
        return not below and not (self.most is not None and value > self.most + ROUNDING * abs(self.most))

    def shown(self, value: float) -> str:
        """Return a value in its unit."""
        return f"{round(100.0 * value, 1) + 0.0:.1f} %" if self.percent else amount(self.quantity, value)

    @property
    def words(self) -> str:
        """The range in words, with its rule."""
        ends = self._ends()
        return told("{ends} ({rule})", ends=ends, rule=self.rule) if self.rule else ends

    def _ends(self) -> str:
        least, most = (None if end is None else self.shown(end) for end in (self.least, self.most))
        if least and most:
            return told("from {least} to {most}", least=least, most=most)
        return told("at least {least}", least=least) if least else told("at most {most}", most=most) if most else ""


def amount(quantity: str, value: float) -> str:
    """Return a value with its SI unit, and with that of a US shop behind it where they differ."""
    if not quantity:
        text = f"{value:.3g}"
        return f"{value:.0f}" if "e+" in text else text
    return in_both(quantity, value)


def unusual(usual: Usual, value: float, *, key: str, what: str, cure: str) -> Iterator[Remark]:
    """Yield a remark where a value lies outside its usual range.

    Parameters
    ----------
    usual : Usual
        The range.
    value : float
        In its unit.
    key : str
        Of the scenario.
    what : str
        What the value is, as a subject: ``the gap over the chord``.
    cure : str
        What to do, a whole sentence.
    """
    if not usual.holds(value):
        sentence = "{key}: {what} is {value}; usual is {usual}. {cure}"
        text = told(sentence, key=key, what=what, value=usual.shown(value), usual=usual.words, cure=cure)
        yield Remark(key, text)
