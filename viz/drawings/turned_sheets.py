"""Sheets of the parts that are turned, milled or printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.items import key
from viz.drawings.preparation import tolerance
from viz.drawings.sheet_markup import placed, scale_of
from viz.drawings.turned_parts import PRINTED, block_table, flat, limit_table, printed_text, to_print, to_turn
from viz.drawings.turned_view import turned_view
from viz.drawings.view import ratio
from viz.files.typst import text
from viz.sheets.blocks import rows

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.display.assembly.data import Assembly
    from sim.studies.exhibit import Exhibit
    from viz.sheets.typst import Pages

LEAST_TURNED = 0.5
"""Scale below which a turned part takes the whole width of the page."""
TURNED_MM = 84.0, 70.0
"""What a turned part may take. [mm]"""
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
    narrow: list[str] = []
    wide: list[str] = []
    for number, part in to_turn(assembly):
        view = turned_view(part, assembly, TURNED_MM)
        cells = narrow if view.scale >= LEAST_TURNED else wide
        view = view if cells is narrow else turned_view(part, assembly, (2.0 * TURNED_MM[0], TURNED_MM[1]))
        count = sum(key(each) == key(part) for each in assembly.parts)
        fit = f", {part.fit}" if part.fit else ""
        head = text(f"Item {number}: {part.name}, {count} of {part.material}{fit}. Scale {ratio(view.scale)}.")
        cells.append(f"turned([{head}], [{placed(pages, f'turned-{number}', view)}])")
    for columns, cells in (("1fr", wide), ("1fr, 1fr", narrow)):
        yield f"#grid(columns: ({columns},), gutter: 3mm, {', '.join(cells)})"
    yield pages.markup([limit_table(assembly, pages.units)])
    yield "== Parts to print"
    lines = (
        (str(number), each.name, each.material, each.fit, printed_text(each, pages.units))
        for number, each in to_print(assembly)
    )
    yield pages.markup([rows(PRINTED, ["item", "part", "material", "fit", "file and size"], lines)])
    yield pages.markup([block_table(number, each, assembly) for number, each in to_print(assembly) if not flat(each)])
