"""``schema``: the JSON Schema of a scenario."""

import json


def test_the_schema_is_json(run):
    result = run("schema")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["title"] == "whirlgate scenario"
