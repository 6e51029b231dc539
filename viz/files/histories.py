"""The histories of a manoeuvre as CSV."""

from __future__ import annotations

import csv
import io
import math
from typing import TYPE_CHECKING

from sim.units.quantities import quantity

if TYPE_CHECKING:
    from sim.studies.maneuver_answer import ManeuverAnswer


def table_of(answer: ManeuverAnswer) -> str:
    """Return the histories as CSV: a row for each instant, in SI, the unit of each column in its head.

    The last column is 1 within the range of validity, and 0 from where the flight leaves it on.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    names = list(answer.histories[0])
    writer.writerow(["powerplant", "side", *(f"{name} [{quantity(name).unit or '1'}]" for name in names), "valid"])
    for flight, columns in zip(answer.flights, answer.histories, strict=True):
        instants = zip(*(columns[name].tolist() for name in names), strict=True)
        end_s = math.inf if flight.valid_until_s is None else flight.valid_until_s
        valid = (int(time_s < end_s) for time_s in columns["time_s"].tolist())
        writer.writerows(
            [flight.powerplant, flight.side, *(f"{at + 0.0:.9g}" for at in row), within]
            for row, within in zip(instants, valid, strict=True)
        )
    return text.getvalue()
