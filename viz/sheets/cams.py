"""The cam of an answer about timing, in a sentence; one for each engine where they differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sim.studies.cam_answer import CamUsed


def cam_says(cams: Mapping[str, CamUsed]) -> str:
    """Return the cam in a sentence, or in one for each engine where gear, blades or rotation make it another."""
    said = {name: each.says for name, each in cams.items()}
    if len(set(said.values())) == 1:
        return next(iter(said.values()))
    return " ".join(sentence.replace(":", f", {name}:", 1) for name, sentence in said.items())
