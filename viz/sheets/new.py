"""What is said when a scenario or a drawing has been written to start from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.sheets.blocks import say

if TYPE_CHECKING:
    from collections.abc import Iterator

    from viz.sheets.blocks import Sentence


def sheet(file: str, *, exhibit: bool = False) -> Iterator[Sentence]:
    """Yield where the file was written, and what comes next; of a display alone how its files are made."""
    then = ", and: whirlgate exhibit {file} --out FOLDER" if exhibit else ""
    yield say("{file}: written; change it, then run: whirlgate check {file}" + then, file=file)
