"""Every public number is a row of the table of quantities, and its docstring says its unit."""

import ast
import re

import pytest

from sim.units.quantities import kind_of, kinds, printed, quantities

NUMBER = re.compile(r"\b(float|int|Array|NDArray|FloatArray|Rows)\b")


def public_numbers(sources):
    """Yield file, class and field for every numeric field of every public dataclass of sim."""
    for source in sources:
        for owner in source.dataclasses:
            for node in owner.body:
                if isinstance(node, ast.AnnAssign) and NUMBER.search(ast.unparse(node.annotation)):
                    yield f"{source.name}:{owner.name}", node.target.id


def test_every_public_number_is_in_the_table(sim_sources):
    known = quantities()
    assert not sorted({f"{where}.{name}" for where, name in public_numbers(sim_sources) if name not in known})


NAMING = {"amount", "fixed", "brief", "signed", "shown", "quantity", "any_quantity", "Value"}
"""Functions whose first argument is the name of a quantity."""


def test_every_quantity_that_is_printed_is_in_the_table(sources):
    used = {
        (source.name, node.args[0].value)
        for source in sources
        for node in ast.walk(source.tree)
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).rpartition(".")[2] in NAMING
        and node.args
        and isinstance(node.args[0], ast.Constant)
        and isinstance(node.args[0].value, str)
    }
    others = kinds().keys() | {"deg", "us", "si"}
    assert not sorted((where, name) for where, name in used if name not in quantities().keys() | others)


def test_every_row_says_what_it_means():
    assert not [name for name, row in quantities().items() if len(row.meaning) < 4]


def documented(source):
    """Yield each public function and class of a file that a reader can call."""
    owners = [source.tree, *(node for node in source.tree.body if isinstance(node, ast.ClassDef))]
    for node in (node for owner in owners for node in owner.body):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)) and not node.name.startswith("_"):
            yield node


def test_every_public_function_and_class_is_documented(sources):
    assert not [f"{s.name}:{n.name}" for s in sources for n in documented(s) if not ast.get_docstring(n)]


@pytest.mark.parametrize("unit", ["m/s", "kg m^2", "rad/s", "N m"])
def test_a_documented_parameter_says_its_unit(sim_sources, unit):
    """Where a docstring gives a parameter of its own line, the unit of its name stands in the text below it."""
    silent, ending = [], kinds()[unit].suffix
    for source in sim_sources:
        for node in documented(source):
            text = (ast.get_docstring(node) or "") + "\n"
            for match in re.finditer(rf"^(\w+_{ending}(?:, \w+)*) : .*\n((?:    .*\n|\n)+)", text, re.MULTILINE):
                same = kind_of(match[1].split(",")[0]).unit == unit
                if same and printed(unit) not in match[2].replace("^2", "²").replace("m2", "m²"):
                    silent.append(f"{source.name}:{node.name}: {match[1]}")
    assert not silent
