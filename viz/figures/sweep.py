"""A sweep as lines or maps, a spread as ranked bars."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from viz.figures.inks import MARKS, ink, series, style
from viz.figures.sheet import sheet
from viz.sheets.sweep import MOST_SHARES, TINY, in_units, spread_words, unit_of
from viz.sheets.text import text_of
from viz.words.reader import tell, unit_behind

if TYPE_CHECKING:
    from collections.abc import Sequence

    import numpy as np
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure
    from numpy.typing import NDArray

    from sim.sweeps.grid import Sweep
    from sim.sweeps.monte_carlo_answer import Spread, SpreadResult
    from sim.sweeps.outputs import Scalar, SweepColumn
    from sim.sweeps.sobol import Share
    from viz.sheets.format import Units

MOST_COUNTS = 12
WIDE, NARROW, TALL, SHORT = 80, 56, 36, 24
"""Letters to a line of what is written along, over bars, up, and beside bars."""


def draw(answer: Sweep | Spread, units: Units) -> Figure:
    """Return lines for one key varied, maps for two, ranked bars for a spread; results in words are left out."""
    from sim.sweeps.grid import Sweep

    if not isinstance(answer, Sweep):
        return _bars(answer, units)
    return _lines(answer, units) if len(answer.varied) == 1 else _maps(answer, units)


def _label(column: SweepColumn, units: Units) -> str:
    unit = unit_of(column, units)
    return unit_behind(column.meaning, unit)


def _key_label(column: SweepColumn, units: Units) -> str:
    return tell("{key}: {meaning}", key=column.key, meaning=_label(column, units))


def _places(column: SweepColumn, values: Sequence[Scalar], units: Units) -> list[float]:
    """Return where values stand along an axis: numbers in the reader's unit, words one after the other."""
    if column.words:
        words = list(dict.fromkeys(values))
        return [float(words.index(value)) for value in values]
    return [float("nan") if value is None else in_units(column, value, units) for value in values]


def _lines(answer: Sweep, units: Units) -> Figure:
    groups: dict[tuple[str, str], list[int]] = {}
    for number, column in enumerate(answer.collected):
        if not column.words:
            groups.setdefault((column.key.partition(".")[0], column.name), []).append(number)
    figure, panels = sheet(len(groups), height_in=1.2 + 2.9 * len(groups))
    varied, given = answer.varied[0], [row.settings[0] for row in answer.rows]
    across = _places(varied, given, units)
    for panel, numbers in zip(panels, groups.values(), strict=True):
        together = [answer.collected[number] for number in numbers]
        for index, (number, name) in enumerate(zip(numbers, _apart([one.key for one in together]), strict=True)):
            up = _places(answer.collected[number], [row.results[number] for row in answer.rows], units)
            look = style(series(index)) | ({"linestyle": "none"} if _apart_values(given) else {})
            panel.plot(across, up, marker=MARKS[series(index)], markersize=4, label=name, **look)
        if len(together) > 1:
            panel.legend(loc="best")
        if _apart_values(given):
            panel.set_xticks(across, [str(value) for value in given])
        panel.set_ylabel(fill(_label(together[0], units), TALL))
        study, _, _ = together[0].key.partition(".")
        panel.set_title(fill(together[0].key if len(together) == 1 else f"{study}: {together[0].name}", WIDE))
    panels[-1].set_xlabel(fill(_key_label(varied, units), WIDE))
    return figure


def _apart(keys: Sequence[str]) -> list[str]:
    """Return what tells keys of one quantity apart: the steps that are not the same in all."""
    same = set.intersection(*(set(key.split(".")) for key in keys))
    return [" ".join(step for step in key.split(".") if step not in same).replace("_", " ") or key for key in keys]


def _maps(answer: Sweep, units: Units) -> Figure:
    import numpy as np

    shown = [number for number, column in enumerate(answer.collected) if not column.words]
    figure, panels = sheet(len(shown), height_in=0.6 + 4.2 * len(shown))
    upward, along = answer.varied
    highs, rights = (list(dict.fromkeys(row.settings[side] for row in answer.rows)) for side in (0, 1))
    up, across = _places(upward, highs, units), _places(along, rights, units)
    at = {row.settings: row.results for row in answer.rows}
    for panel, number in zip(panels, shown, strict=True):
        column = answer.collected[number]
        found = [_places(column, [at[high, right][number] for right in rights], units) for high in highs]
        shades = _map(panel, across, up, heights=np.array(found), name=fill(_label(column, units), TALL))
        if not (_apart_values(rights) or _apart_values(highs)):
            _levels(panel, across, up, shades)
        panel.set_xlabel(fill(_key_label(along, units), WIDE))
        panel.set_ylabel(fill(_key_label(upward, units), TALL))
        said = "{key} (hatched: no answer)" if np.isnan(found).any() else "{key}"
        panel.set_title(fill(tell(said, key=column.key), WIDE))
        if _apart_values(rights):
            panel.set_xticks(across, [str(value) for value in rights])
        if _apart_values(highs):
            panel.set_yticks(up, [str(value) for value in highs])
    return figure


def _apart_values(values: Sequence[Scalar]) -> bool:
    """Return whether nothing lies between the values: words, and counts as long as each can be named."""
    words = all(isinstance(value, str) for value in values)
    return words or (len(values) <= MOST_COUNTS and all(isinstance(value, int) for value in values))


def _map(
    panel: Axes, across: Sequence[float], up: Sequence[float], *, heights: NDArray[np.float64], name: str
) -> np.ma.MaskedArray[Any, Any]:
    """Draw the height as a shade and return what is drawn of it; points without an answer are hatched."""
    import numpy as np

    found = np.ma.masked_invalid(heights)
    panel.grid(visible=False)
    panel.patch.set(facecolor="white", edgecolor="#8c8c8c", hatch="////")
    shades = panel.pcolormesh(across, up, found, cmap="cividis", shading="nearest")
    panel.figure.colorbar(shades, ax=panel, label=name)
    return found


def _levels(panel: Axes, across: Sequence[float], up: Sequence[float], found: np.ma.MaskedArray[Any, Any]) -> None:
    """Draw lines of equal height that can be read on light and on dark, where there is an answer everywhere."""
    if min(found.shape) < 2 or found.count() < found.size or found.max() <= found.min():
        return
    from matplotlib.patheffects import withStroke

    lines = panel.contour(across, up, found, colors="white", linewidths=1.0)
    lines.set(path_effects=[withStroke(linewidth=2.4, foreground="black")])
    for text in panel.clabel(lines, fontsize=8, colors="black", inline=False):
        text.set(rotation=0, bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.0})


def _bars(answer: Spread, units: Units) -> Figure:
    kept = [[share for share in one.shares[:MOST_SHARES] if share.total_order >= TINY] for one in answer.results]
    heights = [1.1 + 0.4 * max(1, len(shares)) for shares in kept]
    figure, panels = sheet(len(heights) + 1, height_in=0.8 + sum(heights))
    grid = panels[0].get_gridspec()
    if grid is not None:
        grid.set_height_ratios([*heights, 0.2])
    for panel, result, shares in zip(panels, answer.results, kept, strict=False):
        _ranked(panel, result, shares, units)
    panels[-2].set_xlabel("Sobol index, share of the variance; line: 90 % confidence interval")
    panels[-1].axis("off")
    handles, names = next(
        (panel.get_legend_handles_labels() for panel, own in zip(panels, kept, strict=False) if own), ([], [])
    )
    panels[-1].legend(handles, names, loc="center left", ncols=2)
    return figure


def _ranked(panel: Axes, result: SpreadResult, shares: Sequence[Share], units: Units) -> None:
    panel.set_title(f"{fill(result.column.key, NARROW)}\n{fill(text_of(spread_words(result), units), NARROW)}")
    panel.grid(visible=False, axis="y")
    least = min((share.first_order for share in shares), default=0.0)
    panel.set_xlim(least - 0.04 if least < 0.0 else 0.0, 1.1)
    panel.set_ylim(max(1, len(shares)) - 0.5, -0.5)
    if not shares:
        panel.set_yticks([])
        panel.text(0.5, 0.5, "no ranking", transform=panel.transAxes, ha="center", va="center")
        return
    rows, totals = range(len(shares)), [share.total_order for share in shares]
    beyond = [
        [max(0.0, share.total_order - share.total_low) for share in shares],
        [max(0.0, share.total_high - share.total_order) for share in shares],
    ]
    panel.barh(
        rows, totals, color=ink(0), height=0.6 if len(shares) > 1 else 0.35, label="total order: alone and with others"
    )
    panel.errorbar(totals, rows, xerr=beyond, fmt="none", ecolor=ink(1), elinewidth=1.6, capsize=3)
    alone = [share.first_order for share in shares]
    panel.plot(alone, rows, "D", color="white", mec="black", ms=5, label="first order: alone")
    panel.set_yticks(rows, [_broken(share.key) for share in shares])


def _broken(key: str) -> str:
    """Return a long key on two lines, broken at its last dot."""
    table, dot, last = key.rpartition(".")
    return f"{table}{dot}\n{last}" if len(key) > SHORT else key
