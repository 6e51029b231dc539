"""Figures of a report drawn on the other cores, while this one asks the studies and writes the tables."""

from __future__ import annotations

import os
from concurrent.futures import BrokenExecutor, ProcessPoolExecutor
from functools import cache, partial
from multiprocessing import get_context
from typing import TYPE_CHECKING, Self

from viz.words.reader import language, reading

if TYPE_CHECKING:
    from collections.abc import Callable
    from concurrent.futures import Future

    from viz.figures.complete import Drawing
    from viz.sheets.format import Units


def cores() -> int:
    """Return the number of cores that this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Drawings:
    """Who draws: further processes while the context is entered, this one where there are none.

    Parameters
    ----------
    units : {"us", "si"}
        Units of the figures.
    processes : int
        Processes that work at the same time, this one among them; 1 for it alone.
    """

    def __init__(self, units: Units, processes: int = 1) -> None:
        self._units = units
        self._others = processes - 1
        self._pool: ProcessPoolExecutor | None = None

    def __enter__(self) -> Self:
        """Start the other processes, which make themselves ready meanwhile."""
        if self._others:
            try:
                self._pool = ProcessPoolExecutor(self._others, mp_context=get_context("spawn"))
                for _ in range(self._others):
                    self._pool.submit(_ready)
            except (OSError, NotImplementedError, BrokenExecutor):  # no semaphores, no room for another process
                self._pool = None
        return self

    def __exit__(self, *_: object) -> None:
        """Stop the other processes."""
        if self._pool:
            self._pool.shutdown(cancel_futures=True)
            self._pool = None

    def begin(self, name: str, answer: object) -> Callable[[], Drawing]:
        """Begin the figure of an answer and return what waits for it; the figure is drawn once, however often asked."""
        from viz.figures.complete import drawing

        here = partial(_read_in, language(), partial(drawing, name, answer, self._units))
        if self._pool:
            try:
                return cache(partial(_finished, self._pool.submit(here), here))
            except (OSError, BrokenExecutor):
                self._pool = None
        return cache(here)


def _read_in(spoken: str, draw: Callable[[], Drawing]) -> Drawing:
    """Return a figure drawn for readers of a language, in whatever process."""
    with reading(spoken):
        return draw()


def _finished(begun: Future[Drawing], here: Callable[[], Drawing]) -> Drawing:
    """Return the figure that another process has drawn; it is drawn here when that process has ended."""
    try:
        return begun.result()
    except BrokenExecutor:
        return here()


def _ready() -> None:
    """Import what every figure needs."""
    import matplotlib.backends.backend_svg
    import matplotlib.figure  # noqa: F401
