"""Captions and labels in the visitor's language; what a language does not say is said in English."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.sheets.format import Units

FOLDER = Path(__file__).parent / "captions"
FALLBACK = "english"
_DECIMAL = re.compile(r"^(-?[0-9]+)\.([0-9]+)(?= |$)")
"""A number that leads: only its decimal mark is the language's, a full stop in words stays."""
THIN = "\u202f"
"""The space between thousands, in every language (ISO 80000-1)."""


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there are files for, English first."""
    others = sorted(path.stem for path in FOLDER.glob("*.toml") if path.stem != FALLBACK)
    return (FALLBACK, *others)


@cache
def captions(language: str) -> dict[str, str]:
    """Return ``table.key`` -> words of one language file, without the fallback."""
    import tomli

    with (FOLDER / f"{language}.toml").open("rb") as stream:
        tables = tomli.load(stream)
    return {f"{table}.{key}": text for table, entries in tables.items() for key, text in entries.items()}


def own_units(language: str) -> Units:
    """Return the system of units that readers of a language are used to."""
    return "us" if captions(language).get("language.units") == "us" else "si"


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
    return text.format(**{name: decimal(str(value), language) for name, value in values.items()})


def decimal(text: str, language: str) -> str:
    """Return a number, or an amount with its unit, with the decimal mark of a language.

    Examples
    --------
    >>> decimal("7.5 N m", "french")
    '7,5 N m'
    """
    mark = captions(language).get("language.decimal") or captions(FALLBACK)["language.decimal"]
    return _DECIMAL.sub(rf"\1{mark}\2", text)
