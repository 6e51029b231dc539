"""The commands that stand on a page, run as it is made: the command, what it answers, and the pictures it writes."""

from __future__ import annotations

import re
import shlex
from contextlib import chdir
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

FENCE = re.compile(
    r"^```whirlgate(?P<refused>-refused)?(?: (?P<what>[^\n]+))?\n(?P<lines>.*?)^```$", re.MULTILINE | re.DOTALL
)
"""A block of commands, a line each, that are answered, or all refused; behind its first word what its pictures show."""
PICTURES = (".svg", ".png")
LETTERS = "100"
"""Columns of the terminal that the handbook shows."""
MANY = 4
"""Of more files than these that a command writes, pictures are not shown and others not all named."""
ANSWERED, REFUSED = (0, 1), (2,)
"""Exit codes."""


class StaleExampleError(Exception):
    """A command that stands in the handbook is refused."""


def filled(text: str, folder: Path) -> str:
    """Return a page whose blocks of commands are followed by what they answer and draw.

    Parameters
    ----------
    text : str
        Markdown.
    folder : Path
        Of the page's name, beside it, made for it; the commands run in it and leave their files there.

    Raises
    ------
    StaleExampleError
        When a command is refused.
    """
    return FENCE.sub(lambda block: _block(folder, block["lines"], block["what"] or "", block["refused"]), text)


def unfilled(text: str) -> str:
    """Return a page whose commands are shown and not run."""
    return FENCE.sub(
        lambda block: "```console\n" + "".join(f"$ {line}\n" for line in block["lines"].splitlines()) + "```", text
    )


def _block(folder: Path, lines: str, what: str, refused: str | None) -> str:
    folder.mkdir(parents=True, exist_ok=True)
    codes = REFUSED if refused else ANSWERED
    return "\n\n".join(part for line in lines.splitlines() for part in _ran(line, what, folder, codes))


def _ran(line: str, what: str, folder: Path, codes: tuple[int, ...]) -> Iterator[str]:
    """Yield the command, what it answers, and what it writes."""
    before = _files(folder)
    answer = _answer(line, folder, codes)
    new = sorted(_files(folder) - before)
    yield f"```console\n$ {line}\n```"
    if answer:
        yield f"```text\n{answer}\n```"
    if others := [f"[{name}]({folder.name}/{name})" for name in new if not name.endswith(PICTURES)]:
        yield f"It writes {', '.join(others[:MANY])}{' and others' if len(others) > MANY else ''}."
    pictures = [name for name in new if name.endswith(PICTURES)]
    if len(pictures) <= MANY:
        yield from (f"![{what or line}]({folder.name}/{name})" for name in pictures)


def _files(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def _answer(line: str, folder: Path, codes: tuple[int, ...]) -> str:
    """Return what a command prints; where it goes to a file, that is written and nothing is shown."""
    from click.testing import CliRunner

    from viz.cli import main

    command, _, file = line.partition(" > ")
    program, *words = shlex.split(command)
    if program != "whirlgate":
        raise StaleExampleError(line, "is no command of ours")
    with chdir(folder):
        done = CliRunner().invoke(main, words, env={"COLUMNS": LETTERS}, catch_exceptions=False)
    if done.exit_code not in codes:
        raise StaleExampleError(line, f"ends with {done.exit_code}", done.stderr)
    if file:
        (folder / file).write_text(done.stdout, encoding="utf-8")
        return ""
    return (done.stdout if done.exit_code in ANSWERED else done.stderr).rstrip()
