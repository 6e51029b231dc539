"""Drawings as DXF R2010 in millimetres: polylines, circles and words on layers with plain names.

A part to cut has closed outlines; a three-view is at full size, whatever scale its words are set for.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from viz.drawings.marks import Note, Ring, Stroke, shifted
from viz.drawings.part_layers import TITLE_BELOW_MM, part_layers

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Chain, Mark, Point
    from viz.drawings.nesting import Laid
    from viz.drawings.view import View

LAYERS = {"OUTLINE": 7, "HOLES": 7, "OPENINGS": 7, "CENTRES": 8, "SCRIBE": 5, "TEXT": 3, "CUTTER PATH": 1}
"""Layer -> colour number of the standard palette, 7 black on paper. OUTLINE, HOLES and OPENINGS are cut through, CUTTER
PATH is for a milling cutter's centre instead of OUTLINE, the others are marked or left out."""
INERT = "Inert display. Estimates: a licensed engineer or mechanic decides. Guard what turns."
"""The caution that describes every layer of a part."""
BLACK, GREY = 7, 8
AIRPLANE = {
    "WIRES": 8,
    "SPARS": 5,
    "CENTRE OF GRAVITY": 1,
    "READINGS": 1,
    "OTHER AIRPLANE": 5,
    "DATUM": 8,
    "GROUND": 3,
    "MOUNT": 5,
    "STATIONS": 8,
}
"""Layers of a three-view that are not black."""
LINE_TYPES = {"hidden": "DASHED", "centre": "CENTER", "other": "DASHED"}
"""Pen -> line type of a three-view."""


def dxf(drawing: Drawing, title: str) -> str:
    """Return a part as the text of a DXF file, with `title` written below it."""
    layers = {_name(layer): marks for layer, marks in part_layers(drawing, title).items()}
    return _text(layers, LAYERS, inert=True)


def nest_dxf(pieces: Iterable[tuple[Laid, Drawing]], stock: Point, title: str) -> str:
    """Return one sheet of stock with the parts laid out on it, as the text of a DXF file.

    Parameters
    ----------
    pieces : iterable of (Laid, Drawing)
        Place and shape of each.
    stock : (float, float)
        Width and height of the sheet. [mm]
    title : str
        What is written below it.
    """
    wide, high = stock
    layers: dict[str, list[Mark]] = {layer: [] for layer in LAYERS}
    layers["STOCK"] = [Stroke([(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)], "thin", closed=True)]
    layers["TEXT"] = [Note(title, (0.0, -TITLE_BELOW_MM), "thin", anchor="start")]
    for laid, drawing in pieces:
        layers["TEXT"].append(Note(drawing.name, _middle(laid.place(drawing.outline)), "thin"))
        layers["OUTLINE"].append(Stroke(laid.place(drawing.outline), "cut", closed=True))
        layers["OPENINGS"] += [Stroke(laid.place(rim), "cut", closed=True) for rim in drawing.openings]
        layers["HOLES"] += [Ring(laid.place([middle])[0], diameter, "cut") for middle, diameter in drawing.circles]
        layers["SCRIBE"] += [Stroke(laid.place(line), "mark") for line in drawing.scribes]
    return _text(layers, LAYERS | {"STOCK": GREY}, inert=True)


def _middle(chain: Chain) -> Point:
    xs, ys = zip(*chain, strict=True)
    return (min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0


def view_dxf(view: View) -> str:
    """Return a view of an airplane at full size as the text of a DXF file."""
    full = [shifted(mark, (0.0, 0.0), 1.0 / view.scale) for mark in view.marks]
    layers = {_name(layer): [mark for mark in full if mark.layer == layer] for layer in _layers(full)}
    return _text(layers, {layer: AIRPLANE.get(layer, BLACK) for layer in layers})


def _layers(marks: Iterable[Mark]) -> dict[str, None]:
    return dict.fromkeys(mark.layer for mark in marks)


def _name(layer: str) -> str:
    return layer.replace("-", " ").upper()


def _text(layers: Mapping[str, Iterable[Mark]], colours: Mapping[str, int], *, inert: bool = False) -> str:
    stream = io.StringIO()
    _document(layers, colours, inert=inert).write(stream)
    return stream.getvalue()


def _document(layers: Mapping[str, Iterable[Mark]], colours: Mapping[str, int], *, inert: bool) -> Document:
    from ezdxf import units
    from ezdxf.filemanagement import new

    made = new("R2010", setup=True)
    made.units = units.MM
    for layer, colour in colours.items():
        made.layers.add(layer, color=colour).description = INERT if inert else ""
    for layer, marks in layers.items():
        for mark in marks:
            _add(made.modelspace(), mark, layer)
    return made


def _add(space: Modelspace, mark: Mark, layer: str) -> None:
    on = {"layer": layer}
    match mark:
        case Stroke(points, pen, closed):
            if pen in LINE_TYPES:
                on["linetype"] = LINE_TYPES[pen]
            space.add_lwpolyline(points, close=closed, dxfattribs=on)
        case Ring(centre, diameter):
            space.add_circle(centre, diameter / 2.0, dxfattribs=on)
        case Note():
            from ezdxf.enums import TextEntityAlignment as Align

            sides = {"start": Align.MIDDLE_LEFT, "middle": Align.MIDDLE_CENTER, "end": Align.MIDDLE_RIGHT}
            words = space.add_text(mark.text, height=mark.letter_mm, rotation=mark.turned_deg, dxfattribs=on)
            words.set_placement(mark.at, align=sides[mark.anchor])
