"""The faults of scenario and drawing files, all at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.scenario.bundled import fetch
from sim.scenario.drawing import load as read_drawing
from sim.scenario.reading import load, read_text
from sim.scenario.tables import Scenario
from sim.scenario.toml_text import parse

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Checked:
    """One file and its faults.

    Attributes
    ----------
    file : str
        As it was named.
    kind : str
        ``scenario``, or ``drawing`` for one to be scaled.
    fine : bool
        Whether it can be used.
    faults : tuple of Fault
        In the order of the file.
    """

    file: str
    kind: str
    fine: bool
    faults: tuple[Fault, ...]


@dataclass(frozen=True, slots=True)
class Checks(Answer):
    """All files that were asked about, in that order."""

    main: ClassVar[str] = "files"

    files: tuple[Checked, ...]

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Every fault of every file."""
        return tuple(fault for checked in self.files for fault in checked.faults)


def check(files: Iterable[str]) -> Checks:
    """Return the faults of each scenario or drawing, a file or a bundled name; one bad file does not hide the next."""
    return Checks(tuple(_checked(file) for file in files))


def _checked(file: str) -> Checked:
    kind = "scenario"
    try:
        found = parse(fetch(file).text, file).data
        kind = "drawing" if Scenario.foreign(found or {}) else kind
        (read_drawing if kind == "drawing" else load)(file)
    except InputError as error:
        return Checked(file, kind, fine=False, faults=error.faults)
    return Checked(file, kind, fine=True, faults=())


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
