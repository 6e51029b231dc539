"""``whirlgate schema``: what a scenario or a drawing may hold, for an editor."""

from __future__ import annotations

import click

from viz.commands.options import Command


@click.command(cls=Command)
@click.option("--drawing", "of_drawing", is_flag=True, help="Of a drawing to be scaled, in the place of a scenario.")
@click.option("--exhibit", "of_exhibit", is_flag=True, help="Of a display alone, in the place of a scenario.")
def command(*, of_drawing: bool, of_exhibit: bool) -> None:
    """Print the JSON Schema (draft 2020-12) of a scenario file, or of a drawing or display file.

    An editor that uses it for TOML files completes keys and shows the meaning, unit and limits of each.

    Example: whirlgate schema > scenario.schema.json
    """
    from sim.answer import json_text
    from sim.scenario.schema import schema

    click.echo(json_text(schema(drawing=of_drawing, exhibit=of_exhibit)))
