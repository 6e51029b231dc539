"""The language of whoever reads what is being written, and the words of sheets and figures in it.

Sheets, figures and reports are written in English in the code: a phrase or a sentence with slots, ``{name}: modes``.
A catalogue has it, without a key, as ``msgid``, and the words of its language as ``msgstr``. The language is that of
the document that is being written, set around its writing, so that no study, sheet or block has to pass it on.
"""

from __future__ import annotations

from contextlib import contextmanager
from contextvars import ContextVar
from typing import TYPE_CHECKING

from sim.told import Told
from sim.units.quantities import quantity
from viz.words.catalogue import SOURCE, phrases
from viz.words.say import numeral

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.units.quantities import System

_LANGUAGE: ContextVar[str] = ContextVar("language", default=SOURCE)


@contextmanager
def reading(language: str) -> Iterator[None]:
    """Write what follows for readers of a language."""
    before = _LANGUAGE.set(language)
    try:
        yield
    finally:
        _LANGUAGE.reset(before)


def language() -> str:
    """Return the language of the reader, English unless set."""
    return _LANGUAGE.get()


def worded(text: str) -> str:
    """Return a phrase, or a sentence with its slots open, in the reader's language; itself where it has no words.

    A sentence that `sim` told with values in it comes with them filled in.
    """
    spoken = language()
    if spoken == SOURCE or not text:
        return text
    if isinstance(text, Told):
        return tell(text.template, **text.values)
    return phrases(spoken).get(text, text)


def tell(template: str, **values: object) -> str:
    """Return a sentence in the reader's language with its slots filled; a number that leads a value has its marks.

    Examples
    --------
    >>> tell("{side} limit", side="forward")
    'forward limit'
    """
    filled = {name: _filled(value) for name, value in values.items()}
    return worded(template).format(**filled)


def meant(phrase: str) -> str:
    """Return a word that English uses for two things, named behind what it is said of, ``gun|firing``: ``firing``.

    Examples
    --------
    >>> meant("gun|firing")
    'firing'
    """
    found = worded(phrase)
    return phrase.partition("|")[2] if found == phrase else found


def axis_label(name: str, system: System | None = None) -> str:
    """Return what stands at an axis: what a quantity means, and its unit, that it is held in or that of a system.

    Examples
    --------
    >>> axis_label("speed_m_s"), axis_label("speed_m_s", "us")
    ('true airspeed [m/s]', 'true airspeed [mph]')
    """
    one = quantity(name)
    return unit_behind(one.meaning, one.shown(system)[0] if system else one.unit)


def unit_behind(words: str, unit: str) -> str:
    """Return words with a unit in square brackets behind them, where there is one."""
    return f"{worded(words)} [{worded(unit)}]" if unit else worded(words)


def numbered(text: str) -> str:
    """Return an amount with the marks and the words for its unit that the reader's language has.

    Examples
    --------
    >>> numbered("1250 rpm")
    '1250 rpm'
    """
    number, space, unit = text.partition(" ")
    return numeral(f"{number} {worded(unit)}" if space and number[-1:].isdigit() else text, language())


def _filled(value: object) -> object:
    """Return what fills a slot: words in the reader's language; what is no text keeps its own format."""
    return numbered(worded(value)) if isinstance(value, str) else value
