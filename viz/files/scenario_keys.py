"""Values written into a user's scenario, whose comments, order and other lines stay as they are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from sim.errors import InputError, one_of, refuse
from viz.files.atomic import write_whole
from viz.sheets.blocks import say

if TYPE_CHECKING:
    from collections.abc import Container, Mapping

    from sim.studies.scale import ScaleAnswer
    from sim.units.quantities import System
    from viz.sheets.blocks import Sentence


NEAR = 2
"""Spaces before a comment that stands close behind its value; one farther away stands in a column."""


def write_dimensions(path: str | Path, answer: ScaleAnswer, system: System) -> Sentence:
    """Set the dimensions of a drawing that are keys of a scenario, and say which were set and which are no keys.

    Raises
    ------
    InputError
        When readings contradict each other, scales along and across differ as those of no copy do, and
        as for `write_keys`.
    """
    from sim.scenario.keys import holds_length
    from sim.studies.scale import dimension_texts

    if answer.contradictions:
        names = ", ".join(dict.fromkeys(wrong.dimension for wrong in answer.contradictions))
        refuse("write", f"nothing is written while readings contradict each other ({names}); read these again")
    if answer.doubted_documents:
        names = ", ".join(answer.doubted_documents)
        refuse("write", f"nothing is written while scales along and across differ as no copy does; check {names}")
    texts = dimension_texts(answer, system=system)
    keys = {name: text for name, text in texts.items() if holds_length(name)}
    others, written = ", ".join(name for name in texts if name not in keys), write_keys(path, keys)
    return say("{written} Not keys of a scenario: {others}.", written=written, others=others) if others else written


def write_keys(path: str | Path, values: Mapping[str, str], *, spare: Container[str] = ()) -> Sentence:
    """Set dotted keys of a TOML file, ``{"wing.span": "28 ft 1 in ± 1/4 in"}``, and say which.

    Parameters
    ----------
    path : str or Path
        The file.
    values : mapping of str to str
        An item of a list goes by its name or by its number from 1: ``item.pilot.station``.
    spare : container of str
        Keys whose value is what a file without them means: they are taken out where that loses nothing, so that
        written again they would stand as before; one with a comment behind it stays.

    Raises
    ------
    InputError
        When the file cannot be read, is no TOML, a key leads through something that is not a table, a scenario has no
        such key, or lacks the table or item that the key is one of. The file is then left as it was.
    """
    import tomlkit
    from tomlkit.exceptions import TOMLKitError

    from sim.scenario.faults_made import faults_made

    try:
        before = Path(path).read_bytes().decode("utf-8")
        document = tomlkit.parse(before)
    except FileNotFoundError:
        refuse("write", f'must be a scenario that is there (whirlgate new writes one), got "{path}"')
    except (OSError, UnicodeDecodeError):
        refuse("write", f'must be a file that can be read, got "{path}"')
    except TOMLKitError as error:
        refuse(str(path), f"is not TOML: {error}")
    for key, text in values.items():
        gone = key in spare and _restorable(before, key)
        set_key(document, key, None if gone else text)
    text = with_endings_of(before, tomlkit.dumps(document))
    faults = faults_made(before, text, values)
    if faults:
        raise InputError(faults)
    if text != before:
        write_whole(path, text, force=True)
    return say("Written to {path}: {keys}.", path=str(path), keys=", ".join(values) or "nothing")


def _restorable(text: str, key: str) -> bool:
    """Whether a key that is taken out of a text and written again stands as it did, to the letter."""
    import tomlkit

    held = tomlkit.parse(text)
    *way, last = key.split(".")
    table: Any = held
    for name in way:
        table = table.get(name, {})
    old = table.get(last)
    if old is not None:
        set_key(held, key, None)
        held = tomlkit.parse(tomlkit.dumps(held))
        set_key(held, key, str(old))
    return with_endings_of(text, tomlkit.dumps(held)) == text


def with_endings_of(before: str, text: str) -> str:
    """Return a text with every line ended as all lines of the one before it were: added ones end like theirs."""
    if "\r\n" not in before or before.count("\n") > before.count("\r\n"):
        return text
    return text.replace("\r\n", "\n").replace("\n", "\r\n")


def set_key(table: Any, key: str, text: str | bool | None) -> None:  # noqa: ANN401
    """Set one key of a tomlkit table, making the tables on the way to it; a comment behind it stays in its column.

    One that stands close behind the value stays as close; one in a column leaves it where there is no room.
    """
    *way, last = key.split(".")
    for place, name in enumerate(way):
        table = _below(table, key, tuple(way[:place]), name)
    if isinstance(table, list):
        refuse(key, "cannot be written: it is an item of a list, not one of its keys")
    old = table.get(last)
    if text is None:
        if old is not None:
            table.remove(last)
        return
    table[last] = text
    trivia = getattr(table[last], "trivia", None)
    if old is not None and trivia is not None and len(trivia.comment_ws) > NEAR:
        room = len(trivia.comment_ws) + len(old.as_string()) - len(table[last].as_string())
        trivia.comment_ws = " " * max(NEAR + 1, room)


def _below(table: Any, key: str, path: tuple[str, ...], name: str) -> Any:  # noqa: ANN401
    """Return the table or list of a name, made where the scenario names it and not the user."""
    import tomlkit

    from sim.scenario.keys import named_by_the_user
    from sim.scenario.settings import NoPlaceError, step_to

    if isinstance(table, dict) and name not in table:
        if len(table) and named_by_the_user(path):
            refuse(key, f"cannot be written: {path[-1]} {one_of(table, name)}")
        table[name] = tomlkit.table()
    try:
        below = table[step_to(table, name)]
    except NoPlaceError as error:
        files = [row["file"] for row in table if "file" in row] if isinstance(table, list) else []
        refuse(key, f"cannot be written: {error}" + (f"; those of {files[0]} are changed there" if files else ""))
    if not isinstance(below, dict | list):
        refuse(key, f'cannot be written: "{name}" is not a table in that file')
    return below
