"""Values a visitor can set: a range, where the slider stands, and the value in use, which never jumps."""

from __future__ import annotations

from dataclasses import dataclass

from viz.stage.flashes import Ration, eased


@dataclass(frozen=True, slots=True)
class Range:
    """What a slider goes over.

    Attributes
    ----------
    name : str
        Caption key and, where it ends in a unit, the quantity that is shown: ``spin_rad_s``.
    least, most, start : float
        Ends of the range and where it begins, in SI.
    whole : bool
        Whether only whole numbers count.
    """

    name: str
    least: float
    most: float
    start: float
    whole: bool = False

    def share(self, value: float) -> float:
        """Return where a value stands in the range, 0..1."""
        return min(max((value - self.least) / (self.most - self.least), 0.0), 1.0)

    def value(self, share: float) -> float:
        """Return the value at a share of the range."""
        value = self.least + share * (self.most - self.least)
        return float(round(value)) if self.whole else value


class Dial:
    """A range with the share a visitor asked for and the value in use, which follows without a jump."""

    def __init__(self, extent: Range) -> None:
        self.range = extent
        self._ration = Ration()
        self._now_s = 0.0
        self.reset()

    def reset(self) -> None:
        """Go back to where the range begins."""
        self.wanted = self._shown = self.range.share(self.range.start)
        self.value = self.range.start

    def set(self, share: float) -> None:
        """Ask for a share of the range, 0..1."""
        self.wanted = min(max(share, 0.0), 1.0)

    def follow(self, elapsed_s: float) -> None:
        """Let the value in use come nearer to what was asked for."""
        self._now_s += elapsed_s
        if not self.range.whole:
            if self._shown != self.wanted:
                self._shown = eased(self._shown, self.wanted, elapsed_s)
                self.value = self.range.value(self._shown)
        elif self.range.value(self.wanted) != self.value and self._ration.grant(self._now_s):
            self.value = self.range.value(self.wanted)
