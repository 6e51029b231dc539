"""A sheet written as Typst, to be set as PDF by `viz.files.typst`."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from viz.files.typst import string, text
from viz.sheets.blocks import Caution, Checklist, Picture, Points, Table, Verbatim
from viz.sheets.text import head_of, pieces, side_of, text_of
from viz.words.catalogue import locale
from viz.words.reader import language, tell, worded

if TYPE_CHECKING:
    from collections.abc import Iterable

    from viz.sheets.blocks import Block, Cell
    from viz.sheets.format import Units

_LOOK = """
#set text(font: ("DejaVu Sans", "DejaVu Sans Mono"), size: 9pt, fill: rgb("#1a1a1a"), lang: "{code}")
#set par(leading: 0.55em, spacing: 0.9em)
#show raw: set text(size: 1.25em)
#show heading: set text(fill: rgb("#3f3f3f"))
#show figure.where(kind: image): set figure(supplement: [{figure}], numbering: "1")
#set figure.caption(separator: [. ])
#show figure.caption: set text(size: 8pt, fill: rgb("#3f3f3f"))
#show figure.caption: set align(left)
#show table.cell.where(y: 0): strong
#set table(stroke: (x, y) => (bottom: if y == 0 { 0.8pt + rgb("#3f3f3f") } else { 0.3pt + rgb("#b0b0b0") }))
#set table(inset: (x: 3pt, y: 2.2pt))
#let caution(words) = block(width: 100%, inset: (x: 6pt, y: 4pt), stroke: (left: 2pt + rgb("#a3123a")),
  text(fill: rgb("#a3123a"), words))
#let note(words) = text(size: 8pt, fill: rgb("#3f3f3f"), words)
"""
_NOT_IN_A_NAME = re.compile(r"[^\w.-]+")


def look() -> str:
    """Return how every PDF of sheets looks, in the reader's language; its fonts are those of the figures."""
    code = str(locale(language())).partition("_")[0]
    return _LOOK.replace("{code}", code).replace("{figure}", text(worded("Figure")))


class Pages:
    """Blocks as Typst markup, and the drawings that it names."""

    def __init__(self, units: Units) -> None:
        self.units = units
        self.files: dict[str, str] = {}
        self.attached = 0

    def markup(self, blocks: Iterable[Block]) -> str:
        """Return the blocks as markup, one under another; their pictures are added to `files`."""
        return "\n\n".join(self._block(block) for block in blocks)

    def _block(self, block: Block) -> str:
        match block:
            case Table():
                return self._table(block)
            case Points():
                return "\n".join(f"- {self._said(line)}" for line in block.lines)
            case Checklist():
                lines = "\n".join(f"- {self._said(line)}" for line in block.lines)
                return f"{text(tell('{title}:', title=block.title))}\n\n#[#set list(marker: [☐])\n{lines}\n]"
            case Verbatim():
                return self._verbatim(block)
            case Picture():
                return self._picture(block)
            case Caution():
                return f"#caution[{text(worded(block.text))}]"
        return self._said(block)

    def _said(self, cell: Cell) -> str:
        """Return a cell as markup, a line break of its own for each line."""
        return "".join(
            f"#raw({string(words)});" if command else " \\ ".join(map(text, words.split("\n")))
            for words, command in pieces(cell, self.units)
        )

    def _verbatim(self, block: Verbatim) -> str:
        if not block.file:
            return f"*{text(worded(block.title))}*\n\n#raw(block: true, {string(block.text)})"
        self.attached += 1
        name = string(f"{self.attached}-{_NOT_IN_A_NAME.sub('_', block.file)}")
        attached = f"#pdf.attach({name}, bytes({string(block.text)}), description: {string(worded(block.title))})"
        return f"{text(tell('{title}: attached to this PDF as ', title=block.title))}#raw({name});.\n\n{attached}"

    def _picture(self, picture: Picture) -> str:
        name = f"figure{len(self.files) + 1}.svg"
        drawing = picture.drawing()
        self.files[name] = drawing.svg
        alt = text_of(picture.alt, self.units)
        image = f'image(file({string(name)}), format: "svg", width: {drawing.width_in:.3f}in, alt: {string(alt)})'
        return f"#figure({image}, caption: [{text(f'{worded(picture.title)}. {alt}')}])"

    def _table(self, table: Table) -> str:
        heads = ", ".join(f"[{text(head_of(column, self.units))}]" for column in table.columns)
        cells = ",\n  ".join(", ".join(f"[{self._said(cell)}]" for cell in row) for row in table.rows())
        count = len(table.columns)
        aligned = ", ".join(["left", *(side_of(column, self.units) for column in table.columns[1:])])
        inside = f"columns: {count}, align: ({aligned},), table.header({heads}),\n  {cells}"
        grid = f"#[#set text(size: 8pt)\n#table({inside})]"
        notes = "\n\n".join(f"#note[{self._said(note)}]" for note in table.notes)
        title = f"#block(sticky: true)[*{self._said(table.title)}*]"
        return "\n\n".join(part for part in (title, grid, notes) if part)
