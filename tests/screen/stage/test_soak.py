"""Three thousand frames of the kiosk under random input: nothing fails, nobody gets out, memory stays."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

SOAK = Path(__file__).parents[2] / "bench" / "soak_stage.py"


@pytest.mark.slow
def test_a_short_soak_neither_fails_nor_grows():
    environment = os.environ | {"SDL_VIDEODRIVER": "dummy", "PYGAME_HIDE_SUPPORT_PROMPT": "1"}
    run = subprocess.run([sys.executable, SOAK, "3000"], env=environment, capture_output=True, text=True, timeout=300)
    assert run.returncode == 0, run.stderr
    growth, failures, left = re.search(r"growth ([+-][\d.]+)%.*failures (\d+), left (\w+)", run.stdout).groups()
    assert (failures, left) == ("0", "False")
    assert float(growth) < 10.0
