"""Sheets of the parts that are turned, milled or printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.block_view import block_view
from viz.drawings.items import key
from viz.drawings.preparation import tolerance
from viz.drawings.sheet_markup import placed, scale_of
from viz.drawings.turned_parts import PRINTED, flat, limit_table, printed_text, pulleys, to_print, to_turn
from viz.drawings.turned_view import turned_view
from viz.drawings.view import ratio
from viz.files.typst import text
from viz.sheets.blocks import rows

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly, Part
    from sim.studies.exhibit import Exhibit
    from viz.drawings.marks import Point
    from viz.drawings.view import View
    from viz.sheets.typst import Pages

LEAST_TURNED = 0.5
"""Scale below which a turned part takes the whole width of the page."""
TURNED_MM = 84.0, 70.0
"""What a turned part may take. [mm]"""
BLOCK_MM = 84.0, 110.0
"""What a block may take. [mm]"""
PULLEY_MM = 84.0, 150.0
"""What a pulley may take. [mm]"""
PULLEYS = (
    "Bought with a pilot bore, bored true to the teeth. The boss of one from the shelf may be longer by 2 mm "
    "(0.08 in): then the cross hole is measured from the front end. A set screw in the boss is left out, for the pin "
    "holds; its hole is turned a right angle away from the pin. Where the boss is of another diameter, the cross pin "
    "is shorter than that by 1 to 2 mm (0.04 to 0.08 in), or is the longest that is listed."
)
TURNED = (
    "Cross holes are drilled on the bench: each hub on its shaft at its place from the drawing, both in a V-block, "
    "from both sides with a drill long enough; mark hub and shaft. The angle below a drawing is that of the hole, "
    "anticlockwise from the horizontal at the right, as seen from the front, where blade 1 lies at the right. So the "
    "holes of one shaft stand at their angles to each other."
)


def turned(_: Exhibit, assembly: Assembly, pages: Pages) -> Iterator[str]:
    """Yield the sheets of the parts to turn and to print."""
    yield "= Parts to turn and to print"
    yield scale_of("as stated")
    yield text(f"Side views, the rear end at the left. {tolerance('steel', pages.units)} {TURNED}")
    yield from _drawn(to_turn(assembly), assembly, pages, TURNED_MM)
    yield pages.markup([limit_table(assembly, pages.units)])
    yield "== Parts to print"
    lines = (
        (str(number), each.name, each.material, each.fit, printed_text(each, pages.units))
        for number, each in to_print(assembly)
    )
    yield pages.markup([rows(PRINTED, ["item", "part", "material", "fit", "file and size"], lines)])
    cells = []
    for number, part in to_print(assembly):
        if not flat(part):
            view = block_view(part, assembly, BLOCK_MM)
            cells.append(_cell(number, part, assembly, pages, view=view))
    yield _grid("1fr, 1fr", cells)
    yield "== Pulleys to bore"
    yield text(PULLEYS)
    yield from _drawn(pulleys(assembly), assembly, pages, PULLEY_MM)


def _drawn(parts: Iterator[tuple[int, Part]], assembly: Assembly, pages: Pages, room: Point) -> Iterator[str]:
    """Yield the drawings of turned parts, those that are small in a room of half the page over its width and first."""
    narrow: list[str] = []
    wide: list[str] = []
    for number, part in parts:
        view = turned_view(part, assembly, room)
        cells = narrow if view.scale >= LEAST_TURNED else wide
        view = view if cells is narrow else turned_view(part, assembly, (2.0 * room[0], room[1]))
        cells.append(_cell(number, part, assembly, pages, view=view))
    for columns, cells in (("1fr", wide), ("1fr, 1fr", narrow)):
        yield _grid(columns, cells)


def _cell(number: int, part: Part, assembly: Assembly, pages: Pages, *, view: View) -> str:
    """Return the markup of a part with its item number, what there is of it, and its drawing."""
    count = sum(key(each) == key(part) for each in assembly.parts)
    fit = f", {part.fit}" if part.fit else ""
    head = text(f"Item {number}: {part.name}, {count} of {part.material}{fit}. Scale {ratio(view.scale)}.")
    return f"turned([{head}], [{placed(pages, f'turned-{number}', view)}])"


def _grid(columns: str, cells: list[str]) -> str:
    return f"#grid(columns: ({columns},), gutter: 3mm, {', '.join(cells)})" if cells else ""
