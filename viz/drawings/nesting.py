"""Flat parts laid out on sheets of stock: boxes in rows, the highest first, each turned to lie where it fits so."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from viz.drawings.marks import in_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from viz.drawings.marks import Chain, Point


@dataclass(frozen=True, slots=True)
class Laid:
    """A part in its place on a sheet.

    Attributes
    ----------
    name : str
        Of the part.
    sheet : int
        Number of its sheet, from 0.
    by : tuple of float
        How far it is moved after it is turned about its origin. [mm]
    turned : bool
        Whether it is turned by a quarter, anticlockwise.
    """

    name: str
    sheet: int
    by: Point
    turned: bool

    def place(self, chain: Chain) -> Chain:
        """Return a chain of the part on its sheet. [mm]."""
        about = [(-y, x) for x, y in chain] if self.turned else chain
        return [(x + self.by[0], y + self.by[1]) for x, y in about]


@dataclass(slots=True)
class _Row:
    sheet: int
    low: float
    high: float
    used: float


def nested(outlines: Sequence[tuple[str, Chain]], stock: Point, *, gap_mm: float = 6.0) -> tuple[Laid, ...]:
    """Return the place of every outline, in the order given.

    Parameters
    ----------
    outlines : sequence of (str, list of points)
        Name and closed outline of each piece. [mm]
    stock : (float, float)
        Width and height of a sheet of stock. [mm]
    gap_mm : float
        Least distance between pieces, and from a piece to the edge of the sheet. [mm]

    Raises
    ------
    InputError
        For every part that no sheet holds.

    Notes
    -----
    First fit, decreasing height: the rows take at most 1.7 times the height that the best layout takes, plus the
    highest piece (Coffman, Garey, Johnson and Tarjan 1980, SIAM J. Comput. 9(4), 808-826, theorem 3).
    """
    _refuse(((name, _size(chain)) for name, chain in outlines), stock, gap_mm)
    sizes = [_lying(_size(chain), stock, gap_mm) for _, chain in outlines]
    rows: list[_Row] = []
    places: dict[int, tuple[int, float, float]] = {}
    for number in sorted(range(len(outlines)), key=lambda each: (-sizes[each][1], -sizes[each][0], each)):
        places[number] = _placed(rows, sizes[number][:2], stock, gap_mm)
    laid = []
    for number, (name, chain) in enumerate(outlines):
        sheet, x, y = places[number]
        turned = sizes[number][2]
        about = [(-b, a) for a, b in chain] if turned else chain
        corner = min(a for a, _ in about), min(b for _, b in about)
        laid.append(Laid(name, sheet, (x - corner[0], y - corner[1]), turned=turned))
    return tuple(laid)


def _size(chain: Chain) -> Point:
    across, up = zip(*chain, strict=True)
    return max(across) - min(across), max(up) - min(up)


def _fits(size: Point, stock: Point, gap: float) -> bool:
    return size[0] + 2.0 * gap <= stock[0] and size[1] + 2.0 * gap <= stock[1]


def _lying(size: Point, stock: Point, gap: float) -> tuple[float, float, bool]:
    """Return width, height and whether a piece is turned: lying where it fits so."""
    wide, high = size
    lying = high > wide
    turned = lying if _fits((max(size), min(size)), stock, gap) else not lying
    return (high, wide, True) if turned else (wide, high, False)


def _refuse(sizes: Iterable[tuple[str, Point]], stock: Point, gap: float) -> None:
    large = {name: size for name, size in sizes if not (_fits(size, stock, gap) or _fits(size[::-1], stock, gap))}
    if large:
        worst = max(large, key=lambda name: max(large[name]))
        wide, high = large[worst]
        needs = f"{in_words(wide + 2.0 * gap)} by {in_words(high + 2.0 * gap)}"
        got = f"{in_words(stock[0])} by {in_words(stock[1])}"
        sentence = f"must hold every part, got {got}; the {worst} needs {needs}"
        raise InputError([Fault("stock", sentence)])


def _placed(rows: list[_Row], size: Point, stock: Point, gap: float) -> tuple[int, float, float]:
    """Return sheet and lower left corner of the next piece, in the first row or on the first sheet with room."""
    wide, high = size
    for row in rows:
        if high <= row.high and row.used + wide + gap <= stock[0]:
            place = row.sheet, row.used, row.low
            row.used += wide + gap
            return place
    last = rows[-1] if rows else None
    sheet, low = (last.sheet, last.low + last.high + gap) if last else (0, gap)
    if low + high + gap > stock[1]:
        sheet, low = sheet + 1, gap
    rows.append(_Row(sheet, low, high, gap + wide + gap))
    return sheet, gap, low
