"""The airplane that a report compares with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from viz.report.findings import Findings


@dataclass(frozen=True, slots=True)
class OtherAirplane:
    """Another scenario, or the same one with other values.

    Attributes
    ----------
    findings : Findings
        The answers about it.
    called : str
        What to call it.
    file : str or None
        File or bundled name; None for the scenario of the report itself.
    settings : tuple of str
        ``table.key=value`` each, changed in it.
    """

    findings: Findings
    called: str
    file: str | None
    settings: tuple[str, ...]

    @property
    def words(self) -> list[str]:
        """The words of the command line that ask for it."""
        against = ["--against", self.file] if self.file else []
        return against + [word for setting in self.settings for word in ("--against-set", setting)]
