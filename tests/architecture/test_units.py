"""Units and the factors between them stand in sim/units alone: nowhere else as a number, a word or a table."""

import ast
import math
import re

import pytest

from sim.units.quantities import kinds, printed
from sim.units.registry import COMMON

HOME = "sim/units/"

FACTORS = {
    "ft": 0.3048,
    "in": 0.0254,
    "in to mm": 25.4,
    "mile": 1609.344,
    "nautical mile": 1852.0,
    "mph": 0.44704,
    "knot": 0.514444,
    "lb": 0.45359237,
    "slug": 14.593903,
    "lbf": 4.4482216152605,
    "lbf ft": 1.3558179483314,
    "psi": 6894.757293,
    "hp": 745.69987158,
    "degree": math.pi / 180.0,
    "turn a minute": math.pi / 30.0,
    "zero of the Celsius scale": 273.15,
    "zero of the Fahrenheit scale": 459.67,
}
"""What no number may be, nor its inverse, to four digits."""

SCALES = {1000.0, 2000.0, 500.0, 1e6, 1e9, 1e-3, 1e-6, 60.0, 3600.0}
"""What no value with a unit may be multiplied by or divided by: millimetres, MPa, milliseconds, minutes."""

TURN = {30.0, 60.0, 180.0, 360.0}
"""What does not stand over pi, or under it: degrees, turns a minute."""

WITH_UNIT = re.compile(rf"\w_(?:{'|'.join(kind.suffix for kind in kinds().values() if kind.suffix)})\b")
_NAMES = sorted({printed(unit) for unit in COMMON} | COMMON.keys(), key=len, reverse=True)
_WORDS = "|".join(re.escape(name) for name in _NAMES if name not in {"in", "h", "%", "percent"})
UNIT_AFTER = re.compile(rf"°|\s(?:{_WORDS}|in(?=$|[,.;:)\"']))(?![\w/^²³])")
UNIT_IN_BRACKETS = re.compile(rf"\[(?:{_WORDS}|in)\]")


def numbers(tree):
    """Yield the place and the size of each number written out."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
            yield node, abs(float(node.value))


def written_factors(tree):
    """Yield each number that is a factor between units."""
    every = [value for factor in FACTORS.values() for value in (factor, 1.0 / factor)]
    for node, size in numbers(tree):
        if any(math.isclose(size, factor, rel_tol=1e-4) for factor in every):
            yield node


def conversions(tree):
    """Yield each product or quotient of a value with a unit and a scale, and of pi and a part of a turn."""
    for node in ast.walk(tree):
        if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Mult | ast.Div):
            for number, other in ((node.left, node.right), (node.right, node.left)):
                size = next((size for place, size in numbers(number) if place is number), None)
                if size in SCALES and WITH_UNIT.search(ast.unparse(other)):
                    yield node
                if size in TURN and ast.unparse(other).rpartition(".")[2] in {"pi", "tau"}:
                    yield node


def unit_words(tree):
    """Yield each text in which a unit follows a number put in, or stands in square brackets."""
    quiet = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            pairs = zip(node.values, node.values[1:], strict=False)
            if any(isinstance(a, ast.FormattedValue) and unit_first(b) for a, b in pairs):
                yield node
        texts = isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in quiet
        if texts and UNIT_IN_BRACKETS.search(node.value):
            yield node


def unit_first(node) -> bool:
    return isinstance(node, ast.Constant) and bool(UNIT_AFTER.match(node.value))


def unit_tables(tree):
    """Yield each container of three units or endings of names, or more."""
    known = {kind.suffix for kind in kinds().values() if "_" in kind.suffix} | COMMON.keys() - {"in", "a", "min", "h"}
    for node in ast.walk(tree):
        if isinstance(node, ast.Dict | ast.Tuple | ast.List | ast.Set):
            held = node.keys if isinstance(node, ast.Dict) else node.elts
            texts = {item.value for item in held if isinstance(item, ast.Constant) and isinstance(item.value, str)}
            if len(texts & known) > 2:
                yield node


def degrees(tree):
    """Yield each call that turns radians into degrees, other than that of sim.units.convert."""
    plain = {
        alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module in {"math", "numpy"}
        for alias in node.names
    }
    calls = {"math.degrees", "np.degrees", "np.rad2deg"} | plain & {"degrees", "rad2deg"}
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and ast.unparse(node.func) in calls:
            yield node


RULES = (written_factors, conversions, unit_words, unit_tables)


def places(sources, *rules):
    """Return file, line and text of everything that a rule finds outside the home of units."""
    found = set()
    for source in sources:
        lines = source.text.splitlines()
        if not source.name.startswith(HOME):
            for node in (node for rule in rules for node in rule(source.tree)):
                found.add((source.name, node.lineno, lines[node.lineno - 1].strip()))
    return found


def test_units_and_factors_stand_in_one_home(sources):
    assert not sorted(places(sources, *RULES))


def test_what_is_drawn_or_printed_leaves_degrees_to_the_table(sources):
    """A command may turn what a user writes into the degrees that a study takes."""
    found = places([source for source in sources if source.name.startswith("viz/")], degrees)
    assert not sorted(place for place in found if not place[0].startswith("viz/commands/"))


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        (written_factors, "x = y_m / 0.3048"),
        (written_factors, "x = 57.29578 * angle"),
        (written_factors, "x = y_lb * 2.20462"),
        (conversions, "x = 1e3 * wall_m"),
        (conversions, "x = self.delay_s * 1000"),
        (conversions, "x = spin * 30.0 / math.pi * 2.0 if False else 30.0 / math.pi"),
        (unit_words, 'x = f"{size:.1f} mm deep"'),
        (unit_words, 'x = f"{angle:g}° of bank"'),
        (unit_words, 'x = f"{move:.2f} in"'),
        (unit_words, 'label("station [in]")'),
        (unit_tables, 'x = {"kg": 1, "m": 2, "s": 3}'),
        (unit_tables, 'x = ("kg_m2", "rad_s", "n_m")'),
        (degrees, "x = math.degrees(bank_rad)"),
        (degrees, "from math import degrees\nx = degrees(bank_rad)"),
    ],
)
def test_the_rules_see(rule, text):
    assert list(rule(ast.parse(text)))


@pytest.mark.parametrize(
    ("rule", "text"),
    [
        (written_factors, "x = 0.31 * y_m"),
        (conversions, "x = 1e-6 * tolerance"),
        (conversions, "x = 2.0 * wall_m"),
        (unit_words, 'x = f"{count} in a row, {share} of all"'),
        (unit_words, 'x = f"{value:.{digits}g}"'),
        (unit_words, 'x = f"<svg width=\\"{wide}mm\\">"'),
        (unit_words, '"""Docstring: a length. [m]"""'),
        (unit_tables, 'x = ("left", "right", "m")'),
    ],
)
def test_the_rules_let_pass(rule, text):
    assert not list(rule(ast.parse(text)))
