"""What a command says beside its answer: how to give what is missing, faults in the units of the reader."""

from __future__ import annotations

from typing import TYPE_CHECKING, NoReturn

import click

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sim.errors import InputError, MachineError, NoAnswerError, WhirlgateError


MOST_FAULTS = 200
"""Faults that are told at once: whoever has more begins with these."""


def how_to_give(name: str, told: str) -> str:
    """Return what the help says of an argument and its example.

    Parameters
    ----------
    name : str
        As the help calls it: ``NAME``.
    told : str
        The help, paragraphs apart by an empty line, one of which begins with ``Example: ``.
    """
    paragraphs = [" ".join(part.split()) for part in told.split("\n\n")]
    about = [part for part in paragraphs if part.startswith(f"{name} is ")]
    example = next(part.removeprefix("Example: ") for part in paragraphs if part.startswith("Example: "))
    return " ".join((*about, f"Give it as in: {example}"))


def no_option(name: str, taken: Sequence[str], command: str) -> str:
    """Return what to say of an option that a command does not take: which it takes.

    Parameters
    ----------
    name : str
        As it was given.
    taken : sequence of str
        Those that there are.
    command : str
        Its name.
    """
    from sim.errors import did_you_mean

    return f"{name}: {command} takes {', '.join(taken)}{did_you_mean(name, taken)}"


def refused(error: InputError, context: click.Context) -> NoReturn:
    """Print the faults, of amounts in both systems those of the reader, and end with 2."""
    from sim.errors import Fault, InputError

    faults, more = error.faults[:MOST_FAULTS], len(error.faults) - MOST_FAULTS
    _end(InputError([*faults, *([Fault("", f"and {more} more; mend these first")] if more > 0 else [])]), context, 2)


def unanswered(error: NoAnswerError, context: click.Context) -> NoReturn:
    """Print which limit was met, likewise, and end with 1."""
    _end(error, context, 1)


def broken(error: MachineError, context: click.Context) -> NoReturn:
    """Print what the machine could not do, and end with 3."""
    _end(error, context, 3)


def failed(error: OSError | MemoryError) -> NoReturn:
    """Print what the operating system says, and end with 3; what waits for a full or closed output is let go."""
    import os
    import sys

    from viz.files.atomic import told

    try:
        sys.stdout.flush()
    except OSError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if not isinstance(error, BrokenPipeError):
        said = told(error) if isinstance(error, OSError) else "there is not enough memory; ask for less at once"
        of = f"{error.filename}: " if isinstance(error, OSError) and error.filename else ""
        click.echo(f"{of}the machine could not go on: {said}", err=True)
    sys.exit(3)


def _end(error: WhirlgateError, context: click.Context, code: int) -> NoReturn:
    from viz.sheets.from_sim import in_one_system

    click.echo(in_one_system(str(error), context.obj), err=True)
    context.exit(code)
