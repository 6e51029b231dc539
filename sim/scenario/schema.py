"""The JSON Schema of a scenario or drawing file: with it an editor completes keys and shows unit and meaning."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from sim.scenario.display_file import DisplayFile
from sim.scenario.drawing import DrawingTable
from sim.scenario.tables import Scenario

if TYPE_CHECKING:
    from sim.scenario.fields import ScenarioTable

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def schema(*, drawing: bool = False, exhibit: bool = False) -> dict[str, Any]:
    """Return the JSON Schema, draft 2020-12, of a scenario, drawing or display file; ``x-unit`` is a key's SI unit.

    Parameters
    ----------
    drawing : bool
        Of a drawing to be scaled, in the place of a scenario.
    exhibit : bool
        Of a display alone.

    Notes
    -----
    A limit that has a unit stands in the words of the description: the schema sees only the text of a quantity.
    """
    root: type[ScenarioTable]
    root, called = (
        (DrawingTable, "drawing") if drawing else (DisplayFile, "display") if exhibit else (Scenario, "scenario")
    )
    plain: dict[str, Any] = _tidy(root.model_json_schema(by_alias=True))
    tables = {_called(name): table for name, table in plain["$defs"].items()}
    return {"$schema": DIALECT, **plain, "$defs": tables, "title": f"whirlgate {called}"}


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
