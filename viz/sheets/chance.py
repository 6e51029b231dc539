"""The chance that a blade is struck, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.words.reader import language, tell
from viz.words.say import THIN, numeral

if TYPE_CHECKING:
    from sim.studies.burst_answer import StrikeChance

SELDOM_TOLD = "{first}; one in {count} sorties of {rounds}"
SELDOM_LIMIT = "less than {first}; less than one in {count} sorties of {rounds}"
MANY_TOLD = "{first}; about {count} in a sortie of {rounds}"
MANY_LIMIT = "less than {first}; less than {count} in a sortie of {rounds}"
OFTEN = 0.01
"""Chance of a round from which it is told in thousands rather than as one in so many."""
OFTEN_TEN = 10.0
"""Number from which two digits leave no decimals."""
SELDOM = 1e-9
"""Chance of a round below which no number is told: what is left out of the model is more likely."""


def chance_words(chance: StrikeChance) -> str:
    """Return the chance as one would say it: one in so many rounds, one in so many sorties."""
    share = chance.strike_share
    rounds = tell(
        "{count} rounds of each gun" if chance.guns > 1 else "{count} rounds", count=grouped(chance.rounds_per_sortie)
    )
    if share == 0.0:
        return "none"
    if share < SELDOM:
        return "less than one in a thousand million rounds"
    first = _often(share) if share >= OFTEN else tell("one in {count} rounds", count=rounded(1.0 / share))
    many = share * chance.rounds_per_sortie * chance.guns
    if many < 0.5:
        said = SELDOM_LIMIT if chance.is_limit else SELDOM_TOLD
        return tell(said, first=first, count=rounded(1.0 / chance.sortie_share), rounds=rounds)
    return tell(MANY_LIMIT if chance.is_limit else MANY_TOLD, first=first, count=few(many), rounds=rounds)


def one_in(share: float) -> str:
    """Return a chance as one in so many."""
    if share < SELDOM:
        return "none" if share == 0.0 else "less than one in a thousand million"
    if share < OFTEN:
        return tell("one in {count}", count=rounded(1.0 / share))
    return tell("{count} in 1000", count=_thousandths(share))


def _often(share: float) -> str:
    return tell("{count} in 1000 rounds", count=_thousandths(share))


def _thousandths(share: float) -> str:
    """Return a chance in thousandths, to three digits."""
    return f"{float(f'{1e3 * share:.3g}'):g}"


def few(number: float) -> str:
    """Return a number to two digits, a small one with its decimals: 0.75, 21, 450."""
    return rounded(number) if number >= OFTEN_TEN else f"{number:.2g}"


def rounded(number: float) -> str:
    """Return a count to two digits: 82,000."""
    return grouped(float(f"{number:.2g}"))


def grouped(number: float) -> str:
    """Return a whole number with the reader's mark between its thousands."""
    return numeral(f"{number:,.0f}".replace(",", THIN), language())
