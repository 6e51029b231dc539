"""The layers of a file that a flat part is cut from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.drawings.marks import Note, Ring, Stroke

if TYPE_CHECKING:
    from viz.drawings.drawing import Drawing
    from viz.drawings.marks import Mark

TITLE_BELOW_MM = 12.0


def part_layers(drawing: Drawing, title: str) -> dict[str, list[Mark]]:
    """Return the marks of a part layer by layer, with `title` below it; up on the part is up."""
    left, bottom, _, _ = drawing.box
    return {
        "outline": [Stroke(drawing.outline, "cut", closed=True)],
        "holes": [Ring(centre, diameter, "cut") for centre, diameter in drawing.circles],
        "openings": [Stroke(opening, "cut", closed=True) for opening in drawing.openings],
        "centres": [Stroke(line, "thin") for line in drawing.centres],
        "scribe": [Stroke(line, "mark") for line in drawing.scribes],
        "cutter-path": [Stroke(drawing.cutter_path, "cut", closed=True)] if drawing.cutter_path else [],
        "text": [
            *(note for note in drawing.labels if note.text),
            Note(title, (left, bottom - TITLE_BELOW_MM), "thin", anchor="start"),
        ],
    }
