"""The faults of scenario files, all at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from sim.answer import Answer
from sim.errors import Fault, InputError
from sim.scenario.reading import load, read_text

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Checked:
    """One file and its faults.

    Attributes
    ----------
    file : str
        As it was named.
    fine : bool
        Whether it can be used.
    faults : tuple of Fault
        In the order of the file.
    """

    file: str
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
    """Return the faults of each scenario, a file or a bundled name; one bad file does not hide the next."""
    return Checks(tuple(_checked(file) for file in files))


def _checked(file: str) -> Checked:
    try:
        load(file)
    except InputError as error:
        return Checked(file, fine=False, faults=error.faults)
    return Checked(file, fine=True, faults=())


def faults_at(text: str, keys: Iterable[str]) -> tuple[Fault, ...]:
    """Return the faults of some keys of a scenario's text: unknown ones, and values that are not allowed.

    Parameters
    ----------
    text : str
        TOML.
    keys : iterable of str
        Dotted; faults elsewhere are left aside.
    """
    asked = [key.split(".") for key in keys]
    try:
        read_text(text)
    except InputError as error:
        return tuple(fault for fault in error.faults if any(_on_way(fault.where.split("."), key) for key in asked))
    return ()


def _on_way(place: list[str], key: list[str]) -> bool:
    """Whether a fault at a place concerns a key: it stands there, or at a table on the way there."""
    return place == key[: len(place)]
