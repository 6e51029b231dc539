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
from viz.words.catalogue import SOURCE, phrases
from viz.words.say import numeral

if TYPE_CHECKING:
    from collections.abc import Iterator

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


def _filled(value: object) -> object:
    """Return what fills a slot: words in the reader's language; what is no text keeps its own format."""
    return numeral(worded(value), language()) if isinstance(value, str) else value
