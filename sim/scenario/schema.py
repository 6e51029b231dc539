"""What a scenario may hold, as JSON Schema: an editor that reads it completes keys and shows unit and meaning."""

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
    return {"$schema": DIALECT, **plain, "title": "whirlgate scenario"}


def _tidy(node: Any) -> Any:  # noqa: ANN401
    """Leave out titles that repeat the key, and defaults in SI that would not be right in the file."""
    if isinstance(node, list):
        return [_tidy(item) for item in node]
    if not isinstance(node, dict):
        return node
    unfit = {"title"} if isinstance(node.get("title"), str) else set()
    if "default" in node and node.get("x-unit", "") != "1" and not isinstance(node["default"], str):
        unfit.add("default")
    if node.get("default", "") is None:
        unfit.add("default")
    return {key: _tidy(item) for key, item in node.items() if key not in unfit}
