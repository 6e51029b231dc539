"""The handbook's notebooks run from top to bottom, and end each cell with something to look at."""

import ast
import json
from pathlib import Path

import pytest

import viz

FOLDER = Path(viz.__file__).parent / "handbook" / "notebooks"


def cells(name):
    """Return the code of each cell of a notebook."""
    whole = json.loads((FOLDER / f"{name}.ipynb").read_text(encoding="utf-8"))
    return ["".join(cell["source"]) for cell in whole["cells"] if cell["cell_type"] == "code"]


@pytest.mark.parametrize("name", ["designer", "educator", "builder"])
def test_a_notebook_runs(name):
    space, shown = {}, []
    for code in cells(name):
        *lines, last = ast.parse(code).body
        exec(compile(ast.Module(lines, []), name, "exec"), space)
        if isinstance(last, ast.Expr):
            shown.append(eval(compile(ast.Expression(last.value), name, "eval"), space))
        else:
            exec(compile(ast.Module([last], []), name, "exec"), space)
    assert len(shown) >= 3
    assert all(one is not None for one in shown)


def test_every_user_has_one():
    assert {path.stem for path in FOLDER.glob("*.ipynb")} == {"designer", "educator", "builder"}
