"""Is a scenario file right? Every fault of every file at once."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sim.errors import Fault, InputError
from sim.scenario.reading import load

if TYPE_CHECKING:
    from collections.abc import Iterable


@dataclass(frozen=True, slots=True)
class Checked:
    """One file and what is wrong with it.

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
class Checks:
    """All files that were asked about, in that order."""

    files: tuple[Checked, ...]

    @property
    def faults(self) -> tuple[Fault, ...]:
        """Every fault of every file."""
        return tuple(fault for checked in self.files for fault in checked.faults)


def check(files: Iterable[str]) -> Checks:
    """Return what is wrong with each scenario, a file or a bundled name; one bad file does not hide the next."""
    return Checks(tuple(_checked(file) for file in files))


def _checked(file: str) -> Checked:
    try:
        load(file)
    except InputError as error:
        return Checked(file, fine=False, faults=error.faults)
    return Checked(file, fine=True, faults=())
