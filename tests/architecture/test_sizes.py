"""A file is one idea and a function one thought: the sizes that keep them so."""

import ast

MOST_LINES = 300
MOST_BODY_LINES = 40
MOST_POSITIONAL = 4


def body_lines(function: ast.FunctionDef) -> int:
    """Return the lines of a function's body without its docstring."""
    has_docstring = ast.get_docstring(function) is not None
    statements = function.body[1:] if has_docstring else function.body
    return statements[-1].end_lineno - statements[0].lineno + 1 if statements else 0


def test_files(all_sources):
    long = {s.name: n for s in all_sources if (n := len(s.text.splitlines())) > MOST_LINES}
    assert not long


def test_functions(sources):
    long = {f"{s.name}:{f.name}": n for s in sources for f in s.functions if (n := body_lines(f)) > MOST_BODY_LINES}
    assert not long


def test_parameters_beyond_four_are_named_by_the_caller(sources):
    many = [
        f"{s.name}:{f.name}"
        for s in sources
        for f in s.functions
        if len([a for a in f.args.posonlyargs + f.args.args if a.arg not in ("self", "cls")]) > MOST_POSITIONAL
        and not any("option" in ast.unparse(d) or "command" in ast.unparse(d) for d in f.decorator_list)
    ]
    assert not many


def test_packages_hold_a_docstring_and_no_code(sources):
    allowed = (ast.Expr, ast.Assign)
    heavy = [
        s.name
        for s in sources
        if s.name.endswith("__init__.py")
        and s.name.count("/") > 1  # sim and viz themselves are lazy doors
        and (not ast.get_docstring(s.tree) or not all(isinstance(node, allowed) for node in s.tree.body))
    ]
    assert not heavy
