"""Commands to run next, about what this one was asked about: its scenario, and the options that both of them take."""

from __future__ import annotations

import shlex
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import click

from viz.commands.options import WORDS, Command
from viz.sheets.blocks import Next, Run, Sentence, Value, listed, next_steps, say
from viz.sheets.text import text_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from viz.sheets.blocks import Block, Cell

ONE_SPEED = "burst"
"""The command that takes one propeller speed; of several it is given the highest."""

MOVE = "engine_move_m"
"""What moves the engine from where the scenario has it, and is in the file once it was written there."""


def about_this(blocks: Iterable[Block]) -> Iterator[Block]:
    """Yield the blocks of a sheet; of the commands to run next those that would be refused are left out."""
    context = click.get_current_context()
    for block in blocks:
        if not isinstance(block, Next):
            yield block
        else:
            steps = (_completed(step, context) for step in block.slots.values())
            kept = [step for step in steps if step is not None]
            if kept:
                yield next_steps(*kept)


def _completed(step: Cell, context: click.Context) -> Cell | None:
    """Return a step whose command is about the same as this one, or None where it cannot answer or was given."""
    if isinstance(step, str):
        return _not_given(step, context)
    if not isinstance(step, Sentence):
        return step
    runs = {name: _about(cell, context) for name, cell in step.slots.items() if isinstance(cell, Run)}
    if any(_refused(run, context) for run in runs.values()):
        return None
    return replace(step, slots={**step.slots, **runs})


def _not_given(step: str, context: click.Context) -> str | None:
    """Return a step that adds files to this command with those alone that it was not given, None for none left."""
    what, adding, options = step.partition(", by adding ")
    if not adding:
        return step
    options, to_this, _ = options.partition(" to this command")
    files = [param for param in context.command.params if isinstance(param.type, click.Path)]
    given = {name for param in files if context.params.get(param.name or "") for name in param.opts}
    left = [option for option in options.split(" or ") if option.split()[0] not in given]
    return f"{what}{adding}{' or '.join(left)}{to_this}" if left else None


def _about(run: Run, context: click.Context) -> Run:
    """Return a command line with the scenario at hand and the given options that the command takes as well."""
    from sim.scenario.reading import DEMO

    if run.scenario is None:
        return run
    command, given = _command(run), context.params
    place = next(p.name for p in command.params if isinstance(p, click.Argument) and not p.required) or ""
    own = given.get(place)
    written = (given.get("write") or given.get("write_items")) if place == "scenario" else None
    name = written or own or DEMO
    kept = _repeated(run, context, settings=place in given and name in (own, DEMO))
    options = listed([*kept, *([run.options] if run.options else [])], " ")
    return replace(run, scenario="" if name == DEMO else shlex.quote(_from_here(name)), options=options)


def _repeated(run: Run, context: click.Context, *, settings: bool) -> Iterator[Cell]:
    """Yield the given options, but files and flags, that the command takes under the same name."""
    taken = {param.name: param.opts for param in _command(run).params if isinstance(param, click.Option)}
    given, _, _ = context.command.make_parser(context).parse_args(list(context.meta[WORDS]))
    for param in context.command.params:
        values = given.get(param.name or "")
        if values is None or taken.get(param.name) != param.opts or (param.name == "settings" and not settings):
            continue
        if getattr(param, "is_flag", False) or isinstance(param.type, click.Path) or not param.expose_value:
            continue
        if param.name == MOVE and context.params.get("write"):
            continue
        if param.name == "spin_rad_s" and run.command == ONE_SPEED:
            yield _one_speed(context.params["spin_rad_s"], values)
        else:
            yield from (f"{param.opts[0]} {shlex.quote(value)}" for value in (values if param.multiple else [values]))


def _one_speed(groups: tuple[tuple[float, ...], ...], words: Sequence[str]) -> Cell:
    """Return the one speed as it was given, or the highest of several."""
    from sim.units.convert import rpm

    speeds = [speed for group in groups for speed in group]
    if len(speeds) == 1:
        return f"--rpm {shlex.quote(words[0])}"
    return say("--rpm '{speed}'", speed=Value("rpm", rpm(max(speeds)), plain=True))


def _refused(run: Run, context: click.Context) -> bool:
    """Return whether a timing command lacks what only other options or a scenario would tell."""
    command = _command(run)
    if "spin_rad_s" not in context.params or not isinstance(command, Command):
        return False
    words = shlex.split(text_of(run, "us"))[2:]
    with command.make_context(run.command, words) as asked:
        return bool(command.faults(asked))


def _command(run: Run) -> click.Command:
    """Return the command of a command line."""
    module = run.command.split()[0].replace("-", "_")
    found: click.Command = import_module(f"viz.commands.{module}").command
    return found


def _from_here(file: str) -> str:
    """Return a file as it is named from the current folder, where it lies in it."""
    path, here = Path(file), Path.cwd()
    return str(path.relative_to(here)) if path.is_relative_to(here) else file
