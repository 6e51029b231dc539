"""A part as SVG at true scale: one user unit is one millimetre."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from viz.drawings.drawing import Chain, Drawing, Point

EDGE_MM = 6.0
FOOT_MM = 12.0
LETTER_OF_TITLE_MM = 3.0
WIDTH_OF_TITLE_LETTER = 0.62
STROKES = {"CUT": "#000000", "MARK": "#1f4fa0", "NOTE": "#2e6b2e", "MILL": "#b03010"}


def svg(drawing: Drawing, title: str) -> str:
    """Return the part as the text of an SVG file with `title` below it; up on the part is up on the screen."""
    left, bottom, right, top = drawing.box
    if drawing.cutter_path:
        across, up = zip(*drawing.cutter_path, strict=True)
        left, bottom, right, top = min(left, *across), min(bottom, *up), max(right, *across), max(top, *up)
    wide = _whole(max(right - left, len(title) * LETTER_OF_TITLE_MM * WIDTH_OF_TITLE_LETTER) + 2.0 * EDGE_MM)
    high = _whole(top - bottom + 2.0 * EDGE_MM + FOOT_MM)

    def at(point: Point) -> Point:
        return point[0] - left + EDGE_MM, top - point[1] + EDGE_MM

    def path(chain: Chain, *, closed: bool) -> str:
        corners = " L".join(f"{x:.4f} {y:.4f}" for x, y in map(at, chain))
        return f'<path d="M{corners}{" Z" if closed else ""}"/>'

    circles = [
        f'<circle cx="{x:.4f}" cy="{y:.4f}" r="{diameter / 2.0:.4f}"/>'
        for (x, y), diameter in ((at(centre), diameter) for centre, diameter in drawing.circles)
    ]
    words = [
        f'<text x="{x:.3f}" y="{y:.3f}" font-size="{label.letter_mm * 1.35:.3f}" text-anchor="middle" '
        f'dominant-baseline="central" transform="rotate({-label.turned_deg:.3f} {x:.3f} {y:.3f})">'
        f"{escape(label.text)}</text>"
        for label, (x, y) in ((label, at(label.at)) for label in drawing.labels)
    ]
    foot = f'<text x="{EDGE_MM}" y="{high - EDGE_MM:.3f}" font-size="{LETTER_OF_TITLE_MM}">{escape(title)}</text>'
    groups = [
        _group("outline", "CUT", [path(drawing.outline, closed=True)]),
        _group("holes", "CUT", circles),
        _group("openings", "CUT", [path(opening, closed=True) for opening in drawing.openings]),
        _group("centres", "NOTE", [path(mark, closed=False) for mark in drawing.marks]),
        _group("scribe", "MARK", [path(line, closed=False) for line in drawing.scribes]),
        _group("cutter-path", "MILL", [path(drawing.cutter_path, closed=True)] if drawing.cutter_path else []),
    ]
    text = f'<g id="text" fill="{STROKES["NOTE"]}" font-family="sans-serif">\n' + "\n".join([*words, foot]) + "\n</g>"
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.4f}mm" height="{high:.4f}mm" '
        f'viewBox="0 0 {wide:.4f} {high:.4f}">\n<title>{escape(title)}</title>'
    )
    return "\n".join(['<?xml version="1.0" encoding="UTF-8"?>', head, *filter(None, groups), text, "</svg>\n"])


def _whole(length_mm: float) -> float:
    """Return the next whole number of quarter inches: browsers round sides to dots, and then the scale is not true."""
    return ceil(length_mm / 6.35) * 6.35


def _group(name: str, ink: str, shapes: list[str]) -> str:
    """Return the shapes of one layer, or nothing where it is empty."""
    if not shapes:
        return ""
    look = f'fill="none" stroke="{STROKES[ink]}" stroke-width="0.1"'
    return "\n".join([f'<g id="{name}" {look}>', *shapes, "</g>"])
