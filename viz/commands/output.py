"""How a command ends: its picture into a file, then the answer as JSON or as a sheet."""

from __future__ import annotations

import re
import shlex
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sim.answer import Answer
    from viz.sheets.blocks import Block
    from viz.sheets.format import Units


COMMAND = re.compile(r"whirlgate (?:(?:maneuver|derive) |(?!couple|scale|swing))[a-z-]+\b(?! SCENARIO)")
"""A command named in a sentence, of those that take a scenario, without one; with its manoeuvre or topic."""


def picture(file: str | None, name: str, *drawn: object, force: bool) -> None:
    """Draw into `file`, where one is asked for: ``draw(*drawn)`` of the module `name` in ``viz/figures``.

    Raises
    ------
    InputError
        When the file is there and `force` is not given, or does not end as a figure does.
    """
    if file:
        from viz.figures.sheet import save

        save(import_module(f"viz.figures.{name}").draw(*drawn), file, force=force)


def deliver(answer: Answer, blocks: Iterable[Block], units: Units, *, as_json: bool) -> None:
    """Print the answer as one JSON object in SI, or its sheet in the reader's units, which is not made until then."""
    if as_json:
        click.echo(answer.to_json())
    else:
        from viz.sheets.complete import complete
        from viz.sheets.terminal import write

        click.echo(write(complete(_with_scenario(blocks)), units))


def _with_scenario(blocks: Iterable[Block]) -> Iterator[Block]:
    """Yield the blocks; commands to run next are about the scenario of this one, or the one that it has written to."""
    from sim.scenario.reading import DEMO
    from viz.sheets.blocks import Sentence

    given = click.get_current_context().params
    name = given.get("write") or given.get("scenario") or DEMO
    for block in blocks:
        if name != DEMO and isinstance(block, Sentence) and block.names_next:
            slots = {**block.slots, "scenario": shlex.quote(_from_here(name))}
            yield replace(block, text=COMMAND.sub(r"\g<0> {scenario}", block.text), slots=slots)
        else:
            yield block


def _from_here(file: str) -> str:
    """Return a file as it is named from the current folder, where it lies in it."""
    path, here = Path(file), Path.cwd()
    return str(path.relative_to(here)) if path.is_relative_to(here) else file
