"""Marks of a test disc as a CSV file, as `whirlgate disc --marks` reads it."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from sim.scenario.disc_marks import COLUMNS
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from sim.studies.disc_exercise import ExerciseMark


def write_marks(path: str, marks: Iterable[ExerciseMark], *, force: bool) -> Path:
    """Write a row for each mark, whole or not at all.

    Raises
    ------
    InputError
        When the file is there and `force` is not given.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(COLUMNS)
    writer.writerows([f"{getattr(mark, name):g}" for name in COLUMNS] for mark in marks)
    return write_whole(path, text.getvalue(), force=force)
