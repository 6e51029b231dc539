"""A scenario, a drawing or a display to start from: the text of a bundled one with its comments."""

from __future__ import annotations

from sim.errors import one_of, refuse
from sim.scenario.bundled import fetch, folder, names
from sim.scenario.display_file import SHELF as DISPLAYS
from sim.scenario.drawing import SHELF
from sim.scenario.reading import DEMO


def new(*, drawing: bool = False, exhibit: bool = False, like: str = DEMO) -> str:
    """Return the text of a commented scenario, drawing to be scaled, or display without an airplane, fit for `check`.

    Parameters
    ----------
    drawing : bool
        A drawing, in the place of a scenario.
    exhibit : bool
        A display alone, in the place of a scenario.
    like : str
        Name of the bundled one to start from.

    Raises
    ------
    InputError
        When none of that name came along, or both a drawing and a display are asked for.
    """
    if drawing and exhibit:
        refuse("exhibit", "is a file of another kind than a drawing; ask for one of them")
    shelf = SHELF if drawing else DISPLAYS if exhibit else ""
    known = names(shelf)
    if like not in known:
        refuse("like", one_of(known, like))
    return fetch(folder() / shelf / f"{like}.toml").text
