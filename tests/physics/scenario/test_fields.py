"""Every key of every table says what it is, and its attribute holds the unit that its name ends in."""

import pytest

from sim.scenario.faults import _is_table, leaves
from sim.scenario.fields import Count, Given, ScenarioTable, ShortText, key_of
from sim.scenario.tables import Scenario
from sim.units.parsing import read
from sim.units.quantities import kinds


def tables(root: type[ScenarioTable]) -> dict[str, type[ScenarioTable]]:
    found, waiting = {}, [root]
    while waiting:
        table = waiting.pop()
        found[table.__name__] = table
        for field in table.model_fields.values():
            inner = [leaf for outer in leaves(field.annotation) for leaf in _values(outer)]
            waiting += [kind for kind in inner if _is_table(kind) and kind.__name__ not in found]
    return found


def _values(kind):
    from typing import get_args

    return leaves(get_args(kind)[-1]) if get_args(kind) else [kind]


TABLES = tables(Scenario)
KEYS = [
    pytest.param(table, name, id=f"{table.__name__}.{name}") for table in TABLES.values() for name in table.model_fields
]


def declared(table, name):
    marks = [mark for mark in table.model_fields[name].metadata if isinstance(mark, Given | Count | ShortText)]
    return marks[0] if marks else None


@pytest.mark.parametrize(("table", "name"), KEYS)
def test_the_name_ends_in_the_unit(table, name):
    mark = declared(table, name)
    if isinstance(mark, Given) and mark.unit != "1":
        assert name == f"{key_of(name)}_{kinds()[mark.unit].suffix}"
    else:
        assert name == key_of(name)


@pytest.mark.parametrize(("table", "name"), KEYS)
def test_the_example_is_one_that_is_allowed(table, name):
    mark = declared(table, name)
    if isinstance(mark, Given):
        read(mark.shown, mark.allowed, key=name)
    if isinstance(mark, Count):
        assert mark.least <= mark.example <= mark.most


@pytest.mark.parametrize("table", TABLES.values(), ids=TABLES)
def test_a_table_says_what_it_is_and_no_two_keys_are_alike(table):
    assert table.__doc__
    keys = [key_of(name) for name in table.model_fields]
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("kind", [kind for kind in kinds().values() if kind.suffix], ids=lambda kind: kind.suffix)
def test_a_key_is_its_attribute_without_the_unit(kind):
    assert key_of(f"span_{kind.suffix}") == "span"
