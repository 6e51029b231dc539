"""Engines of two answers that go by other names: where one of each is left over, they are compared."""

from __future__ import annotations

from typing import Any

ENGINES = ("powerplants", "hung")
"""Fields whose tables go by the names of engines."""


def engine_pairs(first: Any, second: Any) -> dict[str, str]:  # noqa: ANN401
    """Return the engine of the second answer that stands for one of the first, by its name there; empty for none.

    Parameters
    ----------
    first, second : dict
        Two answers of one kind, plain.

    Notes
    -----
    Engines of one name belong together; of the others only a single one on either side does, for more could be paired
    in several ways.
    """
    own, other = _names(first), _names(second)
    ours, theirs = [name for name in own if name not in other], [name for name in other if name not in own]
    return {theirs[0]: ours[0]} if len(ours) == len(theirs) == 1 else {}


def renamed(value: Any, names: dict[str, str]) -> Any:  # noqa: ANN401
    """Return a plain value with these names replaced, as keys, as texts and as the first word of the name of a part."""
    if isinstance(value, dict):
        return {names.get(key, key): renamed(inner, names) for key, inner in value.items()}
    if isinstance(value, list):
        return [renamed(inner, names) for inner in value]
    if isinstance(value, str):
        first, space, part = value.partition(" ")
        return names.get(first, first) + space + part
    return value


def _names(value: Any) -> dict[str, None]:  # noqa: ANN401
    """Return the names of engines in an answer, in its order."""
    found = dict[str, None]()
    waiting = [value]
    while waiting:
        now = waiting.pop(0)
        if isinstance(now, dict):
            for key, inner in now.items():
                if key in ENGINES and isinstance(inner, dict):
                    found |= dict.fromkeys(inner)
                elif key == "powerplant" and isinstance(inner, str) and inner:
                    found[inner] = None
            waiting += now.values()
        elif isinstance(now, list):
            waiting += [one for one in now if isinstance(one, dict)]
    return found
