"""The blade of a propeller as a CSV file: radius, chord and angle at stations along it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from sim.scenario.number_table import read_numbers
from sim.units.parsing import Allowed

if TYPE_CHECKING:
    import os
    from collections.abc import Iterator, Sequence

COLUMNS = {
    "radius_share": Allowed("1", least=0.01, most=1.0),
    "chord_share": Allowed("1", least=0.0, most=0.5),
    "angle_deg": Allowed("1", least=-90.0, most=90.0),
}
"""Column -> what its cells may be: radius over tip radius, chord over diameter, angle to the plane of the disc [°]."""
LEAST_ROWS = 2


@dataclass(frozen=True, slots=True)
class BladeFile:
    """What a file says of a blade, a station a row from the hub to the tip.

    Attributes
    ----------
    radius_share : tuple of float
        Radius over tip radius, ascending.
    chord_share : tuple of float
        Chord over the propeller's diameter.
    blade_angle_deg : tuple of float
        Angle of the flat lower face to the plane of the disc. [°]
    """

    radius_share: tuple[float, ...]
    chord_share: tuple[float, ...]
    blade_angle_deg: tuple[float, ...]


def read_blade(path: str | os.PathLike[str]) -> BladeFile:
    """Return the blade in a CSV file whose first row is ``radius_share,chord_share,angle_deg`` in any order.

    Parameters
    ----------
    path : str or path
        The file; cells are parted by commas, semicolons (then also with decimal commas) or tabs.

    Raises
    ------
    InputError
        With every fault of the file at once, each with its line.
    """
    rows = read_numbers(path, COLUMNS, what="a table of a blade")
    faults = list(_order_faults([row.numbers["radius_share"] for row in rows], [row.line for row in rows], str(path)))
    if faults:
        raise InputError(faults)
    return BladeFile(*(tuple(row.numbers[name] for row in rows) for name in COLUMNS))


def _order_faults(radii: Sequence[float], lines: Sequence[int], called: str) -> Iterator[Fault]:
    """Yield what is wrong with the stations taken together."""
    if len(radii) < LEAST_ROWS:
        yield Fault("radius_share", f"must have at least {LEAST_ROWS} rows", called, lines[-1] if lines else 1)
    for inner, outer, line in zip(radii, radii[1:], lines[1:], strict=False):
        if outer <= inner:
            what = f'must be greater than {inner:g} in the row above, got "{outer:g}"'
            yield Fault("radius_share", what, called, line)
