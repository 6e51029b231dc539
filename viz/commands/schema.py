"""``whirlgate schema``: what a scenario may hold, for an editor."""

from __future__ import annotations

import click

from viz.commands.options import Command


@click.command(cls=Command)
def command() -> None:
    """Print the JSON Schema (draft 2020-12) of a scenario file.

    An editor that uses it for TOML files completes keys and shows the meaning, unit and limits of each.

    Example: whirlgate schema > scenario.schema.json
    """
    from sim.answer import json_text
    from sim.scenario.schema import schema

    click.echo(json_text(schema()))
