"""Sheets as data: tables, sentences with slots and cautions, before a writer puts units and letters to them.

Every number carries the name of its quantity, so that each writer (terminal, HTML, PDF, notebook, CSV) finds unit,
digits and the words of its sign in the one table of quantities.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from viz.figures.complete import Drawing


@dataclass(frozen=True, slots=True)
class Value:
    """A number and what it measures.

    Attributes
    ----------
    quantity : str
        Name in the table of quantities: ``mass_kg``.
    number : float or None
        In the SI unit of that name; None or not-a-number where there is none.
    digits : int or None
        Significant digits; None for those of the quantity.
    decimals : int or None
        Digits after the decimal point, in the place of significant digits.
    nominal : bool
        Whether it is a size as ordered or set, shown without trailing zeros.
    signed : bool
        Whether the sign is said in the quantity's words, ``nose up``, in the place of + and −.
    brief : bool
        Whether of these words those are left out that both signs share: ``up`` for ``nose up``.
    percent : bool
        Whether a share is shown in per cent.
    error : float or None
        One standard deviation, in the unit of the number, shown behind ±.
    half_band : float or None
        Half the width of its 90 % band, in the unit of the number, which it is shown no finer than.
    tape : bool
        Whether a length in US units is shown in feet and inches, as a tape is read.
    plain : bool
        Whether trailing zeros are left out, as in a number that was given.
    bare : bool
        Whether the unit is left out, because the head of the column says it.
    held : bool
        Whether the unit is the one it is held in, as in an equation, in the place of the reader's.
    absent : str
        What stands where there is no number.
    change : bool
        Whether it is the difference of two values: + or - always stands before it, a temperature has no zero.
    """

    quantity: str
    number: float | None
    digits: int | None = None
    decimals: int | None = None
    nominal: bool = False
    signed: bool = False
    brief: bool = False
    percent: bool = False
    error: float | None = None
    half_band: float | None = None
    tape: bool = False
    plain: bool = False
    bare: bool = False
    held: bool = False
    absent: str = "–"
    change: bool = False


@dataclass(frozen=True, slots=True)
class Sentence:
    """A text with named slots, ``The {name} weighs {mass}.``, and what fills them."""

    text: str
    slots: Mapping[str, Cell] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Next(Sentence):
    """What one would ask next, a slot for each step: the last sentence of a sheet."""


@dataclass(frozen=True, slots=True)
class Run:
    """A command line to run next.

    Attributes
    ----------
    command : str
        With what stands before the scenario: ``maneuver rudder-kick``.
    options : Cell
        What stands behind the scenario, such as a sentence with a number.
    scenario : str or None
        As a shell reads it; empty for the bundled one, None where the command takes none.
    """

    command: str
    options: Cell = ""
    scenario: str | None = ""


@dataclass(frozen=True, slots=True)
class Either:
    """One amount written in both systems of units, of which a reader sees his own."""

    si: str
    us: str


Cell: TypeAlias = "str | Value | Sentence | Column | Run | Either"
"""What stands at one place of a table or in one slot of a sentence; a column stands for its head with its unit."""


@dataclass(frozen=True, slots=True)
class Column:
    """One column of a table.

    Attributes
    ----------
    head : str
        In full words.
    cells : tuple of Cell
        From the top down.
    quantity : str
        The quantity whose unit stands in the head; empty where every cell says its own.
    short : str
        The head where room is scarce, as on a terminal; empty for the full one.
    """

    head: str
    cells: tuple[Cell, ...]
    quantity: str = ""
    short: str = ""


@dataclass(frozen=True, slots=True)
class Table:
    """A table: columns of equal length, a title above and notes below."""

    title: Cell
    columns: tuple[Column, ...]
    notes: tuple[Cell, ...] = ()

    def rows(self) -> Iterator[tuple[Cell, ...]]:
        """Yield the cells row by row."""
        yield from zip(*(column.cells for column in self.columns), strict=True)


@dataclass(frozen=True, slots=True)
class Points:
    """A few lines, each a thought of its own."""

    lines: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Checklist:
    """Lines to be signed one by one, under a title."""

    title: str
    lines: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Verbatim:
    """Text whose every letter and space counts, such as a command, a file or a formula; a title may be empty.

    A page folds up one that is a `file`, and a PDF has it attached under that name.
    """

    title: str
    text: str
    file: str = ""


@dataclass(frozen=True, slots=True)
class Picture:
    """A figure, its caption, and what a reader who cannot see it is told.

    Attributes
    ----------
    drawing : callable
        Waits until the figure is drawn, and returns it.
    title : str
        Its caption.
    alt : Sentence
        What it shows, in words.
    """

    drawing: Callable[[], Drawing]
    title: str
    alt: Sentence


@dataclass(frozen=True, slots=True)
class Caution:
    """What must be said where somebody could be hurt; writers never leave it out."""

    text: str


Block: TypeAlias = Table | Sentence | Points | Checklist | Verbatim | Picture | Caution
"""A piece of a sheet."""


def say(text: str, **slots: Cell) -> Sentence:
    """Return a sentence whose slots are filled by name."""
    return Sentence(text, slots)


def listed(cells: Iterable[Cell], between: str = "; ") -> Sentence:
    """Return any number of cells as one sentence, one after another; what stands between is a phrase of its own."""
    slots = {f"part{place}": cell for place, cell in enumerate(cells)}
    return Sentence("{between}".join(f"{{{name}}}" for name in slots), {**slots, "between": between})


def rows(title: Cell, heads: Sequence[str], lines: Iterable[Sequence[Cell]], *notes: Cell) -> Table:
    """Return a table from its rows, every one as long as `heads`; notes follow, each a line of its own."""
    cells = list(zip(*lines, strict=True)) or [()] * len(heads)
    return Table(title, tuple(Column(head, own) for head, own in zip(heads, cells, strict=True)), notes)


def next_steps(*steps: Cell) -> Next:
    """Return what one would ask next, a step or several: ``{run}, rate of fire at every speed``."""
    slots = {f"step{place}": step for place, step in enumerate(steps)}
    return Next(f"Next: {'; '.join(f'{{{name}}}' for name in slots)}.", slots)


def behind(blocks: Iterable[Block], more: Iterable[Block]) -> Iterator[Block]:
    """Yield the blocks of a sheet and more behind them, but before what one would ask next."""
    whole = tuple(blocks)
    last = [block for block in whole if isinstance(block, Next)]
    yield from (block for block in whole if block not in last)
    yield from more
    yield from last


def quantities_in(blocks: Iterable[Block]) -> Iterator[str]:
    """Yield the name of every quantity that stands in the blocks, some more than once."""
    for block in blocks:
        match block:
            case Table():
                yield from (column.quantity for column in block.columns if column.quantity)
                for cell in (block.title, *block.notes, *(c for column in block.columns for c in column.cells)):
                    yield from _in_cell(cell)
            case Sentence():
                yield from _in_cell(block)
            case Points() | Checklist():
                for cell in block.lines:
                    yield from _in_cell(cell)
            case Picture():
                yield from _in_cell(block.alt)


def _in_cell(cell: Cell) -> Iterator[str]:
    if isinstance(cell, Value) or (isinstance(cell, Column) and cell.quantity):
        yield cell.quantity
    elif isinstance(cell, Run):
        yield from _in_cell(cell.options)
    elif isinstance(cell, Sentence):
        for slot in cell.slots.values():
            yield from _in_cell(slot)


def kind(block: Block) -> str:
    """Return the word by which a page picks the layout of a block, such as ``sentence`` or ``table``."""
    return type(block).__name__.lower()
