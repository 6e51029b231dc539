"""Start-up: ``--help`` and the help of every command against the yardstick ``import click``."""

import subprocess
import sys

from side_by_side import say, seconds

from viz.cli import COMMANDS


def start(code: str):
    """Return a work that runs `code` in a new interpreter."""
    return lambda: subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def main() -> None:
    """Print a ratio for ``--help`` and one for each command's help."""
    calls = [["--help"], *([name, "--help"] for name in COMMANDS)]
    codes = [f"from viz.cli import main; main({words!r}, standalone_mode=False)" for words in calls]
    yardstick, *taken = seconds(start("import click"), *map(start, codes), rounds=21)
    for words, time in zip(calls, taken, strict=True):
        say(f"whirlgate {' '.join(words)} / import click", time / yardstick, 1.3)


if __name__ == "__main__":
    main()
