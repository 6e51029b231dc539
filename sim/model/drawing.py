"""A drawing to be scaled, read from its file."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.airframe.drawing import Known, MeasuredDrawing, Readings
from sim.scenario.drawing import load
from sim.scenario.keys import meant

if TYPE_CHECKING:
    import os
    from collections.abc import Iterable

    from sim.scenario.drawing import DrawingReadingTable


ASSUMED_SHARE, ASSUMED_LEAST_M = 0.001, 0.006
"""Standard error taken of a document that states none, a share of its size and not less than so much [m]: an estimate,
no source. About that of a size rounded to the inch; small beside a slip of digits or unit, so that others find it."""


def drawing(path_or_name: str | os.PathLike[str], settings: Iterable[str] = ()) -> MeasuredDrawing:
    """Return the readings and known dimensions of a drawing file, or of the bundled drawing of that name.

    Parameters
    ----------
    path_or_name : str or path
        A TOML file, or a name such as ``tollgate``.
    settings : iterable of str
        ``table.key=value`` each.

    Raises
    ------
    InputError
        With every fault at once.
    """
    table = load(path_or_name, settings)
    return MeasuredDrawing(
        title=table.title,
        readings=tuple(
            Readings(row.dimension, row.view, row.axis, tuple(value.value for value in row.values), _error_m(row))
            for row in table.reading
        ),
        known={
            name: Known(size.value, size.tolerance or assumed_error_m(size.value)) for name, size in table.known.items()
        },
        one_scale=tuple(name for name, view in table.view.items() if view.one_scale),
        reading_error_m=table.reading_error_m,
        distortion=table.distortion,
        meant={row.dimension: near for row in table.reading if (near := meant(row.dimension))},
        without_error=tuple(name for name, size in table.known.items() if not size.tolerance),
    )


def assumed_error_m(value_m: float) -> float:
    """Return the standard error taken of a document that states none [m]."""
    return max(ASSUMED_SHARE * value_m, ASSUMED_LEAST_M)


def _error_m(row: DrawingReadingTable) -> float | None:
    """Return the standard error of a single reading, root mean square of those given; None where none is."""
    given = [value.tolerance for value in row.values if value.tolerance > 0.0]
    return (sum(error**2 for error in given) / len(given)) ** 0.5 if given else None
