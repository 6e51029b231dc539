"""Values written into a user's scenario, whose comments, order and other lines stay as they are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from sim.errors import InputError, refuse
from viz.files.atomic import write_whole

if TYPE_CHECKING:
    from collections.abc import Mapping


def write_keys(path: str | Path, values: Mapping[str, str]) -> Path:
    """Set dotted keys of a TOML file: ``{"wing.span": "28 ft 1 in ± 1/4 in"}``.

    Raises
    ------
    InputError
        When the file cannot be read, is no TOML, a key leads through something that is not a table, or a scenario
        has no such key. The file is then left as it was.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    from sim.scenario.check import faults_at

    try:
        document = tomlkit.parse(Path(path).read_text(encoding="utf-8"))
    except FileNotFoundError:
        refuse("--write", f'must be a scenario that is there (whirlgate new writes one), got "{path}"')
    except (OSError, UnicodeDecodeError):
        refuse("--write", f'must be a file that can be read, got "{path}"')
    except TOMLKitError as error:
        refuse(str(path), f"is not TOML: {error}")
    for key, text in values.items():
        _set(document, key, text)
    text = tomlkit.dumps(document)
    faults = faults_at(text, values)
    if faults:
        raise InputError(faults)
    return write_whole(path, text, force=True)


def _set(table: Any, key: str, text: str) -> None:  # noqa: ANN401
    """Set one key, making the tables on the way to it; a comment behind it stays in its column."""
    import tomlkit

    *way, last = key.split(".")
    for name in way:
        if name not in table:
            table[name] = tomlkit.table()
        table = table[name]
        if not hasattr(table, "keys"):
            refuse(key, f'cannot be written: "{name}" is not a table in that file')
    old = table.get(last)
    table[last] = text
    trivia = getattr(table[last], "trivia", None)
    if old is not None and trivia is not None and trivia.comment:  # its column, as far as there is room
        room = len(trivia.comment_ws) + len(old.as_string()) - len(table[last].as_string())
        trivia.comment_ws = " " * max(1, room)
