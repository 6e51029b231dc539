"""Start-up: ``--help`` and the help of every command against the yardstick ``import click``."""

import os
import subprocess
import sys
import tempfile

from side_by_side import say, seconds

from viz.cli import COMMANDS


def start(code: str, compiled: str):
    """Return a work that runs `code` in a new interpreter; modules are compiled once, as in an installed package."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment["PYTHONPYCACHEPREFIX"] = compiled
    return lambda: subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, env=environment)


def main() -> None:
    """Print a ratio for ``--help`` and one for each command's help."""
    calls = [["--help"], *([name, "--help"] for name in COMMANDS)]
    codes = [f"from viz.cli import main; main({words!r}, standalone_mode=False)" for words in calls]
    with tempfile.TemporaryDirectory() as compiled:
        works = [start(code, compiled) for code in ("import click", *codes)]
        yardstick, *taken = seconds(*works, rounds=21)
    for words, time in zip(calls, taken, strict=True):
        say(f"whirlgate {' '.join(words)} / import click", time / yardstick, 1.3)


if __name__ == "__main__":
    main()
