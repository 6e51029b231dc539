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
EACH_TABLE = pytest.mark.parametrize("table", TABLES.values(), ids=TABLES)


def declared(table):
    """Return attribute -> what its key is declared as, or None."""
    marks = {
        name: [mark for mark in field.metadata if isinstance(mark, Given | Count | ShortText)]
        for name, field in table.model_fields.items()
    }
    return {name: found[0] if found else None for name, found in marks.items()}


def ending(mark):
    return f"_{kinds()[mark.unit].suffix}" if isinstance(mark, Given) and mark.unit != "1" else ""


@EACH_TABLE
def test_a_name_ends_in_its_unit(table):
    assert [name for name, mark in declared(table).items() if name != key_of(name) + ending(mark)] == []


@EACH_TABLE
def test_an_example_is_one_that_is_allowed(table):
    for name, mark in declared(table).items():
        if isinstance(mark, Given):
            read(mark.shown, mark.allowed, key=name)  # whose error names it
        if isinstance(mark, Count):
            assert mark.least <= mark.example <= mark.most, name


@EACH_TABLE
def test_a_table_says_what_it_is_and_no_two_keys_are_alike(table):
    assert table.__doc__
    keys = [key_of(name) for name in table.model_fields]
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("kind", [kind for kind in kinds().values() if kind.suffix], ids=lambda kind: kind.suffix)
def test_a_key_is_its_attribute_without_the_unit(kind):
    assert key_of(f"span_{kind.suffix}") == "span"
