"""Drawings as SVG at true scale, one user unit a millimetre: a part to cut, and a view for the drawing sheet."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from viz.drawings.marks import Note, Ring, Stroke, box_of
from viz.drawings.part_layers import part_layers

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Box, Mark, Pen
    from viz.drawings.view import View

FONT = "DejaVu Sans Mono"
"""Monospaced, so that the width of a word is known without asking for the font."""
CAPITAL = 0.729
"""Height of a capital letter of that font over its size."""
PAPER = '<rect width="100%" height="100%" fill="#ffffff"/>'
"""Under a drawing that is looked at, so that its black lines show on a dark page."""
EDGE_MM = 6.0
QUARTER_INCH_MM = 6.35


@dataclass(frozen=True, slots=True)
class Look:
    """How a pen draws: colour and width of its lines, lengths of dashes and gaps, colour of its words."""

    line: str
    width_mm: float
    dashes: str = "none"
    words: str = "#000000"


LOOKS: dict[Pen, Look] = {
    "pale": Look("#aaaaaa", 0.15),
    "cut": Look("#000000", 0.35),
    "other": Look("#0b4f8a", 0.18, "2 0.8", words="#0b4f8a"),
    "edge": Look("#000000", 0.22),
    "thin": Look("#333333", 0.18),
    "centre": Look("#777777", 0.13, "3 0.7 0.7 0.7"),
    "mark": Look("#0b4f8a", 0.25, words="#0b4f8a"),
    "hidden": Look("#777777", 0.25, "1.5 0.8"),
    "number": Look("#b03010", 0.25, words="#b03010"),
    "leader": Look("#999999", 0.09, words="#000000"),
}
CUT_COLOURS = {"centres": "#2e6b2e", "scribe": "#1f4fa0", "text": "#2e6b2e", "cutter-path": "#b03010"}
"""Layer of a file to cut from -> its colour, by which a laser cutter tells layers apart; the others are cut, black."""
CUT_WIDTH_MM = 0.1


def view_svg(view: View) -> str:
    """Return a view as the text of an SVG file just as large as what is drawn, a group a layer where it has layers."""
    return _document(view.size, view.description, _layered(view, box_of(view.marks)))


def view_file_svg(view: View) -> str:
    """Return a view as the text of an SVG file of its own, with a margin, which browsers print at true scale."""
    box = _with_margin(box_of(view.marks))
    size = _whole(box[2] - box[0]), _whole(box[3] - box[1])
    return _document(size, view.description, (PAPER, *_layered(view, box)))


def _layered(view: View, box: Box) -> Iterator[str]:
    for layer in dict.fromkeys(mark.layer for mark in view.marks):
        own = "\n".join(filter(None, _penned([mark for mark in view.marks if mark.layer == layer], box, layer)))
        yield f'<g id="{layer.replace(" ", "-")}">\n{own}\n</g>' if layer else own


def _penned(marks: Sequence[Mark], box: Box, layer: str) -> Iterator[str]:
    """Yield the marks of a layer pen by pen."""
    for pen, look in LOOKS.items():
        own = [_element(mark, box) for mark in marks if mark.pen == pen]
        style = f'stroke="{look.line}" stroke-width="{look.width_mm}" stroke-dasharray="{look.dashes}"'
        name = f"{layer.replace(' ', '-')}-{pen}" if layer else pen
        yield _group(name, style, own, words=look.words)


def part_svg(drawing: Drawing, title: str) -> str:
    """Return a part as the text of an SVG file with a layer a group and `title` below; up on the part is up."""
    layers = part_layers(drawing, title)
    box = _with_margin(box_of(mark for layer in layers.values() for mark in layer))
    groups = []
    for name, marks in layers.items():
        colour = CUT_COLOURS.get(name, "#000000")
        style = f'stroke="{colour}" stroke-width="{CUT_WIDTH_MM}"'
        groups.append(_group(name, style, [_element(mark, box) for mark in marks], words=colour))
    return _document((_whole(box[2] - box[0]), _whole(box[3] - box[1])), title, groups)


def _with_margin(box: Box) -> Box:
    return box[0] - EDGE_MM, box[1] - EDGE_MM, box[2] + EDGE_MM, box[3] + EDGE_MM


def _whole(length_mm: float) -> float:
    """Return the next whole number of quarter inches: browsers round sides to dots, and then the scale is not true."""
    return ceil(length_mm / QUARTER_INCH_MM) * QUARTER_INCH_MM


def _document(size: tuple[float, float], title: str, groups: Iterable[str]) -> str:
    wide, high = (f"{side:.4f}" for side in size)
    head = f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">'
    lines = ['<?xml version="1.0" encoding="UTF-8"?>', head, f"<title>{escape(title)}</title>", *filter(None, groups)]
    return "\n".join([*lines, "</svg>\n"])


def _group(name: str, style: str, elements: list[str], *, words: str) -> str:
    """Return the elements of one layer, or nothing where it is empty."""
    if not elements:
        return ""
    head = f'<g id="{name}" fill="none" {style} font-family="{FONT}, monospace" color="{words}">'
    return "\n".join([head, *elements, "</g>"])


def _element(mark: Mark, box: Box) -> str:
    left, _, _, top = box
    match mark:
        case Stroke(points, _, closed):
            corners = " L".join(f"{x - left:.4f} {top - y:.4f}" for x, y in points)
            return f'<path d="M{corners}{" Z" if closed else ""}"/>'
        case Ring((x, y), diameter):
            return f'<circle cx="{x - left:.4f}" cy="{top - y:.4f}" r="{diameter / 2.0:.4f}"/>'
        case Note():
            return _words(mark, left, top)


def _words(note: Note, left: float, top: float) -> str:
    x, y = note.at[0] - left, top - note.at[1]
    turned = f' transform="rotate({-note.turned_deg:.3f} {x:.3f} {y:.3f})"' if note.turned_deg else ""
    return (
        f'<text x="{x:.3f}" y="{y + note.letter_mm / 2.0:.3f}" font-size="{note.letter_mm / CAPITAL:.3f}" '
        f'fill="currentColor" stroke="none" text-anchor="{note.anchor}"{turned}>{escape(note.text)}</text>'
    )
