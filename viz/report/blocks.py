"""What a report is made of, before any page is laid out: the same blocks become HTML and PDF."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from viz.sheets.table import Table

if TYPE_CHECKING:
    from matplotlib.figure import Figure


@dataclass(frozen=True, slots=True)
class Text:
    """A paragraph; a caution stands out."""

    text: str
    caution: bool = False


@dataclass(frozen=True, slots=True)
class Points:
    """A few lines under one another, each a thought of its own; boxes to tick where they are a checklist."""

    points: tuple[str, ...]
    to_tick: bool = False


@dataclass(frozen=True, slots=True)
class Picture:
    """A figure, its caption, and what a reader who cannot see it is told."""

    figure: Figure
    title: str
    alt: str


@dataclass(frozen=True, slots=True)
class Verbatim:
    """Text to be copied letter for letter: a command, a file."""

    title: str
    text: str


Block: TypeAlias = Text | Points | Picture | Verbatim | Table


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it; `name` is its place for links."""

    name: str
    heading: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Answer:
    """What one reader asked, and the answer in five sentences."""

    reader: str
    question: str
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """Everything on the page.

    Attributes
    ----------
    title, note : str
        Of the scenario.
    version : str
        Of the program.
    answers : tuple of Answer
        First of all, for each reader.
    sections : tuple of Section
        In the order of the page.
    """

    title: str
    note: str
    version: str
    answers: tuple[Answer, ...]
    sections: tuple[Section, ...]


def kind(block: Block) -> str:
    """Return the word by which a page picks the layout of a block, such as ``text`` or ``table``."""
    return type(block).__name__.lower()


def wordy(table: Table) -> bool:
    """Return whether the cells hold sentences, which stand better at the left."""
    lines = (line for row in table.rows for cell in row[1:] for line in cell.split("\n"))
    return max(map(len, lines), default=0) > WORDY


WORDY = 40
"""Letters beyond which a cell is no number."""
