"""What the tests of commands share."""

import json
import shutil
import subprocess
from pathlib import Path

import pytest
from airplanes import BIPLANE


@pytest.fixture
def scenario(tmp_path):
    """Return a copy of the frozen biplane that may be written to."""
    copy = tmp_path / "mine.toml"
    copy.write_text(BIPLANE.read_text(encoding="utf-8"), encoding="utf-8")
    return copy


@pytest.fixture(scope="session")
def answered(run):
    """Call a command that succeeds, and return its JSON."""

    def answer(*words):
        result = run(*words, "--json")
        assert (result.exit_code, result.stderr) == (0, "")
        return json.loads(result.stdout)

    return answer


@pytest.fixture(scope="session")
def axe():
    """Return the source of axe-core."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("needs Node")
    found = subprocess.run([node, "-p", "require.resolve('axe-core/axe.min.js')"], capture_output=True, text=True)
    if found.returncode:
        pytest.skip("needs axe-core where NODE_PATH points: npm install axe-core")
    return Path(found.stdout.strip()).read_text(encoding="utf-8")
