"""What is said of a flight: one sentence at a time, held long enough to be read, and never while it is false."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from sim.frames import nose_effect
from viz.stage.snapshot import Caption
from viz.stage.worlds.hold import HOLD_S

if TYPE_CHECKING:
    from typing import TypeAlias

    Move: TypeAlias = tuple[float, float]

WITHIN: Final = 0.5
"""A word stays true while the move lies within 60° of it: the cosine of that."""
LASTS_S: Final = 2.5
"""A push is put into words when the same words were true for so long: then they will last to be read [s]."""
FELT_SHARE: Final = 0.15
"""A couple below this share of the largest is not worth a sentence; one that is told is told down to half of it."""
WAYS: Final = {"nose_up": (1.0, 0.0), "nose_down": (-1.0, 0.0), "nose_right": (0.0, 1.0), "nose_left": (0.0, -1.0)}
"""Word -> up and right on the picture."""


def word(move: Move) -> str:
    """Return the word for a move, up and right on the picture."""
    return nose_effect(*move).replace(" ", "_")


def still(said: str, move: Move) -> bool:
    """Return whether a word still tells a move."""
    up, right = WAYS[said]
    return move[0] * up + move[1] * right >= WITHIN * math.hypot(*move) > 0.0


class Narrator:
    """Remembers what it said last, and since when."""

    def __init__(self) -> None:
        self.now_s = 0.0
        self.reset()

    def reset(self) -> None:
        """Begin anew."""
        self._said: Caption | None = None
        self._since_s = -math.inf
        self._words: dict[str, str] = {}
        self._felt_s = math.inf

    def tell(self, cause: Move, effect: Move, share: float, ratio: str, *, level: Caption) -> Caption:
        """Return what to say.

        Parameters
        ----------
        cause, effect : tuple of float
            How the nose moves and how the rotary pushes it, up and right on the picture.
        share : float
            Size of the push over the largest.
        ratio : str
            How many times as hard as the fixed engine.
        level : Caption
            What is said where the push is not worth a word.
        """
        said = self._said
        if said is not None and said.words:
            true = share >= 0.5 * FELT_SHARE and all(
                still(said.words[name].split(".")[1], move) for name, move in (("cause", cause), ("effect", effect))
            )
            if true:
                return said
            self._felt_s = math.inf
        elif said is not None and self.now_s < self._since_s + HOLD_S:
            return said
        self._feel(cause, effect, share)
        wanted = level
        if self.now_s >= self._felt_s + LASTS_S:
            wanted = Caption("caption.push", {"ratio": ratio}, self._words)
        if wanted != said:
            self._said, self._since_s = wanted, self.now_s
        return wanted

    def _feel(self, cause: Move, effect: Move, share: float) -> None:
        """Note since when a push is felt that the same words tell."""
        if share < FELT_SHARE or math.hypot(*cause) == 0.0:
            self._felt_s = math.inf
            return
        words = {"cause": f"cause.{word(cause)}", "effect": f"effect.{word(effect)}"}
        self._felt_s = min(self._felt_s, self.now_s) if words == self._words else self.now_s
        self._words = words
