"""``whirlgate new``: a scenario to start from."""

from __future__ import annotations

import click

from viz.commands.options import Command, force


@click.command(cls=Command)
@click.argument("file", type=click.Path(dir_okay=False))
@force
def command(file: str, *, force: bool) -> None:
    """Write a commented scenario to FILE, to be changed; as written it has no faults.

    Example: whirlgate new camp.toml
    """
    from sim.scenario.new import new
    from viz.files.atomic import write_whole
    from viz.sheets.new import sheet
    from viz.sheets.text import text_of

    write_whole(file, new(), force=force)
    for sentence in sheet(file):
        click.echo(text_of(sentence, "si"))
