"""The faults that a change of a scenario makes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.errors import InputError
from sim.scenario.reading import read_text

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sim.errors import Fault


def faults_made(before: str, after: str, keys: Iterable[str]) -> tuple[Fault, ...]:
    """Return the faults that a change of some keys makes: at these keys, or anywhere that had none.

    Parameters
    ----------
    before, after : str
        The scenario's text, TOML.
    keys : iterable of str
        Dotted; faults elsewhere that stood there before are left aside.
    """
    asked = [key.split(".") for key in keys]
    known = {(fault.where, fault.what) for fault in _faults(before)}
    return tuple(
        fault
        for fault in _faults(after)
        if (fault.where, fault.what) not in known or any(_on_way(fault.where.split("."), key) for key in asked)
    )


def _faults(text: str) -> tuple[Fault, ...]:
    try:
        read_text(text.replace("\r\n", "\n"))
    except InputError as error:
        return error.faults
    return ()


def _on_way(place: list[str], key: list[str]) -> bool:
    """Whether a fault at a place concerns a key: it stands there, or at a table on the way there."""
    return place == key[: len(place)]
