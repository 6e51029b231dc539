"""What a report is made of: answers for its readers, and sections of the blocks that sheets are made of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.sheets.blocks import Block, Cell


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it; `name` is its place for links."""

    name: str
    heading: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class ReaderAnswer:
    """What one reader asked, and the answer in five sentences."""

    reader: str
    question: str
    sentences: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Report:
    """Everything on the page.

    Attributes
    ----------
    title, note : str
        Of the scenario.
    version : str
        Of the program.
    opening : tuple of Block
        First of all: the airplane from three sides, and in flight.
    answers : tuple of ReaderAnswer
        Then, for each reader.
    sections : tuple of Section
        In the order of the page.
    """

    title: str
    note: str
    version: str
    opening: tuple[Block, ...]
    answers: tuple[ReaderAnswer, ...]
    sections: tuple[Section, ...]
