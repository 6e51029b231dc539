"""What is said of a flight: one sentence at a time, held long enough to be read, and never while it is false."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final, NamedTuple

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
SAID_S: Final = 4.0
"""Of two sentences that are true at once each has its turn for so long. [s]"""
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


class Foot(NamedTuple):
    """The foot with which the rotary's pilot works against its push, more than the other: left, right or none.

    `clear` is whether it does so by enough to begin a sentence about it.
    """

    name: str = ""
    clear: bool = False


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
        self._felt_s = self._foot_s = math.inf
        self._foot = ""

    def tell(
        self,
        cause: Move,
        effect: Move,
        share: float,
        ratio: str,
        *,
        level: Caption,
        foot: Foot = Foot(),  # noqa: B008
    ) -> Caption:
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
        foot : Foot
            What the feet do about it.
        """
        said = self._said
        if said is not None and said.words:
            if self._true(said, (cause, effect), share, foot):
                return self._in_turn(said, (cause, effect), share, ratio, foot=foot)
            self._felt_s = self._foot_s = math.inf
        self._feel(cause, effect, share)
        self._feel_foot(foot)
        if said is not None and not said.words and self.now_s < self._since_s + HOLD_S:
            return said
        due = self.now_s >= self._felt_s + LASTS_S
        return self._say(Caption("caption.push", {"ratio": ratio}, self._words) if due else level)

    def _say(self, wanted: Caption) -> Caption:
        if wanted != self._said:
            self._said, self._since_s = wanted, self.now_s
        return wanted

    def _true(self, said: Caption, moves: tuple[Move, Move], share: float, foot: Foot) -> bool:
        """Return whether a sentence about the push, or about the foot, is true now."""
        told = zip(("cause", "effect"), moves, strict=True)
        felt = share >= 0.5 * FELT_SHARE
        works = said.key == "caption.push" or said.key == f"caption.foot_{foot.name}"
        return (
            felt
            and works
            and all(still(said.words[name].split(".")[1], move) for name, move in told if name in said.words)
        )

    def _in_turn(self, said: Caption, moves: tuple[Move, Move], share: float, ratio: str, *, foot: Foot) -> Caption:
        """Return a sentence that is true, or when it has stood, the other one if that has been true for long enough."""
        self._feel_foot(foot)
        if self.now_s < self._since_s + SAID_S:
            return said
        if said.key == "caption.push":
            if self.now_s < self._foot_s + LASTS_S:
                return said
            return self._say(Caption(f"caption.foot_{self._foot}", {}, {"effect": said.words["effect"]}))
        push = Caption("caption.push", {"ratio": ratio}, {"cause": f"cause.{word(moves[0])}", **said.words})
        return self._say(push) if self._true(push, moves, share, foot) else said

    def _feel(self, cause: Move, effect: Move, share: float) -> None:
        """Note since when a push is felt that the same words tell."""
        if share < FELT_SHARE or math.hypot(*cause) == 0.0:
            self._felt_s = math.inf
            return
        words = {"cause": f"cause.{word(cause)}", "effect": f"effect.{word(effect)}"}
        self._felt_s = min(self._felt_s, self.now_s) if words == self._words else self.now_s
        self._words = words

    def _feel_foot(self, foot: Foot) -> None:
        """Note since when the same foot works against the push."""
        if not foot.clear or foot.name != self._foot:
            self._foot_s = self.now_s if foot.clear else math.inf
            self._foot = foot.name
        else:
            self._foot_s = min(self._foot_s, self.now_s)
