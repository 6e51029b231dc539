"""The cam of an answer about timing, in a sentence; one for each engine where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from viz.words.reader import tell, worded
from viz.words.say import NO_BREAK

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.model.gun import WhichGun
    from sim.studies.cam_answer import CamUsed


def cam_says(cams: Mapping[str, CamUsed], gun: WhichGun = "") -> str:
    """Return the cam in a sentence, or in one for each engine where gear, blades or rotation make it another.

    Of two guns `gun` names the one whose cam it is.
    """
    said = {name: worded(each.says) for name, each in cams.items()}
    if len(set(said.values())) == 1:
        return of_gun(next(iter(said.values())), gun)
    return of_gun(" ".join(_named(sentence, name) for name, sentence in said.items()), gun)


def _named(sentence: str, engine: str) -> str:
    """Return a sentence with the engine before its colon, and before the space that a language puts there."""
    head, colon, rest = sentence.partition(":")
    return f"{head.rstrip(NO_BREAK)}, {engine}{head[len(head.rstrip(NO_BREAK)) :]}{colon}{rest}"


def of_gun(sentence: str, gun: WhichGun) -> str:
    """Return a sentence with the one of two guns in front that it is of; itself where there is but one."""
    if not gun:
        return worded(sentence)
    own = worded(sentence)
    return tell("First gun: {cam}" if gun == "first" else "Second gun: {cam}", cam=f"{own[0].lower()}{own[1:]}")


def capital(sentence: str) -> str:
    """Return a sentence with a capital, in the reader's language."""
    own = worded(sentence)
    return f"{own[0].upper()}{own[1:]}"


def other_gun(gun: WhichGun, failing: Sequence[str] | None, fails: str, serves: str) -> Iterator[str]:
    """Yield what is to be known of the other of two guns than the sheet is of.

    The second, of which `fails` is said with the engines behind which it does, or else `serves`; that the first is not
    looked at. Nothing where there is but one.
    """
    if gun == "second":
        yield "The first gun is not looked at here; without --which-gun it is."
    elif gun == "first":
        if not failing:
            yield tell("Second gun: {told}; --which-gun second shows it.", told=serves)
            return
        *others, last = failing
        engines = tell("{others} and {last}", others=", ".join(others), last=last) if others else last
        said = "Second gun: {told} with {engines}; --which-gun second shows it."
        if not engines:
            said = "Second gun: {told}; --which-gun second shows it."
        yield tell(said, told=fails, engines=engines)
