"""A sentence at a time: each stands long enough to be read."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.stage.snapshot import Caption

HOLD_S = 2.0
"""A sentence that stays true is shown for at least this long [s]."""


class Hold:
    """Lets a caption go when it has stood for `HOLD_S`, for the one that is due by then."""

    def __init__(self) -> None:
        self.standing: Caption | None = None
        self._since_s = 0.0

    def take(self, due: Caption, now_s: float) -> None:
        """Take note of the caption that is due now [s]."""
        if self.standing is None or (due != self.standing and now_s - self._since_s >= HOLD_S):
            self.standing, self._since_s = due, now_s
