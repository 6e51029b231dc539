"""``whirlgate exhibit``: an inert interrupter display, sized, checked and ready to cut."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from viz.commands.gun_options import ideal_option
from viz.commands.options import Command, amount, figure_out, json_out, scenario_in, units_asked
from viz.commands.output import deliver, picture
from viz.commands.progress import bar
from viz.commands.written import Named

if TYPE_CHECKING:
    from sim.model.display_model import DisplayModel
    from sim.model.model import Model
    from viz.sheets.format import Units


KERF = "Width that the beam takes away: DXF and SVG hold its path. 0, the parts at their own size, if not given."
FIT = "By which holes and openings are cut wider than drawn, negative for tighter; 0, if not given."


@click.command(cls=Command)
@scenario_in
@click.option(
    "--out",
    "folder",
    type=Named(file_okay=False),
    metavar="FOLDER",
    help="Write DXF, SVG, STL, sheets of stock, the whole as a solid DXF and the builder's book to this folder.",
)
@click.option("--kerf", "kerf_m", type=amount("m", least=0.0, most=0.01), default="0 mm", metavar="LENGTH", help=KERF)
@click.option("--fit", "fit_m", type=amount("m", least=-0.001, most=0.001), default="0 mm", metavar="LENGTH", help=FIT)
@click.option(
    "--stock",
    "stock_m",
    type=(amount("m", above=0.0, most=10.0), amount("m", above=0.0, most=10.0)),
    default=("1220 mm", "1220 mm"),
    metavar="WIDTH HEIGHT",
    help="Size of a sheet of stock; 1220 mm each way, if not given.",
)
@ideal_option()
@figure_out
@json_out
@click.pass_context
def command(
    ctx: click.Context,
    /,
    *,
    scenario: str,
    settings: tuple[str, ...],
    folder: str,
    kerf_m: float,
    fit_m: float,
    stock_m: tuple[float, float],
    ideal: bool,
    figure: str,
    force: bool,
    as_json: bool,
) -> None:
    """Size an inert interrupter display: cam, follower, spring, drive and guard, each with its checks.

    A scaled propeller, turned by hand, drives a cam, a roller follower and a lamp that shows when a gun could have
    fired: with the windows of the scenario's fixed cam, or those of the ideal one with --ideal. It cannot fire
    anything; a scenario that asks for a working gun part is refused. Without an airplane SCENARIO may be a file that
    holds the timing and the display alone: whirlgate new --exhibit writes one.

    Example: whirlgate exhibit --out display --kerf "0.2 mm" --stock "48 in" "48 in"
    """
    from sim.model.display_model import display_model
    from sim.studies.exhibit import exhibit
    from viz.sheets.exhibit import sheet

    shown = display_model(scenario, settings)
    units = _units(ctx, shown)
    answer = exhibit(shown, ideal=ideal, progress=lambda circles: bar(circles, len(circles), "trying cams"))
    if folder:
        from viz.drawings.folder import Cutting, contents, write

        for path in write(folder, contents(answer, Cutting(kerf_m, fit_m, stock_m)), force=force):
            click.echo(f"wrote {path}", err=True)
    picture(figure, "exhibit", answer, units, force=force)
    deliver(answer, sheet(answer, written=bool(folder)), units, as_json=as_json)


def _units(ctx: click.Context, shown: Model | DisplayModel) -> Units:
    """Return the units asked for; where none are, a display alone is told in those of its hardware, as its book is."""
    from sim.model.display_model import DisplayModel
    from viz.drawings.lengths import units_of

    asked: Units = ctx.obj
    return asked if units_asked() or not isinstance(shown, DisplayModel) else units_of(shown.file.exhibit.hardware)
