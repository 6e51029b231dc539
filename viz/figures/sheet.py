"""Paper, ink and file of every figure: one look, readable in grey print and by colour-blind eyes."""

from __future__ import annotations

import io
import warnings
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sim.errors import refuse
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from matplotlib.projections.polar import PolarAxes

FORMATS = ("svg", "png", "pdf")

_LOOK: dict[Any, Any] = {
    "font.size": 9.0,
    "axes.titlesize": 10.0,
    "axes.titleweight": "bold",
    "axes.titlelocation": "left",
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": "#d9d9d9",
    "grid.linewidth": 0.6,
    "lines.linewidth": 1.6,
    "legend.frameon": False,
    "text.parse_math": False,  # a dollar sign in somebody's title is a dollar sign
    "svg.fonttype": "none",
    "svg.hashsalt": "whirlgate",
    "pdf.fonttype": 42,
}


def sheet(
    rows: int = 1,
    columns: int = 1,
    *,
    width_in: float = 8.0,
    height_in: float = 5.0,
    heights: Sequence[float] | None = None,
    widths: Sequence[float] | None = None,
) -> tuple[Figure, list[Axes]]:
    """Return an empty figure in the house look and its axes, row by row.

    Figures are made without the interactive part of matplotlib: no display is needed. The look is set for the whole
    process, since titles and legends take theirs when they are added. `heights` of the rows and `widths` of the columns
    are in parts; None: even.
    """
    figure = _empty(width_in, height_in)
    made = figure.subplots(rows, columns, squeeze=False, height_ratios=heights, width_ratios=widths)
    return figure, list(made.flat)


def clocks(rows: int, columns: int, *, width_in: float, height_in: float) -> tuple[Figure, list[PolarAxes]]:
    """Return an empty figure with polar axes, row by row: angle from the top, clockwise."""
    figure = _empty(width_in, height_in)
    made = figure.subplots(rows, columns, squeeze=False, subplot_kw={"projection": "polar"})
    panels: list[PolarAxes] = list(made.flat)
    for panel in panels:
        panel.set_theta_zero_location("N")
        panel.set_theta_direction(-1)
    return figure, panels


def _empty(width_in: float, height_in: float) -> Figure:
    import matplotlib as mpl
    from matplotlib.figure import Figure

    mpl.rcParams.update(_LOOK)
    return Figure(figsize=(width_in, height_in))


def below(columns: int) -> dict[str, Any]:
    """Return the place of a legend under a panel and the words of its axis, whatever the height of the panel."""
    return {"loc": "upper center", "bbox_to_anchor": (0.5, 0.0), "borderaxespad": 4.5, "ncols": columns}


def save(figure: Figure, path: str | Path, *, force: bool = False) -> Path:
    """Write the figure whole, in the format its name ends with.

    Raises
    ------
    InputError
        When the ending is not svg, png or pdf, or when the file is there and `force` is not given.
    """
    ending = Path(path).suffix.lstrip(".").lower()
    if ending not in FORMATS:
        refuse("--figure", f'a figure ends in .svg, .png or .pdf, got "{path}"')
    return write_whole(path, rendered(figure, ending), force=force)


def rendered(figure: Figure, ending: str = "svg") -> bytes:
    """Return the figure as the bytes of an svg, png or pdf file, the same bytes every time."""
    stream = io.BytesIO()
    dated: dict[str, object] = {} if ending == "png" else {"CreationDate" if ending == "pdf" else "Date": None}
    with _any_letter():
        arrange(figure)
        figure.savefig(stream, format=ending, dpi=150, metadata=dated)
    return stream.getvalue()


def arrange(figure: Figure) -> None:
    """Give every panel of a figure, with its words, its place on the paper."""
    with _any_letter():
        for _ in range(2 if any(panel.name == "polar" for panel in figure.axes) else 1):
            figure.tight_layout()  # a disc gets its size by the first and room for its title by the second


@contextmanager
def _any_letter() -> Iterator[None]:
    with warnings.catch_warnings():  # a letter that our font lacks is drawn by the reader's own, or as a box
        warnings.filterwarnings("ignore", message=r"Glyph \d+")
        yield
