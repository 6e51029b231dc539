"""What pydantic finds wrong, in the words of the file: place, line, what came, what is allowed, what was meant."""

from __future__ import annotations

from itertools import islice
from typing import TYPE_CHECKING, Annotated, Any, TypeGuard, get_args, get_origin

from sim.errors import Fault, did_you_mean
from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, key_of
from sim.scenario.toml_text import dotted
from sim.units.parsing import quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from pydantic_core import ErrorDetails

    from sim.scenario.toml_lines import Path

NO_TABLES = {"field": "is no table of a scenario; the ground is an option of whirlgate field: --surface 'long grass'"}
"""What is easily taken for a table."""
MOST_FAULTS = 1000
"""Faults that are put into words: with more the file is another thing than it should be, and each takes its time."""
MOST_NAMED = 15
"""Keys of a table that are listed to one who wrote another; more would bury the fault."""
WRONG_KIND = {
    "model_type": "a table",
    "model_attributes_type": "a table",
    "dict_type": "a table of tables",
    "list_type": "a list",
    "tuple_type": "a list",
    "string_type": "text",
    "bool_type": "true or false",
}
"""pydantic's name of a fault -> what the place must hold."""


def sentences(errors: Iterable[ErrorDetails], root: type[ScenarioTable]) -> Iterator[tuple[Path, str]]:
    """Yield the path and the sentence of every fault; of thousands, of the first."""
    for error in islice(errors, MOST_FAULTS):
        path = without_tags(error["loc"])
        if error["type"] == "told":
            place = (*path[:-1], _written(path[-1], table_at(root, error["loc"][:-1])))
            for key, what in error["ctx"]["faults"]:
                below = key if isinstance(key, tuple) else (key,) if key else ()
                yield (*place, *below), what
        else:
            yield path, _sentence(error, root)


def without_tags(location: Path) -> Path:
    """Return pydantic's location without the tags of tables that come in several kinds."""
    return tuple(part for part in location if not _is_tag(part))


def _written(part: str | int, table: type[ScenarioTable] | None) -> str | int:
    """Return the key of an attribute: pydantic names a default that fails by its attribute."""
    return key_of(part) if isinstance(part, str) and table and part in table.model_fields else part


def _is_tag(part: str | int) -> bool:
    return isinstance(part, str) and part.startswith("<") and part.endswith(">")


def _sentence(error: ErrorDetails, root: type[ScenarioTable]) -> str:
    kind, location = error["type"], error["loc"]
    key = str(location[-1])
    if kind == "missing":
        return f"is missing{_how_to_write(table_at(root, location[:-1]), key)}"
    if kind == "extra_forbidden":
        table = table_at(root, location[:-1])
        known = [key_of(name) for name in table.model_fields] if table else []
        if table and (why := table.unknown(key)):
            return why
        if len(location) == 1 and key in NO_TABLES:
            return NO_TABLES[key]
        near = did_you_mean(key, known) or (f"; known: {', '.join(known)}" if 0 < len(known) <= MOST_NAMED else "")
        return f"unknown {'table' if isinstance(error['input'], dict) else 'key'}{near}"
    if kind == "too_short":
        return "must hold at least one table"
    wanted = WRONG_KIND.get(kind)
    said = f"must be {wanted}" if wanted else error["msg"][:1].lower() + error["msg"][1:]
    return f"{said}, got {quoted(error['input'])}"


def _how_to_write(table: type[ScenarioTable] | None, key: str) -> str:
    for name, field in table.model_fields.items() if table else ():
        if key_of(name) == key:
            declared = next((item for item in field.metadata if isinstance(item, Given | Count | ShortText)), None)
            if declared:
                return f': {declared.meaning}, as in "{declared.shown}"'
            inner = next(filter(_is_table, leaves(field.annotation)), None)
            doc = inner.__doc__ if inner else field.description
            return f": a table, {doc[0].lower()}{doc[1:].partition('.')[0]}" if doc else ""
    return ""


def table_at(root: type[ScenarioTable], location: Path) -> type[ScenarioTable] | None:
    """Return the class of the table at a location of pydantic's, tags and all; None where there is none."""
    return next(filter(_is_table, kinds_at(root, location)), None)


def kinds_at(root: type[ScenarioTable], location: Path) -> list[Any]:
    """Return the kinds of value that a location of pydantic's may hold: tables, `dict`, `list`, plain ones."""
    kinds: list[Any] = [root]
    for part in location:
        kinds = [inner for kind in kinds for inner in _step(kind, part)]
    return kinds


def _is_table(kind: object) -> TypeGuard[type[ScenarioTable]]:
    return isinstance(kind, type) and issubclass(kind, ScenarioTable)


def _step(kind: Any, part: str | int) -> list[Any]:  # noqa: ANN401
    """Return what `part` leads to from one kind of value."""
    if _is_table(kind):
        if _is_tag(part):
            return [kind] if part == f"<{kind.__name__}>" else []
        return [
            leaf
            for name, field in kind.model_fields.items()
            if key_of(name) == part
            for leaf in leaves(field.annotation)
        ]
    return leaves(get_args(kind)[-1]) if get_origin(kind) in (dict, list, tuple) else []


def leaves(annotation: Any) -> list[Any]:  # noqa: ANN401
    """Return the kinds of value that an annotation allows, marks and unions taken off."""
    if get_origin(annotation) is Annotated:
        return leaves(get_args(annotation)[0])
    if get_origin(annotation) in (dict, list, tuple) or not get_args(annotation):
        return [annotation]
    return [leaf for argument in get_args(annotation) for leaf in leaves(argument)]


def placed(
    faults: Iterable[tuple[Path, str]],
    *,
    called: str,
    source: Any,  # noqa: ANN401
    changed: Mapping[Path, Path],
) -> Iterator[Fault]:
    """Yield the faults with file and line, in the order of the file, or with the ``--set`` that made them.

    Parameters
    ----------
    faults : iterable of (path, str)
        Place and sentence of each.
    called : str
        The file.
    source : Source
        Its text.
    changed : mapping
        Path of each setting -> as it was written, part by part: ``item.pilot`` for ``("item", 20)``.
    """
    for path, what in faults:
        new = path not in source.lines.first
        if written := next((place for change in changed.items() if (place := _as_set(path, *change, new=new))), None):
            yield Fault(f"set {dotted(written)}", what)
        elif not (what.startswith("is missing") and any(path[: len(gone)] == gone for gone in source.unread)):
            yield source.fault(path, what, called)


def _as_set(path: Path, change: Path, written: Path, *, new: bool) -> Path:
    """Return a path in the words of a setting that made it: its own place, below it, or a new table around it."""
    if path[: len(change)] == change:
        return (*written, *path[len(change) :])
    return written[: len(path)] if new and change[: len(path)] == path else ()
