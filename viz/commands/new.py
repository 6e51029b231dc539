"""``whirlgate new``: a scenario, a drawing or a display to start from."""

from __future__ import annotations

import click

from viz.commands.options import Command, force
from viz.commands.written import Written


@click.command(cls=Command)
@click.argument("file", type=Written())
@click.option("--drawing", "of_drawing", is_flag=True, help="A drawing to be scaled, in the place of a scenario.")
@click.option(
    "--exhibit", "of_exhibit", is_flag=True, help="An inert display alone, without an airplane, for whirlgate exhibit."
)
@click.option(
    "--like",
    metavar="NAME",
    default="tollgate",
    show_default=True,
    help="Bundled airplane to start from: hayrick, a parasol monoplane; millrace, a triplane; packhorse, a two-bay "
    "two-seater; tollgate, a single-seat biplane.",
)
@force
def command(file: str, *, of_drawing: bool, of_exhibit: bool, like: str, force: bool) -> None:
    """Write a commented scenario, a drawing to be scaled or a display alone to FILE; as written it has no faults.

    Example: whirlgate new mine.toml --like packhorse
    """
    from sim.scenario.new import new
    from viz.files.atomic import write_whole
    from viz.sheets.new import sheet
    from viz.sheets.text import text_of

    write_whole(file, new(drawing=of_drawing, exhibit=of_exhibit, like=like), force=force)
    for sentence in sheet(file, exhibit=of_exhibit):
        click.echo(text_of(sentence, "si"))
