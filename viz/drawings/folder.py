"""Everything a workshop needs, as files of one folder."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError, NoAnswerError, refuse
from viz.drawings.drawing import drawn
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from sim.studies.exhibit import Exhibit


def contents(exhibit: Exhibit) -> dict[str, bytes]:
    """Return name and content of every file: a DXF and an SVG a part, an STL of the cam, and the drawing sheet.

    Raises
    ------
    NoAnswerError
        When a check fails: nothing is cut from a display that fails one.
    """
    from viz.drawings.dxf import dxf
    from viz.drawings.sheet import sheet
    from viz.drawings.stl import stl
    from viz.drawings.svg import svg

    if exhibit.failures:
        failed = "; ".join(f"{check.name}: {check.cure}" for check in exhibit.failures)
        message = f"nothing is written to cut from while a check fails ({failed})"
        raise NoAnswerError(message)
    files: dict[str, bytes] = {}
    for part in exhibit.parts:
        drawing, name = drawn(part), part.name.replace(" ", "-")
        title = f"{part.name}, {part.thickness_m * 1e3:g} mm plate, inert display, millimetres"
        files[f"{name}.dxf"] = dxf(drawing, title).encode()
        files[f"{name}.svg"] = svg(drawing, title).encode()
    files["cam.stl"] = stl(drawn(exhibit.parts[0]), exhibit.parts[0].thickness_m * 1e3)
    files["sheet.pdf"] = sheet(exhibit)
    return files


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
        refuse("--out", f'must be a folder that can be made, got "{folder}": {error.strerror}')
    return [write_whole(place / name, content, force=force) for name, content in files.items()]
