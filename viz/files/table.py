"""A table of results as a CSV or Parquet file: SI, the unit of each column in its head."""

from __future__ import annotations

import csv
import io
from importlib.util import find_spec
from typing import TYPE_CHECKING

from sim.errors import Fault
from sim.scenario.bill_cells import defused
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from pathlib import Path

    from sim.sweeps.grid import SweepRow
    from sim.sweeps.outputs import Scalar, SweepColumn


def table_faults(path: str | None) -> Iterator[Fault]:
    """Yield what a table to be written needs and is not installed, before any work is done for it."""
    if path and path.lower().endswith(".parquet") and find_spec("pyarrow") is None:
        yield Fault("--out", 'needs the extra parquet for such a file: pip install "whirlgate[parquet]"')


def write_table(path: str, columns: Sequence[SweepColumn], rows: Sequence[SweepRow], *, force: bool) -> Path:
    """Write a row for each point, its reason last, whole or not at all.

    Raises
    ------
    InputError
        When the file is there and `force` is not given.
    """
    heads = [*(column.head for column in columns), "reason"]
    table = [[*row.settings, *row.results, row.reason] for row in rows]
    content = _parquet(columns, heads, table) if path.lower().endswith(".parquet") else _csv(heads, table)
    return write_whole(path, content, force=force)


def _csv(heads: Sequence[str], table: Sequence[Sequence[Scalar]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(heads)
    writer.writerows([_cell(value) for value in row] for row in table)
    return text.getvalue()


def _cell(value: Scalar) -> Scalar:
    return "" if value is None else defused(value) if isinstance(value, str) else value


def _parquet(columns: Sequence[SweepColumn], heads: Sequence[str], table: Sequence[Sequence[Scalar]]) -> bytes:
    import pyarrow as pa
    from pyarrow import parquet

    kinds = [*(pa.string() if column.words else pa.float64() for column in columns), pa.string()]
    cells = [[row[number] for row in table] for number in range(len(heads))]
    words = [[None if value is None else str(value) for value in cell] for cell in cells]
    arrays = [
        pa.array(said if kind == pa.string() else cell, type=kind)
        for cell, said, kind in zip(cells, words, kinds, strict=True)
    ]
    fields = [pa.field(head, kind) for head, kind in zip(heads, kinds, strict=True)]
    stream = io.BytesIO()
    parquet.write_table(pa.table(arrays, schema=pa.schema(fields)), stream)
    return stream.getvalue()
