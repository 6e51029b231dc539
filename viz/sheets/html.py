"""A sheet written as HTML: nothing is fetched, nothing runs, every string is escaped."""

from __future__ import annotations

from functools import partial
from itertools import count
from typing import TYPE_CHECKING, Any

from sim.units.text import unbroken
from viz.sheets.blocks import Picture, kind
from viz.sheets.text import head_of, pieces, text_of, wordy
from viz.words.reader import tell, worded

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from jinja2 import Template

    from viz.sheets.blocks import Block, Cell
    from viz.sheets.format import Units

ALONE = (
    '{% from "blocks.html.jinja" import block %}{% for one, drawing in shown %}{{ block(one, drawing) }}{% endfor %}'
)
"""A sheet that is no part of a page."""


def write(blocks: Iterable[Block], units: Units) -> str:
    """Return a sheet as a piece of HTML, to stand in a page or in a notebook."""
    return template(ALONE, units).render(shown=list(drawn(blocks, count(1))))


def template(name_or_text: str, units: Units, **more: object) -> Template:
    """Return a template: the file of that name under ``viz/sheets`` or ``viz/report``, or the text itself.

    It may use `text`, `pieces`, `head` and `wordy` for cells, columns and tables in the units asked for, and for
    phrases `worded` and `tell`.
    """
    from jinja2 import ChoiceLoader, Environment, PackageLoader, StrictUndefined

    made = Environment(
        loader=ChoiceLoader([PackageLoader("viz.report"), PackageLoader("viz.sheets")]),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    for function in (_text, head_of, _pieces, wordy):
        made.globals[function.__name__.strip("_").removesuffix("_of")] = partial(function, units=units)
    made.globals |= {"kind": kind, "brief": False, "worded": worded, "tell": tell, **more}
    return made.get_template(name_or_text) if name_or_text.endswith(".jinja") else made.from_string(name_or_text)


def _text(cell: Cell, units: Units) -> str:
    return unbroken(text_of(cell, units))


def _pieces(cell: Cell, units: Units) -> Iterator[tuple[str, bool]]:
    yield from ((words if command else unbroken(words), command) for words, command in pieces(cell, units))


def drawn(blocks: Iterable[Block], numbers: Iterator[int]) -> Iterator[tuple[Block, Any]]:
    """Yield each block, a picture with its number and its drawing."""
    from markupsafe import Markup

    from viz.sheets.svg import inlined

    for block in blocks:
        if isinstance(block, Picture):
            number = next(numbers)
            drawing = inlined(block.drawing().svg, f"figure{number}", text_of(block.alt, "si"))
            yield block, (number, Markup(drawing))  # our own drawing, its words escaped by matplotlib
        else:
            yield block, None
