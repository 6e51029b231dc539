"""Marks of a test disc as they are written: one by one, ``600 rpm, 41 °``, or as a CSV file of speeds and angles."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Final

from sim.errors import Fault, InputError
from sim.scenario.number_table import read_numbers
from sim.units.convert import per_s
from sim.units.parsing import Allowed, quoted, read

if TYPE_CHECKING:
    import os

FASTEST_RPM = 10000.0
SPEED: Final = Allowed("rad/s", above=0.0, most=math.tau * per_s(FASTEST_RPM), bare="rpm")
ANGLE: Final = Allowed("rad", least=-math.tau, most=math.tau, bare="°")
COLUMNS: Final = {
    "rpm": Allowed("1", above=0.0, most=FASTEST_RPM),
    "angle_deg": Allowed("1", least=-360.0, most=360.0),
}
"""Column -> what its cells may be: propeller speed, and angle on the disc against the direction of rotation [°]."""
_MARK = re.compile(r"\s*(?:rpm\s+|speed\s+)?(?P<speed>[^,]+?)\s*(?:,|\bat\b)\s*(?:angle\s+)?(?P<angle>[^,]+?)\s*")


def read_mark(text: str, key: str) -> tuple[float, float]:
    """Return speed and angle of a mark, in rad/s and rad.

    Parameters
    ----------
    text : str
        Speed, a comma, and angle; bare numbers are rpm and degrees, the words rpm and angle may stand before them.
    key : str
        Option it was written at, for the error.

    Raises
    ------
    InputError
        When it is no such pair, or a speed or angle out of range.

    Examples
    --------
    >>> [round(number, 4) for number in read_mark("rpm 600, angle 41 °", "--mark")]
    [62.8319, 0.7156]
    """
    found = _MARK.fullmatch(text)
    if not found:
        what = f'must be a speed and an angle with a comma between, as in "600 rpm, 41 °", got {quoted(text)}'
        raise InputError([Fault(key, what)])
    return read(found["speed"], SPEED, key=key).value, read(found["angle"], ANGLE, key=key).value


def read_marks(path: str | os.PathLike[str]) -> list[tuple[float, float]]:
    """Return speed and angle of the marks in a CSV file whose first row is ``rpm,angle_deg``, in rad/s and rad.

    Raises
    ------
    InputError
        With every fault of the file at once, each with its line; a file without marks.
    """
    rows = [row.numbers for row in read_numbers(path, COLUMNS, what="a table of marks")]
    if not rows:
        raise InputError([Fault("rpm", "must have a row for each mark below it", str(path), 1)])
    return [(math.tau * per_s(row["rpm"]), math.radians(row["angle_deg"])) for row in rows]
