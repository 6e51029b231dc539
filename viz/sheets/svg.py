"""A figure inside a page: SVG with text as text, ids of its own, and words for who cannot see it."""

from __future__ import annotations

import re
from html import escape

_PROLOG = re.compile(r"^.*?(?=<svg)|<metadata>.*?</metadata>|<style[^>]*>.*?</style>", re.DOTALL)
_SIZE = re.compile(r'(<svg[^>]*?) width="([\d.]+)pt" height="[\d.]+pt"', re.DOTALL)
_ID = re.compile(r'(\bid="|url\(#|href="#)')
STROKES = "stroke-linejoin: round; stroke-linecap: butt"
"""What the style sheet of a lone figure says, which would reach the whole page from inside it."""


def inlined(svg: str, name: str, alt: str) -> str:
    """Return an SVG file as an element of a page.

    Parameters
    ----------
    svg : str
        The file as matplotlib writes it.
    name : str
        Put before every id, so that figures on one page keep apart.
    alt : str
        What the figure shows.
    """
    body = _PROLOG.sub("", svg).replace("xlink:href", "href").strip()
    body = _ID.sub(rf"\g<1>{name}-", body)
    label = f'role="img" aria-label="{escape(alt)}"'
    return _SIZE.sub(lambda found: f'{found[1]} {label} style="min-width: {found[2]}px; {STROKES}"', body, count=1)
