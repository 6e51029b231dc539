"""What is said in the reader's language, in English where it has no words; numbers as that language writes them."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from viz.words.catalogue import SOURCE, locale, words

if TYPE_CHECKING:
    from viz.sheets.format import Units

THIN = "\u202f"
"""What stands between thousands until a language puts its own mark there (ISO 80000-1)."""
NO_BREAK = "\u00a0"
"""What keeps a number and its unit on one line."""
_NUMERAL = re.compile(rf"^([-+]?[0-9]+(?:{THIN}[0-9]{{3}})*)(?:\.([0-9]+))?(?=[ °]|$)")
"""A number that leads: only its marks are the language's, a full stop in words stays."""


def own_units(language: str) -> Units:
    """Return the system of units that readers of a language are used to: metric outside English."""
    return "us" if language == SOURCE else "si"


def say(language: str, key: str, **values: object) -> str:
    """Return the words for `key`, with `values` filled in; English where the language lacks the key.

    Examples
    --------
    >>> say("english", "button.pause")
    'Pause'
    """
    text = words(language).get(key) or words(SOURCE)[key]
    if not values:
        return text
    return text.format(**{name: numeral(str(value), language) for name, value in values.items()})


def numeral(text: str, language: str) -> str:
    """Return a number, or an amount with its unit, with the marks that a language has for decimals and thousands.

    Examples
    --------
    >>> numeral("7.5 N m", "french"), numeral("80\u202f000", "english")
    ('7,5 N m', '80,000')
    """
    if language == SOURCE and THIN not in text:
        return text  # as it is written already; most commands need no marks, which take a catalogue to find
    point, group = marks(language)

    def written(found: re.Match[str]) -> str:
        whole = found[1].replace(THIN, group)
        return f"{whole}{point}{found[2]}" if found[2] else whole

    return _NUMERAL.sub(written, text)


@cache
def marks(language: str) -> tuple[str, str]:
    """Return the mark before decimals and that between thousands."""
    from babel.numbers import get_decimal_symbol, get_group_symbol

    known = locale(language)
    return get_decimal_symbol(known), get_group_symbol(known)
