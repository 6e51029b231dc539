"""The histories of a manoeuvre as CSV."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from sim.units.quantities import quantity

if TYPE_CHECKING:
    from sim.studies.maneuver import ManeuverAnswer


def table_of(answer: ManeuverAnswer) -> str:
    """Return the histories as CSV: a row for each instant, in SI, the unit of each column in its head."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    names = list(answer.histories[0])
    writer.writerow(["powerplant", "side", *(f"{name} [{quantity(name).unit or '1'}]" for name in names)])
    for flight, columns in zip(answer.flights, answer.histories, strict=True):
        instants = zip(*(columns[name].tolist() for name in names), strict=True)
        writer.writerows([flight.powerplant, flight.side, *(f"{at + 0.0:.9g}" for at in row)] for row in instants)
    return text.getvalue()
