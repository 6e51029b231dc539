"""The source files of the project, read as syntax trees."""

import ast
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Source:
    """One file: its name from the root, its text and, once asked for, its tree."""

    name: str
    text: str

    @cached_property
    def tree(self) -> ast.Module:
        """Its syntax tree."""
        return ast.parse(self.text)

    @property
    def imports(self) -> list[str]:
        """Every module imported anywhere in the file, type-checking blocks included."""
        plain = [alias.name for node in ast.walk(self.tree) if isinstance(node, ast.Import) for alias in node.names]
        direct = [
            f"{node.module}.{alias.name}"
            for node in ast.walk(self.tree)
            if isinstance(node, ast.ImportFrom) and node.module
            for alias in node.names
        ]
        return plain + direct

    @property
    def functions(self) -> list[ast.FunctionDef]:
        """Every function and method, however deep."""
        return [node for node in ast.walk(self.tree) if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))]

    @property
    def dataclasses(self) -> list[ast.ClassDef]:
        """Every public class that is a dataclass."""
        return [
            node
            for node in ast.walk(self.tree)
            if isinstance(node, ast.ClassDef)
            and not node.name.startswith("_")
            and any("dataclass" in ast.unparse(decorator) for decorator in node.decorator_list)
        ]


def read(*folders: str) -> list[Source]:
    """Read every Python file below the folders."""
    return [source(path) for path in sorted(path for folder in folders for path in (ROOT / folder).rglob("*.py"))]


@cache
def source(path: Path) -> Source:
    """Read one file."""
    return Source(str(path.relative_to(ROOT)), path.read_text(encoding="utf-8"))


@pytest.fixture(scope="session")
def sim_sources() -> list[Source]:
    return read("sim")


@pytest.fixture(scope="session")
def sources() -> list[Source]:
    return read("sim", "viz")


@pytest.fixture(scope="session")
def all_sources() -> list[Source]:
    return read("sim", "viz", "tests")
