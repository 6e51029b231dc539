"""What is said when those who computed are gone: what became of the points, and how to go on."""

from __future__ import annotations

from typing import NoReturn

from sim.errors import MachineError


def lost(what: str, cure: str) -> NoReturn:
    """Raise `MachineError` for workers that are gone.

    Parameters
    ----------
    what : str
        What happened.
    cure : str
        What to do before the same is asked again.
    """
    message = f"{what}; {cure} and ask again: with an output file the points found are kept"
    raise MachineError(message)
