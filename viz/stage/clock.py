"""Elapsed time in, whole physics steps out: the pace of the picture never changes the physics."""

from __future__ import annotations

import math

_ROUNDING = 1e-9  # a backlog this close to a whole step, in steps, is a whole step


class StepClock:
    """Turns elapsed seconds into whole steps and the place between the last two of them.

    Attributes
    ----------
    step_s : float
        Length of a physics step. [s]
    max_backlog_s : float
        Time that may pile up; what is more is dropped, so that a slow picture cannot start a spiral. [s]
    """

    def __init__(self, step_s: float, max_backlog_s: float = 0.1) -> None:
        self.step_s = step_s
        self.max_backlog_s = max_backlog_s
        self._backlog_s = 0.0

    def tick(self, elapsed_s: float) -> tuple[int, float]:
        """Return the whole steps due, and the blend 0..1 between the last two states.

        The steps run up to one step ahead of the picture, so that what is shown is never behind its time.
        """
        self._backlog_s = min(self._backlog_s + max(elapsed_s, 0.0), self.max_backlog_s)
        steps = max(0, math.ceil(self._backlog_s / self.step_s - _ROUNDING))
        self._backlog_s = min(self._backlog_s - steps * self.step_s, 0.0)
        return steps, 1.0 + self._backlog_s / self.step_s

    def clear(self) -> None:
        """Forget the time that has piled up."""
        self._backlog_s = 0.0
