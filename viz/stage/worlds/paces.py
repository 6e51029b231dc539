"""How fast the world on the stage runs beside the real one, in steps a visitor can pick."""

from __future__ import annotations

FLIGHT = (0.1, 0.25, 0.5, 1.0)
"""No quicker than it is: fields that rush by flash."""
SLOW_MOTION = (0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0)


class Pace:
    """The place in a list of paces."""

    def __init__(self, paces: tuple[float, ...], start: float) -> None:
        self.paces = paces
        self._start = paces.index(start)
        self.reset()

    def reset(self) -> None:
        """Go back to the pace of the start."""
        self.place = self._start

    @property
    def value(self) -> float:
        """Seconds on the stage for a second in the room."""
        return self.paces[self.place]

    @property
    def share(self) -> float:
        """Place in the list, 0..1."""
        return self.place / (len(self.paces) - 1)

    def shift(self, by: int) -> None:
        """Go `by` places on, and no further than the ends."""
        self.place = min(max(self.place + by, 0), len(self.paces) - 1)

    def pick(self, share: float) -> None:
        """Go to the place at a share of the list."""
        self.place = round(share * (len(self.paces) - 1))
