"""Which lines of a drawing run through a box."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from viz.drawings.marks import Stroke

if TYPE_CHECKING:
    from collections.abc import Iterable

    from numpy.typing import NDArray

    from viz.drawings.marks import Box, Mark


class Lines:
    """The straight lines of marks, to be asked again and again.

    Parameters
    ----------
    marks : iterable of Mark
        Strokes count, rings and notes do not.
    """

    def __init__(self, marks: Iterable[Mark]) -> None:
        pairs = [pair for mark in marks if isinstance(mark, Stroke) for pair in _pairs(mark)]
        ends: NDArray[np.float64] = np.array(pairs, dtype=float).reshape(-1, 2, 2)
        self._start, self._step = ends[:, 0], ends[:, 1] - ends[:, 0]
        self._least, self._most = ends.min(axis=1), ends.max(axis=1)

    def through(self, box: Box) -> int:
        """Return how many straight lines run through a box, by the part of each between both pairs of sides.

        Parameters
        ----------
        box : (left, bottom, right, top)
            [mm]
        """
        near = np.all((self._least < box[2:]) & (self._most > box[:2]), axis=1)
        if not near.any():  # as most often
            return 0
        start, step = self._start[near], self._step[near]
        low, high = np.zeros(len(start)), np.ones(len(start))
        inside = np.ones(len(start), dtype=bool)
        for axis in (0, 1):
            front, back = box[axis] - start[:, axis], box[axis + 2] - start[:, axis]
            level = step[:, axis] == 0.0
            inside &= ~level | ((front < 0.0) & (back > 0.0))
            slope = np.where(level, 1.0, step[:, axis])
            first, last = np.where(level, 0.0, front / slope), np.where(level, 1.0, back / slope)
            low, high = np.maximum(low, np.minimum(first, last)), np.minimum(high, np.maximum(first, last))
        return int(np.count_nonzero(inside & (low < high)))


def _pairs(stroke: Stroke) -> Iterable[tuple[tuple[float, float], tuple[float, float]]]:
    points = [*stroke.points, stroke.points[0]] if stroke.closed else stroke.points
    return pairwise(points)
