"""A page a command: what it answers, its examples run, its options."""

from __future__ import annotations

import re
import shlex
from importlib import import_module
from typing import TYPE_CHECKING

import click

from viz.cli import COMMANDS

if TYPE_CHECKING:
    from collections.abc import Iterator

NEEDED = {
    "mine.toml": "whirlgate new mine.toml",
    "camp.toml": "whirlgate new camp.toml",
    "threeview.toml": "whirlgate new threeview.toml --drawing",
}
"""File that an example asks about -> the command that writes it first."""
IN_ITS_PLACE = {
    "whirlgate view --scene blades": tuple(
        f"whirlgate view --scene {scene} --at '8 s' --snapshot {scene}.png" for scene in ("turning", "engine", "blades")
    ),
    "whirlgate handbook --out pages": (),
}
"""Example that opens a window, or makes these very pages -> commands that are run in its place."""


def pages() -> dict[str, str]:
    """Return name of the file and Markdown of the page of every command."""
    return {f"commands/{name}.md": _page(name) for name in COMMANDS}


def _page(name: str) -> str:
    command = import_module(f"viz.commands.{name.replace('-', '_')}").command
    ctx = click.Context(command, info_name=f"whirlgate {name}", parent=None)
    told, examples = _parted(command.help or "")
    parts = [f"# {name}", told, f"    {command.get_usage(ctx).removeprefix('Usage: ')}"]
    if examples:
        parts += ["## Example", *(_example(line, command, name) for line in examples)]
    if options := list(_options(command, ctx)):
        parts += ["## Options", "| option | what it does |\n|---|---|\n" + "\n".join(options)]
    return "\n\n".join(parts) + "\n"


def _parted(text: str) -> tuple[str, list[str]]:
    """Return what a command's help tells, and the commands of its examples."""
    paragraphs = [" ".join(part.split()) for part in text.replace("\b", "").split("\n\n")]
    examples = [part.removeprefix("Example: ") for part in paragraphs if part.startswith("Example: ")]
    return "\n\n".join(_plain(part) for part in paragraphs if not part.startswith("Example: ")), examples


def _example(line: str, command: click.Command, name: str) -> str:
    before = [NEEDED[file] for file in NEEDED if file in shlex.split(line) and not line.startswith("whirlgate new")]
    draws = any("--figure" in param.opts for param in command.params)
    shown = line if "--figure" in line or not draws else f"{line} --figure {name}.svg"
    lines = IN_ITS_PLACE.get(line)
    asked = [*before, *((shown,) if lines is None else lines)]
    if lines is not None:
        return "\n\n".join([f"```console\n$ {line}\n```", *([_fence(name, asked)] if lines else [])])
    return _fence(name, asked)


def _fence(name: str, lines: list[str]) -> str:
    return "\n".join([f"```whirlgate {COMMANDS[name].rstrip('.')}", *lines, "```"])


def _options(command: click.Command, ctx: click.Context) -> Iterator[str]:
    for param in command.get_params(ctx):
        record = param.get_help_record(ctx)
        if record:
            words, text = record
            yield f"| `{words.replace('|', chr(92) + '|')}` | {_plain(' '.join(text.split()))} |"


def _plain(text: str) -> str:
    """Return words of a help as Markdown that means just them."""
    return re.sub(r"([|<>*_`\[\]])", r"\\\1", text)


def table() -> str:
    """Return the Markdown of the table of commands."""
    rows = [f"| [`{name}`]({name}.md) | {_plain(text)} |" for name, text in COMMANDS.items()]
    return "\n".join(["| command | what it does |", "|---|---|", *rows])
