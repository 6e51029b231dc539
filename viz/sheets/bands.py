"""Numbers with their 90 % bands: each and the ends of its band rounded together, and how the bands came about."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from sim.units.quantities import band_ends
from viz.sheets.blocks import Value, listed, say

if TYPE_CHECKING:
    from viz.sheets.blocks import Cell, Sentence

DRAWN: Final = (
    "Bands of 90 %: 256 airplanes drawn from the errors of derivatives, drag, greatest lift, mass, centre of gravity, "
    "inertia, rotor, power, propeller and slipstream together. Without a band: an input without error."
)
SPEEDS_DRAWN: Final = (
    "Bands of 90 %: 256 airplanes drawn from the errors of drag, greatest lift, mass, power and propeller. Without a "
    "band: an input without error."
)
TO: Final = " to "
NEARLY_ALL: Final = 0.995
"""Share of the airplanes drawn that is printed as all of them."""


def has_band(row: object, name: str) -> bool:
    """Return whether a row of an answer has at least one end of a quantity's band."""
    return any(getattr(row, end, None) is not None for end in band_ends(name))


def half_band(row: object, name: str) -> float | None:
    """Return half the width of a quantity's band in a row of an answer; of one without end, what lies to the other."""
    number = getattr(row, name)
    low, high = (getattr(row, end, None) for end in band_ends(name))
    if low is not None and high is not None:
        return 0.5 * float(high - low)
    end = high if low is None else low
    return None if end is None or number is None else abs(float(number - end))


def known(row: object, name: str, **look: Any) -> Value:  # noqa: ANN401
    """Return a number of an answer, no finer than its band, where it has one; `look` is that of `Value`."""
    return Value(name, getattr(row, name), half_band=half_band(row, name), **look)


def with_band(row: object, name: str, *, size: bool = False, gap: str = " ", **look: Any) -> Cell:  # noqa: ANN401
    """Return a number of an answer and behind it its band in brackets, where it has one: ``21° left (12 to 31)``.

    Ends of one sign are printed without it, the smaller first; of two signs in the words of both. With `size` the
    number is printed without its sign too. What stands between number and bracket is `gap`.
    """
    look |= {"half_band": half_band(row, name)}
    value = getattr(row, name)
    number = Value(name, abs(value) if size and value is not None else value, **look)
    if not has_band(row, name):
        return number
    ends = [getattr(row, end) for end in band_ends(name)]
    if None in ends or ends[0] * ends[1] < 0.0:
        both: Cell = band(row, name, TO, **{**look, "bare": True})
        return say("{number}{gap}({band})", number=number, gap=gap, band=both)
    look |= {"bare": True, "signed": False}
    sizes = (Value(name, end, **look) for end in sorted(map(abs, ends)))
    return say("{number}{gap}({band})", number=number, gap=gap, band=listed(sizes, TO))


def band(row: object, name: str, between: str = "\nto ", **look: Any) -> Sentence:  # noqa: ANN401
    """Return both ends of a quantity's band, ``0.27 to 0.36``."""
    half = half_band(row, name)
    low, high = (
        Value(end, getattr(row, end), **{**look, "half_band": half, "absent": "no end"}) if has_band(row, name) else ""
        for end in band_ends(name)
    )
    if not has_band(row, name):
        return say("")
    return say("{low}{between}{high}", low=low, between=between, high=high)
