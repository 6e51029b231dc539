"""``whirlgate new``: a scenario to start from."""

from __future__ import annotations

import click

from viz.commands.options import Command, force


@click.command(cls=Command)
@click.argument("file", type=click.Path(dir_okay=False))
@force
def command(file: str, *, force: bool) -> None:
    """Write a commented scenario to FILE, ready to be changed; it passes `check` as it is.

    Example: whirlgate new camp.toml
    """
    from sim.scenario.new import new
    from viz.files.atomic import write_whole

    write_whole(file, new(), force=force)
    click.echo(f"{file}: written; change it, then run: whirlgate check {file}")
