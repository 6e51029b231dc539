"""The JSON Schema of a scenario file: with it an editor completes keys and shows unit and meaning."""

from __future__ import annotations

from typing import Any

from sim.scenario.tables import Scenario

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema() -> dict[str, Any]:
    """Return the schema of a scenario file, JSON Schema draft 2020-12; ``x-unit`` is the SI unit of a key.

    Notes
    -----
    A limit that has a unit stands in the words of the description: the schema sees only the text of a quantity.
    """
    plain: dict[str, Any] = _tidy(Scenario.model_json_schema(by_alias=True))
    tables = {_called(name): table for name, table in plain["$defs"].items()}
    return {"$schema": DIALECT, **plain, "$defs": tables, "title": "whirlgate scenario"}


def _called(table: str) -> str:
    """Return what a table is called in the schema: its class without the ending that tells it from the physics."""
    return table.removesuffix("Table")


def _tidy(node: Any) -> Any:  # noqa: ANN401
    """Return a node without titles that repeat the key and without defaults in SI, which would be wrong in a file."""
    if isinstance(node, list):
        return [_tidy(item) for item in node]
    if not isinstance(node, dict):
        return node
    unfit = {"title"} if isinstance(node.get("title"), str) else set()
    if "default" in node and node.get("x-unit", "") != "1" and not isinstance(node["default"], str):
        unfit.add("default")
    if node.get("default", "") is None:
        unfit.add("default")
    return {key: _called(item) if key == "$ref" else _tidy(item) for key, item in node.items() if key not in unfit}
