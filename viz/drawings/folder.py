"""Everything a workshop needs, as files of one folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, refuse
from sim.units.convert import mm
from viz.drawings.drawing import drawn_exhibit
from viz.files.atomic import write_whole
from viz.sheets.blocks import Sentence, Value, say
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from sim.display.shapes import FlatPart
    from sim.studies.exhibit import Exhibit


def contents(exhibit: Exhibit) -> dict[str, bytes]:
    """Return name and content of every file: a DXF and an SVG a part, an STL of the cam, and the drawing sheet.

    Raises
    ------
    NoAnswerError
        When a check fails: nothing is cut for a display that fails one.
    """
    from viz.drawings.dxf import dxf
    from viz.drawings.sheet import sheet
    from viz.drawings.stl import stl
    from viz.drawings.svg import part_svg

    made = drawn_exhibit(exhibit)
    files: dict[str, bytes] = {}
    for part, drawing in zip(made.parts, made.drawings, strict=True):
        name, title = part.name.replace(" ", "-"), text_of(_title(part), "si")
        files[f"{name}.dxf"] = dxf(drawing, title).encode()
        files[f"{name}.svg"] = part_svg(drawing, title).encode()
    files["cam.stl"] = stl(made.drawings[0], mm(made.parts[0].thickness_m))
    files["sheet.pdf"] = sheet(made)
    return files


def _title(part: FlatPart) -> Sentence:
    thickness = Value("plate_thickness_m", part.thickness_m, nominal=True)
    return say("{name}, {thickness} plate, inert display, millimetres", name=part.name, thickness=thickness)


def write(folder: str | Path, files: dict[str, bytes], *, force: bool = False) -> list[Path]:
    """Write the files into a folder, made if need be; all or none, and never over others without `force`.

    Raises
    ------
    InputError
        For every file that is already there, or when the folder cannot be made.
    """
    place = Path(folder)
    there = [place / name for name in files if (place / name).exists()]
    if there and not force:
        raise InputError([Fault(str(path), "is already there; give --force to replace it") for path in there])
    try:
        place.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        refuse("folder", f'must be a folder that can be made, got "{folder}": {error.strerror}')
    return [write_whole(place / name, content, force=force) for name, content in files.items()]
