"""Why an answer is missing, as a sentence of a report in the language of its reader."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import InputError
from sim.told import Told
from viz.sheets.blocks import listed, say

if TYPE_CHECKING:
    from sim.errors import Fault, NoAnswerError
    from viz.sheets.blocks import Cell, Sentence


def reason(error: InputError | NoAnswerError) -> Cell:
    """Return what a study says in the place of its answer, with a full stop; every fault of the input is a sentence."""
    if isinstance(error, InputError):
        return listed(map(_fault, error.faults), " ")
    return _ended(error.args[0])


def _fault(fault: Fault) -> Sentence:
    where = str(fault).removesuffix(fault.what).removesuffix(": ")
    what = _ended(fault.what)
    return say("{where}: {what}", where=where, what=what) if where else say("{what}", what=what)


def _ended(told: str) -> Cell:
    """Return a sentence with a full stop; one of another language has its own, as the English one has."""
    if isinstance(told, Told):
        return told if told.endswith(".") else say("{what}.", what=told)
    return " ".join(told.split()).rstrip(".") + "."
