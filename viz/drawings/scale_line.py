"""The line that the scale of a print is checked by."""

from __future__ import annotations

from importlib.resources import files

from viz.drawings.view import CHECK
from viz.files.typst import string


def scale_line() -> str:
    """Return the markup that defines it as ``scale-line``."""
    drawn = files("viz.drawings").joinpath("scale_line.typ").read_text(encoding="utf-8")
    return f"#let scale-words = {string(CHECK)}\n{drawn}"
