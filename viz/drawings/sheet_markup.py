"""Markup that pages of the book share: a view at its own size, the scale in the title block, the name of a part."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.items import key, numbers
from viz.drawings.svg import view_svg
from viz.files.typst import string, text

if TYPE_CHECKING:
    from sim.display.assembly.data import Assembly, Part
    from viz.drawings.view import View
    from viz.sheets.typst import Pages


def placed(pages: Pages, name: str, view: View) -> str:
    """Return the markup of a view at its own size, and keep its SVG."""
    pages.files[f"{name}.svg"] = view_svg(view)
    wide, high = (f"{side:.4f}" for side in view.size)
    return f"#view({string(name + '.svg')}, {wide}, {high}, {string(view.description)})"


def scale_of(words: str) -> str:
    """Return the markup that says the scale in the title block, on this sheet and those that it runs on to."""
    return f"#scale-of({string(words)})"


def part_title(part: Part, assembly: Assembly) -> str:
    """Return the markup of the name of a part with its item number, as its sheet is headed."""
    return text(f"{part.name.capitalize()}, item {numbers(assembly)[key(part)]}")
