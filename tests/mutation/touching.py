"""Which test files touch a source file, the nearest first: by name, then by how many imports lie between."""

from __future__ import annotations

import ast
from functools import cache
from typing import TYPE_CHECKING

import grimp

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

FAR = 99
LATER = 3
"""Imports that it is worth that a test file takes long: those are tried when quick ones found nothing."""
MOST_FILES = 24
"""Test files that a mutant is tried against."""
EXAMPLES = "tests/physics/test_docstrings.py::test_an_example_answers_as_it_says"
"""The test of the examples in the docstring of a file."""
LEFT_OUT = ("tests/architecture", "tests/bench", "tests/mutation")
"""They look at the sources, not at what is computed."""


def nearest_tests(root: Path, path: str) -> list[str]:
    """Return the test files that may fail when a source file is wrong, the likeliest first."""
    module, stem = path.removesuffix(".py").replace("/", "."), path.rsplit("/", 1)[-1].removesuffix(".py")
    near = _distances(root, module)
    ranked = []
    for test, imported in _imports(root).items():
        distance = min((near.get(one, FAR) for one in imported), default=FAR)
        if distance < FAR:
            named = _alike(stem, test.rsplit("/", 1)[-1])
            room = path.split("/")[1] in test
            ranked.append((distance - named + LATER * long(test), not room, len(imported), test))
    own = [f"{EXAMPLES}[{module}]"] if ">>> " in (root / path).read_text(encoding="utf-8") else []
    return own + [test for *_, test in sorted(ranked)[:MOST_FILES]]


def long(test: str) -> bool:
    """Return whether a test file is among those that take longest."""
    from longest import LONGEST  # of tests/fixtures

    return test.startswith(LONGEST)


def _alike(stem: str, test: str) -> int:
    """Return how many imports it is worth that a test file is named after a source file, or after part of its name."""
    words, tested = stem.split("_"), test.removeprefix("test_").removesuffix(".py").split("_")
    if words == tested:
        return 4
    return 2 * (set(words) <= set(tested) or words[0] in tested)


@cache
def _graph() -> grimp.ImportGraph:
    return grimp.build_graph("sim", "viz", exclude_type_checking_imports=True, cache_dir=None)


@cache
def _distances(root: Path, module: str) -> Mapping[str, int]:
    """Return how many imports every module that comes to use a module is away from it."""
    found, edge = {module: 0}, {module}
    while edge:
        edge = {user for one in edge for user in _users(root, one)} - found.keys()
        found |= dict.fromkeys(edge, max(found.values()) + 1)
    return found


def _users(root: Path, module: str) -> set[str]:
    """Return the modules that import one; where none does, those beside it that name it in a table of checks."""
    found = _graph().find_modules_that_directly_import(module)
    package, _, stem = module.rpartition(".")
    beside = () if found else sorted((root / package.replace(".", "/")).glob("*.py"))
    return found | {f"{package}.{one.stem}" for one in beside if f'"{stem}.' in one.read_text(encoding="utf-8")}


@cache
def _imports(root: Path) -> Mapping[str, frozenset[str]]:
    """Return what each test file imports of the program, and the commands that it names."""
    commands = {path.stem.replace("_", "-"): f"viz.commands.{path.stem}" for path in root.glob("viz/commands/*.py")}
    names = {path.relative_to(root).as_posix(): path for path in sorted(root.glob("tests/**/test_*.py"))}
    return {
        name: frozenset(_named(ast.parse(path.read_text(encoding="utf-8")), commands))
        for name, path in names.items()
        if not name.startswith(LEFT_OUT)
    }


def _named(tree: ast.Module, commands: Mapping[str, str]) -> set[str]:
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            found |= {node.module, *(f"{node.module}.{each.name}" for each in node.names)}
        elif isinstance(node, ast.Import):
            found |= {each.name for each in node.names}
        elif isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in commands:
            found.add(commands[node.value])
    return found
