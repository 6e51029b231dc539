"""``whirlgate handbook``: every command, key and function, the physics and its sources, as pages to read."""

from __future__ import annotations

from pathlib import Path

import click

from viz.commands.options import Command, force
from viz.commands.written import Named


@click.command(cls=Command)
@click.option(
    "--out",
    "folder",
    type=Named(file_okay=False),
    metavar="FOLDER",
    help="Write the pages to this folder, and do not open them.",
)
@force
def command(folder: str | None, *, force: bool) -> None:
    """Open the handbook in the browser: first hours, how-to pages, every command and key, the physics.

    Its pages belong to the version that is installed. They are made the first time, in some minutes, for every command
    on them is run; they open from a disk, without a network. What sets them comes with whirlgate[handbook].

    Example: whirlgate handbook --out pages
    """
    from sim import __version__
    from sim.errors import Fault, InputError
    from viz.commands.progress import bar
    from viz.files.atomic import THERE
    from viz.handbook.making.site import build

    place = Path(folder) if folder else Path(click.get_app_dir("whirlgate")) / "handbook" / __version__
    there = place.exists() and (not place.is_dir() or any(place.iterdir()))
    if there and not (place / "keys.html").exists():
        raise InputError([Fault(str(place), "holds something else than a handbook; give another folder")])
    if folder and there and not force:
        raise InputError([Fault(folder, THERE)])
    if force or not there:
        build(place, lambda made, count: bar(made, count, "making pages"))
    click.echo(f"{'wrote' if folder else 'opening'} {place / 'index.html'}", err=True)
    if not folder:
        click.launch(str(place / "index.html"))
