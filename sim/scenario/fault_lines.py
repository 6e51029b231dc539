"""The line of a scenario file for a fault that a study finds in what the file says."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from sim.scenario.settings import NoPlaceError, step_to

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.errors import Fault
    from sim.scenario.toml_lines import Path
    from sim.scenario.toml_text import Source


def at_lines(faults: Iterable[Fault], source: Source, file: str, changed: Iterable[str] = ()) -> Iterator[Fault]:
    """Yield faults with file and line; those without a table of it, or with another file, as they are.

    Parameters
    ----------
    faults : iterable of Fault
        Of a study of the scenario.
    source : Source
        Its text.
    file : str
        As it is called.
    changed : iterable of str
        Settings ``table.key=value``: what stands in a table that they change is not what the file says.
    """
    tables = {setting.partition("=")[0].partition(".")[0].strip() for setting in changed}
    for one in faults:
        table = one.where.partition(".")[0]
        if one.file or table in tables or table not in (source.data or {}):
            yield one
        else:
            yield replace(one, file=file, line=source.lines.of(_path(source.data, one.where)))


def _path(data: Any, where: str) -> Path:  # noqa: ANN401
    """Return the way to a key in a file, its items by their number; as far as the file has it."""
    path: Path = ()
    for key in where.split("."):
        try:
            step = step_to(data, key)
        except NoPlaceError:
            step = key
        path = (*path, step)
        known = isinstance(data, dict) and step in data
        data = data[step] if known or isinstance(step, int) else None
    return path
