"""``whirlgate check``: is a scenario right, and what in it is unusual."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.options import Command, json_out, set_option

if TYPE_CHECKING:
    from viz.sheets.format import Units


@click.command(cls=Command)
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@set_option
@json_out
@click.pass_context
def command(ctx: click.Context, files: tuple[str, ...], *, settings: tuple[str, ...], as_json: bool) -> None:
    """Check scenario and drawing files and report every fault of every file, with its line.

    Remarks name values that are allowed and unusual. The exit code is 0 without faults and 2 with any.

    Example: whirlgate check camp.toml --set wing.gap='5 ft'
    """
    from sim.model.check import check
    from viz.sheets.blocks import Sentence
    from viz.sheets.check import sheet
    from viz.sheets.terminal import write
    from viz.sheets.text import text_of

    units: Units = ctx.obj
    found = check(files, settings)
    if as_json:
        click.echo(found.to_json())
        ctx.exit(2 if found.faults else 0)
    for block in sheet(found):
        click.echo(text_of(block, units) if isinstance(block, Sentence) else write((block,), units))
    if found.faults:
        from sim.errors import InputError

        raise InputError(found.faults)
