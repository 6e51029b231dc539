"""A scenario or a drawing to start from: the text of a bundled one with its comments."""

from __future__ import annotations

from sim.errors import one_of, refuse
from sim.scenario.bundled import fetch, folder, names
from sim.scenario.drawing import SHELF
from sim.scenario.reading import DEMO


def new(*, drawing: bool = False, like: str = DEMO) -> str:
    """Return the text of a commented scenario, or of a drawing to be scaled, that passes `check`.

    Parameters
    ----------
    drawing : bool
        A drawing, in the place of a scenario.
    like : str
        Name of the bundled one to start from.

    Raises
    ------
    InputError
        When none of that name came along.
    """
    shelf = SHELF if drawing else ""
    known = names(shelf)
    if like not in known:
        refuse("like", one_of(known, like))
    return fetch(folder() / shelf / f"{like}.toml").text
