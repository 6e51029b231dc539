"""A part as DXF R2010 in millimetres: closed polylines, circles, marks and words on layers with plain names."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

    from viz.drawings.drawing import Drawing

LAYERS = {"OUTLINE": 7, "HOLES": 7, "OPENINGS": 7, "CENTRES": 8, "SCRIBE": 5, "TEXT": 3, "CUTTER PATH": 1}
"""Layer -> colour number of the standard palette, 7 black on paper. OUTLINE, HOLES and OPENINGS are cut through, CUTTER
PATH is for a milling cutter's centre instead of OUTLINE, the others are marked or left out."""


def document(drawing: Drawing, title: str) -> Document:
    """Return the part as a DXF document with `title` written below it."""
    from ezdxf import units
    from ezdxf.enums import TextEntityAlignment
    from ezdxf.filemanagement import new

    made = new("R2010", setup=True)
    made.units = units.MM
    for layer, colour in LAYERS.items():
        made.layers.add(layer, color=colour)
    space = made.modelspace()
    space.add_lwpolyline(drawing.outline, close=True, dxfattribs={"layer": "OUTLINE"})
    for opening in drawing.openings:
        space.add_lwpolyline(opening, close=True, dxfattribs={"layer": "OPENINGS"})
    if drawing.cutter_path:
        space.add_lwpolyline(drawing.cutter_path, close=True, dxfattribs={"layer": "CUTTER PATH"})
    for centre, diameter in drawing.circles:
        space.add_circle(centre, diameter / 2.0, dxfattribs={"layer": "HOLES"})
    for layer, lines in (("CENTRES", drawing.centres), ("SCRIBE", drawing.scribes)):
        for line in lines:
            space.add_lwpolyline(line, dxfattribs={"layer": layer})
    for label in drawing.labels:
        words = space.add_text(label.text, height=label.letter_mm, rotation=label.turned_deg)
        words.dxf.layer = "TEXT"
        words.set_placement(label.at, align=TextEntityAlignment.MIDDLE_CENTER)
    left, bottom, _, _ = drawing.box
    below = space.add_text(title, height=3.0, dxfattribs={"layer": "TEXT"})
    below.set_placement((left, bottom - 12.0), align=TextEntityAlignment.LEFT)
    return made


def dxf(drawing: Drawing, title: str) -> str:
    """Return the part as the text of a DXF file."""
    stream = io.StringIO()
    document(drawing, title).write(stream)
    return stream.getvalue()
