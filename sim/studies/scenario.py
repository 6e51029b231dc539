"""The door through which a command gets the scenario that its study is asked about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sim.scenario import bundled, reading

if TYPE_CHECKING:
    import os
    from collections.abc import Iterable

    from sim.scenario.tables import Scenario


def load(path_or_name: str | os.PathLike[str], settings: Iterable[str] = ()) -> Scenario:
    """Return the scenario in a file, or the bundled one of that name; see `sim.scenario.reading.load`."""
    return reading.load(path_or_name, settings)


def text_of(path_or_name: str | os.PathLike[str]) -> str:
    """Return the text of that scenario as it was written, for who wants to have it again."""
    return bundled.fetch(str(path_or_name)).text
