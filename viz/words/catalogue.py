"""The catalogues: key and English words, or an English phrase, beside those of the language; English has no others."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from babel import Locale
    from babel.messages.catalog import Catalog

FOLDER = Path(__file__).parent
SOURCE = "english"


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there are files for, English first."""
    others = sorted(path.stem for path in FOLDER.glob("*.po") if path.stem != SOURCE)
    return (SOURCE, *others)


@cache
def catalogue(language: str) -> Catalog:
    """Return the file of one language as it is read."""
    from babel.messages.pofile import read_po

    with (FOLDER / f"{language}.po").open("rb") as stream:
        return read_po(stream, abort_invalid=True)


@cache
def words(language: str) -> dict[str, str]:
    """Return key -> words of one language; keys that it leaves empty or marks as doubtful are not in it."""
    own = language == SOURCE
    return {
        one.context: str(one.id if own else one.string)
        for one in catalogue(language)
        if one.context and (own or (one.string and not one.fuzzy))
    }


@cache
def phrases(language: str) -> dict[str, str]:
    """Return English phrase -> the words of a language, of entries without a key; those left empty are not in it."""
    return {
        str(one.id): str(one.string)
        for one in catalogue(language)
        if one.id and not one.context and one.string and not one.fuzzy
    }


def locale(language: str) -> Locale:
    """Return the locale that the head of a file names.

    Examples
    --------
    >>> str(locale("french"))
    'fr'
    """
    found = catalogue(language).locale
    if found is None:
        raise LookupError(language)
    return found


def own_name(language: str) -> str:
    """Return what a language calls itself, with a capital.

    Examples
    --------
    >>> own_name("french")
    'Français'
    """
    name = locale(language).get_language_name() or language
    return name[:1].upper() + name[1:]
