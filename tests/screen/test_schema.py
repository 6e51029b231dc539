"""``schema``: the JSON Schema of a scenario or a drawing."""

import json

import tomli

from sim.scenario.bundled import fetch


def test_the_schema_is_json(run):
    result = run("schema")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["title"] == "whirlgate scenario"


def test_the_schema_of_a_drawing_holds_what_a_drawing_file_holds(run):
    """Quantities are text there, readings one or a list of them, known sizes dotted in tables."""
    schema = json.loads(run("schema", "--drawing").stdout)
    assert schema["title"] == "whirlgate drawing"
    assert set(schema["properties"]) == {"title", "note", "reading_error", "distortion", "view", "known", "reading"}
    written = tomli.loads(fetch("tollgate", "drawings").text)
    assert written.keys() <= schema["properties"].keys()
    values = schema["$defs"]["DrawingReading"]["properties"]["values"]["anyOf"]
    assert [kind["type"] for kind in values] == ["string", "array"]
    assert values[1]["items"]["type"] == "string"
    assert schema["properties"]["known"]["additionalProperties"]["type"] == ["string", "object"]
    assert "Measured" not in schema["$defs"]
