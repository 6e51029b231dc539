"""Times competitors in turns, so that what disturbs the machine disturbs them alike."""

from __future__ import annotations

from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable


def seconds(*works: Callable[[], object], rounds: int = 7) -> tuple[float, ...]:
    """Return the median time of each work over `rounds` interleaved rounds, after one round to warm up. [s]"""
    taken: list[list[float]] = [[] for _ in works]
    for number in range(rounds + 1):
        for work, times in zip(works, taken, strict=True):
            start = perf_counter()
            work()
            if number:
                times.append(perf_counter() - start)
    return tuple(median(times) for times in taken)


def say(name: str, ratio: float, bar: float) -> None:
    """Print a ratio beside its bar."""
    print(f"{name}: {ratio:.3g} (bar {bar:g}: {'met' if ratio <= bar else 'MISSED'})")
