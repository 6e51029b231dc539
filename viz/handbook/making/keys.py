"""Every key of a scenario, of a drawing and of a display alone: meaning, an example, what holds without it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.scenario.schema import schema

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

HEAD = "| key | meaning | as in | without it |\n|---|---|---|---|"


def tables() -> str:
    """Return the Markdown of all tables of keys."""
    parts = []
    for title, named in (("Scenario", {}), ("Drawing", {"drawing": True}), ("Display alone", {"exhibit": True})):
        parts += [f"## {title}", *_tables(schema(**named), set())]
    return "\n\n".join(parts)


def _tables(whole: Mapping[str, Any], seen: set[tuple[str, str]]) -> Iterator[str]:
    """Yield each table of a file, those inside it behind it, once."""
    own = [(key, one) for key, one in whole["properties"].items() if not list(_names(one))]
    if own:
        yield "\n".join([HEAD, *(_row(key, one, whole["required"]) for key, one in own)])
    waiting = [(key, name) for key, one in whole["properties"].items() for name in _names(one)]
    while waiting:
        place, name = waiting.pop(0)
        if (place, name) in seen:
            continue
        seen.add((place, name))
        found = whole["$defs"][name]
        yield f"### {place}{_kind(whole, place, name)}"
        yield _cell(found.get("description", ""))
        rows = found.get("properties", {})
        yield "\n".join([HEAD, *(_row(key, one, found.get("required", ())) for key, one in rows.items())])
        waiting = [(f"{place}.{key}", inner) for key, one in rows.items() for inner in _names(one)] + waiting


def _kind(whole: Mapping[str, Any], place: str, name: str) -> str:
    """Return what tells two tables of one place apart."""
    key = place.split(".", maxsplit=1)[0]
    several = len(list(_names(whole["properties"].get(key, {})))) > 1
    return f", {name.lower()}" if several and "." not in place else ""


def _names(one: Mapping[str, Any]) -> Iterator[str]:
    """Yield the tables that a key may hold."""
    if "$ref" in one:
        yield one["$ref"].rsplit("/", 1)[-1]
    for inner in (*one.get("anyOf", ()), *one.get("oneOf", ()), one.get("items"), one.get("additionalProperties")):
        if isinstance(inner, dict):
            yield from _names(inner)


def _row(key: str, one: Mapping[str, Any], required: Any) -> str:  # noqa: ANN401
    meaning = one.get("description", "")
    if "enum" in one:
        meaning += f" ({' or '.join(map(str, one['enum']))})"
    example = ", ".join(f"`{_toml(value)}`" for value in one.get("examples", ())[:1])
    default = (
        "must be there" if key in required else f"`{_toml(one['default'])}`" if one.get("default") is not None else ""
    )
    return f"| `{key}` | {_cell(meaning)} | {_cell(example)} | {_cell(default)} |"


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return f'"{value}"' if isinstance(value, str) else str(value)


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "\\|")
