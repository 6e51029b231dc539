"""Words along lines of a drawing, each moved along its own until it lies over no other words."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from matplotlib.axes import Axes
    from matplotlib.backend_bases import RendererBase
    from matplotlib.figure import Figure
    from matplotlib.text import Text

    Place = tuple[float, float]
    Along = tuple[Text, Place, Place]

SHARES = (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.88, 0.12)
"""Of a line, from its first end: where its words may stand, the best first."""


def at(share: float, first: Place, last: Place) -> Place:
    """Return the place at a share of the way from the first end to the last."""
    return (first[0] + share * (last[0] - first[0]), first[1] + share * (last[1] - first[1]))


def clear(figure: Figure, panel: Axes, words: Sequence[Along]) -> None:
    """Move words along their lines where they lie over other words of the panel; call it when all is drawn.

    Parameters
    ----------
    figure : Figure
        Whose panels have their places.
    panel : Axes
        One of them.
    words : sequence of (Text, (float, float), (float, float))
        Each with both ends of its line, in data coordinates; one that finds no clear place stays where it is.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    renderer: RendererBase = FigureCanvasAgg(figure).get_renderer()  # type: ignore[no-untyped-call]
    figure.draw_without_rendering()
    for own, first, last in words:
        others = [text.get_window_extent(renderer) for text in panel.texts if text is not own]
        before = own.get_position()
        for place in (before, *(at(share, first, last) for share in SHARES)):
            own.set_position(place)
            box = own.get_window_extent(renderer)
            if not any(box.overlaps(other) for other in others):
                break
        else:
            own.set_position(before)
