"""The files of a three-view, each in the format of its ending."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from viz.drawings.three_view import three_view, three_view_on
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from viz.drawings.three_view import Drawn
    from viz.drawings.view import View


def write_drawing(
    files: Iterable[str], drawn: Drawn, size: tuple[float | None, str], *, force: bool = False
) -> Iterator[Path]:
    """Write a three-view and yield the path of each file.

    Parameters
    ----------
    files : iterable of str
        Each ends in .svg, .pdf or .dxf.
    drawn : Drawn
        What it shows.
    size : (float or None, str)
        Paper over full size, None for the largest usual scale that fits one sheet, and the paper.
    force : bool
        Whether a file that is there is replaced.
    """
    from viz.drawings.tiles import room_on

    scale, paper = size
    view = three_view_on(drawn, room_on(paper)) if scale is None else three_view(drawn, scale)
    for file in files:
        yield write_whole(file, _content(Path(file).suffix.lower(), view, paper), force=force)


def _content(ending: str, view: View, paper: str) -> bytes | str:
    if ending == ".svg":
        from viz.drawings.svg import view_file_svg

        return view_file_svg(view)
    if ending == ".dxf":
        from viz.drawings.dxf import view_dxf

        return view_dxf(view)
    from viz.drawings.tiles import view_pdf

    return view_pdf(view, paper)
