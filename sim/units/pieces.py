"""Several named quantities in one text, as a user writes them: ``span 6 m, chord 1 m, sweep 5 °``."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from sim.errors import InputError, one_of, refuse
from sim.units.parsing import read

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from sim.errors import Fault
    from sim.units.parsing import Allowed

_BETWEEN = re.compile(r"[,;]\s*(?=[A-Za-z])")
"""A comma that a name follows: one within a number or a length parts nothing."""
_PIECE = re.compile(r"([A-Za-z][A-Za-z ]*?)\s*(?:=\s*)?([^A-Za-z\s=].*)?", re.DOTALL)


def read_pieces(text: str, allowed: Mapping[str, Allowed], *, key: str) -> dict[str, float]:
    """Return the value of each name that stands in the text, in SI.

    Parameters
    ----------
    text : str
        Names with their values, parted by commas.
    allowed : mapping of str to Allowed
        What each name may be.
    key : str
        Parameter that the text came by, for the faults.

    Raises
    ------
    InputError
        With every fault at once: an unknown name, one given twice, one without a value, a wrong value.

    Examples
    --------
    >>> from sim.units.parsing import Allowed
    >>> read_pieces("span 28 ft 1 in, taper .5", {"span": Allowed("m"), "taper": Allowed("1")}, key="planes")
    {'span': 8.5598, 'taper': 0.5}
    """
    found: dict[str, float] = {}
    faults: list[Fault] = []
    for name, value in _named(text):
        try:
            if name in found:
                refuse(f"{key} {name}", "is given twice")
            found[name] = _value(name, value, allowed, key)
        except InputError as error:
            faults.extend(error.faults)
    if faults:
        raise InputError(faults)
    return found


def _named(text: str) -> Iterator[tuple[str, str]]:
    for piece in _BETWEEN.split(text.strip()):
        match = _PIECE.fullmatch(piece.strip())
        yield (match[1], match[2] or "") if match else (piece.strip(), "")


def _value(name: str, value: str, allowed: Mapping[str, Allowed], key: str) -> float:
    if name not in allowed:
        refuse(key, f"a name {one_of(allowed, name)}")
    return read(value, allowed[name], key=f"{key} {name}").value
