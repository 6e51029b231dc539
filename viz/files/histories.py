"""Time histories as CSV."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING

from sim.units.quantities import quantity

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    import numpy as np
    from numpy.typing import NDArray

    from sim.studies.maneuver_answer import ManeuverAnswer
    from sim.studies.stall import StallAnswer

    Columns = Mapping[str, NDArray[np.float64]]


def maneuver_table(answer: ManeuverAnswer) -> str:
    """Return the histories of a manoeuvre; `valid` is 1 within the range of validity, 0 from where it is left."""
    return _table(
        ("powerplant", "side"),
        (
            ((one.powerplant, one.side), columns, math.inf if one.valid_until_s is None else one.valid_until_s)
            for one, columns in zip(answer.flights, answer.histories, strict=True)
        ),
    )


def stall_table(answer: StallAnswer) -> str:
    """Return the histories of the stalls, timed from each; `valid` is 1 up to the stall and 0 beyond it."""
    return _table(
        ("powerplant", "power", "entry_bank_deg"),
        (
            ((name, one.entry.power, f"{one.entry.bank_deg:g}"), one.columns, 0.0)
            for name, own in answer.flights.items()
            for one in own
            if one.columns
        ),
    )


def _table(labels: Sequence[str], flights: Iterable[tuple[Sequence[str], Columns, float]]) -> str:
    """Return histories as CSV: a row for each instant, in SI, the unit of each column in its head."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    for number, (own, columns, valid_until_s) in enumerate(flights):
        if not number:
            writer.writerow([*labels, *(f"{name} [{quantity(name).unit or '1'}]" for name in columns), "valid"])
        instants = zip(*(values.tolist() for values in columns.values()), strict=True)
        valid = (int(time_s < valid_until_s) for time_s in columns["time_s"].tolist())
        writer.writerows(
            [*own, *(f"{at + 0.0:.9g}" for at in row), within] for row, within in zip(instants, valid, strict=True)
        )
    return text.getvalue()
