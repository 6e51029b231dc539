"""``--set table.key=value``: changes to a scenario, read as if they stood in the file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import tomli

from sim.errors import Fault, did_you_mean
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.scenario.toml_lines import Path


def apply(data: dict[str, Any], settings: Iterable[str], faults: list[Fault]) -> Iterator[tuple[Path, Path]]:
    """Change the tables in place; yield the path of every change and how it was written, part by part.

    What is wrong with a setting is added to `faults`.

    An item of a list goes by its number from 1 or by its name: ``item.pilot.mass=180 lb``.
    """
    for setting in settings:
        place, equals, text = setting.partition("=")
        keys = [key.strip() for key in place.split(".")]
        if not equals or not all(keys):
            faults.append(Fault("set", f"must be table.key=value, got {quoted(setting)}"))
            continue
        try:
            yield _put(data, keys, _value(text.strip())), tuple(keys)
        except NoPlaceError as error:
            faults.append(Fault(f"set {place.strip()}", str(error)))


class NoPlaceError(Exception):
    """There is no such place to set."""


def _put(data: Any, keys: list[str], value: object) -> Path:  # noqa: ANN401
    path: Path = ()
    for key in keys[:-1]:
        step = step_to(data, key)
        path = (*path, step)
        data = data.setdefault(step, {}) if isinstance(data, dict) else data[step]
    last = step_to(data, keys[-1])
    data[last] = value
    return (*path, last)


def step_to(data: object, key: str) -> str | int:
    """Return the key of a table, or the index of an item of a list that goes by its name or its number from 1.

    Raises
    ------
    NoPlaceError
        There is no such item, or the data are neither table nor list.
    """
    if isinstance(data, dict):
        return key
    if isinstance(data, list):
        known = [str(item.get("name", "")) if isinstance(item, dict) else "" for item in data]
        if key in known:
            return known.index(key)
        if key.isascii() and key.isdigit() and 1 <= int(key[:9]) <= len(data):
            return int(key[:9]) - 1
        message = f"must name an item, 1 to {len(data)} or by its name, got {quoted(key)}"
        raise NoPlaceError(message + did_you_mean(key, filter(None, known)))
    message = f"must lie in a table; {quoted(key)} is asked of {quoted(data)}, which is none"
    raise NoPlaceError(message)


def _value(text: str) -> object:
    """Return lists, tables and quoted text as TOML reads them, and anything else as text."""
    if text[:1] in ("[", "{", '"', "'"):
        try:
            return tomli.loads(f"value = {text}")["value"]
        except (ValueError, RecursionError):
            return text
    return text
