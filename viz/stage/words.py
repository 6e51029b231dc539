"""Captions and labels in the visitor's language; what a language does not say is said in English."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

import tomli

FOLDER = Path(__file__).parent / "captions"
FALLBACK = "english"
_DECIMAL = re.compile(r"^(-?[0-9]+)\.([0-9]+)$")
"""A number by itself: only its decimal mark is the language's, a full stop in words stays."""


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there are files for, English first."""
    others = sorted(path.stem for path in FOLDER.glob("*.toml") if path.stem != FALLBACK)
    return (FALLBACK, *others)


@cache
def captions(language: str) -> dict[str, str]:
    """Return ``table.key`` -> words of one language file, without the fallback."""
    with (FOLDER / f"{language}.toml").open("rb") as stream:
        tables = tomli.load(stream)
    return {f"{table}.{key}": text for table, entries in tables.items() for key, text in entries.items()}


def say(language: str, key: str, **values: object) -> str:
    """Return the words for `key`, with `values` filled in; English where the language lacks the key.

    Examples
    --------
    >>> say("english", "button.pause")
    'Pause'
    """
    text = captions(language).get(key) or captions(FALLBACK)[key]
    if not values:
        return text
    mark = captions(language).get("language.decimal") or captions(FALLBACK)["language.decimal"]
    written = {name: _DECIMAL.sub(rf"\1{mark}\2", str(value)) for name, value in values.items()}
    return text.format(**written)
