"""What several files say of the project is the same in each of them."""

import re
import tomllib
from pathlib import Path

import pytest

import sim

ROOT = Path(__file__).parents[2]
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
CITATION = (ROOT / "CITATION.cff").read_text(encoding="utf-8")
WORKFLOW = (ROOT / ".github/workflows/check.yml").read_text(encoding="utf-8")


def cited(key: str) -> str:
    """Return a value of the citation, its continuation lines folded into one."""
    found = re.search(rf"^{key}: (?:>-)?(.*(?:\n  .*)*)", CITATION, re.MULTILINE)
    return " ".join(found[1].split())


def test_the_citation_is_of_this_version():
    assert cited("version") == sim.__version__


@pytest.mark.parametrize(("key", "told"), [("title", "name"), ("abstract", "description"), ("license", "license")])
def test_the_citation_agrees_with_the_package(key, told):
    assert cited(key) == PYPROJECT["project"][told]


def test_the_oldest_python_is_the_one_that_is_checked():
    oldest = PYPROJECT["project"]["requires-python"].removeprefix(">=")
    tested = re.findall(r'python: "([\d.]+)"', WORKFLOW)
    assert min(tested, key=lambda version: tuple(map(int, version.split(".")))) == oldest
    assert PYPROJECT["tool"]["mypy"]["python_version"] == oldest
    assert PYPROJECT["tool"]["ruff"]["target-version"] == "py" + oldest.replace(".", "")


@pytest.mark.parametrize("package", ["sim", "viz"])
def test_the_packages_say_that_they_are_typed(package):
    assert (ROOT / package / "py.typed").is_file()
