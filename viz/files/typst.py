"""Typst: a document's source text, with the files it names, typeset as a PDF in memory.

Only the fonts that the library carries are used (`FAMILIES`), and those in folders that the caller names; no date is
written unless the source sets one, so the same source gives the same bytes everywhere. The PDF is tagged for screen
readers.

A source takes in a file by its name, an SVG picture as vectors::

    #image(file("turn.svg"), alt: "Pitch rate against time")
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import NoAnswerError
from sim.units.text import unbroken

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

FAMILIES = ("Libertinus Serif", "New Computer Modern", "New Computer Modern Math", "DejaVu Sans Mono")
"""The fonts there are."""
_HEAD = "#set document(date: none);#let file(name) = bytes(sys.inputs.at(name));"
"""Stands on the first line of the source, so that the lines of a fault count as in the source."""
_ESCAPED = {"\\": "\\\\", '"': '\\"', "\n": "\\n", "\r": "\\r", "\t": "\\t"}
_REVERSING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
"""Letters without a shape that turn the direction of what follows, beyond the text they stand in."""


def pdf(source: str, files: Mapping[str, str] | None = None, *, fonts: Sequence[Path] = ()) -> bytes:
    r"""Return a document as PDF.

    Parameters
    ----------
    source : str
        Typst markup; text that a user wrote goes in by `string` or `text`.
    files : mapping of str to str, optional
        Name and content of each text file that the source takes in with ``file(name)``: SVG, JSON.
    fonts : sequence of Path
        Folders with further fonts.

    Raises
    ------
    NoAnswerError
        When the source cannot be typeset.

    Examples
    --------
    >>> pdf("= Handling\n" + text("wing #1"))[:4]
    b'%PDF'
    """
    import typst

    try:
        book = typst.Fonts(include_system_fonts=False, font_paths=list(fonts))
        return typst.compile((_HEAD + source).encode(), sys_inputs=dict(files or {}), font_paths=book)
    except typst.TypstError as error:
        message = (
            f"the PDF cannot be typeset: {error}{_place(error.diagnostic)}; this is a fault of the program, please "
            "report it together with the scenario"
        )
        raise NoAnswerError(message) from error


def string(words: str) -> str:
    r"""Return words as a string of Typst's code; a letter that cannot be printed becomes the replacement character.

    >>> string('3 "long" wires')
    '"3 \\"long\\" wires"'
    """
    return '"' + "".join(map(_letter, words)) + '"'


def _letter(letter: str) -> str:
    from unicodedata import category

    unprintable = letter in _REVERSING or category(letter) in {"Cc", "Cs"}
    return _ESCAPED.get(letter, "\ufffd" if unprintable else letter)


def text(words: str) -> str:
    """Return words as markup that prints them as they are: no letter is taken for markup, no quantity is broken.

    >>> text("*not bold*")
    '#"*not bold*";'
    """
    return f"#{string(unbroken(words))};"


def _place(diagnostic: str) -> str:
    """Return the line and column that a diagnostic names, or nothing."""
    from re import search

    found = search(r"┌─ .*?:(\d+):(\d+)", diagnostic)
    return f" (line {found[1]} of the source)" if found else ""
