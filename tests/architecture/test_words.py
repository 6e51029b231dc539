"""Every public number is a word of the vocabulary, its name ends in its unit, and its docstring says that unit."""

import ast
import re

import pytest

from sim.units.quantities import terms

ENDINGS = {
    "n_per_m": "N/m",
    "n_mm": "N/mm",
    "per_m": "1/m",
    "v": "V",
    "n_m_s2": "N m s²",
    "m_s2": "m/s²",
    "m_rad": "m/rad",
    "m5": "m⁵",
    "m4": "m⁴",
    "kg_m2_s": "kg m²/s",
    "kg_m2": "kg m²",
    "kg_m3": "kg/m³",
    "w_m_k": "W/(m K)",
    "w_k": "W/K",
    "m2_s": "m²/s",
    "n_m": "N m",
    "rad_s": "rad/s",
    "m_s": "m/s",
    "deg_s": "°/s",
    "per_min": "1/min",
    "per_s": "1/s",
    "kg": "kg",
    "mm": "mm",
    "m2": "m²",
    "m": "m",
    "pa": "Pa",
    "mpa": "MPa",
    "n": "N",
    "w": "W",
    "k": "K",
    "j": "J",
    "deg": "°",
    "rad": "rad",
    "rpm": "rpm",
    "ms": "ms",
    "s": "s",
}
NUMBER = re.compile(r"\b(float|int|Array|NDArray|FloatArray|Rows)\b")


def unit_of(name: str) -> str:
    """Return the unit a name ends in, or nothing."""
    parts = name.split("_")
    endings = ("_".join(parts[start:]) for start in range(1, len(parts)))
    return next((ENDINGS[ending] for ending in endings if ending in ENDINGS), "")


def public_numbers(sources):
    """Yield file, class and field for every numeric field of every public dataclass of sim."""
    for source in sources:
        for owner in source.dataclasses:
            for node in owner.body:
                if isinstance(node, ast.AnnAssign) and NUMBER.search(ast.unparse(node.annotation)):
                    yield f"{source.name}:{owner.name}", node.target.id


def test_every_public_number_is_in_the_vocabulary(sim_sources):
    known = terms()
    assert not sorted({f"{where}.{name}" for where, name in public_numbers(sim_sources) if name not in known})


def test_every_name_ends_in_the_unit_it_is_printed_with():
    wrong = {name: (unit_of(name), row.unit) for name, row in terms().items() if unit_of(name) != row.unit}
    assert not wrong


def test_every_row_says_what_it_means():
    assert not [name for name, row in terms().items() if len(row.meaning) < 4]


def documented(source):
    """Yield each public function and class of a file that a reader can call."""
    owners = [source.tree, *(node for node in source.tree.body if isinstance(node, ast.ClassDef))]
    for node in (node for owner in owners for node in owner.body):
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)) and not node.name.startswith("_"):
            yield node


def test_every_public_function_and_class_is_documented(sources):
    assert not [f"{s.name}:{n.name}" for s in sources for n in documented(s) if not ast.get_docstring(n)]


@pytest.mark.parametrize("ending", ["m_s", "kg_m2", "rad_s", "n_m"])
def test_a_documented_parameter_says_its_unit(sim_sources, ending):
    """Where a docstring gives a parameter of its own line, the unit of its name stands in the text below it."""
    silent = []
    for source in sim_sources:
        for node in documented(source):
            text = (ast.get_docstring(node) or "") + "\n"
            for match in re.finditer(rf"^(\w+_{ending}(?:, \w+)*) : .*\n((?:    .*\n|\n)+)", text, re.MULTILINE):
                same = unit_of(match[1].split(",")[0]) == ENDINGS[ending]
                if same and ENDINGS[ending] not in match[2].replace("^2", "²").replace("m2", "m²"):
                    silent.append(f"{source.name}:{node.name}: {match[1]}")
    assert not silent
