"""The schema tells an editor every key with its meaning, unit and an example, and it fits the bundled file."""

import tomllib

from sim.scenario.bundled import fetch
from sim.scenario.schema import schema

SCHEMA = schema()


def resolved(node: dict) -> dict:
    return SCHEMA["$defs"][node["$ref"].rpartition("/")[2]] if "$ref" in node else node


def kinds(node: dict) -> list[dict]:
    choices = node.get("oneOf") or node.get("anyOf") or [node]
    return [inner if inner is choice else resolved(choice) for choice in choices for inner in [resolved(choice)]]


def misfits(value: object, node: dict, place: str) -> list[str]:
    """Return what of the value the schema does not allow: types, keys, words."""
    found = []
    for kind in kinds(resolved(node)):
        found = list(_misfits(value, kind, place))
        if not found:
            return []
    return found


def _misfits(value, node, place):
    names = {dict: "object", list: "array", str: "string", int: "integer", float: "number", bool: "boolean"}
    allowed = node.get("type", [])
    allowed = {allowed} if isinstance(allowed, str) else set(allowed)
    fits = {names[type(value)], *({"number"} if isinstance(value, int) else ())}
    if allowed and not allowed & fits:
        yield f"{place}: {value!r} is not {allowed}"
    if "enum" in node and value not in node["enum"]:
        yield f"{place}: {value!r} is not of {node['enum']}"
    if isinstance(value, dict):
        known, rest = node.get("properties", {}), node.get("additionalProperties", False)
        for key, item in value.items():
            if key in known:
                yield from misfits(item, known[key], f"{place}.{key}")
            elif isinstance(rest, dict):
                yield from misfits(item, rest, f"{place}.{key}")
            else:
                yield f"{place}.{key}: unknown"
        yield from (f"{place}.{key}: missing" for key in node.get("required", ()) if key not in value)
    if isinstance(value, list):
        for item in value:
            yield from misfits(item, node.get("items", {}), place)


def test_it_names_its_dialect():
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert SCHEMA["additionalProperties"] is False


def test_the_bundled_scenario_fits():
    assert misfits(tomllib.loads(fetch("tollgate").text), SCHEMA, "") == []


def test_a_wrong_one_does_not():
    data = tomllib.loads(fetch("tollgate").text)
    data["wing"]["spam"] = data["wing"].pop("span")
    data["powerplant"]["rotary"]["kind"] = "fixed"
    said = misfits(data, SCHEMA, "")
    assert ".wing.spam: unknown" in said
    assert ".wing.span: missing" in said
    assert any(place.startswith(".powerplant.rotary") for place in said)


def test_items_may_stand_in_a_file_and_a_file_stands_alone():
    data = tomllib.loads(fetch("tollgate").text)
    data["item"].insert(3, {"file": "items.csv"})
    assert misfits(data, SCHEMA, "") == []
    data["item"].insert(3, {"file": "items.csv", "mass": "3 lb"})
    assert misfits(data, SCHEMA, "") == [".item.mass: unknown"]


def test_every_value_is_explained():
    for name, table in [("scenario", SCHEMA), *SCHEMA["$defs"].items()]:
        for key, node in table.get("properties", {}).items():
            if "x-unit" in node or "enum" in node:
                assert node["description"], f"{name}.{key}"
                assert node["examples"], f"{name}.{key}"


def test_a_limit_stands_in_the_units_of_the_example():
    assert SCHEMA["$defs"]["Rudder"]["properties"]["travel"] == {
        "description": "greatest angle to each side (above 0 and below 90 °)",
        "examples": ["25 °"],
        "type": "string",
        "x-unit": "rad",
    }
