"""Names as they are printed: a report says ``flat four`` and ``wing, area``, never the names of keys and parts."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING

from sim.told import Told
from viz.sheets.blocks import Caution, Checklist, Column, Picture, Points, Run, Sentence, Table
from viz.sheets.from_sim import in_either_system
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from collections.abc import Callable

    from viz.figures.complete import Drawing
    from viz.sheets.blocks import Block, Cell

_PLACE = re.compile(r"\bsim(?:\.[a-z]\w*)+")
"""A function of the program, by which a source is named."""
_SNAKE = re.compile(r"(?<![\w./\\-])[a-z][a-z0-9]*(?:_[a-z0-9]+)+(?![\w/\\]|\.\w)")
_UNSAID = ("powerplant", "item")
"""Tables whose entries have names of their own: the name alone is printed."""
_SLOT = re.compile(r"(\{[^{}]*\})")
_LETTERS = re.compile(r"(?<=>)[^<>]+(?=</text>)")


@cache
def _keys() -> re.Pattern[str]:
    """Return what finds a key of a scenario, ``wing.area`` or ``item.upper wing.mass``, by its table."""
    from sim.scenario.tables import Scenario

    tables = "|".join(sorted((*Scenario.model_fields, "parts"), key=len, reverse=True))
    return re.compile(rf"(?<![\w.])(?:{tables})\.(?:[\w() -]*[\w)]\.)*[a-z]\w*(?![\w/\\])")


def printed(words: str) -> str:
    """Return words with every name of a key or part as it is printed; names of files stay.

    Examples
    --------
    >>> printed("stress in flat_four by item.upper wing.mass and wing.area, tail_low")
    'stress in flat four by upper wing, mass and wing, area, tail low'
    """
    words = _PLACE.sub(_place, words)
    words = _keys().sub(_key, words)
    return _SNAKE.sub(lambda found: found[0].replace("_", " "), words)


def _place(found: re.Match[str]) -> str:
    return tell("this program: {name}", name=found[0].rsplit(".", 1)[1].replace("_", " "))


def _key(found: re.Match[str]) -> str:
    parts = found[0].split(".")
    if parts[-1] in {"toml", "csv"}:
        return found[0]
    return ", ".join(parts[parts[0] in _UNSAID :]).replace("_", " ")


def in_print(block: Block) -> Block:
    """Return a block with printed names in every cell, caption and letter of a figure; what is verbatim stays."""
    match block:
        case Table():
            columns = tuple(_column(column) for column in block.columns)
            return Table(cell_in_print(block.title), columns, tuple(map(cell_in_print, block.notes)))
        case Sentence():
            return _sentence(block)
        case Points():
            return Points(tuple(map(cell_in_print, block.lines)))
        case Checklist():
            return Checklist(_told(block.title), tuple(map(cell_in_print, block.lines)))
        case Caution():
            return Caution(_told(block.text))
        case Picture():
            return Picture(cache(_drawn(block.drawing)), _told(block.title), _sentence(block.alt))
    return block


def _column(column: Column) -> Column:
    return replace(column, head=_told(column.head), cells=tuple(map(cell_in_print, column.cells)))


def _sentence(sentence: Sentence) -> Sentence:
    text = "".join(part if part.startswith("{") else printed(part) for part in _SLOT.split(worded(sentence.text)))
    return replace(sentence, text=text, slots={slot: cell_in_print(cell) for slot, cell in sentence.slots.items()})


def cell_in_print(cell: Cell) -> Cell:
    """Return a cell with printed names; command lines stay as they are typed."""
    if isinstance(cell, Told):
        return cell_in_print(in_either_system(cell))
    if isinstance(cell, str):
        return _told(cell)
    if isinstance(cell, Column):
        return _column(cell)
    return _sentence(cell) if isinstance(cell, Sentence) and not isinstance(cell, Run) else cell


def _told(words: str) -> str:
    """Return words with printed names, in the language of the reader: printed, they are no phrase of a catalogue."""
    return printed(worded(words))


def _drawn(drawing: Callable[[], Drawing]) -> Callable[[], Drawing]:
    """Return what waits for a figure, with printed names in its letters."""

    def waited() -> Drawing:
        one = drawing()
        return replace(one, svg=_LETTERS.sub(lambda found: printed(found[0]), one.svg))

    return waited
