"""The chance that a blade is struck, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sim.studies.burst_answer import StrikeChance

OFTEN = 0.01
"""Chance of a round from which it is told in thousands rather than as one in so many."""
OFTEN_TEN = 10.0
"""Number from which two digits leave no decimals."""
SELDOM = 1e-9
"""Chance of a round below which no number is told: what is left out of the model is more likely."""


def chance_words(chance: StrikeChance) -> str:
    """Return the chance as one would say it: one in so many rounds, one in so many sorties."""
    share, rounds = chance.strike_share, f"{chance.rounds_per_sortie:,} rounds"
    if chance.guns > 1:
        rounds = f"{rounds} of each gun"
    if share == 0.0:
        return "none"
    if share < SELDOM:
        return "less than one in a thousand million rounds"
    limit = "less than " if chance.is_limit else ""
    first = f"{_in_1000(share)} rounds" if share >= OFTEN else f"one in {rounded(1.0 / share)} rounds"
    many = share * chance.rounds_per_sortie * chance.guns
    if many < 0.5:
        return f"{limit}{first}; {limit}one in {rounded(1.0 / chance.sortie_share)} sorties of {rounds}"
    return f"{limit}{first}; {limit or 'about '}{few(many)} in a sortie of {rounds}"


def one_in(share: float) -> str:
    """Return a chance as one in so many."""
    if share < SELDOM:
        return "none" if share == 0.0 else "less than one in a thousand million"
    return _in_1000(share) if share >= OFTEN else f"one in {rounded(1.0 / share)}"


def _in_1000(share: float) -> str:
    """Return a chance as so many in a thousand, to three digits."""
    return f"{float(f'{1e3 * share:.3g}'):g} in 1000"


def few(number: float) -> str:
    """Return a number to two digits, a small one with its decimals: 0.75, 21, 450."""
    return rounded(number) if number >= OFTEN_TEN else f"{number:.2g}"


def rounded(number: float) -> str:
    """Return a count to two digits: 82,000."""
    return f"{float(f'{number:.2g}'):,.0f}"
