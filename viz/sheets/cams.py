"""The cam of an answer about timing, in a sentence; one for each engine where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from sim.model.gun import WhichGun
    from sim.studies.cam_answer import CamUsed


def cam_says(cams: Mapping[str, CamUsed], gun: WhichGun = "") -> str:
    """Return the cam in a sentence, or in one for each engine where gear, blades or rotation make it another.

    Of two guns `gun` names the one whose cam it is.
    """
    said = {name: each.says for name, each in cams.items()}
    if len(set(said.values())) == 1:
        return of_gun(next(iter(said.values())), gun)
    return of_gun(" ".join(sentence.replace(":", f", {name}:", 1) for name, sentence in said.items()), gun)


def of_gun(sentence: str, gun: WhichGun) -> str:
    """Return a sentence with the one of two guns in front that it is of; itself where there is but one."""
    return f"{gun.capitalize()} gun: {sentence[0].lower()}{sentence[1:]}" if gun else sentence


def other_gun(gun: WhichGun, failing: Sequence[str] | None, fails: str, serves: str) -> Iterator[str]:
    """Yield what is to be known of the other of two guns than the sheet is of.

    The second, of which `fails` is said with the engines behind which it does, or else `serves`; that the first is not
    looked at. Nothing where there is but one.
    """
    if gun == "second":
        yield "The first gun is not looked at here; without --which-gun it is."
    elif gun == "first":
        engines = f"{', '.join(failing[:-1])} and {failing[-1]}" if failing and failing[1:] else "".join(failing or ())
        behind = f"{fails}{f' with {engines}' if engines else ''}"
        yield f"Second gun: {behind if failing else serves}; --which-gun second shows it."
