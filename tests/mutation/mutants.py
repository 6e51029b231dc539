"""Small wrong changes of a source file: one operator, number or branch each, made by cosmic-ray's operators."""

from __future__ import annotations

import ast
import re
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.plugins import get_operator, operator_names

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from cosmic_ray.operators.operator import Operator

PLAUSIBLE = re.compile(
    r"core/(ReplaceBinaryOperator_(Add_Sub|Sub_Add|Mul_Div|Div_Mul|Pow_Mul|FloorDiv_Div|Mod_Sub)"
    r"|ReplaceUnaryOperator_(USub_UAdd|Delete_Not)"
    r"|ReplaceComparisonOperator_(Lt_LtE|LtE_Lt|Gt_GtE|GtE_Gt|Lt_Gt|Gt_Lt|LtE_GtE|GtE_LtE|Eq_NotEq|NotEq_Eq|Is_IsNot"
    r"|IsNot_Is)"
    r"|NumberReplacer|ReplaceTrueWithFalse|ReplaceFalseWithTrue|ReplaceAndWithOr|ReplaceOrWithAnd|ZeroIterationForLoop)"
)
"""Of cosmic-ray's operators those that make a slip of the pen: a shift in place of a sum would prove nothing."""
OF_NO_ANSWER = ("strict", "maxsize", "linewidth", "fontsize", "zorder", "height_in")
"""Keywords that decide no number: lengths are equal anyway, a cache is a matter of time, looks are looked at."""


@dataclass(frozen=True, order=True)
class Mutant:
    """A source file with one place changed.

    Attributes
    ----------
    path : str
        From the root of the checkout.
    line : int
        Counted from 1.
    operator : str
        Of cosmic-ray, without its provider.
    occurrence : int
        Which place for the operator it is, from 0.
    """

    path: str
    line: int
    operator: str
    occurrence: int

    def code(self, source: str) -> str:
        """Return the whole source, changed."""
        changed = mutate_code(source, get_operator(f"core/{self.operator}")(), self.occurrence)
        assert changed is not None
        return changed

    def change(self, source: str) -> tuple[str, str]:
        """Return the line as it is and as changed, without indentation."""
        before, after = source.splitlines(), self.code(source).splitlines()
        place = next((k for k, (one, other) in enumerate(zip(before, after, strict=False)) if one != other), 0)
        return before[place].strip(), after[place].strip()


def mutants_of(root: Path, path: str) -> list[Mutant]:
    """Return every mutant of what a file computes: no types, docstrings, decorators of classes, blocks for checkers."""
    source = (root / path).read_text(encoding="utf-8")
    skipped = _types(ast.parse(source))
    nodes = list(ast_nodes(get_ast(source)))
    return sorted(
        Mutant(path, start[0], name.removeprefix("core/"), occurrence)
        for name, operator in _operators()
        for occurrence, (start, _) in enumerate(place for node in nodes for place in operator.mutation_positions(node))
        if not any(low <= start < high for low, high in skipped)
    )


@cache
def _operators() -> tuple[tuple[str, Operator], ...]:
    return tuple((name, get_operator(name)()) for name in sorted(operator_names()) if PLAUSIBLE.fullmatch(name))


Span = tuple[tuple[int, int], tuple[int, int]]


def _types(tree: ast.Module) -> list[Span]:
    """Return where annotations, signatures, decorators of classes, stars and blocks for type checkers stand."""
    nodes = [_span(node) for node in _type_nodes(tree)]
    return [*nodes, *(span for node in ast.walk(tree) for span in (*_signature(node), *_stars(node)))]


def _span(node: ast.expr | ast.stmt) -> Span:
    return (node.lineno, node.col_offset), (node.end_lineno or 0, node.end_col_offset or 0)


def _type_nodes(tree: ast.Module) -> Iterator[ast.expr | ast.stmt]:
    for node in ast.walk(tree):
        if isinstance(node, ast.AnnAssign):
            yield node.annotation
        elif isinstance(node, ast.ClassDef):
            yield from node.decorator_list  # frozen or not, nothing is computed otherwise
        elif isinstance(node, ast.Call):
            yield from (each.value for each in node.keywords if each.arg in OF_NO_ANSWER)
        elif isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            yield node


def _signature(node: ast.AST) -> Iterator[Span]:
    """Yield a signature but its defaults: its star is no product, its types are no numbers."""
    if isinstance(node, ast.FunctionDef):
        given = node.args.defaults + [each for each in node.args.kw_defaults if each is not None]
        ends = [end for each in sorted(map(_span, given)) for end in each]
        places = [(node.lineno, node.col_offset), *ends, _span(node.body[0])[0]]
        yield from zip(places[::2], places[1::2], strict=True)


def _stars(node: ast.AST) -> Iterator[Span]:
    """Yield stars that unpack: they are no products or powers."""
    if isinstance(node, ast.Starred | ast.keyword) and getattr(node, "arg", None) is None:
        yield (node.lineno, node.col_offset), _span(node.value)[0]
    elif isinstance(node, ast.Dict):
        starred = [value for key, value in zip(node.keys, node.values, strict=True) if key is None]
        yield from (((each.lineno, max(each.col_offset - 2, 0)), _span(each)[0]) for each in starred)
