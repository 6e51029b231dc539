"""Remarks of a mount: what hangs there and where the engine stands may be known less well than its loads look."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import InputError
from sim.model.scales_and_list import weighing
from sim.studies.weighing_remarks import of_scales
from sim.told import told

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sim.model.model import Model


def remarks(model: Model, powerplant: str) -> Iterator[str]:
    """Yield what the reader of the loads must know, a sentence each.

    Parameters
    ----------
    model : Model
        Of a scenario with the table ``mount``.
    powerplant : str
        Name of the one that hangs on the mount.
    """
    if powerplant in model.mount.alone:
        yield told(
            "These loads are too small: engine and propeller of {name} alone count, without mount, cowl, exhaust or "
            "oil, for the item list is not complete{lacking}. Complete it, or give {key}.",
            name=powerplant,
            lacking=_lacking(model, powerplant),
            key=f"mount.hung.{powerplant}.mass",
        )
    if not (model.move_is_given(powerplant) or model.can_balance(powerplant)):
        yield told(
            "Engine of {name} where it is drawn: a move to the CG target needs the tables balance and layout and a "
            "complete item list.",
            name=powerplant,
        )
    if model.has_list(powerplant):
        scales = weighing(model)
        yield from of_scales(scales) if scales else ()


def _lacking(model: Model, powerplant: str) -> str:
    """Return the keys that the item list lacks, in brackets; nothing where they cannot be told."""
    try:
        model.weights(powerplant)
    except InputError as error:
        return told(" ({keys} missing)", keys=", ".join(fault.where for fault in error.faults))
    return ""
