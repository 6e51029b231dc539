"""A sheet written for a terminal: tables ruled under their heads, sentences wrapped, cautions last."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from sim.units.text import NO_BREAK, unbroken
from viz.sheets.blocks import Caution, Checklist, Next, Picture, Points, Table, Verbatim
from viz.sheets.text import head_of, pieces, side_of, text_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sized

    from viz.sheets.blocks import Block
    from viz.sheets.format import Units

WIDTH = 80
"""Letters of a line of prose."""
SHORT = 16
"""Letters of a first column that is never broken into lines."""
LONG = 26
"""Letters of a dotted name in another column that is never broken."""
HELD = "\ue000"
"""Stands for a space at which no line ends, of a quantity or of a command line, while lines are broken."""


def write(blocks: Iterable[Block], units: Units) -> str:
    """Return a sheet as text."""
    told, before = [], False
    for block in blocks:
        prose = not isinstance(block, Table)
        apart = before and (not prose or isinstance(block, Next))
        told.append("\n" * apart + plain(block, units))
        before = prose
    return "\n".join(told)


def plain(block: Block, units: Units) -> str:
    """Return one block as text."""
    match block:
        case Table():
            return _table(block, units)
        case Checklist():
            lines = (_wrapped(f"  [ ] {text_of(line, units)}", indent="      ") for line in block.lines)
            return "\n".join([f"{block.title}:", *lines])
        case Points():
            return "\n".join(_wrapped(f"- {text_of(line, units)}", indent="  ") for line in block.lines)
        case Verbatim():
            return f"{block.title}:\n{block.text}" if block.title else block.text
        case Picture():
            return _wrapped(f"{block.title}. {text_of(block.alt, units)}")
        case Caution():
            return _wrapped(block.text)
        case Next():
            whole = (words.replace(" ", HELD) if command else words for words, command in pieces(block, units))
            return _wrapped("".join(whole))
    return "\n".join(map(_wrapped, text_of(block, units).split("\n")))


def _wrapped(text: str, indent: str = "") -> str:
    held = _held(text)
    lines = textwrap.fill(held, WIDTH, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False)
    return lines.replace(HELD, " ")


def _held(text: str) -> str:
    return unbroken(text).replace(NO_BREAK, HELD)


def _at_dots(name: str, width: int) -> str:
    """Return a long dotted name broken at its dots: ``wing.span`` stays, ``powerplant.rotary`` may be two lines."""
    if len(name) <= width or "." not in name or " " in name:
        return name
    lines = [""]
    for part in name.replace(".", "\0.").split("\0"):
        lines = [*lines[:-1], lines[-1] + part] if len(lines[-1] + part) <= width else [*lines, part]
    return "\n".join(lines)


def _dotted_words(cell: str) -> str:
    """Return a cell, its long dotted names broken at their dots, so that one does not widen the whole table."""
    if "." not in cell or "/" in cell:  # a file keeps its name
        return cell
    lines = (line.split(" ") for line in cell.split("\n"))
    return "\n".join(" ".join(_at_dots(word, LONG) for word in line) for line in lines)


def _table(whole: Table, units: Units) -> str:
    from rich import box
    from rich.console import Console
    from rich.table import Table as Grid

    drawn = Grid(
        title=_held(text_of(whole.title, units)) or None,
        title_justify="left",
        title_style="bold",
        box=box.SIMPLE_HEAD,
        caption="\n".join(_held(text_of(note, units)) for note in whole.notes) or None,
        caption_justify="left",
    )
    lines = [[_held(text_of(cell, units)) for cell in row] for row in whole.rows()]
    heads = [head_of(column, units, short=True) for column in whole.columns]
    sides = ["left", *(side_of(column, units) for column in whole.columns[1:])]
    others = [max(map(_longest, column)) for column in zip(heads[1:], *(line[1:] for line in lines), strict=True)]
    short = max(SHORT, WIDTH - _ruled(heads) - sum(others))
    lines = [[_at_dots(first, short), *map(_dotted_words, rest)] for first, *rest in lines]
    narrow = max((_longest(first) for first, *_ in lines), default=0) <= short
    widths = _widths(heads, lines, narrow=narrow)
    for head, side, width in zip(heads, sides, widths, strict=True):
        drawn.add_column(head, justify=side, overflow="fold", width=width)
    for line in lines:
        drawn.add_row(*line)
    console = Console(highlight=False, markup=False, width=max(WIDTH, sum(widths) + _ruled(widths)))
    with console.capture() as capture:
        console.print(drawn)
    text = capture.get().replace(HELD, " ").rstrip()
    text = text if whole.title else text.partition("\n")[2]  # the blank line that parts a title from its table
    page = max(WIDTH, sum(widths) + _ruled(widths) - 2)
    told = (line.rstrip() for line in text.splitlines())
    # the rule reaches past the last column, and must not reach past the page
    return "\n".join(line if line.strip(" ─") else line[:page] for line in told) + "\n"


def _longest(cell: str) -> int:
    """Return the letters of the longest line of a cell."""
    return max(map(len, cell.split("\n")))


def _ruled(columns: Sized) -> int:
    """Return the letters that margins and gaps take."""
    return 3 * len(columns) + 1


def _widths(heads: list[str], lines: list[list[str]], *, narrow: bool) -> list[int]:
    """Return the widths of columns that fit the page without breaking a word or a number.

    A narrow first column is not broken at all where there is room; where the words alone are wider than the page, the
    table is: half a number reads as another number.
    """
    columns = list(zip(heads, *lines, strict=True))
    least = [max(len(word) for cell in column for word in cell.split() or [""]) for column in columns]
    widths = [max(map(_longest, column)) for column in columns]
    room = WIDTH - _ruled(widths)
    whole = max([least[0], *map(_longest, columns[0][1:])])
    if narrow and sum(least) - least[0] + whole <= room:
        least[0] = whole
    while sum(widths) > max(room, sum(least)):
        slack = [width - few for width, few in zip(widths, least, strict=True)]
        widths[slack.index(max(slack))] -= 1
    return widths
