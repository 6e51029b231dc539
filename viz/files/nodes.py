"""The nodes of a wing layout as CSV, for a drawing program or a table."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from sim.units.quantities import quantity
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from sim.airframe.fittings import LayoutNode

PLACE = ("station", "waterline", "buttline")


def write_nodes(path: str | Path, nodes: Iterable[LayoutNode], *, force: bool = False) -> None:
    """Write the nodes of both sides, a line each, in metres.

    Raises
    ------
    InputError
        When the file is there and `force` is not given.
    """
    stream = io.StringIO()
    lines = csv.writer(stream, lineterminator="\n")
    lines.writerow(["node", "kind", "side", *(f"{name} [{quantity(f'{name}_m').unit}]" for name in PLACE)])
    for node in nodes:
        for side, sign in (("right", 1.0), ("left", -1.0)):
            place = (node.station_m, node.waterline_m, sign * node.buttline_m)
            lines.writerow([node.name, node.kind, side, *(f"{value:.6f}" for value in place)])
    write_whole(path, stream.getvalue(), force=force)
