"""An invented language: every phrase of the catalogue in ⟦⟧, so that what stands outside was never looked up."""

import re
import string
from contextlib import contextmanager

from viz.words import reader
from viz.words.catalogue import SOURCE, catalogue

MARKED = re.compile("⟦[^⟧]*⟧")
WORD = re.compile(r"[^\W\d_]{3,}")
SPOKEN = "french"
"""Whose marks of numbers the invented language has."""


def asked():
    """Return the phrases that the English catalogue asks every language for."""
    return {str(one.id) for one in catalogue(SOURCE) if one.id and not one.context}


def marked(phrase):
    """Return a phrase in ⟦⟧ but for its slots, so that a word that fills one is seen."""
    parts = string.Formatter().parse(phrase)
    return "".join(_literal(words) + _slot(name, form, conversion) for words, name, form, conversion in parts)


def _literal(words):
    return "⟦" + words.replace("{", "{{").replace("}", "}}") + "⟧" if words else ""


def _slot(name, form, conversion):
    if name is None:
        return ""
    return "{" + name + (f"!{conversion}" if conversion else "") + (f":{form}" if form else "") + "}"


@contextmanager
def invented(monkeypatch):
    """Write what follows in the invented language."""
    found = {phrase: marked(phrase) for phrase in asked()}
    monkeypatch.setattr(reader, "phrases", lambda _language: found)
    with reader.reading(SPOKEN):
        yield


def unmarked(text, known):
    """Return the words of three letters and more outside ⟦⟧ in a text, without those of names and commands known."""
    for one in sorted(filter(None, known), key=len, reverse=True):
        text = text.replace(one, " ")
    return sorted(set(WORD.findall(MARKED.sub(" ", text))))
